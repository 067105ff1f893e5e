// The picture of trials: how often each error comes, against the tolerance, with the normal distribution of the same spread.
import { type Drawn, type Mark, notDrawn, pen } from '../pictures/picture.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import type { BudgetOf } from './budget-of.ts';
import { countsOf } from './trials.ts';

/** Fewer than the table has, so that the picture follows a drag. Our judgement. */
const trials = 50_000;
/** Bars from side to side. */
const bars = 60;

export function histogram({ mark, known }: BudgetOf): Drawn {
  const name = 'histogram';
  const title = `Errors of ${mark.name} against its tolerance`;
  const empty = (why: string): Drawn => ({ picture: notDrawn(name, title, why), numbers: [] });
  if (known instanceof Missing || !(known.u.value > 0 && Number.isFinite(known.u.value)))
    return empty('What it scatters by is not known yet, or is nothing.');
  const results = countsOf(known, trials);
  if (results === undefined) return empty('Correlated contributions are drawn only where all of them are normal.');
  const { numbers, write } = pen();
  const tolerance = mark.said.tolerance instanceof Missing ? undefined : mark.said.tolerance;
  const { offset, u, needed } = known;
  const reach = 1.1 * Math.max(tolerance?.value ?? 0, Math.abs(offset.value) + 4 * u.value);
  const width = (2 * reach) / bars;
  const counts = Array<number>(bars).fill(0);
  let all = 0;
  for (const { counts: own, least, most, trials: run } of results) {
    all += run;
    const bin = (most - least) / own.length;
    own.forEach((count, at) => {
      const place = Math.floor((least + (at + 0.5) * bin + reach) / width);
      if (place >= 0 && place < bars) counts[place]! += count;
    });
  }
  const density = (x: number): number =>
    (all * width * Math.exp(-(((x - offset.value) / u.value) ** 2) / 2)) / (u.value * Math.sqrt(2 * Math.PI));
  const highest = Math.max(...counts, density(offset.value));
  const rail = (x: number): Mark => ({
    kind: 'line',
    weight: 'rail',
    tone: 'plain',
    points: [
      { x, row: 0, y: 0 },
      { x, row: 0, y: 1.1 * highest },
    ],
  });
  const [b, spread, need] = [write(offset), write(u), write(needed)];
  const limit = tolerance && write(tolerance);
  return {
    picture: {
      name,
      title,
      caption: `${printQuantity(all, '1')} trials of all contributions with seed 1; the curve is the normal distribution of the same mean and spread, the rails are the tolerance.`,
      scale: { from: -reach, to: reach, unit: 'm' },
      rows: [
        { height: 7, scale: { from: 0, to: 1.12 * highest, unit: '1' } },
        { height: 1, ticks: true },
        { height: 1, above: 0.25 },
      ],
      marks: [
        ...counts.flatMap((count, at): readonly Mark[] =>
          count === 0
            ? []
            : [
                {
                  kind: 'bar',
                  row: 0,
                  from: -reach + at * width,
                  to: -reach + (at + 1) * width,
                  high: [0, count],
                  fill: 'tinted',
                  tone: 'traffic',
                },
              ],
        ), // prettier-ignore
        {
          kind: 'line',
          weight: 'edge',
          tone: 'traffic',
          points: Array.from({ length: 121 }, (_, at) => {
            const x = -reach + (at / 120) * 2 * reach;
            return { x, row: 0, y: density(x) };
          }),
          about: mark.path,
        },
        ...(tolerance === undefined ? [] : [rail(-tolerance.value), rail(tolerance.value)]),
        { kind: 'measure', row: 2, from: 0, to: needed.value, forms: [['needed ', need], [need]] },
      ],
      legend: [],
      text: [
        ['Off by ', b, ' on average, with a standard deviation of ', spread, '.'],
        limit === undefined
          ? ['No tolerance is given.']
          : ['It needs ', need, ' to either side; allowed are ', limit, '.'],
      ],
    },
    numbers,
  };
}
