// A chain as pictures: what each link waits for and takes at the worst, one behind the other, and how the delay spreads.
import { type Drawn, type Mark, notDrawn, pen, type Row } from '../pictures/picture.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import { seconds } from './calc/picoseconds.ts';
import { delayHistogram } from './calc/spread.ts';
import type { ChainTimes, PlannedChain } from './chains.ts';
import type { PlannedLink } from './links.ts';

export function chainPictures({ name, links, times }: PlannedChain): readonly Drawn[] {
  if (links instanceof Missing || times instanceof Missing)
    return [
      {
        picture: notDrawn('way', `From cause to effect of ${name}`, 'A time of one of the links is not known yet.'),
        numbers: [],
      },
    ];
  return [way(name, links, times), ...histogram(name, times)];
}

/** Waits and takes, each link behind the one before, as the safe bound adds them up. */
function way(name: string, links: readonly PlannedLink[], { most, safe }: ChainTimes): Drawn {
  const { numbers, write } = pen();
  const shown = links.filter(({ period, most: slowest }) => period !== undefined || slowest.value > 0);
  let end = 0;
  const marks = shown.flatMap(({ period, most: slowest, path }, row): readonly Mark[] => {
    const [from, looked] = [end, end + (period?.value ?? 0)];
    end = looked + slowest.value;
    const bar = { kind: 'bar', row, about: path, tone: 'traffic' } as const;
    return [
      ...(period === undefined ? [] : [{ ...bar, from, to: looked, fill: 'outlined' } as const]),
      ...(slowest.value > 0 ? [{ ...bar, from: looked, to: end, fill: 'solid' } as const] : []),
    ];
  });
  const rows: readonly Row[] = [
    ...shown.map(({ title }): Row => ({ height: 1.3, above: 0.4, label: [title], grid: true })),
    { height: 1.6, above: 0.2, ticks: true },
    { height: 1.7, above: 0.2 },
    { height: 1.7, above: 0.2 },
  ];
  const [first, second] = [shown.length + 1, shown.length + 2];
  const measure = (row: number, to: typeof most, words: string): Mark => ({
    kind: 'measure',
    row,
    from: 0,
    to: to.value,
    forms: [[words, write(to)], [write(to)]],
  });
  return {
    picture: {
      name: 'way',
      title: `From cause to effect of ${name}`,
      caption:
        'Each link as long as it may wait for its look, then as long as it may take. Links on one clock need not wait so long: the longest delay counts that.',
      scale: { from: 0, to: end, unit: 's' },
      rows,
      marks: [...marks, measure(first, most, 'longest '), measure(second, safe, 'each has just looked ')],
      legend: [
        { fill: 'outlined', tone: 'traffic', means: 'waits for its look' },
        { fill: 'solid', tone: 'traffic', means: 'takes' },
      ],
      text: [
        ['The longest delay is ', write(most), '; where each link has just looked it is ', write(safe), '.'],
        ...shown.map(({ title, period, most: slowest }) => [
          `${title}: ${period === undefined ? 'passes on at once' : `looks every ${printQuantity(period.value, 's')}`}, takes ${printQuantity(slowest.value, 's')} at most.`,
        ]),
      ],
    },
    numbers,
  };
}

const bins = 40;

/** How often each delay is; nothing where all take as long, or where it cannot be told. */
function histogram(name: string, { least, most, spread }: ChainTimes): readonly Drawn[] {
  const found = spread();
  if (found === undefined || found.breaks_ps.length < 2) return [];
  const shares = delayHistogram(found, bins);
  const [from, to] = [seconds(found.breaks_ps[0]!), seconds(found.breaks_ps.at(-1)!)];
  if (!(to > from)) return [];
  const { numbers, write } = pen();
  const width = (to - from) / bins;
  const top = Math.max(...shares);
  const ends = [least, most].map(write);
  return [
    {
      picture: {
        name: 'spread',
        title: `How the delay of ${name} spreads`,
        caption: 'How often each delay is, over all phases of clocks of their own and all instants of the cause.',
        scale: { from, to, unit: 's' },
        rows: [
          { height: 6, above: 0.4, scale: { from: 0, to: 1.05 * top, unit: '1' }, grid: true },
          { height: 1.6, above: 0.2, ticks: true },
        ],
        marks: shares.flatMap((share, bin): readonly Mark[] =>
          share > 0
            ? [
                {
                  kind: 'bar',
                  row: 0,
                  from: from + bin * width,
                  to: from + (bin + 1) * width,
                  high: [0, share],
                  fill: 'tinted',
                  tone: 'traffic',
                },
              ]
            : [],
        ),
        legend: [],
        text: [['Delays spread from ', ends[0]!, ' to ', ends[1]!, '.']],
      },
      numbers,
    },
  ];
}
