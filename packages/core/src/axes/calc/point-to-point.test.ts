// Moves from rest to rest: seeded random moves keep their limits, and the published distinction of cases as second method.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { brokenJoins } from './join.ts';
import {
  moveKernels,
  smoothTurnAcceleration,
  smoothTurnTime,
  smoothTurnVelocity,
  steppedTurnTime,
  steppedTurnVelocity,
} from './move-time.ts';
import { type SmoothLimits, smoothMove, steppedMove, timedMove } from './point-to-point.ts';
import { chain, type Motion, span_s, stateAt, stateOf } from './segment.ts';

const seed = 20;
const slack = 1 + 1e-9;

/** Numbers spread evenly over the powers of ten, so that each limit is met in its turn. */
const spread = (random: () => number) => 10 ** (-2 + 4 * random());

function draw(random: () => number) {
  const limits = { velocity: spread(random), acceleration: spread(random), jerk: 10 * spread(random) };
  return { stroke: (random() < 0.5 ? -1 : 1) * spread(random), limits };
}

/** The cases as they are published; `stepped` for limits of velocity and acceleration alone. */
function publishedTime_s(L: number, { velocity: v, acceleration: a, jerk: j }: SmoothLimits): number {
  const ramps = v * j >= a ** 2 ? a / j + v / a : 2 * Math.sqrt(v / j);
  if (L >= v * ramps) return ramps + L / v;
  if (L < (2 * a ** 3) / j ** 2) return 4 * Math.cbrt(L / (2 * j));
  const reached = (-(a ** 2) / j + Math.sqrt((a ** 2 / j) ** 2 + 4 * a * L)) / 2;
  return 2 * (a / j + reached / a);
}
const publishedSteppedTime_s = (L: number, v: number, a: number): number =>
  L >= v ** 2 / a ? L / v + v / a : 2 * Math.sqrt(L / a);

function smoothTime_s(L: number, { velocity, acceleration, jerk }: SmoothLimits): number {
  const peak = moveKernels.smoothAcceleration(L, velocity, acceleration, jerk);
  return moveKernels.smoothTime_s(L, moveKernels.smoothVelocity(L, velocity, peak, jerk), peak, jerk);
}

/** The states at which a motion of constant jerk or acceleration can be fastest: both sides of each breakpoint. */
const extremes = (motion: Motion) => motion.flatMap((each) => [stateOf(each, 0), stateOf(each, each.duration_s)]);

