// What noise meets of an exchange, against walks over all phases and over all that can be lost.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { framesSpoilt } from './bursts.ts';
import { answerBegins, bitsOnTheWay, commandBegins, exchangeOpen, openOnTheWay } from './exchange-noise.ts';
import { frameErrorRatio } from './noise.ts';

const s = (value: number) => q(value, 's');

interface Exchange {
  readonly runs: readonly { readonly cable: number; readonly passing: number }[];
  readonly command: number;
  readonly turnaround: number;
  readonly answer: number;
  readonly gap: number;
}

it('a frame lost run by run: one chance over all bits of all runs', () => {
  for (const [runs, bits, p] of [
    [1, 512, 1e-3],
    [7, 600, 1e-4],
    [40, 12_144, 1e-6],
  ] as const) {
    const L = bitsOnTheWay({ n: q(runs, '1'), L: q(bits, 'bit') }, 'test');
    const lost = frameErrorRatio({ p: q(p, '1'), L, b: q(1, 'bit') }, 'test').value;
    let through = 1;
    for (let run = 0; run < runs; run++) for (let bit = 0; bit < bits; bit++) through *= 1 - p;
    expect(lost / (1 - through)).toBeCloseTo(1, 7);
  }
});

describe('an exchange and a burst at every phase', () => {
  // Times in whole steps; a rate of one bit each step makes the gap a number of steps.
  const cases = fc.record({
    runs: fc.array(fc.record({ cable: fc.nat(3), passing: fc.nat(4) }), { minLength: 1, maxLength: 4 }),
    command: fc.integer({ min: 3, max: 12 }),
    turnaround: fc.nat(15),
    answer: fc.integer({ min: 3, max: 12 }),
    gap: fc.integer({ min: 0, max: 2 }),
    more: fc.nat(60),
    idle: fc.integer({ min: 1, max: 60 }),
  });

  /** When something of the exchange is on some run, found run by run. */
  const walked = ({ runs, command, turnaround, answer, gap }: Exchange) => {
    const frames: { from: number; to: number }[] = [];
    let first = 0;
    const carry = (lasts: number, cable: number): void => {
      frames.push({ from: first, to: first + lasts - gap + cable });
    };
    const way = runs.reduce((sum, { cable, passing }) => sum + cable + passing, 0) - runs.at(-1)!.passing;
    for (const [at, { cable, passing }] of runs.entries()) {
      carry(command, cable);
      first += cable + (at === runs.length - 1 ? 0 : passing);
    }
    const commandTo = Math.max(...frames.map(({ to }) => to));
    first = way + command - gap + turnaround;
    const answerFrom = first;
    for (const [at, { cable }] of [...runs.entries()].reverse()) {
      carry(answer, cable);
      first += cable + (at === 0 ? 0 : runs[at - 1]!.passing);
    }
    return { way, commandTo, answerFrom, from: 0, to: Math.max(...frames.map(({ to }) => to)) };
  };

  it('lies between the first bit and the last as the formulas have it', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { way, commandTo, answerFrom, from, to } = walked(each);
        const end = way + each.command - each.gap + each.turnaround + way + each.answer;
        const [g, R] = [q(each.gap, 'bit'), q(1, 'bit/s')];
        expect(commandBegins({ c: s(each.command), a: s(each.command) }, 'test').value).toBe(0);
        expect(openOnTheWay({ p: s(way), a: s(each.command), g, R }, 'test').value).toBe(commandTo);
        const begins = answerBegins({ e: s(end), b: s(each.answer), r: s(way) }, 'test').value;
        expect(begins).toBe(answerFrom);
        expect(begins + openOnTheWay({ p: s(way), a: s(each.answer), g, R }, 'test').value).toBe(to);
        const open = exchangeOpen(
          { c: s(each.command), a: s(each.command), e: s(end), b: s(each.answer), g, R },
          'test',
        );
        expect(open.value).toBe(to - from);
      }),
      { seed: 10, numRuns: 300 },
    );
  });

  it('costs as many updates in a row as bursts.ts says, at its worst phase', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { to } = walked(each);
        const period = to + each.idle;
        // A burst that is no shorter than the hole between the frames meets the exchange as if there were none.
        const burst = to + each.more;
        let most = 0;
        for (let phase = 0; phase < period; phase++) {
          let spoilt = 0;
          for (let start = -2 * burst; start < 3 * burst + 2 * period; start++)
            if ((((start - phase) % period) + period) % period === 0 && start + to >= 0 && start <= burst) spoilt++;
          most = Math.max(most, spoilt);
        }
        expect(framesSpoilt({ B: s(burst), L: s(to), T: s(period) }, 'test').value).toBe(most);
      }),
      { seed: 11, numRuns: 100 },
    );
  });
});
