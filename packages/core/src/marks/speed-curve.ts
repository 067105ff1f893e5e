// The budget over the speed of the web: what times make grows with it, what lengths make does not.
import type { Table } from '../checks/view.ts';
import { type Drawn, type Mark, notDrawn, pen } from '../pictures/picture.ts';
import { assumed } from '../working/assumed.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { type BudgetOf, budgetOf } from './budget-of.ts';
import { shareOfSpeed } from './calc/speed-spread.ts';

/** Of the speed of the file, in tenths up to half as much again. */
const tenths = Array.from({ length: 15 }, (_, at) => at + 1);

/** One budget for each speed; nothing where the speed is not known. */
export function budgetsOverSpeed({
  mark,
  speed,
}: BudgetOf): readonly { readonly v: Quantity<'m/s'>; readonly budget: BudgetOf }[] {
  if (speed instanceof Missing) return [];
  return tenths.map((tenth) => {
    const about = `${mark.name}.at_${10 * tenth}`;
    const share = assumed(`marks.speeds.at_${10 * tenth}`, tenth / 10, '1', {
      source: 'definition',
      because: 'one of the speeds that are tried',
      as: '%',
    });
    const v = shareOfSpeed({ v: speed, x: share }, about);
    return { v, budget: budgetOf(mark, v, about) };
  });
}

export function speedTable(budget: BudgetOf): Table {
  return {
    name: 'speeds',
    title: 'The budget over the speed of the web',
    note: 'everything but the speed as it is',
    columns: ['speed', 'off on average', 'standard deviation', 'needed', 'Cpk'],
    rows: budgetsOverSpeed(budget).map(({ v, budget: { known, capability } }) => [
      v,
      ...(known instanceof Missing ? [known, known, known] : [known.offset, known.u, known.needed]),
      capability instanceof Missing ? capability : capability === 'untold' ? 'not told' : capability.cpk,
    ]),
  };
}

export function speedCurve(budget: BudgetOf): Drawn {
  const name = 'speed';
  const { mark, speed, known } = budget;
  const title = `What ${mark.name} needs over the speed of the web`;
  const points = budgetsOverSpeed(budget).flatMap(({ v, budget: each }) =>
    each.known instanceof Missing || !Number.isFinite(each.known.needed.value)
      ? []
      : [{ v: v.value, needed: each.known.needed.value, scatter: 3 * each.known.u.value }],
  );
  if (points.length < 2 || speed instanceof Missing || known instanceof Missing)
    return {
      picture: notDrawn(name, title, 'The speed of the web, or what the mark scatters by, is not known.'),
      numbers: [],
    };
  const { numbers, write } = pen();
  const tolerance = mark.said.tolerance instanceof Missing ? undefined : mark.said.tolerance;
  const highest = 1.1 * Math.max(tolerance?.value ?? 0, ...points.map(({ needed }) => needed));
  const end = points.at(-1)!.v;
  const curve = (of: (point: (typeof points)[number]) => number, more: { dashed?: true }): Mark => ({
    kind: 'line',
    weight: 'edge',
    tone: 'traffic',
    points: points.map((point) => ({ x: point.v, row: 0, y: of(point) })),
    ...more,
  });
  const [need, v] = [write(known.needed), write(speed)];
  const limit = tolerance && write(tolerance);
  return {
    picture: {
      name,
      title,
      caption:
        'The line is what is needed to either side, the dashed one three standard deviations alone, the rail the tolerance, the dot the speed of the file.',
      scale: { from: 0, to: end, unit: 'm/s' },
      rows: [
        {
          height: 7,
          scale: { from: 0, to: highest, unit: 'm' },
          grid: true,
          label: ['needed'],
          end: limit ? ['allowed ', limit] : [],
        },
        { height: 1, ticks: true },
      ],
      marks: [
        ...(tolerance === undefined
          ? []
          : [
              {
                kind: 'line' as const,
                weight: 'rail' as const,
                tone: 'plain' as const,
                points: [0, end].map((x) => ({ x, row: 0, y: tolerance.value })),
              },
            ]),
        curve(({ scatter }) => scatter, { dashed: true }),
        curve(({ needed }) => needed, {}),
        { kind: 'dots', row: 0, points: [[speed.value, known.needed.value]], fill: 'solid', tone: 'traffic' },
      ],
      legend: [],
      text: [['At ', v, ' it needs ', need, ' to either side', ...(limit ? [' of ', limit] : []), '.']],
    },
    numbers,
  };
}
