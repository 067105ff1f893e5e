// The picture of a budget: what each contribution has of the variance, largest first, one behind the other.
import { type Drawn, type Mark, notDrawn, pen, type Row } from '../pictures/picture.ts';
import { ticksOf } from '../pictures/ticks.ts';
import { Missing } from '../working/missing.ts';
import type { BudgetOf, SharedPart } from './budget-of.ts';
import { titleOf } from './titles.ts';

/** Largest share first. */
export const byShare = (parts: readonly SharedPart[]): readonly SharedPart[] =>
  [...parts].sort((a, b) => b.share.value - a.share.value);

/** Each tick of the standard deviation has room for its number. */
const roomOfTick = 0.15;

export function varianceBars({ mark, known }: BudgetOf): Drawn {
  const name = 'variance';
  const title = `What ${mark.name} scatters by`;
  if (known instanceof Missing || !(known.u.value > 0 && Number.isFinite(known.u.value)))
    return { picture: notDrawn(name, title, 'What it scatters by is not known yet, or is nothing.'), numbers: [] };
  const { numbers, write } = pen();
  const parts = byShare(known.parts);
  const u = write(known.u);
  const told = parts.map((part) => ({ part, u: write(part.size), share: write(part.share) }));
  const rows: Row[] = [
    { height: 1, label: ['standard deviation'] },
    ...told.map(
      ({ part, u, share }): Row => ({ height: 1, above: 0.25, label: [titleOf(part)], end: [u, ' · ', share] }),
    ),
    { height: 1, above: 0.5, label: ['together'], end: [u] },
  ];
  // Over a negative correlation a bar reaches back.
  let from = 0;
  const steps = parts.map(({ share, path }, at) => {
    const [start, end] = [from, from + share.value];
    from = end;
    return { row: at + 1, low: Math.min(start, end), high: Math.max(start, end), end, path };
  });
  const bars = steps.map(
    ({ row, low, high, path }, at): Mark => ({
      kind: 'bar',
      row,
      from: low,
      to: high,
      high: [0.15, 0.85],
      fill: at === 0 ? 'solid' : 'tinted',
      tone: 'traffic',
      about: path,
    }),
  );
  const joins = steps.map(
    ({ row, end }): Mark => ({
      kind: 'line',
      weight: 'fine',
      tone: 'quiet',
      points: [
        { x: end, row, y: 0.15 },
        { x: end, row: row + 1, y: 0.85 },
      ],
    }),
  );
  const sigma = ticksOf({ from: 0, to: known.u.value, unit: 'm' }, () => roomOfTick, roomOfTick);
  const ticks = sigma.flatMap(({ at, text }): readonly Mark[] => {
    if (text === undefined) return [];
    const x = (at / known.u.value) ** 2;
    return [
      { kind: 'label', row: 0, x, align: 'middle', forms: [[text]], tone: 'plain' },
      {
        kind: 'line',
        weight: 'fine',
        tone: 'quiet',
        points: [
          { x, row: 0, y: 0 },
          { x, row: rows.length - 1, y: 0.85 },
        ],
      },
    ];
  });
  return {
    picture: {
      name,
      title,
      caption:
        'Lengths are variances, since these add up; the scale above reads the standard deviation. The first bar is what to improve first.',
      scale: {
        from: steps.reduce((least, { low }) => Math.min(least, low), 0),
        to: steps.reduce((most, { high }) => Math.max(most, high), 1),
        unit: '1',
      },
      rows,
      marks: [
        ...ticks,
        ...joins,
        ...bars,
        {
          kind: 'bar',
          row: rows.length - 1,
          from: 0,
          to: 1,
          high: [0.15, 0.85],
          fill: 'solid',
          tone: 'plain',
          about: `${mark.path}`,
        },
      ],
      legend: [],
      text: [
        ...told.map(({ part, u, share }) => [`${titleOf(part)}: `, u, ', ', share, ' of the variance.']),
        ['Together ', u, '.'],
      ],
    },
    numbers,
  };
}
