// Moves from rest to rest against published times.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { rms } from './integral.ts';
import {
  smoothMoveAcceleration,
  smoothMoveTime,
  smoothMoveVelocity,
  steppedMoveTime,
  steppedMoveVelocity,
} from './move-time.ts';
import { smoothMove, steppedMove, timedMove } from './point-to-point.ts';
import { chain, span_s, stateAt } from './segment.ts';

describe('Khurmi and Gupta, Theory of Machines, example 3.2', () => {
  it('P1: a hoist of 100 m, 1.5 m/s² to 10 m/s and 6 m/s² down, takes 14.17 s', () => {
    const [L, v, a, d] = [q(100, 'm'), q(10, 'm/s'), q(1.5, 'm/s²'), q(6, 'm/s²')];
    const p = steppedMoveVelocity({ L, v, a, d }, 'test');
    expect(p.value).toBe(10);
    expect(steppedMoveTime({ L, p, a, d }, 'test').value).toBeCloseTo(14.17, 2);
    const motion = chain(steppedMove(100, { velocity: 10, acceleration: 1.5, deceleration: 6 }));
    expect(span_s(motion)).toBeCloseTo(14.17, 2);
    expect(stateAt(motion, span_s(motion)).position).toBeCloseTo(100, 9);
  });
});

describe('Ruckig test suite, rest to rest', () => {
  const time = (stroke: number, velocity: number, acceleration: number, jerk: number) => {
    const [L, v, a, j] = [q(stroke, 'm'), q(velocity, 'm/s'), q(acceleration, 'm/s²'), q(jerk, 'm/s³')];
    const p = smoothMoveAcceleration({ L, v, a, j }, 'test');
    const w = smoothMoveVelocity({ L, v, p, j }, 'test');
    const motion = chain(smoothMove(stroke, { velocity, acceleration, jerk }));
    const formula = smoothMoveTime({ L, w, p, j }, 'test').value;
    expect(span_s(motion)).toBeCloseTo(formula, 12);
    return { seconds: formula, peak: p.value, motion };
  };

  it('P2: 1 within 1, 1, 1 takes 2·∛4 s', () => {
    expect(time(1, 1, 1, 1).seconds).toBeCloseTo(3.1748021039, 10);
    expect(time(1, 1, 1, 1).seconds).toBeCloseTo(2 * Math.cbrt(4), 14);
  });

  it('P3: 2 within 1, 1, 1 takes 4 s, half way at 2 s', () => {
    const { seconds, motion } = time(2, 1, 1, 1);
    expect(seconds).toBeCloseTo(4, 12);
    expect(stateAt(motion, 2).position).toBeCloseTo(1, 12);
  });

  it.each([
    [0.5, 0.8],
    [0.1, 0.4],
    [0.01, 0.1856635533],
  ])('P4, derived by running it: %f within 1, 5, 50 takes %f s', (stroke, seconds) =>
    expect(time(stroke, 1, 5, 50).seconds).toBeCloseTo(seconds, 10),
  );

  it('P5, derived by running it: 1 within 1, 20, 50 takes 1.2828427125 s, the acceleration peaks at 7.0711', () => {
    const { seconds, peak, motion } = time(1, 1, 20, 50);
    expect(seconds).toBeCloseTo(1.2828427125, 10);
    expect(peak).toBeCloseTo(7.0711, 4);
    expect(stateAt(motion, motion[1]!.start_s).acceleration).toBeCloseTo(7.0711, 4);
  });

  it('P6, derived by running it on inputs read: 30 mm within 20 mm/s, 60 mm/s², 120 mm/s³ takes 2.3164965809 s', () =>
    expect(time(0.03, 0.02, 0.06, 0.12).seconds).toBeCloseTo(2.3164965809, 10));
});

describe('rms of the acceleration of a unit move in unit time', () => {
  const of = (pieces: Parameters<typeof chain>[0]) => rms(chain(pieces), (state) => state.acceleration);
  it('P7, derived: triangle 4, thirds 3.674235, parabola of velocity 3.464102, the least possible', () => {
    expect(of(timedMove(1, 1, { up: 1 / 2, down: 1 / 2 }))).toBeCloseTo(4, 12);
    expect(of(timedMove(1, 1))).toBeCloseTo(3.674235, 6);
    expect(of([{ duration_s: 1, polynomial: [0, 0, 3, -2] }])).toBeCloseTo(3.464102, 6);
    for (let up = 0.05; up <= 0.5; up += 0.05) expect(of(timedMove(1, 1, { up, down: up }))).toBeGreaterThan(3.464102);
  });
});

describe('an index table that turns by a triangle of velocity', () => {
  it('S10, derived: 120° in 0.4 s ask for 52.36 rad/s², four times the stroke over the time squared', () => {
    const motion = chain(timedMove((2 * Math.PI) / 3, 0.4, { up: 1 / 2, down: 1 / 2 }));
    expect(stateAt(motion, 0).acceleration).toBeCloseTo(52.36, 2);
    expect(stateAt(motion, 0.4).position).toBeCloseTo((2 * Math.PI) / 3, 12);
  });
});
