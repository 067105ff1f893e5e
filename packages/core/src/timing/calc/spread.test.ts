// Spreads of delays against closed forms in whole numbers, and against chains whose phases are drawn.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { delayOf, type Link } from './chain.ts';
import {
  constantDelay,
  delayHistogram,
  delayPartsOf,
  evenDelay,
  quantile_ps,
  type Spread,
  shareUpTo,
  spreadOf,
} from './spread.ts';

const spread = (...widths: readonly number[]): Spread => spreadOf(widths.map((width) => evenDelay(0, width)))!;

/** Inclusion and exclusion over all corners, in whole numbers: exact, and of no use in floating point. */
function shareByCorners(widths: readonly number[], at: number): number {
  const n = BigInt(widths.length);
  let sum = 0n;
  const visit = (place: number, left: bigint, sign: bigint): void => {
    if (left <= 0n) return;
    if (place === widths.length) sum += sign * left ** n;
    else {
      visit(place + 1, left, sign);
      visit(place + 1, left - BigInt(widths[place]!), -sign);
    }
  };
  visit(0, BigInt(at), 1n);
  const whole = widths.reduce((all, width, place) => all * BigInt(width) * BigInt(place + 1), 1n);
  return Number((sum * 10n ** 30n) / whole) / 1e30;
}

describe('a sum of waits', () => {
  it('the spread of one, two and three equal waits by hand: straight, two parabolas, three cubics', () => {
    const x = 0.3e6;
    expect(shareUpTo(spread(1e6), x)).toBeCloseTo(0.3, 14);
    expect(shareUpTo(spread(1e6, 1e6), x)).toBeCloseTo(0.3 ** 2 / 2, 14);
    expect(shareUpTo(spread(1e6, 1e6, 1e6), x)).toBeCloseTo(0.3 ** 3 / 6, 14);
    expect(shareUpTo(spread(1e6, 1e6, 1e6), 1.5e6)).toBeCloseTo(0.5, 14);
    expect(spread(1e6, 1e6, 1e6).pieces).toHaveLength(3);
    const of = (widths: readonly number[], share: number): number =>
      quantile_ps(spreadOf([constantDelay(1e6), ...widths.map((width) => evenDelay(0, width))])!, share);
    expect(of([], 0.5)).toBe(1e6);
    expect(of([2e5], 0.25)).toBe(1.05e6);
    expect(of([2e5, 2e5], 0.02)).toBe(1.04e6);
    expect(of([2e5, 2e5, 2e5], 0.5)).toBe(1.3e6);
  });

  it('is right to twelve digits where widths differ by seven powers of ten, up to 16 of them', () => {
    const random = seeded(40);
    for (const count of [2, 4, 8, 12, 14, 16]) {
      const widths = Array.from({ length: count }, () => Math.ceil(10 ** (2 + 7 * random())));
      const sum = widths.reduce((all, width) => all + width, 0);
      const found = spread(...widths);
      for (const share of count > 14 ? [0.45] : [0.05, 0.3, 0.5, 0.9]) {
        const at = Math.round(share * sum);
        expect(Math.abs(shareUpTo(found, at) - shareByCorners(widths, at)), `${widths} at ${at}`).toBeLessThan(1e-12);
      }
    }
  });

  it('rises from 0 at the shortest to 1 at the longest delay, and its quantiles lead back', () => {
    const found = spreadOf([constantDelay(500), evenDelay(10, 40), evenDelay(0, 1000), evenDelay(0, 700)])!;
    expect([found.breaks_ps[0], found.breaks_ps.at(-1)]).toEqual([510, 2240]);
    expect([509, 510, 2240, 3000].map((at) => shareUpTo(found, at))).toEqual([0, 0, 1, 1]);
    for (let share = 0; share <= 1; share += 1 / 64) {
      const at = quantile_ps(found, share);
      expect(shareUpTo(found, at)).toBeGreaterThanOrEqual(share);
      if (share > 0) expect(shareUpTo(found, at - 1)).toBeLessThan(share);
    }
    const bins = delayHistogram(found, 37);
    expect(bins.reduce((all, share) => all + share, 0)).toBeCloseTo(1, 12);
    expect(Math.min(...bins)).toBeGreaterThanOrEqual(0);
    expect(() => quantile_ps(found, -0.1)).toThrow(RangeError);
  });

  it('that take hours have quantiles too, as near as numbers are', () => {
    const found = spreadOf([constantDelay(7e15), evenDelay(0, 1.08e16)])!;
    for (const share of [0.1, 0.5, 0.99])
      expect(quantile_ps(found, share) / (7e15 + share * 1.08e16)).toBeCloseTo(1, 12);
  });

  it('of constants alone is one delay', () => {
    const found = spreadOf([constantDelay(3), constantDelay(4)])!;
    expect([6, 7].map((at) => shareUpTo(found, at))).toEqual([0, 1]);
    expect(quantile_ps(found, 0.5)).toBe(7);
    expect(delayHistogram(found, 3)).toEqual([1, 0, 0]);
    expect(shareUpTo(spreadOf([])!, 0)).toBe(1);
  });

  it('of so many waits that it would have too many pieces is not computed', () => {
    expect(spreadOf(Array.from({ length: 18 }, (_, at) => evenDelay(0, 3 ** at)))).toBeUndefined();
    expect(spreadOf(Array.from({ length: 18 }, () => evenDelay(0, 1e6)))!.pieces).toHaveLength(18);
  });
});

