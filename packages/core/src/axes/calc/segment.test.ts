// Motions: derivatives by differences, quadrature against antiderivatives, joins, and the piece that joins two states.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { gaussLegendre, integral, rms } from './integral.ts';
import { brokenJoins, joinsOf, joinTolerance, quintic } from './join.ts';
import { lawPieces } from './motion-law.ts';
import { breakpoints_s, chain, dwell, type Piece, type State, scaled, span_s, stateAt, stateOf } from './segment.ts';

const random = seeded(7);
const between = (least: number, most: number) => least + (most - least) * random();
const polynomial = (degree: number) => Array.from({ length: degree + 1 }, () => between(-2, 2));
const wave = { amplitude: 0.7, rate_rad_per_s: 9, phase_rad: 0.4 };
const kinds = ['position', 'velocity', 'acceleration', 'jerk'] as const;

describe('motions', () => {
  it('give derivatives that differences of the one before confirm', () => {
    const step = 1e-5;
    for (let degree = 0; degree <= 7; degree++) {
      for (const piece of [
        { duration_s: 1, polynomial: polynomial(degree) },
        { duration_s: 1, polynomial: polynomial(degree), sine: wave },
      ]) {
        const t = between(0.1, 0.9);
        const [before, here, behind] = [t - step, t, t + step].map((each) => stateOf(piece, each)) as [
          State,
          State,
          State,
        ];
        for (const [at, kind] of kinds.slice(1).entries()) {
          const lower = kinds[at]!;
          const slope = (behind[lower] - before[lower]) / (2 * step);
          expect(Math.abs(slope - here[kind])).toBeLessThan(1e-6 * Math.max(1, Math.abs(here[kind])));
        }
      }
    }
  });

  it('are chained without a gap, pieces of no duration falling out', () => {
    const motion = chain([dwell(0.2, 1), dwell(0, 5), ...lawPieces('modified_sine', 2, 0.8, 1), dwell(0.5, 3)], 10);
    expect(breakpoints_s(motion).map((t) => Number(t.toFixed(12)))).toEqual([10, 10.2, 10.3, 10.9, 11, 11.5]);
    expect(span_s(motion)).toBeCloseTo(1.5, 12);
    expect(brokenJoins(motion, 'acceleration')).toEqual([]);
    expect(stateAt(motion, 10.1)).toEqual({ position: 1, velocity: 0, acceleration: 0, jerk: 0 });
    expect(stateAt(motion, 10.6).position).toBeCloseTo(2, 12);
    expect(stateAt(motion, 11.5).position).toBe(3);
    expect(breakpoints_s([])).toEqual([]);
    expect(span_s([])).toBe(0);
  });

  it('take the segment that begins at a breakpoint, and the last one at the end', () => {
    const motion = chain([
      { duration_s: 1, polynomial: [0, 1] },
      { duration_s: 1, polynomial: [1, 2] },
      { duration_s: 1, polynomial: [3, 3] },
    ]);
    expect([0, 0.5, 1, 1.5, 2, 3].map((t) => stateAt(motion, t).velocity)).toEqual([1, 1, 2, 2, 3, 3]);
  });

  it('refuse what no motion can be', () => {
    expect(() => chain([dwell(-1, 0)])).toThrow(RangeError);
    expect(() => chain([dwell(Number.NaN, 0)])).toThrow(RangeError);
    expect(() => chain([dwell(Infinity, 0)])).toThrow(RangeError);
    expect(() => chain([{ duration_s: 1, polynomial: [0, 0, 0, 0, 0, 0, 0, 0, 1] }])).toThrow(/degree 8/);
    expect(() => stateAt([], 0)).toThrow(RangeError);
  });

  it('stretch in position and time as the chain rule says', () => {
    const piece: Piece = { duration_s: 1, polynomial: polynomial(7), sine: wave };
    const [stretched] = scaled([piece], { stroke: -3, time: 0.25, from: 5 });
    const [one, other] = [stateOf(piece, 0.6), stateOf(stretched!, 0.15)];
    expect(stretched!.duration_s).toBe(0.25);
    expect(other.position).toBeCloseTo(5 - 3 * one.position, 11);
    for (const [power, kind] of kinds.entries())
      if (power > 0) expect(other[kind] / (-3 * one[kind] * 4 ** power)).toBeCloseTo(1, 11);
  });
});

