// The picture of register control: the error after a splice, repeat by repeat, without scatter and simulated with it.

import { nextWord, streamsOf } from '../physics/random-bits.ts';
import { type Drawn, type Mark, notDrawn, pen } from '../pictures/picture.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { BudgetOf } from './budget-of.ts';
import { corrections } from './calc/filtered-loop.ts';
import { normalQuantile } from './calc/normal.ts';
import type { LoopOf } from './loop-of.ts';

const most = 400;
const fewest = 20;

export function settlingPicture(budget: BudgetOf, loop: LoopOf): Drawn {
  const name = 'settling';
  const { mark, known } = budget;
  const title = `${mark.name} after a splice`;
  const { settling, deadTime, filter } = loop;
  const asked = given(
    {
      K: loop.gain,
      d: deadTime,
      n: filter,
      splice: settling?.splice,
      T: mark.said.tolerance,
      repeats: settling?.repeats,
      web: settling?.web,
      known,
    },
    (all) => all,
  );
  if (asked instanceof Missing || asked.splice === undefined)
    return {
      picture: notDrawn(
        name,
        title,
        'Without a splice, or with a control that does not settle, there is nothing to draw.',
      ),
      numbers: [],
    };
  const { numbers, write } = pen();
  const { K, d, n, T } = asked;
  const splice = asked.splice as Quantity<'m'>;
  const repeats = asked.repeats as Quantity<'1'>;
  const length = Math.min(Math.max(Math.ceil(1.6 * repeats.value), fewest), most);
  const scattered = scatterOf(asked.known.before.value, length);
  const run = (missed: number): readonly number[] => {
    const found = corrections({ K: K.value * (1 - missed), d: d.value, n: n.value, scatter: () => splice.value });
    return Array.from({ length }, () => splice.value + found.next().value![0]);
  };
  const missed = loop.said.missed instanceof Missing ? 0 : (loop.said.missed?.value ?? 0);
  const smooth = run(missed);
  const isMissed = missedOf(missed, length);
  const noisy = corrections({
    K: K.value,
    d: d.value,
    n: n.value,
    scatter: (repeat) => splice.value + (scattered[repeat] ?? 0),
    missed: (repeat) => isMissed[repeat] ?? false,
  });
  const dots = Array.from(
    { length },
    (_, repeat) => [repeat, splice.value + scattered[repeat]! + noisy.next().value![0]] as const,
  ).filter(([repeat]) => !isMissed[repeat]);
  const heights = [...smooth, ...dots.map(([, y]) => y), T.value, -T.value];
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const rail = (y: number): Mark => ({
    kind: 'line',
    weight: 'rail',
    tone: 'plain',
    points: [0, length].map((x) => ({ x, row: 0, y })),
  });
  const [e, limit, until, web] = [write(splice), write(T), write(repeats), write(asked.web as Quantity<'m'>)];
  return {
    picture: {
      name,
      title,
      caption: `The line is the error without scatter${missed > 0 ? ', missed marks in the mean' : ''}; the dots are one simulated run (seed 1)${missed > 0 ? ', with none where a mark is missed and the correction held' : ''}. The rails are the tolerance; the scale counts repeats.`,
      scale: { from: 0, to: length, unit: '1' },
      rows: [
        {
          height: 8,
          scale: { from: low - 0.05 * (high - low), to: high + 0.05 * (high - low), unit: 'm' },
          label: ['error'],
          end: ['allowed ', limit],
        },
        { height: 1, ticks: true },
        { height: 1, above: 0.25 },
      ],
      marks: [
        rail(T.value),
        rail(-T.value),
        { kind: 'dots', row: 0, points: dots, fill: 'outlined', tone: 'quiet' },
        {
          kind: 'line',
          weight: 'edge',
          tone: 'traffic',
          points: smooth.map((y, x) => ({ x, row: 0, y })),
          about: loop.said.path,
        },
        {
          kind: 'measure',
          row: 2,
          from: 0,
          to: Math.min(repeats.value, length),
          forms:
            repeats.value > length
              ? [
                  ['not within it before ', until, ' repeats, ', web, ' of web, beyond this picture'],
                  ['→ ', until],
                ]
              : [['settled after ', until, ' repeats, ', web, ' of web'], [until]],
        },
      ],
      legend: [],
      text: [['A splice that is off by ', e, ' is within ', limit, ' after ', until, ' repeats, ', web, ' of web.']],
    },
    numbers,
  };
}

/** Between 0 and 1, the same each time. */
function chances(stream: 0 | 1, length: number): readonly number[] {
  const state = Int32Array.from(streamsOf(1, 2)[stream]!);
  return Array.from({ length }, () => ((nextWord(state) >>> 0) + 0.5) / 2 ** 32);
}

const scatterOf = (u: number, length: number): readonly number[] =>
  chances(0, length).map((chance) => u * normalQuantile(chance));

const missedOf = (share: number, length: number): readonly boolean[] =>
  chances(1, length).map((chance) => chance < share);