describe('moves from rest to rest', () => {
  it('keep their limits, cover the stroke and do not jump: 100 000 random moves with limited jerk', () => {
    const random = seeded(seed);
    const wrong: string[] = [];
    const pieces = new Map<number, number>();
    for (let run = 0; run < 100_000; run++) {
      const { stroke, limits } = draw(random);
      const motion = chain(smoothMove(stroke, limits));
      const states = extremes(motion);
      const last = states.at(-1)!;
      pieces.set(motion.length, (pieces.get(motion.length) ?? 0) + 1);
      const said: readonly (readonly [string, boolean])[] = [
        ['velocity', states.every((state) => Math.abs(state.velocity) <= limits.velocity * slack)],
        ['acceleration', states.every((state) => Math.abs(state.acceleration) <= limits.acceleration * slack)],
        ['jerk', states.every((state) => Math.abs(state.jerk) <= limits.jerk * slack)],
        ['direction', states.every((state) => state.velocity * Math.sign(stroke) >= -1e-9 * limits.velocity)],
        ['stroke', Math.abs(last.position - stroke) <= 1e-9 * Math.abs(stroke)],
        ['rest', Math.abs(last.velocity) <= 1e-9 * limits.velocity],
        ['end', Math.abs(last.acceleration) <= 1e-9 * limits.acceleration],
        ['pieces', motion.every((each) => each.duration_s > 1e-12 * span_s(motion))],
        ['joins', run % 10 > 0 || brokenJoins(motion, 'acceleration').length === 0],
        ['time', Math.abs(span_s(motion) / smoothTime_s(Math.abs(stroke), limits) - 1) <= 1e-9],
      ];
      for (const [what, holds] of said)
        if (!holds) wrong.push(`seed ${seed}, run ${run}, ${what}: ${JSON.stringify({ stroke, limits })}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
    for (const count of [4, 5, 6, 7]) expect(pieces.get(count)).toBeGreaterThan(100);
  });

  it('are never slower than with lower limits, and never quicker than a stepped acceleration', () => {
    const random = seeded(seed + 1);
    const wrong: string[] = [];
    for (let run = 0; run < 100_000; run++) {
      const { stroke, limits } = draw(random);
      const L = Math.abs(stroke);
      const lower = {
        velocity: limits.velocity * (random() < 0.3 ? 1 : random()),
        acceleration: limits.acceleration * (random() < 0.3 ? 1 : random()),
        jerk: limits.jerk * (random() < 0.3 ? 1 : random()),
      };
      const time = smoothTime_s(L, limits);
      if (
        time > smoothTime_s(L, lower) * slack ||
        time * slack < publishedSteppedTime_s(L, limits.velocity, limits.acceleration)
      )
        wrong.push(`seed ${seed + 1}, run ${run}: ${JSON.stringify({ L, limits, lower })}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it('the published distinction of cases gives the same times', () => {
    const random = seeded(seed + 2);
    let furthest = 0;
    for (let run = 0; run < 20_000; run++) {
      const { stroke, limits } = draw(random);
      const L = Math.abs(stroke);
      const { velocity: v, acceleration: a } = limits;
      const stepped = moveKernels.steppedTime_s(L, moveKernels.steppedVelocity(L, v, a, a), a, a);
      furthest = Math.max(
        furthest,
        Math.abs(smoothTime_s(L, limits) / publishedTime_s(L, limits) - 1),
        Math.abs(stepped / publishedSteppedTime_s(L, v, a) - 1),
      );
    }
    expect(furthest).toBeLessThan(1e-9);
  });

  it('keep their limits with different ramps: 20 000 random moves with stepped acceleration', () => {
    const random = seeded(seed + 3);
    const wrong: string[] = [];
    for (let run = 0; run < 20_000; run++) {
      const stroke = draw(random).stroke;
      const limits = { velocity: spread(random), acceleration: spread(random), deceleration: spread(random) };
      const motion = chain(steppedMove(stroke, limits, 3));
      const states = extremes(motion);
      const last = states.at(-1)!;
      const fits =
        states.every(
          ({ velocity, acceleration }) =>
            Math.abs(velocity) <= limits.velocity * slack &&
            acceleration * Math.sign(stroke) <= limits.acceleration * slack &&
            -acceleration * Math.sign(stroke) <= limits.deceleration * slack,
        ) &&
        Math.abs(last.position - 3 - stroke) <= 1e-9 * (3 + Math.abs(stroke)) &&
        Math.abs(last.velocity) <= 1e-9 * limits.velocity &&
        brokenJoins(motion, 'velocity').length === 0;
      if (!fits) wrong.push(`seed ${seed + 3}, run ${run}: ${JSON.stringify({ stroke, limits })}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it('run backwards in time are the same moves', () => {
    const random = seeded(seed + 4);
    for (let run = 0; run < 1000; run++) {
      const { stroke, limits } = draw(random);
      const { velocity, acceleration } = limits;
      const motions = [
        smoothMove(stroke, limits),
        steppedMove(stroke, { velocity, acceleration, deceleration: acceleration }),
      ];
      for (const motion of motions.map((pieces) => chain(pieces))) {
        const T = span_s(motion);
        const t = random() * T;
        const [one, other] = [stateAt(motion, t), stateAt(motion, T - t)];
        expect(Math.abs(one.position + other.position - stroke)).toBeLessThan(1e-9 * Math.abs(stroke));
        expect(Math.abs(one.velocity - other.velocity)).toBeLessThan(1e-9 * velocity);
      }
    }
  });

  it('in a given time: the thirds need 1.5 times the mean velocity and 4.5 of the stroke over the time squared', () => {
    const motion = chain(timedMove(-6, 0.5, undefined, 2));
    expect(span_s(motion)).toBeCloseTo(0.5, 14);
    expect(stateAt(motion, 0.25).velocity).toBeCloseTo((-1.5 * 6) / 0.5, 12);
    expect(stateAt(motion, 0).acceleration).toBeCloseTo((-4.5 * 6) / 0.25, 12);
    expect(stateAt(motion, 0.5).position).toBeCloseTo(-4, 12);
    expect(stateAt(motion, 0.5).velocity).toBeCloseTo(0, 12);
    expect(chain(timedMove(1, 2, { up: 0.5, down: 0.5 }))).toHaveLength(2);
    const uneven = chain(timedMove(1, 2, { up: 0.2, down: 0.5 }));
    expect(brokenJoins(uneven, 'velocity')).toEqual([]);
    expect(stateAt(uneven, 2).position).toBeCloseTo(1, 12);
    expect(stateAt(uneven, 2).velocity).toBeCloseTo(0, 12);
  });

  it('of no stroke have no pieces', () => {
    expect(smoothMove(0, { velocity: 1, acceleration: 1, jerk: 1 })).toEqual([]);
    expect(steppedMove(0, { velocity: 1, acceleration: 1, deceleration: 1 })).toEqual([]);
    expect(timedMove(0, 2, undefined, 3)).toEqual([{ duration_s: 2, polynomial: [3] }]);
  });

  it.each([0, -1, Number.NaN, Infinity])('are refused with a limit or a time of %f', (wrong) => {
    for (const kind of ['velocity', 'acceleration', 'jerk'])
      expect(() => smoothMove(1, { velocity: 1, acceleration: 1, jerk: 1, [kind]: wrong })).toThrow(RangeError);
    for (const kind of ['velocity', 'acceleration', 'deceleration'])
      expect(() => steppedMove(1, { velocity: 1, acceleration: 1, deceleration: 1, [kind]: wrong })).toThrow(
        RangeError,
      );
    expect(() => timedMove(1, wrong)).toThrow(RangeError);
    expect(() => timedMove(1, 1, { up: wrong, down: 0.5 })).toThrow(RangeError);
    expect(() => timedMove(1, 1, { up: 0.6, down: 0.5 })).toThrow(RangeError);
  });

  it('in rad take the times of moves in m', () => {
    const [L, v, a, d, j] = [q(2, 'rad'), q(9, 'rad/s'), q(5, 'rad/s²'), q(7, 'rad/s²'), q(60, 'rad/s³')];
    const p = steppedTurnVelocity({ L, v, a, d }, 'test');
    expect(steppedTurnTime({ L, p, a, d }, 'test').value).toBeCloseTo(
      span_s(chain(steppedMove(2, { velocity: 9, acceleration: 5, deceleration: 7 }))),
      12,
    );
    const peak = smoothTurnAcceleration({ L, v, a, j }, 'test');
    const w = smoothTurnVelocity({ L, v, p: peak, j }, 'test');
    expect(smoothTurnTime({ L, w, p: peak, j }, 'test').value).toBeCloseTo(
      publishedTime_s(2, { velocity: 9, acceleration: 5, jerk: 60 }),
      12,
    );
  });
});
