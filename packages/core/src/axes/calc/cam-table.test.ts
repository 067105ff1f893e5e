// Cams by their points: joins of seeded random tables, a dense elimination as second method, cubics and sines.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { type CamEnds, camTable } from './cam-table.ts';
import { brokenJoins, joinsOf } from './join.ts';
import { chain, type Motion, type Piece, span_s, stateAt, stateOf } from './segment.ts';

const seed = 61;
const everyEnd: readonly CamEnds[] = ['periodic', 'rest', 'natural'];
type Points = readonly (readonly [number, number])[];

/** Widths differ up to 100-fold. */
function draw(random: () => number, count: number): Points {
  let master = 10 * random() - 5;
  return Array.from({ length: count }, () => {
    master += 10 ** (-1 + 2 * random());
    return [master, 10 * random() - 5] as const;
  });
}

const atEnds = (motion: Motion) => {
  const last = motion.at(-1)!;
  return { start: stateOf(motion[0]!, 0), end: stateOf(last, last.duration_s) };
};

/** Four coefficients for each interval, from every condition written down as it is said, by elimination with pivots. */
function denselySolved(points: Points, ends: CamEnds): readonly number[] {
  const count = points.length - 1;
  const width = (at: number) => points[at + 1]![0] - points[at]![0];
  const rows: number[][] = [];
  const row = (sum: number, ...terms: readonly (readonly [interval: number, coefficients: readonly number[]])[]) => {
    const each = new Array<number>(4 * count + 1).fill(0);
    for (const [interval, coefficients] of terms)
      coefficients.forEach((c, power) => {
        each[4 * interval + power]! += c;
      });
    each[4 * count] = sum;
    rows.push(each);
  };
  const value = (t: number, sign = 1) => [sign, sign * t, sign * t ** 2, sign * t ** 3];
  const velocity = (t: number, sign = 1) => [0, sign, 2 * sign * t, 3 * sign * t ** 2];
  const acceleration = (t: number, sign = 1) => [0, 0, 2 * sign, 6 * sign * t];
  for (let at = 0; at < count; at++) {
    row(points[at]![1], [at, value(0)]);
    row(points[at + 1]![1], [at, value(width(at))]);
    if (at === 0) continue;
    row(0, [at, velocity(0)], [at - 1, velocity(width(at - 1), -1)]);
    row(0, [at, acceleration(0)], [at - 1, acceleration(width(at - 1), -1)]);
  }
  const [last, h] = [count - 1, width(count - 1)];
  if (ends === 'periodic') {
    row(0, [0, velocity(0)], [last, velocity(h, -1)]);
    row(0, [0, acceleration(0)], [last, acceleration(h, -1)]);
  } else {
    const of = ends === 'rest' ? velocity : acceleration;
    row(0, [0, of(0)]);
    row(0, [last, of(h)]);
  }
  return eliminated(rows);
}

function eliminated(rows: number[][]): readonly number[] {
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let at = column + 1; at < size; at++)
      if (Math.abs(rows[at]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = at;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let at = 0; at < size; at++) {
      if (at === column) continue;
      const share = rows[at]![column]! / rows[column]![column]!;
      for (let k = column; k <= size; k++) rows[at]![k]! -= share * rows[column]![k]!;
    }
  }
  return rows.map((each, at) => each[size]! / each[at]!);
}

/** The furthest that a cam through points of a curve is from it, between the points. */
function furthest(curve: (x: number) => number, from: number, to: number, parts: number, ends: CamEnds): number {
  const width = (to - from) / parts;
  const pieces = camTable(
    Array.from({ length: parts + 1 }, (_, at) => [from + at * width, curve(from + at * width)]),
    ends,
  );
  const error = (piece: Piece, at: number, share: number) =>
    Math.abs(stateOf(piece, share * piece.duration_s).position - curve(from + (at + share) * width));
  return Math.max(...pieces.flatMap((piece, at) => [0.25, 0.5, 0.75].map((share) => error(piece, at, share))));
}

