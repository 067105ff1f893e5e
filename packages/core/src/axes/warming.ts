// The picture of a winding that warms up: from cold until the cycle repeats itself, and what it may have at most.
import { type Drawn, type Mark, notDrawn, type Picture, pen, type Tone } from '../pictures/picture.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import { riseFromCold, settledRise } from './calc/heat.ts';
import type { AxisDemand } from './demand.ts';
import { saysWarmth, type Winding, windingOf } from './winding.ts';

/** Nothing where the motor does not say how its winding warms up. */
export function warming(demand: AxisDemand): readonly Drawn[] {
  if (!saysWarmth(demand)) return [];
  const { name: axis, path, motor } = demand.axis;
  const [name, title] = ['winding', `Winding of ${axis} from cold`];
  const winding = windingOf(demand);
  if (winding instanceof Missing)
    return [
      { picture: notDrawn(name, title, 'Cycle, motor or surroundings are not known well enough yet.'), numbers: [] },
    ];
  const { hottest, warmAfter, ambient } = winding;
  const { numbers, write } = pen();
  const limit = motor.winding_at_most instanceof Missing ? undefined : motor.winding_at_most;
  const points = pointsOf(winding);
  const end = points.at(-1)!.x;
  const most = Math.max(hottest.value, limit?.value ?? 0, ambient.value + 1);
  const level = (y: number, tone: Tone, dashed: boolean): Mark => ({
    kind: 'line',
    weight: dashed ? 'fine' : 'rail',
    tone,
    points: [
      { x: 0, row: 0, y },
      { x: end, row: 0, y },
    ],
    ...(dashed && { dashed: true }),
  });
  const picture: Picture = {
    name,
    title,
    caption:
      'Temperature of the winding in the cycle that warms it most, started cold; the dashed line is what it comes to, the rail what it may have.',
    scale: { from: 0, to: end, unit: 's' },
    rows: [
      {
        label: ['winding'],
        end: [`${printQuantity(ambient.value, 'K abs')} to ${printQuantity(hottest.value, 'K abs')}`],
        height: 6,
        above: 0.5,
        scale: {
          from: ambient.value - 0.06 * (most - ambient.value),
          to: most + 0.06 * (most - ambient.value),
          unit: 'K abs',
        },
        grid: true,
      },
      { height: 1, ticks: true },
    ],
    marks: [
      level(hottest.value, 'quiet', true),
      ...(limit === undefined ? [] : [level(limit.value, 'plain', false)]),
      {
        kind: 'line',
        weight: 'edge',
        tone: 'traffic',
        points: points.map(({ x, y }) => ({ x, row: 0, y })),
        about: path,
      },
    ],
    legend: [],
    text: [
      ['Cold, the winding has the ', write(ambient), ' of the surroundings.'],
      [
        'In the long run it comes to ',
        write(hottest),
        ' at its hottest, with most of that after ',
        write(warmAfter),
        '.',
      ],
      ...(limit === undefined ? [] : [['It may have ', write(limit), '.']]),
    ],
  };
  return [{ picture, numbers }];
}

/** Where every instant of so many points can be seen, all of them; else the hottest instant of as many cycles. */
const seen = 240;

function pointsOf({
  heating,
  phases,
  warmAfter,
  ambient,
}: Winding): readonly { readonly x: number; readonly y: number }[] {
  const cycle_s = phases.reduce((sum, { lasts_s }) => sum + lasts_s, 0);
  const cycles = Math.max(1, Math.ceil((1.5 * warmAfter.value) / cycle_s));
  const at = (x: number) => ({ x, y: ambient.value + riseFromCold(heating, phases, x) });
  if (cycles * phases.length <= seen) {
    let x = 0;
    const ends = Array.from({ length: cycles }).flatMap(() =>
      phases.flatMap(({ lasts_s }) => {
        const from = x;
        x += lasts_s;
        return [from + lasts_s / 3, from + (2 * lasts_s) / 3, x];
      }),
    );
    return [at(0), ...ends.map(at)];
  }
  const { highestAt_s } = settledRise(heating, phases);
  const whole = Array.from({ length: seen }, (_, step) => Math.round((step * cycles) / (seen - 1)));
  return [at(0), ...[...new Set(whole)].map((each) => at(each * cycle_s + highestAt_s))];
}
