// Motion laws against published coefficients and closed forms. Tolerance: half a unit of the last printed digit.
import { describe, expect, it } from 'vitest';
import { familyPeak, type LawName, lawAt, lawNames, motionLaws } from './motion-law.ts';

const { PI: π, sin, SQRT2, sqrt } = Math;

describe('VDI 2143 practice: coefficients of the normalised laws', () => {
  const rows: readonly (readonly [LawName, number, number, number, number, number])[] = [
    ['constant_acceleration', 2, 4, Infinity, 8, 4],
    ['simple_harmonic', 1.570796, 4.934802, Infinity, 3.875785, 3.489432],
    ['cycloidal', 2, 6.283185, 39.478418, 8.162097, 4.442883],
    ['modified_trapezoid', 2, 4.888124, 61.425975, 8.089981, 4.233239],
    ['modified_sine', 1.759603, 5.527957, 69.466357, 5.457753, 3.908856],
    ['polynomial_345', 1.875, 5.773503, 60, 6.694269, 4.140393],
    ['polynomial_4567', 2.1875, 7.513188, 52.5, 10.750226, 5.04525],
  ];

  it('has every law', () => expect(rows.map(([law]) => law)).toEqual(lawNames));

  it.each(rows)('velocity, acceleration, jerk, product and rms of %s', (name, Cv, Ca, Cj, product, rms) => {
    const law = motionLaws[name];
    expect(law.peakVelocity).toBeCloseTo(Cv, 6);
    expect(law.peakAcceleration).toBeCloseTo(Ca, 6);
    expect(law.peakJerk).toBe(Cj === Infinity ? Infinity : law.peakJerkInside);
    if (Cj !== Infinity) expect(law.peakJerkInside).toBeCloseTo(Cj, 6);
    expect(law.peakProduct).toBeCloseTo(product, 6);
    expect(law.rmsAcceleration).toBeCloseTo(rms, 6);
  });

  it('jerk of the simple harmonic law within its stroke', () =>
    expect(motionLaws.simple_harmonic.peakJerkInside).toBeCloseTo(15.503138, 6));

  it('accelerations of the polynomials as handbooks round them, 5.777 and 7.526, to 0.2 %', () => {
    expect(Math.abs(motionLaws.polynomial_345.peakAcceleration / 5.777 - 1)).toBeLessThan(0.002);
    expect(Math.abs(motionLaws.polynomial_4567.peakAcceleration / 7.526 - 1)).toBeLessThan(0.002);
  });

  it('closed forms', () => {
    const { cycloidal, modified_trapezoid, modified_sine, polynomial_4567, simple_harmonic } = motionLaws;
    const pairs = [
      [simple_harmonic.peakAcceleration, π ** 2 / 2],
      [cycloidal.peakJerk, 4 * π ** 2],
      [modified_trapezoid.peakAcceleration, (8 * π) / (2 + π)],
      [modified_trapezoid.peakJerk, (32 * π ** 2) / (2 + π)],
      [modified_sine.peakVelocity, (4 * π) / (4 + π)],
      [modified_sine.peakAcceleration, (4 * π ** 2) / (4 + π)],
      [modified_sine.peakJerk, (16 * π ** 3) / (4 + π)],
      [modified_sine.rmsAcceleration, modified_sine.peakAcceleration / SQRT2],
      [modified_trapezoid.rmsAcceleration, (modified_trapezoid.peakAcceleration * sqrt(3)) / 2],
      [polynomial_4567.peakAcceleration, (84 * sqrt(5)) / 25],
    ] as const;
    for (const [law, form] of pairs) expect(Math.abs(law / form - 1)).toBeLessThan(1e-14);
  });
});

describe('the sine, constant, cosine family: one formula for five laws', () => {
  it.each<readonly [LawName, number, number, number]>([
    ['constant_acceleration', 0, 0, 4],
    ['modified_trapezoid', 1 / 4, 1 / 4, 4.888124],
    ['simple_harmonic', 0, 1, 4.934802],
    ['modified_sine', 1 / 4, 3 / 4, 5.527957],
    ['cycloidal', 1 / 2, 1 / 2, 6.283185],
  ])('peak acceleration of %s', (law, b, d, peak) => {
    expect(familyPeak(b, d)).toBeCloseTo(peak, 6);
    expect(familyPeak(b, d) / motionLaws[law].peakAcceleration).toBeCloseTo(1, 14);
  });
});

describe('position, velocity and acceleration at 0.1, 0.25 and 0.4, by the closed forms of the laws', () => {
  it.each<readonly [LawName, number, number, number, number]>([
    ['cycloidal', 0.1, 0.006451072, 0.190983006, 3.693163661],
    ['cycloidal', 0.25, 0.090845057, 1, 6.283185307],
    ['cycloidal', 0.4, 0.306451072, 1.809016994, 3.693163661],
    ['modified_sine', 0.1, 0.010697213, 0.303964009, 5.257399594],
    ['modified_sine', 0.25, 0.117178485, 1.099752116, 4.787351254],
    ['modified_sine', 0.4, 0.327865188, 1.645509107, 2.248422702],
    ['polynomial_345', 0.1, 0.00856, 0.243, 4.32],
    ['polynomial_345', 0.25, 0.103515625, 1.0546875, 5.625],
    ['polynomial_345', 0.4, 0.31744, 1.728, 2.88],
  ])('%s at %f', (law, x, position, velocity, acceleration) => {
    const state = lawAt(law, x);
    expect(state.position).toBeCloseTo(position, 9);
    expect(state.velocity).toBeCloseTo(velocity, 9);
    expect(state.acceleration).toBeCloseTo(acceleration, 9);
  });
});

describe('Rothbart, Cam Design Handbook: closed forms, exact', () => {
  const shares = Array.from({ length: 201 }, (_, index) => index / 200);

  it('modified sine, all three parts', () => {
    const k = 4 + π;
    for (const x of shares) {
      const middle = (2 + π * x - (9 / 4) * sin((4 * π * x) / 3 + π / 3)) / k;
      const outer = ((x < 1 / 2 ? 0 : 4) + π * x - sin(4 * π * x) / 4) / k;
      expect(lawAt('modified_sine', x).position).toBeCloseTo(x > 1 / 8 && x < 7 / 8 ? middle : outer, 14);
    }
  });

  it('modified sine, jerk at the crossing 23.155452', () =>
    expect(lawAt('modified_sine', 0.5).jerk).toBeCloseTo(-23.155452, 6));

  it('modified trapezoid, the first part, the acceleration of the second and the mirror image of both', () => {
    const A = (8 * π) / (2 + π);
    for (const x of shares.filter((share) => share <= 1 / 8)) {
      const form = A * (x / (4 * π) - sin(4 * π * x) / (16 * π ** 2));
      expect(lawAt('modified_trapezoid', x).position).toBeCloseTo(form, 14);
      expect(1 - lawAt('modified_trapezoid', 1 - x).position).toBeCloseTo(form, 14);
    }
    for (const x of shares.filter((share) => share > 1 / 8 && share < 3 / 8)) {
      expect(lawAt('modified_trapezoid', x).acceleration).toBe(A);
      expect(lawAt('modified_trapezoid', 1 - x).acceleration).toBe(-A);
    }
  });
});
