// Pictures of every kind of mark, with texts that nobody would write, for tests of the printers.
import * as fc from 'fast-check';
import type { Fill, Mark, Picture, Row, Scale, Tone, Words } from './picture.ts';

const words: fc.Arbitrary<Words> = fc.array(
  fc.oneof(
    fc.string({ unit: 'binary', maxLength: 12 }),
    fc.constantFrom('a<b>&"\'', ']]>', '\ud800', '\u0000', 'µs', '漢字', '--', 'é'),
    fc.record({
      address: fc.string({ maxLength: 12 }),
      value: fc.double(),
      unit: fc.constant('s'),
      text: fc.constantFrom('12.5 µs', '3 %', '-0.1 ms', 'infinite'),
    }),
  ),
  { maxLength: 3 },
);

const tone = fc.constantFrom<Tone>('traffic', 'plain', 'quiet', 'holds', 'thin', 'fails', 'unknown', 'before');
const fill = fc.constantFrom<Fill>('solid', 'tinted', 'hatched', 'dotted', 'outlined', 'dashed');

/** Mostly on the scale, sometimes anywhere, sometimes nowhere. */
const place = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: -2, max: 12, noNaN: true }) },
  { weight: 1, arbitrary: fc.double() },
);
const share = fc.double({ min: -0.2, max: 1.2, noNaN: true });

const scale: fc.Arbitrary<Scale> = fc
  .tuple(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.double({ min: 1e-9, max: 1e9, noNaN: true }))
  .map(([from, span]) => ({ from, to: from + span, unit: 'm' }));

const row: fc.Arbitrary<Row> = fc.record(
  {
    height: fc.double({ min: 0, max: 5, noNaN: true }),
    above: fc.double({ min: 0, max: 1, noNaN: true }),
    label: words,
    end: words,
    scale,
    ticks: fc.constant<true>(true),
    grid: fc.constant<true>(true),
  },
  { requiredKeys: ['height'] },
);

function markIn(rows: number): fc.Arbitrary<Mark> {
  const at = fc.nat({ max: rows - 1 });
  const point = fc.record({ x: place, row: at, y: share });
  return fc.oneof(
    fc
      .record({
        row: at,
        more: fc.nat({ max: 2 }),
        from: place,
        to: place,
        fill,
        tone,
        about: fc.string({ maxLength: 8 }),
      })
      .map(({ more, ...bar }): Mark => ({ kind: 'bar', downTo: Math.min(bar.row + more, rows - 1), ...bar })),
    fc
      .record({ row: at, from: place, to: place, low: share, high: share, fill, tone })
      .map(({ low, high, ...bar }): Mark => ({ kind: 'bar', high: [low, high], arrow: true, ...bar })),
    fc
      .record({ points: fc.array(point, { maxLength: 5 }), weight: fc.constantFrom('fine', 'edge', 'rail'), tone })
      .map((line): Mark => ({ kind: 'line', dashed: true, ...line })),
    fc
      .record({ row: at, points: fc.array(fc.tuple(place, share, share), { maxLength: 5 }), fill, tone })
      .map((area): Mark => ({ kind: 'area', ...area })),
    fc
      .record({
        row: at,
        points: fc.array(fc.tuple(place, share), { maxLength: 4 }),
        fill: fc.constantFrom('solid', 'outlined'),
        tone,
      })
      .map((dots): Mark => ({ kind: 'dots', ...dots })),
    fc.record({ row: at, x: place, y: share }).map((notch): Mark => ({ kind: 'notch', ...notch })),
    fc
      .record({ row: at, from: place, to: place, forms: fc.array(words, { maxLength: 3 }) })
      .map((measure): Mark => ({ kind: 'measure', ...measure })),
    fc
      .record(
        {
          row: at,
          x: place,
          align: fc.constantFrom('start', 'middle', 'end'),
          within: fc.tuple(place, place),
          forms: fc.array(words, { maxLength: 3 }),
          group: fc.constantFrom('one', 'two'),
          tone,
          strong: fc.constant<true>(true),
        },
        { requiredKeys: ['row', 'x', 'align', 'forms', 'tone'] },
      )
      .map((label): Mark => ({ kind: 'label', ...label })),
    fc
      .record({
        row: at,
        items: fc.array(fc.record({ words, group: fc.constantFrom('one', 'two') }, { requiredKeys: ['words'] }), {
          maxLength: 6,
        }),
      })
      .map((paragraph): Mark => ({ kind: 'paragraph', ...paragraph })),
  );
}

export const randomPicture: fc.Arbitrary<Picture> = fc.array(row, { minLength: 1, maxLength: 6 }).chain((rows) =>
  fc.record({
    name: fc.string({ minLength: 1, maxLength: 8 }),
    title: fc.string({ unit: 'binary', maxLength: 30 }),
    caption: fc.string({ unit: 'binary', maxLength: 80 }),
    scale: fc.constantFrom<Scale>(
      { from: 0, to: 10, unit: 's' },
      { from: 3, to: 3, unit: 'm' },
      { from: -1, to: 9e-4, unit: 'N' },
    ),
    rows: fc.constant(rows),
    marks: fc.array(markIn(rows.length), { maxLength: 20 }),
    legend: fc.array(fc.record({ fill, tone, means: fc.string({ maxLength: 20 }) }), { maxLength: 3 }),
    text: fc.array(words, { maxLength: 3 }),
  }),
);
