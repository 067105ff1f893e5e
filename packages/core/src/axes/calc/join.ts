// Where pieces meet: whether a motion goes on there without a jump, and the piece that joins two given states.
import { type Motion, type Piece, type Segment, type State, stateOf } from './segment.ts';

/** A jump up to this share of the largest value of its kind in the motion is rounding (our judgement). */
export const joinTolerance = 1e-9;

export interface Join {
  readonly at_s: number;
  /** Behind the breakpoint less before it. */
  readonly jump: State;
}

export const joinsOf = (motion: Motion): readonly Join[] =>
  motion.slice(1).map((next, at) => {
    const before = motion[at]!;
    return { at_s: next.start_s, jump: difference(stateOf(next, 0), stateOf(before, before.duration_s)) };
  });

const kinds = ['position', 'velocity', 'acceleration'] as const;

/** The joins at which the motion jumps in its position or in a derivative up to the one that is named. */
export function brokenJoins(motion: Motion, upTo: (typeof kinds)[number]): readonly Join[] {
  const asked = kinds.slice(0, kinds.indexOf(upTo) + 1);
  const allowed = asked.map((kind) => joinTolerance * largestOf(motion, kind));
  return joinsOf(motion).filter(({ jump }) => asked.some((kind, at) => !(Math.abs(jump[kind]) <= allowed[at]!)));
}

type Boundary = Omit<State, 'jerk'>;

/** The one polynomial of degree 5 that leads from one state to another in a given time, which must be over 0. */
export function quintic(duration_s: number, from: Boundary, to: Boundary): Piece {
  const T = duration_s;
  const [p, v, a] = [from.position, from.velocity, from.acceleration / 2];
  // What is left to go, to gain in speed and in acceleration beyond what the start brings by itself, over one duration.
  const position = to.position - (p + v * T + a * T ** 2);
  const velocity = (to.velocity - (v + 2 * a * T)) * T;
  const acceleration = (to.acceleration - 2 * a) * T ** 2;
  const polynomial = [
    p,
    v,
    a,
    (10 * position - 4 * velocity + acceleration / 2) / T ** 3,
    (-15 * position + 7 * velocity - acceleration) / T ** 4,
    (6 * position - 3 * velocity + acceleration / 2) / T ** 5,
  ];
  return { duration_s, polynomial };
}

const difference = (one: State, other: State): State => ({
  position: one.position - other.position,
  velocity: one.velocity - other.velocity,
  acceleration: one.acceleration - other.acceleration,
  jerk: one.jerk - other.jerk,
});

/** The largest that is met at the ends and at eight places within each segment; enough to say what is small beside it. */
export function largestOf(motion: Motion, kind: (typeof kinds)[number]): number {
  const sizes = (segment: Segment) =>
    Array.from({ length: 10 }, (_, at) => Math.abs(stateOf(segment, (segment.duration_s * at) / 9)[kind]));
  return Math.max(0, ...motion.flatMap(sizes));
}
