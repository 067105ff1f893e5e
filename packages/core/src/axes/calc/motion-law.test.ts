// Motion laws by second methods: search, differences, sums; and what each law must do at its ends and in its middle.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { integral, rms } from './integral.ts';
import { brokenJoins } from './join.ts';
import {
  lawAcceleration,
  lawJerk,
  lawTurningAcceleration,
  lawTurningJerk,
  lawTurningVelocity,
  lawVelocity,
} from './law-peaks.ts';
import { lawAt, lawNames, lawPieces, motionLaws } from './motion-law.ts';
import { breakpoints_s, chain, stateAt } from './segment.ts';

const parts = 20_000;
/** The middles of many equal parts of the stroke. */
const shares = Array.from({ length: parts }, (_, index) => (index + 0.5) / parts);
const near = (value: number, expected: number, share: number) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));

describe('motion laws', () => {
  it.each(lawNames)('peaks of a law searched finely over its stroke: %s', (name) => {
    const law = motionLaws[name];
    const [stroke, time] = [0.3, 0.2];
    const motion = chain(lawPieces(name, stroke, time));
    const states = [...shares, ...breakpoints_s(law.unit)].map((x) => stateAt(motion, x * time));
    const most = (of: (state: (typeof states)[number]) => number) =>
      Math.max(...states.map((each) => Math.abs(of(each))));
    const [h, T] = [q(stroke, 'm'), q(time, 's')];
    const C = (value: number) => q(value, '1');
    const velocity = lawVelocity({ C: C(law.peakVelocity), h, T }, 'test').value;
    const acceleration = lawAcceleration({ C: C(law.peakAcceleration), h, T }, 'test').value;
    const jerk = lawJerk({ C: C(law.peakJerkInside), h, T }, 'test').value;
    near(
      most((state) => state.velocity),
      velocity,
      1e-7,
    );
    near(
      most((state) => state.acceleration),
      acceleration,
      1e-7,
    );
    near(
      most((state) => state.jerk),
      jerk,
      1e-7,
    );
    near(
      most((state) => state.velocity * state.acceleration),
      (law.peakProduct * stroke ** 2) / time ** 3,
      1e-3 / parts,
    );
    const turn = q(stroke, 'rad');
    expect(lawTurningVelocity({ C: C(law.peakVelocity), h: turn, T }, 'test').value).toBe(velocity);
    expect(lawTurningAcceleration({ C: C(law.peakAcceleration), h: turn, T }, 'test').value).toBe(acceleration);
    expect(lawTurningJerk({ C: C(law.peakJerkInside), h: turn, T }, 'test').value).toBe(jerk);
  });

  it.each(lawNames)('acceleration summed twice in small steps gives velocity and position: %s', (name) => {
    let [position, velocity] = [0, 0];
    for (const [index, x] of shares.entries()) {
      const { acceleration } = lawAt(name, x);
      position += velocity / parts + acceleration / (2 * parts ** 2);
      velocity += acceleration / parts;
      if (index % 1000 !== 999) continue;
      const state = lawAt(name, (index + 1) / parts);
      expect(Math.abs(position - state.position)).toBeLessThan(1e-7);
      expect(Math.abs(velocity - state.velocity)).toBeLessThan(1e-7);
    }
  });

  it.each(lawNames)('jerk is the slope of the acceleration by differences: %s', (name) => {
    const breaks = breakpoints_s(motionLaws[name].unit);
    const step = 1e-5;
    for (const x of shares.filter((_, index) => index % 97 === 0)) {
      if (breaks.some((each) => Math.abs(each - x) <= step)) continue;
      const slope = (lawAt(name, x + step).acceleration - lawAt(name, x - step).acceleration) / (2 * step);
      expect(Math.abs(slope - lawAt(name, x).jerk)).toBeLessThan(1e-6);
    }
  });

  it.each(lawNames)('rms of the acceleration by quadrature and by sums: %s', (name) => {
    const { rmsAcceleration, unit } = motionLaws[name];
    near(
      rms(unit, (state) => state.acceleration),
      rmsAcceleration,
      1e-12,
    );
    near(
      Math.sqrt(shares.reduce((sum, x) => sum + lawAt(name, x).acceleration ** 2, 0) / parts),
      rmsAcceleration,
      1e-7,
    );
  });

  it.each(lawNames)('velocity adds up to the stroke, acceleration to nothing: %s', (name) => {
    const { unit } = motionLaws[name];
    expect(integral(unit, (state) => state.velocity)).toBeCloseTo(1, 13);
    expect(integral(unit, (state) => state.acceleration)).toBeCloseTo(0, 13);
  });

  it.each(lawNames)('from rest to rest, point-symmetric about its middle: %s', (name) => {
    const { unit, peakJerk, peakVelocity } = motionLaws[name];
    const [start, end] = [lawAt(name, 0), lawAt(name, 1)];
    expect(start.position).toBeCloseTo(0, 15);
    expect(start.velocity).toBeCloseTo(0, 15);
    expect(end.position).toBeCloseTo(1, 14);
    expect(end.velocity).toBeCloseTo(0, 14);
    expect(lawAt(name, 0.5).position).toBeCloseTo(0.5, 14);
    expect(lawAt(name, 0.5).velocity).toBeCloseTo(peakVelocity, 14);
    if (peakJerk < Infinity) {
      expect(start.acceleration).toBeCloseTo(0, 13);
      expect(end.acceleration).toBeCloseTo(0, 13);
    }
    for (const x of shares.filter((_, index) => index % 199 === 0)) {
      const [one, other] = [lawAt(name, x), lawAt(name, 1 - x)];
      expect(one.position + other.position).toBeCloseTo(1, 13);
      expect(one.velocity).toBeCloseTo(other.velocity, 12);
      expect(one.acceleration).toBeCloseTo(-other.acceleration, 11);
      expect(one.velocity).toBeGreaterThan(0);
    }
    expect(brokenJoins(unit, name === 'constant_acceleration' ? 'velocity' : 'acceleration')).toEqual([]);
  });

  it('the constant acceleration steps in its middle, and nowhere else within', () => {
    expect(brokenJoins(motionLaws.constant_acceleration.unit, 'acceleration').map(({ at_s }) => at_s)).toEqual([0.5]);
  });

  it('has no state beyond its ends', () => {
    for (const x of [-1e-6, 1 + 1e-6, Number.NaN]) expect(() => lawAt('cycloidal', x)).toThrow(RangeError);
  });
});
