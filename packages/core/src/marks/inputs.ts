// The values of a mark that one would move to see its budget follow.
import type { Input } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
import type { BudgetOf } from './budget-of.ts';
import { type SpreadSection, sizeOf } from './spread-field.ts';
import { titleOf } from './titles.ts';
import { byShare } from './variance-bars.ts';

/** More sliders than this nobody looks for the right one among (our judgement). */
const mostInputs = 10;

export function inputsOfMark({ mark, known }: BudgetOf): readonly Input[] {
  const { said, speed } = mark;
  const move = (title: string, value: unknown): readonly Input[] => {
    if (!(value instanceof Quantity) || !isLeaf(value) || (value.by as { kind: string }).kind !== 'given') return [];
    const size = Math.abs(value.value);
    const most = value.unit === '1' && size <= 1 ? 1 : 3 * size;
    return [
      { path: value.about, title, value, ...(size > 0 && { span: { least: value.value < 0 ? -3 * size : 0, most } }) },
    ];
  };
  const spreads = new Map<string, SpreadSection>(
    [...said.spread.map((each) => [each.path, each] as const), ...spreadsOf(said)].map(([where, each]) => [
      where,
      each as SpreadSection,
    ]),
  );
  const parts = known instanceof Missing ? [] : byShare(known.parts);
  const sizes = parts.flatMap((part) => {
    const spread = spreads.get(part.path);
    return spread === undefined ? [] : move(titleOf(part), sizeOf(spread));
  });
  return [
    ...move('speed of the web', speed),
    ...move('tolerance', said.tolerance),
    ...sizes,
    ...move('offset', said.offset),
    ...move('eye delay', said.eye?.delay),
    ...move('share of delays taken out', said.compensated),
    ...(said.capture === undefined
      ? []
      : [
          ...move('polled every', said.capture.polled),
          ...move('step of the stamp', said.capture.stamped),
          ...move('way for one count', said.capture.latched),
          ...move('armed again after', said.capture.rearm),
        ]),
    ...move('share that is corrected', said.correct?.share),
  ].slice(0, mostInputs);
}

const spreadsOf = ({ eye, capture, web, lost_motion }: BudgetOf['mark']['said']) =>
  [eye?.jitter, capture?.jitter, capture?.clock, web?.tension, lost_motion].flatMap((each) =>
    each === undefined ? [] : [[each.path, each] as const],
  );