describe('a cam by its points', () => {
  it.each(everyEnd)('goes through them without a jump up to the acceleration: 3000 random tables, ends %s', (ends) => {
    const random = seeded(seed);
    const wrong: string[] = [];
    for (let run = 0; run < 3000; run++) {
      const points = draw(random, (ends === 'periodic' ? 3 : 2) + Math.floor(20 * random()));
      const pieces = camTable(points, ends);
      const motion = chain(pieces, points[0]![0]);
      const { start, end } = atEnds(motion);
      const states = motion.flatMap((each) => [0.5, 1].map((share) => stateOf(each, share * each.duration_s)));
      const most = (kind: 'velocity' | 'acceleration') =>
        Math.max(...[start, ...states].map((each) => Math.abs(each[kind])));
      const near = (kind: 'velocity' | 'acceleration', value: number) => Math.abs(value) <= 1e-9 * most(kind);
      const said: readonly (readonly [string, boolean])[] = [
        ['pieces', pieces.length === points.length - 1],
        ['points', pieces.every(({ polynomial }, at) => polynomial[0] === points[at]![1])],
        ['length', Math.abs(span_s(motion) - (points.at(-1)![0] - points[0]![0])) < 1e-12 * span_s(motion)],
        ['last point', Math.abs(end.position - points.at(-1)![1]) < 1e-9],
        ['joins', brokenJoins(motion, 'acceleration').length === 0],
        [
          'ends',
          {
            periodic: () =>
              near('velocity', end.velocity - start.velocity) &&
              near('acceleration', end.acceleration - start.acceleration),
            rest: () => near('velocity', start.velocity) && near('velocity', end.velocity),
            natural: () => near('acceleration', start.acceleration) && near('acceleration', end.acceleration),
          }[ends](),
        ],
      ];
      for (const [what, holds] of said)
        if (!holds) wrong.push(`seed ${seed}, run ${run}, ${what}: ${JSON.stringify(points)}`);
    }
    expect(wrong.slice(0, 3)).toEqual([]);
  });

  it.each(everyEnd)('is what all conditions give by dense elimination: 500 random tables, ends %s', (ends) => {
    const random = seeded(seed + 1);
    let worst = 0;
    for (let run = 0; run < 500; run++) {
      const points = draw(random, (ends === 'periodic' ? 3 : 2) + Math.floor(7 * random()));
      const dense = denselySolved(points, ends);
      for (const [at, { duration_s, polynomial }] of camTable(points, ends).entries())
        for (const [power, c] of polynomial.entries())
          worst = Math.max(worst, Math.abs(c - dense[4 * at + power]!) * duration_s ** power);
    }
    expect(worst).toBeLessThan(1e-9);
  });

  it('at rest at both ends gives a cubic back that is at rest there, from any points of it', () => {
    const random = seeded(seed + 2);
    const cubic = (x: number) => 7 - 4 * (3 * x ** 2 - 2 * x ** 3);
    const points = [0, ...Array.from({ length: 9 }, random).sort((a, b) => a - b), 1].map(
      (x) => [x, cubic(x)] as const,
    );
    const motion = chain(camTable(points, 'rest'));
    for (let x = 0; x <= 1; x += 1 / 64) {
      const state = stateAt(motion, x);
      expect(state.position).toBeCloseTo(cubic(x), 12);
      expect(state.velocity).toBeCloseTo(-24 * (x - x ** 2), 11);
      expect(state.acceleration).toBeCloseTo(-24 * (1 - 2 * x), 9);
      expect(state.jerk / 48).toBeCloseTo(1, 8);
    }
  });

  it.each(['periodic', 'natural'] as const)('gives a straight line back, ends %s', (ends) => {
    const points = [-2, 0, 0.5, 3, 7].map((x) => [x, 4 + 1.5 * x] as const);
    for (const { polynomial } of camTable(points, ends))
      polynomial.slice(1).forEach((c, at) => {
        expect(c).toBeCloseTo(at === 0 ? 1.5 : 0, 13);
      });
  });

  it.each(everyEnd)('gives its own curve back when more of its points are taken, ends %s', (ends) => {
    const random = seeded(seed + 3);
    const points = draw(random, 8);
    const motion = chain(camTable(points, ends), points[0]![0]);
    const more = points.flatMap(([x, y], at) => {
      const next = points[at + 1];
      if (next === undefined) return [[x, y] as const];
      const between = [0.3, 0.8].map((share) => x + share * (next[0] - x));
      return [[x, y] as const, ...between.map((t) => [t, stateAt(motion, t).position] as const)];
    });
    const finer = chain(camTable(more, ends), more[0]![0]);
    for (let share = 0; share <= 1; share += 1 / 128) {
      const t = points[0]![0] + share * span_s(motion);
      expect(stateAt(finer, t).position).toBeCloseTo(stateAt(motion, t).position, 9);
      expect(stateAt(finer, t).velocity).toBeCloseTo(stateAt(motion, t).velocity, 8);
    }
  });

  it.each([
    ['periodic', (x: number) => Math.sin(x) + 0.7 * x, 0, 2 * Math.PI],
    ['rest', Math.sin, -Math.PI / 2, (3 * Math.PI) / 2],
    ['natural', Math.sin, 0, Math.PI],
  ] as const)('with half the step is 16 times as close to a sine, ends %s', (ends, curve, from, to) => {
    const errors = [16, 32, 64, 128].map((parts) => furthest(curve, from, to, parts, ends));
    for (const [at, error] of errors.slice(1).entries()) {
      expect(errors[at]! / error).toBeGreaterThan(15);
      expect(errors[at]! / error).toBeLessThan(17);
    }
    // The bound of a cubic spline: 5/384 of the fourth derivative times the step to the fourth (Hall and Meyer, 1976, from
    // memory).
    expect(errors[0]).toBeLessThan((5 / 384) * ((to - from) / 16) ** 4);
  });

  it.each(everyEnd)('takes 200 000 points, as only a solution in proportion to their number can, ends %s', (ends) => {
    const points = draw(seeded(seed + 4), 200_000);
    const motion = chain(camTable(points, ends), points[0]![0]);
    const jumps = joinsOf(motion).reduce((most, { jump }) => Math.max(most, Math.abs(jump.position)), 0);
    expect(motion).toHaveLength(199_999);
    expect(jumps).toBeLessThan(1e-9);
  });

  it('is refused where it cannot be, in a sentence', () => {
    expect(() =>
      camTable(
        [
          [0, 1],
          [1, 2],
        ],
        'periodic',
      ),
    ).toThrow("ends 'periodic' has 3 points or more, and here 2");
    for (const ends of ['rest', 'natural'] as const) {
      expect(() => camTable([[0, 1]], ends)).toThrow(RangeError);
      expect(
        camTable(
          [
            [0, 1],
            [2, 5],
          ],
          ends,
        ),
      ).toHaveLength(1);
      expect(() => camTable([], ends)).toThrow(RangeError);
    }
    for (const ends of everyEnd) {
      expect(() =>
        camTable(
          [
            [0, 1],
            [1, 2],
            [1, 3],
          ],
          ends,
        ),
      ).toThrow('does not go on from point 2 of the cam');
      expect(() =>
        camTable(
          [
            [0, 1],
            [-1, 2],
            [1, 3],
          ],
          ends,
        ),
      ).toThrow(RangeError);
      for (const wrong of [Number.NaN, Infinity, -Infinity]) {
        expect(() =>
          camTable(
            [
              [0, 1],
              [1, wrong],
              [2, 3],
            ],
            ends,
          ),
        ).toThrow('point 2 of the cam is not finite');
        expect(() =>
          camTable(
            [
              [0, 1],
              [1, 2],
              [wrong, 3],
            ],
            ends,
          ),
        ).toThrow(RangeError);
      }
    }
  });
});
