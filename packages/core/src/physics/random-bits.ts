// For marks and networks: random bits that a seed fixes, by the generator xoshiro128** 1.1 of Blackman and Vigna (public
// domain), whose streams are 2^64 draws apart, so that a chunk of work has its own whatever thread runs it.

/** The state of a stream: four 32-bit integers, moved on by each draw. */
export type BitState = Int32Array;

/** The starts of streams of one seed, a whole number from 0 to 2^32 − 1; no two overlap. */
export function streamsOf(seed: number, count: number): readonly (readonly number[])[] {
  const state = Int32Array.from([1, 2, 3, 4], (word) => scrambled(seed + Math.imul(word, 0x9e3779b9)));
  return Array.from({ length: count }, () => {
    const start = [...state];
    jump(state);
    return start;
  });
}

/** The next 32 bits, as a signed integer. */
export function nextWord(state: BitState): number {
  const five = Math.imul(state[1]!, 5);
  const word = Math.imul((five << 7) | (five >>> 25), 9);
  step(state);
  return word;
}

/**
 * The next words of a stream, as many as the array holds: quicker than one by one. Gives whether a half of one, as a signed
 * integer of 16 bits, is at most `limit`.
 */
export function fillWords(state: BitState, words: Int32Array, limit: number): boolean {
  let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
  let isUnder = false;
  const { length } = words;
  for (let at = 0; at < length; at++) {
    const five = Math.imul(b, 5);
    const word = Math.imul((five << 7) | (five >>> 25), 9);
    words[at] = word;
    if (word >> 16 <= limit || (word << 16) >> 16 <= limit) isUnder = true;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
  return isUnder;
}

/** Moves a state on by 2^64 draws, by the polynomial that its authors give. */
export function jump(state: BitState): void {
  const sum = new Int32Array(4);
  for (const word of [0x8764000b, 0xf542d2d3, 0x6fa035c3, 0x77f2db5b]) {
    for (let bit = 0; bit < 32; bit++) {
      if ((word >>> bit) & 1) for (let at = 0; at < 4; at++) sum[at]! ^= state[at]!;
      step(state);
    }
  }
  state.set(sum);
}

function step(state: BitState): void {
  const shifted = state[1]! << 9;
  state[2]! ^= state[0]!;
  state[3]! ^= state[1]!;
  state[1]! ^= state[2]!;
  state[0]! ^= state[3]!;
  state[2]! ^= shifted;
  state[3] = (state[3]! << 11) | (state[3]! >>> 21);
}

/** A word all of whose bits count: the finaliser of MurmurHash3 (public domain). */
function scrambled(word: number): number {
  let mixed = word | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
