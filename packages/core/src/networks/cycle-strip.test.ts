// The cycle strip of the examples, and of cycles that do not suffice or are not known.
import { describe, expect, it } from 'vitest';
import { assessExample, assessText, exampleMachines, hasNetworks } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { explain } from '../assess/numbers.ts';
import { show } from '../assess/show.ts';
import { overlaps, textBoxes } from '../pictures/drawn-texts.support.ts';
import { type Bar, type Drawn, type Measure, type Picture, plainText, type Words } from '../pictures/picture.ts';
import { printSvg } from '../pictures/svg.ts';
import { printLines } from '../pictures/terminal.ts';
import { elementsIn, readXml, textIn } from '../pictures/xml-reader.support.ts';
import type { Shown } from '../working/working.ts';

const examples = await Promise.all(
  exampleMachines()
    .filter(hasNetworks)
    .map(async (each) => ({ ...each, assessment: await assessExample(each) })),
);
const picturesOf = (assessment: Assessment): readonly Drawn[] =>
  assessment.networks.flatMap(({ network }) => show(assessment, network.path)).flatMap((view) => view.pictures);

const strip = (assessment: Assessment): Picture =>
  picturesOf(assessment).find(({ picture }) => picture.name === 'cycle')!.picture;

/** Every text that a picture may show. */
const wordsOf = ({ marks, rows }: Picture): readonly Words[] => [
  ...rows.flatMap(({ label = [], end = [] }) => [label, end]),
  ...marks.flatMap((mark) =>
    'forms' in mark ? mark.forms : 'items' in mark ? mark.items.map(({ words }) => words) : [],
  ),
];
const numbersIn = (words: readonly Words[]): readonly Shown[] =>
  words.flat().filter((each) => typeof each !== 'string') as readonly Shown[];

/** One axis, polled; a cycle needs 6.72 + 15.54 + 15.54 + 6.72 = 44.52 µs. */
const bench = (
  cycle: string,
  more: { discipline?: string; repeats?: string; drive?: string } = {},
): string => `layshaft: 1
machine: { name: Bench }
reserves: { networks.cycle: 25 % }
axes:
  one: { drive: { ${more.drive ?? 'turnaround: 2 µs'}, forwarding: 400 ns, waits: 0 octets, command: 24 octets, answer: 24 octets, plugs: 2 } }
networks:
  line:
    profile: { discipline: ${more.discipline ?? 'polled'}, line: passed_on, rate: 100 Mbit/s, preamble: 8 octets, gap: 12 octets,
      frame_at_least: 64 octets, frame_at_most: 1518 octets, overhead: 28 octets, start_frame: 64 octets,
      window_opens: 0 octets, window_closes: 0 octets }
    cycle: ${cycle}
    repeats: ${more.repeats ?? '1'}
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, { delay: 5 ns/m }]]
`;
const benchStrip = (...of: Parameters<typeof bench>): Picture => strip(assessText(bench(...of), 'bench.yaml'));
const bars = ({ marks }: Picture, tone: Bar['tone']): readonly Bar[] =>
  marks.filter((mark): mark is Bar => mark.kind === 'bar' && mark.tone === tone);
const measures = ({ marks }: Picture): readonly string[] =>
  marks.filter((mark): mark is Measure => mark.kind === 'measure').map(({ forms }) => plainText(forms[0]!));

describe('the pictures of the examples', () => {
  it.each(examples)('$name: are plain data, and say all that they draw', ({ assessment }) => {
    const drawn = picturesOf(assessment);
    expect(drawn.map(({ picture }) => picture.name)).toEqual(['cycle', 'wiring']);
    for (const { picture } of drawn) {
      expect(JSON.parse(JSON.stringify(picture))).toEqual(picture);
      const text = picture.text.map(plainText).join('\n');
      const told = new Map(numbersIn(picture.text).map((number) => [number.address, number.text]));
      for (const number of numbersIn(wordsOf(picture))) {
        expect(text).toContain(number.text);
        expect(told.get(number.address), number.address).toContain(number.text);
      }
      for (const mark of picture.marks)
        if ('about' in mark && mark.about?.includes('.nodes.')) expect(text).toContain(mark.about.split('.').at(-1));
    }
  });

  it.each(examples)(
    '$name: every number is explained at its address, with its digits',
    ({ assessment }) => {
      const digits = (text: string): string =>
        /\d[\d.]*/.exec(text)![0].replace('.', '').replace(/^0+/, '').replace(/0+$/, '');
      for (const { picture } of picturesOf(assessment)) {
        for (const { address, text, value } of numbersIn([...wordsOf(picture), ...picture.text])) {
          const working = explain(assessment, address);
          expect(working?.value, address).toBe(value);
          expect(digits(working!.text), address).toBe(digits(text));
        }
      }
    },
    60_000,
  );

  it.each(examples)('$name: no text runs into another, at any width', ({ assessment }) => {
    for (const { picture } of picturesOf(assessment)) {
      for (const width_px of [320, 480, 640, 760, 900, 1100, 1440, 1920]) {
        expect(overlaps(textBoxes(printSvg(picture, { width_px }))), `${picture.name}, ${width_px} px`).toEqual([]);
        expect(overlaps(textBoxes(printSvg(picture, { width_px, standalone: true, text_px: 16 })))).toEqual([]);
      }
    }
  });

  it.each(examples)('$name: a bar stands further to the right the later it is', ({ assessment }) => {
    for (const { picture } of picturesOf(assessment)) {
      const rects = elementsIn(readXml(printSvg(picture, { width_px: 900 })), 'rect');
      const drawn = picture.marks.filter((mark): mark is Bar => mark.kind === 'bar' && mark.arrow === undefined);
      expect(rects).toHaveLength(drawn.length);
      // A line of half the edge of a bar is within this.
      const slack_px = 0.7;
      const pairs = drawn.map(({ from }, index) => ({ from, x: Number(rects[index]!.attributes.x) }));
      pairs.sort((a, b) => a.from - b.from);
      for (const [index, { x }] of pairs.entries()) expect(x).toBeGreaterThan((pairs[index - 1]?.x ?? 0) - slack_px);
    }
  });

  it.each(examples)('$name: at 80 columns no number of a measure is lost', ({ assessment }) => {
    for (const { picture } of picturesOf(assessment)) {
      const lines = printLines(picture, 80);
      for (const mark of picture.marks)
        if (mark.kind === 'measure') expect(lines.join('\n')).toContain(plainText(mark.forms.at(-1)!));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    }
  });
});

