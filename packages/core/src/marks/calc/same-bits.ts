// Logarithm, exponential and sine made of operations that IEEE 754 fixes to the last bit: those of `Math` are left to the
// engine, and two engines, or two builds of one, round them in their own ways. So trials of one seed are the same everywhere.

const bits = new Float64Array(1);
const words = new Int32Array(bits.buffer);
/** Which of the words has sign and exponent. */
const high = ((): 0 | 1 => {
  bits[0] = 1;
  return words[1] === 0 ? 0 : 1;
})();
const low = high === 1 ? 0 : 1;

/** The logarithm of 2, its first bits and the rest, so that a multiple of the first is exact. */
const [ln2First, ln2Rest] = [0.6931471803691238, 1.9082149292705877e-10];

/** Within a last digit or two for a normal number above 0; inner loops call it, all others `log`. */
export function logOfNormal(x: number): number {
  bits[0] = x;
  const top = words[high]!;
  // x is m·2^k, and m between the roots of one half and of 2.
  const k = ((top + 0x95f62) >> 20) - 1023;
  words[high] = top - (k << 20);
  const m = bits[0];
  const f = (m - 1) / (m + 1);
  const z = f * f;
  const w = z * z;
  const v = w * w;
  // The area tangent of f twice, by its series; in pairs, since a processor adds pairs side by side.
  const series =
    2 / 3 +
    z * (2 / 5) +
    w * (2 / 7 + z * (2 / 9)) +
    v * (2 / 11 + z * (2 / 13) + w * (2 / 15 + z * (2 / 17)) + v * (2 / 19));
  return k * ln2First + (2 * f + (f * z * series + k * ln2Rest));
}

/** One less than the exponential of y, from 0 to 709: within a last digit or two. For inner loops. */
export function expm1OfPositive(y: number): number {
  const k = (y * Math.LOG2E + 0.5) | 0;
  words[low] = 0;
  words[high] = (k + 1023) << 20;
  const power = bits[0]!;
  return power * shortExpm1(y - k * ln2First - k * ln2Rest) + (power - 1);
}

/** For up to half of the logarithm of 2 to either side. */
function shortExpm1(r: number): number {
  const q = r * r;
  const w = q * q;
  const last = 1 / 3628800 + r / 39916800 + q * (1 / 479001600 + r / 6227020800);
  const middle = 1 / 720 + r * (1 / 5040) + q * (1 / 40320 + r * (1 / 362880)) + w * last;
  return r + q * (1 / 2 + r * (1 / 6) + q * (1 / 24 + r * (1 / 120)) + w * middle);
}

export function log(x: number): number {
  if (!(x > 0 && x < Infinity)) return x === 0 ? -Infinity : x === Infinity ? x : Number.NaN;
  return x < 2 ** -1022 ? logOfNormal(x * 2 ** 54) - 54 * Math.LN2 : logOfNormal(x);
}

/** Of one more than x, without what the sum rounds off. */
export function log1p(x: number): number {
  const sum = 1 + x;
  if (!(sum > 0 && sum < Infinity)) return log(sum);
  return sum === 1 ? x : log(sum) * (x / (sum - 1));
}

export function exp(y: number): number {
  if (!(y > -746 && y < 710)) return y <= -746 ? 0 : y >= 710 ? Infinity : Number.NaN;
  const k = Math.floor(y * Math.LOG2E + 0.5);
  const half = k >> 1;
  return (1 + shortExpm1(y - k * ln2First - k * ln2Rest)) * powerOf2(half) * powerOf2(k - half);
}

function powerOf2(k: number): number {
  words[low] = 0;
  words[high] = (k + 1023) << 20;
  return bits[0]!;
}

/** Half of π, its first bits and the rest. */
const [quarterFirst, quarterRest] = [1.5707963267341256, 6.077100506506192e-11];

/** The sine of an angle in radians; of more than some hundred thousand turns it is that of about there. */
export function sin(angle: number): number {
  if (!Number.isFinite(angle)) return Number.NaN;
  const turned = Math.abs(angle) > 2 ** 20 ? angle % (2 * Math.PI) : angle;
  const quarters = Math.floor(turned / (Math.PI / 2) + 0.5);
  const x = turned - quarters * quarterFirst - quarters * quarterRest;
  const y = x * x;
  const [which, back] = [quarters & 1, quarters & 2];
  const size = which === 0 ? x * (1 + sineFrom(y)) : 1 + cosineFrom(y);
  return back === 0 ? size : -size;
}

const inverse = (factorial: number): number => {
  let product = 1;
  for (let at = 2; at <= factorial; at++) product *= at;
  return 1 / product;
};
const seriesFrom = (first: number) =>
  Array.from({ length: 9 }, (_, at) => (at % 2 === 0 ? -1 : 1) * inverse(first + 2 * at)).reverse();
const [sineSeries, cosineSeries] = [seriesFrom(3), seriesFrom(2)];
const sineFrom = (y: number): number => {
  let sum = 0;
  for (const each of sineSeries) sum = (sum + each) * y;
  return sum;
};
const cosineFrom = (y: number): number => {
  let sum = 0;
  for (const each of cosineSeries) sum = (sum + each) * y;
  return sum;
};
