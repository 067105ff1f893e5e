// Random values of each distribution, a block at a time. Nothing is allocated for a trial, and the step of the generator stands
// in each loop with its state in local variables: a call for each word takes twice as long, one loop for all shapes half more.

import { type BitState, nextWord } from '../../physics/random-bits.ts';
import { erfc } from './normal.ts';
import { exp, expm1OfPositive, log, logOfNormal } from './same-bits.ts';

/** What is drawn, about zero, times a scale: half widths of the bounded shapes, standard deviations of the normal one. */
export type Draw =
  | { readonly shape: 'normal' | 'rectangular' | 'triangular' | 'arcsine'; readonly scale: number }
  /** Student's t distribution. */
  | { readonly shape: 'student'; readonly scale: number; readonly degrees: number }
  /** One of the values. */
  | { readonly shape: 'sample'; readonly scale: number; readonly values: Float64Array };

/** Adds one value to each place of the block. */
export function addDraws(out: Float64Array, draw: Draw, state: BitState): void {
  if (draw.shape === 'normal') addNormal(out, draw.scale, state);
  else if (draw.shape === 'rectangular') addRectangular(out, draw.scale, state);
  else if (draw.shape === 'triangular') addTriangular(out, draw.scale, state);
  else if (draw.shape === 'arcsine') addArcsine(out, draw.scale, state);
  else if (draw.shape === 'student') addStudent(out, draw.scale, draw.degrees, state);
  else if (draw.shape === 'sample') addSample(out, draw.scale, draw.values, state);
}

// In the loops below one word makes one value. A word w stands for (w + ½)/2^31, even between −1 and 1, so that both sides are
// alike and neither end is met.

