// Frequencies against eigenvalues, found by rotations, and stiffness in series against the equations of its chain, solved.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import type { Quantity } from '../../working/quantity.ts';
import { q } from '../../working/testing.support.ts';
import {
  antiresonance,
  backlashAngle,
  backlashWay,
  beltStiffness,
  lostAngle,
  lostWay,
  resonance,
  rodStiffness,
  seriesStiffness,
  seriesStiffnessOfWay,
  shaftStiffness,
  stiffnessAtScrew,
  stiffnessOnWheel,
  usableBandwidth,
  usableShares,
  wantedBandwidth,
  windUpAngle,
  windUpWay,
} from './stiffness.ts';

const about = 'test';
const random = seeded(3);
const between = (least: number, most: number) => least + (most - least) * random();

type Matrix = readonly (readonly number[])[];

/** Stiffness of a chain of bodies, a spring between each two, the body before the first held fast where it has a spring. */
function chainOf(springs: readonly number[], holds: number): Matrix {
  const after = [...springs, 0];
  const before = [holds, ...springs];
  return after.map((_, row) =>
    after.map((_, column) => {
      if (row === column) return before[row]! + after[row]!;
      return Math.abs(row - column) === 1 ? -springs[Math.min(row, column)]! : 0;
    }),
  );
}

/** Frequencies in Hz of bodies and springs: Jacobi's rotations of the stiffness over the roots of both inertias. */
function frequencies(springs: Matrix, inertias: readonly number[]): readonly number[] {
  const n = inertias.length;
  const a = springs.map((row, i) => row.map((each, j) => each / Math.sqrt(inertias[i]! * inertias[j]!)));
  for (let sweep = 0; sweep < 60; sweep++)
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) {
        const angle = Math.atan2(2 * a[i]![j]!, a[j]![j]! - a[i]![i]!) / 2;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        for (let k = 0; k < n; k++) {
          const [x, y] = [a[k]![i]!, a[k]![j]!];
          [a[k]![i], a[k]![j]] = [c * x - s * y, s * x + c * y];
        }
        for (let k = 0; k < n; k++) {
          const [x, y] = [a[i]![k]!, a[j]![k]!];
          [a[i]![k], a[j]![k]] = [c * x - s * y, s * x + c * y];
        }
      }
  return a.map((row, i) => Math.sqrt(Math.max(0, row[i]!)) / (2 * Math.PI)).toSorted((one, other) => one - other);
}

const pair = (K: number, M: number, J: number) => ({
  low: antiresonance({ K: q(K, 'N·m/rad'), J: q(J, 'kg·m²') }, about),
  high: resonance({ K: q(K, 'N·m/rad'), M: q(M, 'kg·m²'), J: q(J, 'kg·m²') }, about),
});

const series = (springs: readonly number[], ratios: readonly number[]) =>
  seriesStiffness({ K: springs.map((each) => q(each, 'N·m/rad')), r: ratios.map((each) => q(each, '1')) }, about);

describe('two masses', () => {
  it.each([
    [2000, 1e-3, 5e-3, 100.66, 246.56, 0.005],
    [2000, 1e-4, 2e-3, 159, 729, 0.5],
    [50, 1e-4, 2e-3, 25, 115, 0.5],
  ])('derived: %f N·m/rad between %f and %f kg·m² have %f and %f Hz', (K, M, J, low, high, half) => {
    const found = pair(K, M, J);
    expect(Math.abs(found.low.value - low)).toBeLessThan(half);
    expect(Math.abs(found.high.value - high)).toBeLessThan(half);
  });

  it('two masses and a spring have the frequencies of their eigenvalues: seeded random ones', () => {
    for (let round = 0; round < 50; round++) {
      const [K, M, J] = [between(10, 1e5), between(1e-5, 0.1), between(1e-4, 1)];
      const { low, high } = pair(K, M, J);
      const free = frequencies(chainOf([K], 0), [M, J]);
      expect(free[0]! / free[1]!).toBeLessThan(1e-6);
      expect(high.value / free[1]!).toBeCloseTo(1, 9);
      // With the motor held fast the load alone is left, on the spring that holds it.
      expect(low.value / frequencies(chainOf([], K), [J])[0]!).toBeCloseTo(1, 9);
    }
  });

  it('one ratio of inertias is fine on a stiff train and poor on a belt', () => {
    const [stiff, soft] = [2000, 50].map((K) =>
      [usableShares.usual, usableShares.most].map(
        (share) => usableBandwidth({ s: q(share, '1'), f: pair(K, 1e-4, 2e-3).low }, about).value,
      ),
    );
    expect(stiff!.map(Math.round)).toEqual([53, 80]);
    expect(soft!.map(Math.round)).toEqual([8, 13]);
  });

  it('swing as a chain does whose parts between them weigh nothing: the lowest of many eigenvalues', () => {
    const springs = [3000, 700, 12_000, 1500];
    const one = series(
      springs,
      springs.map(() => 1),
    ).value;
    const many = frequencies(chainOf(springs, 0), [2e-3, 1e-11, 1e-11, 1e-11, 8e-3]);
    expect(pair(one, 2e-3, 8e-3).high.value / many[1]!).toBeCloseTo(1, 6);
  });
});