describe('cycleStrip', () => {
  it('shows what is free with the wanted reserve', () => {
    const picture = benchStrip('100 µs');
    expect(picture.scale).toEqual({ from: 0, to: 1e-4, unit: 's' });
    expect(measures(picture)).toEqual([
      'exchanges 15.54 µs',
      'repeats 15.54 µs',
      'non-cyclic 6.72 µs',
      'free 55.48 µs = 55.5 %',
      'spoken for 44.52 µs = 44.5 %',
      'wanted free 25 %',
    ]);
    const [left] = bars(picture, 'holds');
    expect(left).toMatchObject({ fill: 'tinted', about: 'networks.cycle@line' });
    expect(left!.from).toBeCloseTo(44.52e-6, 12);
    expect(left!.to).toBe(1e-4);
    expect(plainText(picture.text.at(-1)!)).toBe('What is wanted free is free.');
  });

  it('hatches what is taken of the reserve', () => {
    const picture = benchStrip('50 µs');
    const thin = bars(picture, 'thin');
    expect(thin.map(({ fill }) => fill)).toEqual(['hatched', 'solid']);
    expect(thin[0]!.from).toBeCloseTo(37.5e-6, 12);
    expect(plainText(picture.text.at(-1)!)).toBe('The cycle suffices, but what is wanted free is not.');
  });

  it('goes on beyond the rail when the cycle does not suffice, and says what is missing', () => {
    const picture = benchStrip('40 µs');
    expect(picture.scale.to).toBeCloseTo(44.52e-6, 12);
    expect(bars(picture, 'fails').at(-1)).toMatchObject({ fill: 'solid', arrow: true, from: 40e-6 });
    expect(measures(picture)).toContain('free -4.52 µs = -11.3 %');
    const rail = picture.marks.find((mark) => mark.kind === 'line' && mark.weight === 'rail');
    expect(rail).toMatchObject({ points: [{ x: 40e-6 }, { x: 40e-6 }] });
    expect(plainText(picture.text.at(-1)!)).toBe('The cycle does not suffice.');
  });

  it('shows what is known of a cycle whose length is open', () => {
    const picture = benchStrip('open');
    expect(picture.scale.to).toBeCloseTo(44.52e-6, 12);
    expect(measures(picture)).toEqual([
      'exchanges 15.54 µs',
      'repeats 15.54 µs',
      'non-cyclic 6.72 µs',
      'spoken for 44.52 µs',
    ]);
    expect(picture.marks.some((mark) => mark.kind === 'line' && mark.weight === 'rail')).toBe(false);
    expect(picture.text.map(plainText).join('\n')).toContain(
      'The length of the cycle is not known: networks.line.cycle is open',
    );
  });

  it('shows the command of a station whose answer time is unknown, and says what is missing', () => {
    const picture = benchStrip('100 µs', { drive: 'turnaround: unknown' });
    expect(bars(picture, 'traffic')).toHaveLength(1);
    expect(bars(picture, 'unknown')[0]).toMatchObject({ fill: 'dashed', to: 1e-4 });
    const said = elementsIn(readXml(printSvg(picture, { width_px: 760 })), 'text')
      .map(textIn)
      .join(' ');
    expect(said).toContain('axes.one.drive.turnaround is unknown');
  });

  it('says why nothing can be drawn', () => {
    const picture = benchStrip('open', { discipline: 'open' });
    expect(bars(picture, 'traffic')).toEqual([]);
    const nothing = strip(assessText('layshaft: 1\nnetworks: { n: { cycle: open } }\n', 'n.yaml'));
    expect(nothing.marks).toHaveLength(1);
    expect(printLines(nothing, 60).join(' ')).toMatch(/^Not known: .*networks\.n\.cycle is open/);
    expect(printSvg(nothing, { width_px: 400 })).toContain('networks.n.cycle is open');
  });

  it('draws repeats as the longest exchange, and too many of them as one block', () => {
    expect(bars(benchStrip('1 ms', { repeats: '3' }), 'traffic').filter(({ fill }) => fill === 'hatched')).toHaveLength(
      6,
    );
    const block = bars(benchStrip('10 ms', { repeats: '100' }), 'traffic').filter(({ fill }) => fill === 'hatched');
    expect(block).toHaveLength(1);
    expect(block[0]!.to - block[0]!.from).toBeCloseTo(100 * 15.54e-6, 9);
    expect(bars(benchStrip('1 ms', { repeats: '0' }), 'traffic').some(({ fill }) => fill === 'hatched')).toBe(false);
  });
});