function addRectangular(out: Float64Array, halfWidth: number, state: BitState): void {
  const unit = halfWidth / 2 ** 31;
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let at = 0; at < out.length; at++) {
    const five = (b + (b << 2)) | 0;
    const turned = (five << 7) | (five >>> 25);
    const word = (turned + (turned << 3)) | 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    out[at]! += (word + 0.5) * unit;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

/** One less the root of what an even value leaves to one, with its sign. */
function addTriangular(out: Float64Array, halfWidth: number, state: BitState): void {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let at = 0; at < out.length; at++) {
    const five = (b + (b << 2)) | 0;
    const turned = (five << 7) | (five >>> 25);
    const word = (turned + (turned << 3)) | 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const even = (word + 0.5) / 2 ** 31;
    out[at]! += (halfWidth * even) / (1 + Math.sqrt(1 - Math.abs(even)));
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

/** The sine of an angle of up to a quarter turn, by its series up to the 13th power: right to 7e-10. */
function addArcsine(out: Float64Array, halfWidth: number, state: BitState): void {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let at = 0; at < out.length; at++) {
    const five = (b + (b << 2)) | 0;
    const turned = (five << 7) | (five >>> 25);
    const word = (turned + (turned << 3)) | 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const angle = (word + 0.5) * (Math.PI / 2 ** 32);
    const y = angle * angle;
    const inner = 1 / 120 + y * (-1 / 5040 + y * (1 / 362880 + y * (-1 / 39916800 + y * (1 / 6227020800))));
    out[at]! += halfWidth * angle * (1 + y * (-1 / 6 + y * inner));
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

function addSample(out: Float64Array, scale: number, values: Float64Array, state: BitState): void {
  const unit = values.length / 2 ** 32;
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let at = 0; at < out.length; at++) {
    const five = (b + (b << 2)) | 0;
    const turned = (five << 7) | (five >>> 25);
    const word = (turned + (turned << 3)) | 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    out[at]! += scale * values[((word >>> 0) * unit) | 0]!;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

/**
 * The ziggurat: Marsaglia and Tsang, Journal of Statistical Software 5(8), 2000, with bits of their own for the layer, after
 * Doornik, 2005; 24 are left for value and sign. 99.3 % of all values need one product and one comparison.
 */
function addNormal(out: Float64Array, deviation: number, state: BitState): void {
  // Places and words, for after the loop: a call within it would drive the state out of the registers.
  const edges: number[] = [];
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let at = 0; at < out.length; at++) {
    const five = (b + (b << 2)) | 0;
    const turned = (five << 7) | (five >>> 25);
    const word = (turned + (turned << 3)) | 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const layer = word & 255;
    const steps = word >> 8;
    if ((steps ^ (steps >> 31)) < sure[layer]!) out[at]! += deviation * ((steps + 0.5) * width[layer]!);
    else edges.push(at, word);
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
  for (let edge = 0; edge < edges.length; edge += 2) {
    out[edges[edge]!]! += deviation * normalAtEdge(edges[edge + 1]!, state);
  }
}

/** Points within the circle, for one block: where they are, and the squares of their ways from its centre. */
const [across, squares] = [new Float64Array(1024), new Float64Array(1024)];

/**
 * Bailey, Polar generation of random variates with the t-distribution, Mathematics of Computation 62, 1994. Points are found
 * first, without a branch, and then made values side by side: as quick as with the power of the engine.
 */
function addStudent(out: Float64Array, scale: number, degrees: number, state: BitState): void {
  for (let from = 0; from < out.length; from += across.length) {
    const most = Math.min(across.length, out.length - from);
    findPoints(most, state);
    for (let at = 0; at < most; at++) {
      const square = squares[at]!;
      const power = (-2 / degrees) * logOfNormal(square);
      const root = Math.sqrt((degrees * (power < 709 ? expm1OfPositive(power) : Infinity)) / square);
      out[from + at]! += scale * across[at]! * root;
    }
  }
}

function findPoints(most: number, state: BitState): void {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let found = 0; found < most; ) {
    let five = (b + (b << 2)) | 0;
    let turned = (five << 7) | (five >>> 25);
    const first = (turned + (turned << 3)) | 0;
    let shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    five = (b + (b << 2)) | 0;
    turned = (five << 7) | (five >>> 25);
    const second = (turned + (turned << 3)) | 0;
    shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const [x, y] = [(first + 0.5) / 2 ** 31, (second + 0.5) / 2 ** 31];
    const square = x * x + y * y;
    across[found] = x;
    squares[found] = square;
    // What is outside is written over by the next one.
    found += Number(square < 1);
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

/** Where the tail begins for 256 layers of equal area. */
const tail = 3.6541528853610088;
const density = (x: number): number => exp((-x * x) / 2);
const area = tail * density(tail) + Math.sqrt(Math.PI / 2) * erfc(tail / Math.SQRT2);

/** The right ends of the layers, the lowest first, whose width stands for its tail as well; the last one is 0. */
export const layerEnds = new Float64Array(257);
layerEnds[0] = area / density(tail);
layerEnds[1] = tail;
for (let layer = 2; layer < 256; layer++) {
  const before = layerEnds[layer - 1]!;
  layerEnds[layer] = Math.sqrt(-2 * log(area / before + density(before)));
}

const width = layerEnds.map((end) => end / 2 ** 23);
/** So many steps of a layer are surely under the curve. */
const sure = Int32Array.from({ length: 256 }, (_, layer) =>
  Math.floor((layerEnds[layer + 1]! / layerEnds[layer]!) * 2 ** 23),
);
const height = layerEnds.map(density);

/** A standard normal value, beginning with a word that is not surely under the curve. */
function normalAtEdge(first: number, state: BitState): number {
  for (let word = first; ; word = nextWord(state)) {
    const layer = word & 255;
    const steps = word >> 8;
    const x = (steps + 0.5) * width[layer]!;
    if ((steps ^ (steps >> 31)) < sure[layer]!) return x;
    if (layer === 0) return steps < 0 ? -inTail(state) : inTail(state);
    if (height[layer]! + unit(state) * (height[layer + 1]! - height[layer]!) < density(x)) return x;
  }
}

/** Marsaglia's way beyond the last layer. */
function inTail(state: BitState): number {
  for (;;) {
    const x = -log(unit(state)) / tail;
    if (-2 * log(unit(state)) > x * x) return tail + x;
  }
}

const unit = (state: BitState): number => ((nextWord(state) >>> 0) + 0.5) / 2 ** 32;
