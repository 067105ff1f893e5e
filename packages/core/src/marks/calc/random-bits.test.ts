// The generator against its reference values, its jump against 2^64 single steps, and every shape against its distribution.
import { describe, expect, it } from 'vitest';
import { fillWords, jump, nextWord, streamsOf } from '../../physics/random-bits.ts';
import { addDraws, type Draw, layerEnds } from './draw.ts';
import { normalTail } from './normal.ts';
import { studentTail } from './student.ts';

describe('the generator', () => {
  it('Blackman and Vigna, xoshiro128starstar.c 1.1: the first words of the state 1, 2, 3, 4', () => {
    const state = Int32Array.from([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, () => nextWord(state) >>> 0)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('draws a block of words as it draws them one by one', () => {
    const [one, block] = [0, 1].map(() => Int32Array.from(streamsOf(7, 1)[0]!)) as [Int32Array, Int32Array];
    const words = new Int32Array(1000);
    expect(fillWords(block, words, -(2 ** 15) - 1)).toBe(false);
    expect([...words]).toEqual(Array.from(words, () => nextWord(one)));
    expect([...block]).toEqual([...one]);
    const few = new Int32Array(20);
    const refill = (limit: number) => fillWords(Int32Array.from(streamsOf(7, 1)[0]!), few, limit);
    refill(0);
    const least = Math.min(...[...few].flatMap((word) => [word >> 16, (word << 16) >> 16]));
    const under = [least - 1, least].map(refill);
    expect(under).toEqual([false, true]);
  });

  it('jumps by 2^64 steps: the matrix of one step, squared 64 times', () => {
    const toState = (bits: bigint) =>
      Int32Array.from([0n, 32n, 64n, 96n], (shift) => Number(BigInt.asIntN(32, bits >> shift)));
    const toBits = (state: Int32Array) => state.reduceRight((bits, word) => (bits << 32n) | BigInt(word >>> 0), 0n);
    // Column k is what becomes of bit k; the image of a state is the sum of the columns of its bits.
    const imageOf = (columns: readonly bigint[], bits: bigint) =>
      columns.reduce((sum, column, at) => ((bits >> BigInt(at)) & 1n ? sum ^ column : sum), 0n);
    let columns: readonly bigint[] = Array.from({ length: 128 }, (_, at) => {
      const state = toState(1n << BigInt(at));
      nextWord(state);
      return toBits(state);
    });
    for (let power = 0; power < 64; power++) {
      const before = columns;
      columns = before.map((column) => imageOf(before, column));
    }
    const start = Int32Array.from([1, -2, 3, 123456789]);
    const jumped = Int32Array.from(start);
    jump(jumped);
    expect([...jumped]).toEqual([...toState(imageOf(columns, toBits(start)))]);
  });

  it('has other streams for every chunk and every seed, the same ones for the same seed', () => {
    const starts = [0, 1, 2, 0xffffffff].flatMap((seed) => streamsOf(seed, 50));
    expect(new Set(starts.map(String)).size).toBe(200);
    expect(streamsOf(7, 5)).toEqual(streamsOf(7, 50).slice(0, 5));
  });
});

it('the layers of the ziggurat are of one area and end at the top of the curve', () => {
  const density = (x: number) => Math.exp((-x * x) / 2);
  const tail = layerEnds[1]!;
  const area = tail * density(tail) + Math.sqrt(2 * Math.PI) * normalTail(tail);
  for (let layer = 1; layer < 256; layer++) {
    const [right, next] = [layerEnds[layer]!, layerEnds[layer + 1]!];
    // The last one ends at the top only because the tail begins where it does.
    expect(right * (density(next) - density(right))).toBeCloseTo(area, 12);
  }
});

describe('values drawn', () => {
  const below: Readonly<Record<string, readonly [Draw, (x: number) => number]>> = {
    normal: [{ shape: 'normal', scale: 2 }, (x) => normalTail(-x / 2)],
    rectangular: [{ shape: 'rectangular', scale: 2 }, (x) => (x + 2) / 4],
    triangular: [{ shape: 'triangular', scale: 2 }, (x) => (x < 0 ? (1 + x / 2) ** 2 / 2 : 1 - (1 - x / 2) ** 2 / 2)],
    arcsine: [{ shape: 'arcsine', scale: 2 }, (x) => 0.5 + Math.asin(Math.max(-1, Math.min(1, x / 2))) / Math.PI],
    't of 4': [{ shape: 'student', scale: 1, degrees: 4 }, (x) => (x < 0 ? studentTail(-x, 4) : 1 - studentTail(x, 4))],
    't of 1.5': [
      { shape: 'student', scale: 1, degrees: 1.5 },
      (x) => (x < 0 ? studentTail(-x, 1.5) : 1 - studentTail(x, 1.5)),
    ],
  };

  it.each(Object.entries(below))(
    '%s: their distribution is nowhere off by more than chance',
    (_, [draw, shareBelow]) => {
      const values = new Float64Array(400_000);
      addDraws(values, draw, Int32Array.from(streamsOf(101, 1)[0]!));
      values.sort();
      const off = values.reduce(
        (most, x, at) => Math.max(most, Math.abs(shareBelow(x) - (at + 0.5) / values.length)),
        0,
      );
      // Kolmogorov: 1.95/√n is passed once in a thousand.
      expect(off).toBeLessThan(1.95 / Math.sqrt(values.length));
    },
  );

  it('normal: the far tails have their share', () => {
    const block = new Float64Array(1_000_000);
    const state = Int32Array.from(streamsOf(3, 1)[0]!);
    let beyond = 0;
    for (let run = 0; run < 10; run++) {
      addDraws(block.fill(0), { shape: 'normal', scale: 1 }, state);
      beyond += block.reduce((count, x) => count + Number(Math.abs(x) > 3.8), 0);
    }
    const expected = 1e7 * 2 * normalTail(3.8);
    expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected));
  });

  it('sample: each of the values as often as the others', () => {
    const block = new Float64Array(300_000);
    addDraws(
      block,
      { shape: 'sample', scale: 10, values: Float64Array.from([-1, 0, 1]) },
      Int32Array.from([5, 6, 7, 8]),
    );
    for (const value of [-10, 0, 10]) {
      const count = block.reduce((sum, each) => sum + Number(each === value), 0);
      expect(Math.abs(count - 1e5)).toBeLessThan(4 * Math.sqrt(1e5 * (2 / 3)));
    }
  });

  it('take the words of the generator in their order, and leave its state behind them', () => {
    const words = Int32Array.from([9, 8, 7, 6]);
    for (const shape of ['rectangular', 'triangular', 'arcsine'] as const) {
      const state = Int32Array.from(words);
      const block = new Float64Array(100);
      addDraws(block, { shape, scale: 1 }, state);
      for (const value of block) {
        const even = (nextWord(words) + 0.5) / 2 ** 31;
        const wanted = {
          rectangular: even,
          triangular: Math.sign(even) * (1 - Math.sqrt(1 - Math.abs(even))),
          arcsine: Math.sin((even * Math.PI) / 2),
        }[shape];
        expect(Math.abs(value - wanted)).toBeLessThan(1e-9);
      }
      expect([...state]).toEqual([...words]);
    }
  });
});
