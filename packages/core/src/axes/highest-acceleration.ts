// The highest acceleration of the tool in a cycle, either way.
import type { Value } from '../reading/values.ts';
import { openMethod } from '../working/formula.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { type Derivative, highestIn } from './calc/highest-in-piece.ts';
import { chain, type Piece } from './calc/segment.ts';
import type { AxisDemand } from './demand.ts';
import type { Phase } from './phase.ts';

const spec = {
  title: 'highest acceleration of the tool in the cycle, either way',
  prose: 'the highest of each piece of the motion, at one of its ends or where it rises no further between them',
  source: 'definition',
  proof: 'speed, acceleration and jerk of laws are highest as their tables say',
} as const;
const along = openMethod({ ...spec, id: 'axes.cycle.highest_acceleration', gives: 'm/s²' });
const turning = openMethod({ ...spec, id: 'axes.cycle.highest_turning_acceleration', gives: 'rad/s²' });

/** Made once for each demand: checks of several domains ask for it. */
export const highestAcceleration = onceForEach(
  ({ motion, axis }: AxisDemand): Value<Quantity> =>
    given({ motion }, ({ motion: { phases, unit } }): Quantity => {
      const { inputs, means } = inputsOf(phases);
      const of = highestOf(phases, 'acceleration');
      return (unit === 'm' ? along : turning)({ inputs, means, of }, axis.name);
    }),
);

/** By symbols that carry the number of the phase. */
export function inputsOf(phases: readonly Phase[]): {
  readonly inputs: Inputs;
  readonly means: Record<string, string>;
} {
  const numbered = <T>(of: (phase: Phase) => Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(
      phases.flatMap((phase, at) => Object.entries(of(phase)).map(([key, value]) => [`${key}_${at + 1}`, value])),
    );
  return {
    inputs: numbered(({ inputs }) => inputs),
    means: numbered(({ inputs, means, title }) =>
      Object.fromEntries(Object.keys(inputs).map((key) => [key, `${means[key] ?? ''}, ${title}`])),
    ),
  };
}

/** Of phases whose values come in the order of their inputs. */
export const highestOf =
  (phases: readonly Phase[], of: Derivative) =>
  (...values: readonly number[]): number =>
    Math.max(...piecesOf(phases, values).map((piece) => highestIn(piece, of)));

function piecesOf(phases: readonly Phase[], values: readonly number[]): readonly Piece[] {
  let at = 0;
  return phases.flatMap(({ inputs, build }) => {
    const count = Object.keys(inputs).length;
    at += count;
    return chain(build(...values.slice(at - count, at)));
  });
}