describe('a chain of springs and ratios', () => {
  /** Turning at the tool under a torque there, the motor held fast, by the equations of all shafts, eliminated. */
  function turned(springs: readonly number[], ratios: readonly number[], torque: number): number {
    // Unknowns are the angles behind each spring, at the tool's speed; each spring works at its own shaft.
    const n = springs.length;
    const atTool = springs.map((each, at) => each * ratios[at]! * ratios[at]!);
    const rows = chainOf(atTool.slice(1), atTool[0]!).map((row, at) => [...row, at === n - 1 ? torque : 0]);
    for (let pivot = 0; pivot < n; pivot++)
      for (let row = pivot + 1; row < n; row++) {
        const factor = rows[row]![pivot]! / rows[pivot]![pivot]!;
        rows[row] = rows[row]!.map((each, column) => each - factor * rows[pivot]![column]!);
      }
    return rows[n - 1]![n]! / rows[n - 1]![n - 1]!;
  }

  it('a chain of springs and ratios gives way as its equations say: seeded random ones', () => {
    for (let round = 0; round < 30; round++) {
      const springs = Array.from({ length: 1 + Math.floor(5 * random()) }, () => between(10, 1e5));
      const ratios = springs.map(() => between(0.2, 20));
      const due = turned(springs, ratios, 7);
      expect(7 / series(springs, ratios).value / due).toBeCloseTo(1, 9);
      const parts = {
        T: ratios.map((each) => q(7 / each, 'N·m')),
        K: springs.map((each) => q(each, 'N·m/rad')),
      };
      expect(windUpAngle({ ...parts, r: ratios.map((each) => q(each, '1')) }, about).value / due).toBeCloseTo(1, 9);
      // A tool that goes straight on has ratios by way, and a force in place of the torque.
      const r = ratios.map((each) => q(each, '1/m'));
      expect(windUpWay({ ...parts, r }, about).value / due).toBeCloseTo(1, 9);
      expect(7 / seriesStiffnessOfWay({ K: parts.K, r }, about).value / due).toBeCloseTo(1, 9);
    }
  });

  it('of equal springs gives way as often as they are, in any order, seen from any shaft', () => {
    expect(series([600, 600, 600], [1, 1, 1]).value).toBeCloseTo(200, 9);
    expect(series([], []).value).toBe(Infinity);
    expect(series([600, Infinity], [1, 3]).value).toBeCloseTo(600, 9);
    const [springs, ratios] = [
      [100, 2000, 350],
      [1, 7, 0.5],
    ];
    const here = series(springs!, ratios!).value;
    expect(series(springs!.toReversed(), ratios!.toReversed()).value).toBeCloseTo(here, 9);
    const elsewhere = series(
      springs!,
      ratios!.map((each) => each / 4),
    ).value;
    expect(elsewhere).toBeCloseTo(here / 16, 9);
    // Frequencies do not care about the shaft that they are reckoned at: inertias go with the square as well.
    expect(pair(elsewhere, 1e-3 / 16, 5e-3 / 16).high.value).toBeCloseTo(pair(here, 1e-3, 5e-3).high.value, 9);
  });

  it('play of each part is seen at the tool, on top of the wind-up', () => {
    // A gear of 5 with play on its slow side, and a coupling before it, both seen from behind the gear.
    const β = [q(0.002, 'rad'), q(0.01, 'rad')];
    const angle = backlashAngle({ β, r: [q(1, '1'), q(5, '1')] }, about);
    expect(angle.value).toBeCloseTo(0.004, 12);
    const way = backlashWay({ β, r: [q(1, '1/m'), q(5, '1/m')] }, about);
    expect(way.value).toBe(angle.value);
    expect(lostAngle({ w: q(0.001, 'rad'), β: angle }, about).value).toBeCloseTo(0.005, 12);
    expect(lostWay({ w: q(0.001, 'm'), β: way }, about).value).toBeCloseTo(0.005, 12);
  });
});

