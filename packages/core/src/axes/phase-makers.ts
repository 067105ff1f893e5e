// How phases are made: a dwell, constant speed, constant acceleration, a stroke by a law; and how they fit into a cycle.
import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { usual } from '../units/usual-units.ts';
import { Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { restOfCycle, timeTaken } from './calc/follow.ts';
import { type LawName, lawPieces } from './calc/motion-law.ts';
import { dwell, type Piece } from './calc/segment.ts';
import type { Even, Phase, PhasedMotion } from './phase.ts';

/** What a value in one of two units must be in; another is as good as a slip of the pen. */
export function inUnit<U extends Unit>(value: Value<Quantity>, unit: U, path: string): Value<Quantity<U>> {
  if (value instanceof Missing || value.unit === unit) return value as Value<Quantity<U>>;
  return missing(path, 'problem', usual[unit].measures, usual[unit].example);
}

/** Phases that must fit into the cycle; what is left is a dwell of its own. */
export function inCycle(
  axis: Axis,
  unit: 'm' | 'rad',
  phases: readonly Phase[],
  cycle: Quantity<'s'>,
  scales = false,
): PhasedMotion {
  const taken = timeTaken({ t: phases.map(({ duration }) => duration) }, axis.name);
  const rest = restOfCycle({ c: cycle, t: taken }, axis.name);
  const whole =
    rest.value > 1e-9 * cycle.value ? [...phases, dwellPhase('rest', 'waiting for the next cycle', rest)] : phases;
  return { unit, phases: whole, cycle, taken, scales };
}

export const dwellPhase = (name: string, title: string, t: Quantity<'s'>): Phase => ({
  name,
  title,
  duration: t,
  inputs: { t },
  means: { t: 'duration' },
  build: (duration_s = 0) => [dwell(duration_s, 0)],
  even: { acceleration: undefined, before: undefined, after: undefined, backwards: false },
});

/** A stretch of constant speed. */
export function steadyPhase(name: string, title: string, v: Quantity, t: Quantity<'s'>, backwards = false): Phase {
  return {
    name,
    title,
    duration: t,
    inputs: { v, t },
    means: { v: 'speed', t: 'duration' },
    build: (speed = 0, duration_s = 0) => [{ duration_s, polynomial: [0, backwards ? -speed : speed] }],
    even: { acceleration: undefined, before: v, after: v, backwards },
  };
}

/** A stroke by a motion law. */
export function lawPhase(
  { name, title, about }: { readonly name: string; readonly title: string; readonly about: string },
  h: Quantity,
  T: Quantity<'s'>,
  law: LawName,
): Phase {
  return {
    name,
    title: `${title}, ${law}`,
    duration: T,
    inputs: { h, T },
    means: { h: `stroke, of ${about}`, T: 'time for it' },
    build: (stroke = 0, duration_s = 0) => lawPieces(law, stroke, duration_s),
  };
}

/** A stretch of constant acceleration. */
function evenPhase(name: string, title: string, even: Even, t: Quantity<'s'>): Phase {
  const { before, after, acceleration, backwards } = even;
  const sign = backwards ? -1 : 1;
  const inputs: Record<string, Quantity> = {
    ...(before && { v: before }),
    ...(acceleration && { a: acceleration }),
    t,
  };
  const build = (...values: number[]): readonly Piece[] => {
    const [v, a, duration_s] = [before ? values[0]! : 0, acceleration ? values[before ? 1 : 0]! : 0, values.at(-1)!];
    return [{ duration_s, polynomial: [0, sign * v, (sign * a) / 2] }];
  };
  const means = { v: 'speed before', a: 'acceleration along the motion', t: 'duration' };
  return { name, title, duration: t, inputs, means, build, even: { before, after, acceleration, backwards } };
}

interface Ramped {
  /** The speed that it gets to, or comes from. */
  readonly v: Quantity;
  /** Along the motion: below 0 where it slows down. */
  readonly acceleration: Quantity;
  readonly t: Quantity<'s'>;
  readonly backwards: boolean;
}

/** From rest to a speed. */
export const quickeningPhase = (name: string, title: string, { v, acceleration, t, backwards }: Ramped): Phase =>
  evenPhase(name, title, { before: undefined, after: v, acceleration, backwards }, t);

/** From a speed to rest. */
export const slowingPhase = (name: string, title: string, { v, acceleration, t, backwards }: Ramped): Phase =>
  evenPhase(name, title, { before: v, after: undefined, acceleration, backwards }, t);
