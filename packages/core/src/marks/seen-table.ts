// A mark that was seen to move with the speed: the delay behind it, and what of it the file does not say.
import type { Table } from '../checks/view.ts';
import { given, missing } from '../working/missing.ts';
import type { BudgetOf } from './budget-of.ts';
import { latencyFound, latencyLeft, latencySaid } from './calc/capture.ts';
import { sumOfOffsets } from './calc/contribution.ts';
import { noneOf } from './mark.ts';

/** Nothing where nobody has seen it at two speeds. */
export function seenTable({ mark, known, speed }: BudgetOf): readonly Table[] {
  const { said, name, path } = mark;
  const { seen } = said;
  if (seen === undefined) return [];
  const { moved, lower, higher } = seen;
  const found = given({ x: moved, v: higher, w: lower }, (all) =>
    all.v.value > all.w.value
      ? latencyFound(all, name)
      : missing(`${path}.seen.higher`, 'problem', 'a speed above the lower one', '100 m/min'),
  );
  const left = given({ all: known, v: speed }, ({ all: { offsets }, v }) => {
    const timed = offsets.flatMap((each) => each.timed ?? []);
    return timed.length === 0
      ? noneOf(`${path}.seen.said`, 's', 'no delay is said')
      : latencySaid({ b: sumOfOffsets({ b: timed }, `${name}.timed`), v }, name);
  });
  return [
    {
      name: 'seen',
      title: `${name} moves with the speed`,
      note: 'the delay of all between the edge and what is seen of it; what is not said can be written as eye: { delay: … }, and a lead takes it out (compensated)',
      columns: ['what', 'value'],
      rows: [
        ['seen later at the higher speed by', moved],
        ['delay behind it', found],
        ['delay that the file says and nothing takes out', left],
        ['delay that the file does not say', given({ f: found, s: left }, (all) => latencyLeft(all, name))],
      ],
    },
  ];
}
