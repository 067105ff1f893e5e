// Strokes and dwells over a master's turn against published accelerations.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { dwellRise, masterTime } from './dwell-rise.ts';
import { rms } from './integral.ts';
import { brokenJoins } from './join.ts';
import { lawAcceleration, lawTurningAcceleration, lawTurningVelocity } from './law-peaks.ts';
import { motionLaws } from './motion-law.ts';
import { chain, span_s, stateAt } from './segment.ts';

const degrees = Math.PI / 180;
const perMinute = (2 * Math.PI) / 60;

describe('Sarkar, Theory of Machines, chapter 9: followers in simple harmonic motion', () => {
  const followed = (stroke: number, speed: number, rise: number, fall: number) => {
    const seconds = (angle: number) =>
      masterTime({ φ: q(angle * degrees, 'rad'), ω: q(speed * perMinute, 'rad/s') }, 'test');
    const [up, down] = [seconds(rise), seconds(fall)];
    const C = q(motionLaws.simple_harmonic.peakAcceleration, '1');
    const h = q(stroke, 'm');
    const motion = chain(
      dwellRise([
        { duration_s: up.value, stroke, law: 'simple_harmonic' },
        { duration_s: seconds((360 - rise - fall) / 2).value },
        { duration_s: down.value, stroke: -stroke, law: 'simple_harmonic' },
        { duration_s: seconds((360 - rise - fall) / 2).value },
      ]),
    );
    expect(span_s(motion)).toBeCloseTo(60 / speed, 12);
    expect(brokenJoins(motion, 'velocity')).toEqual([]);
    const peaks = [up, down].map((T) => lawAcceleration({ C, h, T }, 'test').value) as [number, number];
    expect(stateAt(motion, 0).acceleration).toBeCloseTo(peaks[0], 9);
    expect(stateAt(motion, motion[2]!.start_s).acceleration).toBeCloseTo(-peaks[1], 9);
    return peaks;
  };

  it('M1: 40 mm at 300 rpm, rise 60°, return 90°: 177.6 and 78.9 m/s², which the source truncates', () => {
    const [rise, fall] = followed(0.04, 300, 60, 90);
    expect(Math.floor(rise * 10) / 10).toBe(177.6);
    expect(Math.floor(fall * 10) / 10).toBe(78.9);
    expect(rise).toBeCloseTo(177.653, 3);
    expect(fall).toBeCloseTo(78.957, 3);
  });

  it('M2: 50 mm at 100 rpm, 120° and 60°: 6.2 and 24.7 m/s²', () => {
    const [rise, fall] = followed(0.05, 100, 120, 60);
    expect(Math.abs(rise - 6.2)).toBeLessThan(0.05);
    expect(Math.abs(fall - 24.7)).toBeLessThan(0.05);
  });
});

describe('an index table by the modified sine', () => {
  it('M3, derived: 90° in 0.25 s of 0.5 s, 0.5 kg·m²: 69.466 N·m, rms 34.733 N·m, 11.0559 rad/s, 430.93 W', () => {
    const [inertia, stroke, time] = [0.5, Math.PI / 2, 0.25];
    const law = motionLaws.modified_sine;
    const [h, T] = [q(stroke, 'rad'), q(time, 's')];
    const motion = chain(dwellRise([{ duration_s: time, stroke, law: 'modified_sine' }, { duration_s: 0.25 }]));
    const torque = inertia * lawTurningAcceleration({ C: q(law.peakAcceleration, '1'), h, T }, 'test').value;
    expect(torque).toBeCloseTo(69.466, 3);
    expect(inertia * stateAt(motion, time / 8).acceleration).toBeCloseTo(torque, 9);
    expect(rms(motion, (state) => inertia * state.acceleration)).toBeCloseTo(34.733, 3);
    expect(lawTurningVelocity({ C: q(law.peakVelocity, '1'), h, T }, 'test').value).toBeCloseTo(11.0559, 4);
    expect((inertia * law.peakProduct * stroke ** 2) / time ** 3).toBeCloseTo(430.93, 2);
    expect(brokenJoins(motion, 'acceleration')).toEqual([]);
    expect(stateAt(motion, 0.4).position).toBe(stroke);
  });
});