describe('chains whose phases are drawn', () => {
  const random = seeded(41);
  const between = (least: number, most: number): number => Math.round(least + random() * (most - least));
  const timed = () => {
    const least_ps = between(1e8, 2e9);
    return { least_ps, most_ps: random() < 0.5 ? least_ps : between(least_ps, 3e9) };
  };
  const direct = (): Link => ({ kind: 'direct', ...timed() });
  const free = (): Link => ({
    kind: 'sampled',
    period_ps: between(1e8, 1e10),
    phase_ps: undefined,
    ...timed(),
  });
  /** On a clock of 1 ms, with every cycle, every second one or every fourth. */
  const locked = (): Link => {
    const delay_ps = between(0, 3e9);
    const period_ps = 1e9 * 2 ** between(0, 2);
    return {
      kind: 'sampled',
      period_ps,
      phase_ps: between(0, 4e9),
      least_ps: delay_ps,
      most_ps: delay_ps,
    };
  };
  const constant = (): Link => {
    const delay_ps = between(0, 2e9);
    return { kind: 'direct', least_ps: delay_ps, most_ps: delay_ps };
  };

  /** The delay of a cause at any instant, with any phase where it is free, or of the clock that it is on, link by link. */
  function drawnDelay(links: readonly Link[]): number {
    const [cause, other] = [random() * 4e9, random() * 4e9];
    const effect = links.reduce((now, link) => {
      const takes = link.least_ps + random() * (link.most_ps - link.least_ps);
      if (link.kind === 'direct') return now + takes;
      const phase = (link.phase_ps ?? random() * link.period_ps) + (link.clock === undefined ? 0 : other);
      return phase + Math.ceil((now - phase) / link.period_ps) * link.period_ps + takes;
    }, cause);
    return effect - cause;
  }

  it('200 chains of free links and runs on one clock or two: at least 190 within the 99 % band of Kolmogorov and Smirnov', () => {
    let inside = 0;
    for (let at = 0; at < 200; at++) {
      const loose = Array.from({ length: 1 + between(0, 4) }, () => (random() < 0.6 ? free() : direct()));
      const run = at % 2 === 0 ? [] : [locked(), constant(), locked(), locked()].slice(0, 1 + between(0, 3));
      const second =
        at % 5 > 0
          ? []
          : [locked(), constant(), locked()].map(
              (link): Link => (link.kind === 'sampled' ? { ...link, clock: 'other' } : link),
            );
      const links = [...loose, ...run, ...second, direct()];
      const found = spreadOf(delayPartsOf(links)!)!;
      const { least_ps, most_ps } = delayOf(links);
      expect([found.breaks_ps[0], found.breaks_ps.at(-1)]).toEqual([least_ps, most_ps]);
      const draws = Array.from({ length: 2000 }, () => drawnDelay(links)).sort((a, b) => a - b);
      const distance = draws.reduce((most, delay, place) => {
        const share = shareUpTo(found, delay);
        return Math.max(most, share - place / draws.length, (place + 1) / draws.length - share);
      }, 0);
      // From memory: 1.628/√n is passed by one in a hundred.
      if (distance < 1.628 / Math.sqrt(draws.length)) inside++;
    }
    expect(inside).toBeGreaterThanOrEqual(190);
  });

  it('a look swallows jitter that does not decide in which period it is, and says that it cannot tell if it does', () => {
    const look = (phase_ps: number): Link => ({
      kind: 'sampled',
      period_ps: 1e9,
      phase_ps,
      least_ps: 0,
      most_ps: 0,
    });
    const jittery: Link = { kind: 'direct', least_ps: 1e8, most_ps: 3e8 };
    expect(spreadOf(delayPartsOf([look(0), jittery, look(5e8)])!)!.breaks_ps).toEqual([5e8, 15e8]);
    expect(delayPartsOf([look(0), jittery, look(2e8)])).toBeUndefined();
    expect(delayPartsOf([look(0), free(), look(0)])).toBeUndefined();
    const late: Link = { kind: 'sampled', period_ps: 1e12 - 1, phase_ps: 0, least_ps: 0, most_ps: 0 };
    expect(delayPartsOf([look(0), late])).toBeUndefined();
  });
});