describe('a part', () => {
  it('what gives way keeps its energy through wheel and screw', () => {
    const k = q(4e5, 'N/m');
    const energy = (K: Quantity<'N·m/rad'>, angle: number) => (K.value * angle ** 2) / 2;
    const [D, p, angle] = [0.08, 0.01, 0.003];
    expect(energy(stiffnessOnWheel({ k, D: q(D, 'm') }, about), angle)).toBeCloseTo(2e5 * ((angle * D) / 2) ** 2, 12);
    const way = (angle / (2 * Math.PI)) * p;
    expect(energy(stiffnessAtScrew({ k, p: q(p, 'm') }, about), angle)).toBeCloseTo(2e5 * way ** 2, 12);
  });

  it('elongation under a force is what gives way: of a rod, and of both strands of a belt', () => {
    const [E, d, l] = [2.1e11, 0.02, 0.8];
    const section = (Math.PI / 4) * d ** 2;
    const rod = rodStiffness({ E: q(E, 'Pa'), d: q(d, 'm'), l: q(l, 'm') }, about).value;
    expect(1000 / rod).toBeCloseTo((1000 / section / E) * l, 15);
    const strands = { E: q(E, 'Pa'), A: q(section, 'm²'), l: q(l, 'm') };
    const belt = (other: number) => beltStiffness({ ...strands, u: q(other, 'm') }, about).value;
    expect(belt(l) / rod).toBeCloseTo(2, 12);
    // Moved by a little, one strand pulls more and the other less: together what the belt holds against.
    const force = (moved: number) => E * section * ((0.001 + moved) / l - (0.002 - moved) / 2.5);
    expect((force(1e-4) - force(0)) / 1e-4 / belt(2.5)).toBeCloseTo(1, 9);
  });

  it('rings of a shaft add up to its stiffness', () => {
    const [G, l, D, d, rings] = [8e10, 0.5, 0.05, 0.02, 20_000];
    const width = (D - d) / 2 / rings;
    let sum = 0;
    for (let at = 0; at < rings; at++) {
      const r = d / 2 + (at + 0.5) * width;
      // A ring twisted by 1 rad is sheared by r/l; its stress acts on its section at its radius.
      sum += G * (r / l) * (2 * Math.PI * r * width) * r;
    }
    const K = shaftStiffness({ G: q(G, 'Pa'), D: q(D, 'm'), d: q(d, 'm'), l: q(l, 'm') }, about).value;
    expect(K / sum).toBeCloseTo(1, 7);
  });
});

it('a position loop around a speed loop four times as quick does not overshoot', () => {
  // x'' = ω·(k·(1 − x) − x'), by small steps: a damping of √(ω/k)/2, which is 1 at four times.
  const overshoot = (times: number): number => {
    const [k, dt_s] = [50, 1e-5];
    const loop_rad_per_s = wantedBandwidth({ n: q(times, '1'), k: q(k, '1/s') }, 'test').value * 2 * Math.PI;
    let [x, v, most] = [0, 0, 0];
    for (let step = 0; step < 40_000; step++) {
      v += loop_rad_per_s * (k * (1 - x) - v) * dt_s;
      x += v * dt_s;
      most = Math.max(most, x);
    }
    return most - 1;
  };
  expect(overshoot(4)).toBeLessThan(1e-4);
  expect(overshoot(2)).toBeGreaterThan(0.02);
});
