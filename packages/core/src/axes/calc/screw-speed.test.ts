// Critical speeds against the bending beam integrated from end to end, and against its characteristic equations.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { criticalScrewSpeed, type EndFixing, endFixings } from './screw-speed.ts';

const { cos, cosh, sin, sinh } = Math;

/** The only root between two places at which a function has different signs. */
function root(of: (x: number) => number, low: number, high: number): number {
  const sign = Math.sign(of(low));
  expect(Math.sign(of(high))).toBe(-sign);
  for (let step = 0; step < 80; step++) {
    const middle = (low + high) / 2;
    if (Math.sign(of(middle)) === sign) low = middle;
    else high = middle;
  }
  return low;
}

it('numbers of end fixings solve the characteristic equations', () => {
  const equations: Readonly<Record<EndFixing, (x: number) => number>> = {
    fixed_free: (x) => cos(x) * cosh(x) + 1,
    supported_supported: sin,
    fixed_supported: (x) => sin(x) * cosh(x) - cos(x) * sinh(x),
    fixed_fixed: (x) => cos(x) * cosh(x) - 1,
  };
  for (const [fixing, of] of Object.entries(equations)) {
    const number = endFixings[fixing as EndFixing];
    expect(root(of, number - 0.5, number + 0.5)).toBeCloseTo(number, 12);
    // It is the first one: nearer to 0 the equation has no change of sign.
    const signs = Array.from({ length: 100 }, (_, at) => Math.sign(of(((at + 2) / 103) * number)));
    expect(new Set(signs).size).toBe(1);
  }
});

/** Deflection, slope, bending moment and shear force: which of them are nothing at an end. */
const held = { free: [2, 3], supported: [0, 2], fixed: [0, 1] } as const;
type Held = keyof typeof held;

it('a beam that is integrated from end to end swings at the critical speed of a screw', () => {
  const [E, ρ, d, l] = [206e9, 7850, 0.0174, 1.23];
  const [stiffness, mass] = [(E * Math.PI * d ** 4) / 64, (ρ * Math.PI * d ** 2) / 4];
  const slope = (ω: number, [w, v, M, Q]: readonly number[]) => [v!, M! / stiffness, Q!, mass * ω ** 2 * w!];
  const plus = (a: readonly number[], k: number, b: readonly number[]) => a.map((each, at) => each + k * b[at]!);
  const carried = (ω: number, start: readonly number[]) => {
    let state = start;
    const h = l / 200;
    for (let step = 0; step < 200; step++) {
      const k1 = slope(ω, state);
      const k2 = slope(ω, plus(state, h / 2, k1));
      const k3 = slope(ω, plus(state, h / 2, k2));
      const k4 = slope(ω, plus(state, h, k3));
      state = plus(plus(plus(plus(state, h / 6, k1), h / 3, k2), h / 3, k3), h / 6, k4);
    }
    return state;
  };
  /** Nothing where a motion that keeps both conditions at one end can keep both at the other. */
  const determinant = (ω: number, from: Held, to: Held) => {
    const ends = [0, 1, 2, 3]
      .filter((at) => !(held[from] as readonly number[]).includes(at))
      .map((at) =>
        carried(
          ω,
          [0, 1, 2, 3].map((each) => (each === at ? 1 : 0)),
        ),
      );
    const [one, other] = held[to];
    return ends[0]![one]! * ends[1]![other]! - ends[0]![other]! * ends[1]![one]!;
  };
  for (const [fixing, λ] of Object.entries(endFixings)) {
    const [from, to] = fixing.split('_') as [Held, Held];
    const inputs = { λ: q(λ, '1'), d: q(d, 'm'), l: q(l, 'm'), E: q(E, 'Pa'), ρ: q(ρ, 'kg/m³') };
    const ω = criticalScrewSpeed(inputs, 'test').value;
    const swing = root((each) => determinant(each, from, to), 0.6 * ω, 1.4 * ω);
    expect(swing / ω).toBeCloseTo(1, 7);
  }
});
