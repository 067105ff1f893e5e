// Integrals over a motion: Gauss–Legendre quadrature for each segment, so that no breakpoint is ever straddled.
import { quarterTurns } from './quarter-turns.ts';
import { highestDegree, type Motion, type Segment, type State, span_s, stateOf } from './segment.ts';

/**
 * The integral over time of something that the state gives, in its unit times s. On a polynomial segment it is exact, but
 * for rounding, for a product of any two of velocity, acceleration and jerk; on a sine such a product is right to 1e-12.
 * What has a kink inside a segment (the size of a velocity that changes sign there) is not for this.
 */
export function integral(motion: Motion, of: (state: State) => number): number {
  let sum = 0;
  for (const segment of motion) sum += integralOver(segment, of);
  return sum;
}

/** Root of the mean square over the whole span, dwells included; NaN for a motion without duration. */
export const rms = (motion: Motion, of: (state: State) => number): number =>
  Math.sqrt(integral(motion, (state) => of(state) ** 2) / span_s(motion));

export interface Rule {
  /** On the span from −1 to 1. */
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/** The rule of Gauss and Legendre with so many points: exact up to degree 2·points − 1. Nodes by Newton's method. */
export function gaussLegendre(points: number): Rule {
  const nodes = Array.from({ length: points }, (_, index) => {
    let x = -Math.cos((Math.PI * (index + 0.75)) / (points + 0.5));
    for (let step = 0; step < 8; step++) x -= legendre(points, x).value / legendre(points, x).slope;
    return x;
  });
  return { nodes, weights: nodes.map((x) => 2 / ((1 - x * x) * legendre(points, x).slope ** 2)) };
}

/** As many points as the polynomial has degrees: the square of its velocity, of degree 2·n − 2, is exact with n points. */
const rules = [3, 5, highestDegree].map(gaussLegendre);

function integralOver(segment: Segment, of: (state: State) => number): number {
  const { duration_s, polynomial, sine } = segment;
  const degree = sine === undefined ? polynomial.length - 1 : highestDegree;
  const { nodes, weights } = rules.find((rule) => rule.nodes.length >= degree)!;
  // 7 points integrate the square of a quarter of a sine to 6e-13, by the remainder term of the rule.
  const panels = quarterTurns(segment, 0);
  const half_s = duration_s / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    for (let at = 0; at < nodes.length; at++) {
      sum += weights[at]! * of(stateOf(segment, half_s * (2 * panel + 1 + nodes[at]!)));
    }
  }
  return sum * half_s;
}

/** The Legendre polynomial and its slope, by the recurrence of three terms. */
function legendre(degree: number, x: number): { readonly value: number; readonly slope: number } {
  let [before, value] = [1, x];
  for (let n = 2; n <= degree; n++) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}
