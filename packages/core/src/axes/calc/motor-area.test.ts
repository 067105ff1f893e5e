// Areas of a motor against lines between their corners, the voltage equation and a search through every point.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  areaAtVoltage,
  continuousAt,
  continuousTorqueAt,
  type MotorArea,
  nearestPoint,
  peakAt,
  peakTorqueAt,
  speedAtVoltage,
} from './motor-area.ts';

const about = 'test';
/** Demonstration data. */
const area: MotorArea = {
  torque_Nm: 4.8,
  ratedTorque_Nm: 4.1,
  ratedSpeed_rad_per_s: 314,
  peak_Nm: 14,
  peakUpTo_rad_per_s: 335,
  highest_rad_per_s: 471,
};

/** The height at x of a chain of straight lines through corners. */
function chainAt(corners: readonly (readonly [number, number])[], x: number): number {
  const next = corners.findIndex(([at]) => at >= x);
  if (next === 0) return corners[0]![1];
  const [[a, from], [b, to]] = [corners[next - 1]!, corners[next]!];
  const share = (x - a) / (b - a);
  return (1 - share) * from + share * to;
}

describe('the areas of a motor', () => {
  it('points of both areas lie on lines drawn between their corners', () => {
    const random = seeded(3);
    for (let times = 0; times < 300; times++) {
      const [C, R, r] = [4 + 2 * random(), 1 + 2.9 * random(), 100 + 300 * random()];
      const [P, c, n] = [8 + random(), 150 * random(), 200 + 500 * random()];
      const motor: MotorArea = {
        torque_Nm: C,
        ratedTorque_Nm: R,
        ratedSpeed_rad_per_s: r,
        peak_Nm: P,
        peakUpTo_rad_per_s: c,
        highest_rad_per_s: n,
      };
      // Where the line of heat meets the speed axis.
      const none = (C * r) / (C - R);
      const speed = n * random();
      const ω = q(speed, 'rad/s');
      const lasting =
        speed > none
          ? 0
          : chainAt(
              [
                [0, C],
                [none, 0],
              ],
              speed,
            );
      const brief = chainAt(
        [
          [0, P],
          [c, P],
          [n, R],
        ],
        speed,
      );
      const inputs = { R: q(R, 'N·m'), ω };
      const [T, S] = [
        continuousTorqueAt({ C: q(C, 'N·m'), r: q(r, 'rad/s'), ...inputs }, about).value,
        peakTorqueAt({ P: q(P, 'N·m'), c: q(c, 'rad/s'), n: q(n, 'rad/s'), ...inputs }, about).value,
      ];
      expect([T, continuousAt(motor, speed), continuousAt(motor, -speed)]).toEqual([T, T, T]);
      expect([S, peakAt(motor, speed), peakAt(motor, -speed)]).toEqual([S, S, S]);
      expect(T).toBeCloseTo(lasting, 9);
      expect(S).toBeCloseTo(brief, 9);
    }
  });

  it('meet the stated figures, and end at the highest speed', () => {
    expect([0, 314].map((speed) => continuousAt(area, speed))).toEqual([4.8, 4.1]);
    expect([0, 335, 471].map((speed) => peakAt(area, speed))).toEqual([14, 14, 4.1]);
    expect([continuousAt(area, 471.001), peakAt(area, -471.001)]).toEqual([0, 0]);
    expect(peakAt({ ...area, peakUpTo_rad_per_s: 471 }, 471)).toBe(14);
    const corners = { P: q(14, 'N·m'), R: q(4.1, 'N·m'), c: q(335, 'rad/s'), n: q(471, 'rad/s') };
    expect([471, 471.001, 4710].map((ω) => peakTorqueAt({ ...corners, ω: q(ω, 'rad/s') }, about).value)).toEqual([
      4.1, 0, 0,
    ]);
  });
});

describe('low mains', () => {
  it('a voltage equation gives speeds that go with the voltage', () => {
    // A synchronous motor without resistance: voltage across its reactance stands at a right angle to the induced one.
    const [induced_Vs, inductance_H, torque_per_A] = [0.7, 0.011, 1.2];
    const highest = (volts: number, torque: number) => {
      let [low, high] = [0, 2000];
      for (let step = 0; step < 60; step++) {
        const ω = (low + high) / 2;
        const needed = Math.hypot(induced_Vs * ω, ω * inductance_H * (torque / torque_per_A));
        if (needed < volts) low = ω;
        else high = ω;
      }
      return low;
    };
    for (const torque of [0, 4.1, 14]) {
      const stated = q(highest(230, torque), 'rad/s');
      const low = speedAtVoltage({ ω: stated, u: q(207, 'V'), U: q(230, 'V') }, about).value;
      expect(low).toBeCloseTo(highest(207, torque), 9);
    }
  });

  it('shrink what the voltage bounds, and leave what heat bounds', () => {
    const low = areaAtVoltage(area, 0.9);
    for (const speed of [0, 100, 300, 423]) {
      expect(peakAt(low, speed)).toBeCloseTo(peakAt(area, speed / 0.9), 9);
      expect(continuousAt(low, speed)).toBe(continuousAt(area, speed));
    }
    expect([peakAt(low, 424), continuousAt(low, 424)]).toEqual([0, 0]);
    expect(areaAtVoltage(area, 1)).toEqual(area);
    expect(() => areaAtVoltage(area, 0)).toThrow(RangeError);
  });
});

describe('the nearest point', () => {
  it('has the least margin of all, and its margin is what the motor has over', () => {
    const random = seeded(8);
    for (let times = 0; times < 50; times++) {
      const speeds = Float64Array.from({ length: 40 }, () => 900 * (random() - 0.5));
      const torques = Float64Array.from({ length: 40 }, () => 16 * (random() - 0.5));
      for (const givenAt of [continuousAt, peakAt].map((of) => (speed: number) => of(area, speed))) {
        const found = nearestPoint(givenAt, speeds, torques)!;
        const strained = Array.from(speeds, (speed, at) => Math.abs(torques[at]!) / givenAt(speed));
        expect(found.at).toBe(strained.indexOf(Math.max(...strained)));
        expect(found.margin).toBeCloseTo(1 - Math.max(...strained), 12);
      }
    }
  });

  it('lies beyond the highest speed where one does, and there is none without points', () => {
    const givenAt = (speed: number) => peakAt(area, speed);
    expect(nearestPoint(givenAt, [100, 500, -600], [40, 0, 1])).toEqual({ at: 1, margin: -Infinity });
    expect(nearestPoint(givenAt, [], [])).toBeUndefined();
  });
});