describe('quadrature', () => {
  it.each([3, 5, 7])('with %i points is exact up to degree 2·points − 1, and not above', (points) => {
    const { nodes, weights } = gaussLegendre(points);
    const error = (degree: number) =>
      nodes.reduce((sum, x, at) => sum + weights[at]! * x ** degree, 0) - (degree % 2 === 0 ? 2 / (degree + 1) : 0);
    for (let degree = 0; degree < 2 * points; degree++) expect(Math.abs(error(degree))).toBeLessThan(1e-14);
    expect(Math.abs(error(2 * points))).toBeGreaterThan(1e-5);
  });

  it('has the nodes and weights of the closed forms for 3 and 5 points', () => {
    const [three, five] = [gaussLegendre(3), gaussLegendre(5)];
    expect(three.nodes[2]).toBeCloseTo(Math.sqrt(3 / 5), 15);
    expect(three.weights[1]).toBeCloseTo(8 / 9, 15);
    expect(five.nodes[4]).toBeCloseTo(Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, 15);
    expect(five.weights[4]).toBeCloseTo((322 - 13 * Math.sqrt(70)) / 900, 15);
  });

  it.each([1, 2, 3, 4, 5, 6, 7])('of products of velocity and acceleration is exact for degree %i', (degree) => {
    const coefficients = polynomial(degree);
    const [piece] = chain([{ duration_s: 1.7, polynomial: coefficients }]);
    const end = stateOf(piece!, 1.7);
    const start = stateOf(piece!, 0);
    // v·a is the slope of v²/2; v² is multiplied out.
    expect(integral([piece!], ({ velocity, acceleration }) => velocity * acceleration)).toBeCloseTo(
      (end.velocity ** 2 - start.velocity ** 2) / 2,
      7,
    );
    const slope = coefficients.slice(1).map((c, at) => c * (at + 1));
    const exact = slope.reduce(
      (sum, c, m) => sum + slope.reduce((inner, d, n) => inner + (c * d * 1.7 ** (m + n + 1)) / (m + n + 1), 0),
      0,
    );
    expect(Math.abs(integral([piece!], ({ velocity }) => velocity ** 2) / exact - 1)).toBeLessThan(1e-11);
  });

  it('of the square of a sine is right to 1e-12 over many turns', () => {
    const motion = chain([{ duration_s: 3, polynomial: [0], sine: wave }]);
    const F = (t: number) => 0.49 * (t / 2 - Math.sin(2 * (9 * t + 0.4)) / 36);
    expect(Math.abs(integral(motion, ({ position }) => position ** 2) / (F(3) - F(0)) - 1)).toBeLessThan(1e-12);
  });

  it('counts dwells in the rms', () => {
    const motion = chain([{ duration_s: 1, polynomial: [0, 0, 1] }, dwell(3, 1)]);
    expect(rms(motion, (state) => state.acceleration)).toBeCloseTo(1, 14);
    expect(rms([], (state) => state.acceleration)).toBeNaN();
  });
});

describe('joins', () => {
  it('quintic joins any two states, and goes on from each without a jump', () => {
    for (let run = 0; run < 1000; run++) {
      const state = () => ({ position: between(-5, 5), velocity: between(-5, 5), acceleration: between(-5, 5) });
      const [from, to] = [state(), state()];
      const piece = quintic(between(0.1, 3), from, to);
      const [start, end] = [stateOf(piece, 0), stateOf(piece, piece.duration_s)];
      for (const kind of ['position', 'velocity', 'acceleration'] as const) {
        expect(start[kind]).toBeCloseTo(from[kind], 12);
        expect(end[kind]).toBeCloseTo(to[kind], 7);
      }
      const tail = { duration_s: 0.5, polynomial: [end.position, end.velocity, to.acceleration / 2] };
      expect(brokenJoins(chain([piece, tail]), 'acceleration')).toEqual([]);
    }
  });

  it('quintic from rest to rest is the 3-4-5 polynomial', () => {
    const rest = (position: number) => ({ position, velocity: 0, acceleration: 0 });
    const [law] = lawPieces('polynomial_345', 3, 0.5, 1);
    quintic(0.5, rest(1), rest(4)).polynomial.forEach((c, power) => {
      expect(c).toBeCloseTo(law!.polynomial[power]!, 10);
    });
  });

  it('are broken by a jump over the tolerance, in the derivative that is asked for', () => {
    const motion = (position: number, velocity: number, acceleration: number) =>
      chain([
        { duration_s: 1, polynomial: [0, 0, 1] },
        { duration_s: 1, polynomial: [1 + position, 2 + velocity, 1 + acceleration] },
      ]);
    const upTo = (...jumps: [number, number, number]) =>
      (['position', 'velocity', 'acceleration'] as const).map((kind) => brokenJoins(motion(...jumps), kind).length);
    expect(upTo(0, 0, 0)).toEqual([0, 0, 0]);
    expect(upTo(joinTolerance, joinTolerance, joinTolerance / 2)).toEqual([0, 0, 0]);
    expect(upTo(1e-7, 0, 0)).toEqual([1, 1, 1]);
    expect(upTo(0, -1e-7, 0)).toEqual([0, 1, 1]);
    expect(upTo(0, 0, 1e-7)).toEqual([0, 0, 1]);
    expect(upTo(Number.NaN, 0, 0)).toEqual([1, 1, 1]);
    expect(joinsOf(motion(0, 0.5, 0))).toEqual([
      { at_s: 1, jump: { position: 0, velocity: 0.5, acceleration: 0, jerk: 0 } },
    ]);
  });
});
