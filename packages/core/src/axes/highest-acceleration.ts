// The highest acceleration of the tool in a cycle, either way.
import type { Value } from '../reading/values.ts';
import { openMethod } from '../working/formula.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { chain, type Piece, stateOf } from './calc/segment.ts';
import type { AxisDemand } from './demand.ts';
import type { Phase } from './phase.ts';

const spec = {
  title: 'highest acceleration of the tool in the cycle, either way',
  prose: 'looked for at 64 places on each piece of the motion and at its ends',
  source: 'judgement',
  proof: 'demands of a phase by fine sampling',
} as const;
const along = openMethod({ ...spec, id: 'axes.cycle.highest_acceleration', gives: 'm/s²' });
const turning = openMethod({ ...spec, id: 'axes.cycle.highest_turning_acceleration', gives: 'rad/s²' });

/** Made once for each demand: checks of several domains ask for it. */
export const highestAcceleration = onceForEach(
  ({ motion, axis }: AxisDemand): Value<Quantity> =>
    given({ motion }, ({ motion: { phases, unit } }): Quantity => {
      const inputs = Object.fromEntries(
        phases.flatMap((phase, at) =>
          Object.entries(phase.inputs).map(([key, value]) => [`${key}_${at + 1}`, value] as const),
        ),
      );
      const means = Object.fromEntries(
        phases.flatMap((phase, at) =>
          Object.keys(phase.inputs).map(
            (key) => [`${key}_${at + 1}`, `${phase.means[key] ?? ''}, ${phase.title}`] as const,
          ),
        ),
      );
      const of = (...values: readonly number[]): number => Math.max(...piecesOf(phases, values).map(sharpest));
      return (unit === 'm' ? along : turning)({ inputs, means, of }, axis.name);
    }),
);

function piecesOf(phases: readonly Phase[], values: readonly number[]): readonly Piece[] {
  let at = 0;
  return phases.flatMap(({ inputs, build }) => {
    const count = Object.keys(inputs).length;
    at += count;
    return chain(build(...values.slice(at - count, at)));
  });
}

const places = 64;
const sharpest = (piece: Piece): number =>
  Math.max(
    ...Array.from({ length: places + 1 }, (_, at) =>
      Math.abs(stateOf(piece, (piece.duration_s * at) / places).acceleration),
    ),
  );
