// Every discipline on every topology that the demonstration profiles allow: the closed forms against the walk.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { Quantity } from '../working/quantity.ts';
import { known, q } from '../working/testing.support.ts';
import { repeatsWithReserve } from './calc/cycle.ts';
import { balance, loadsOf, patternOf } from './calc/phases.ts';
import { casesOf, differs, pairs } from './cycle-cases.support.ts';
import { walk } from './cycle-walk.support.ts';
import type { Network } from './network.ts';
import { type Planned, plan } from './planned.ts';

const perPair = 200;
const results = casesOf(perPair);

describe(`closed forms and walk, ${perPair} seeded networks for each of ${pairs.length} pairs of profile and topology`, () => {
  it.each(results)('cycle walked frame by frame agrees within a picosecond: $name', ({ cases, topology }) => {
    expect(cases.length).toBe(perPair);
    for (const { seed, planned, walked } of cases) {
      expect(planned.network.topology, `seed ${seed}`).toBe(topology);
      if (differs(known(planned.used), walked.used_ps))
        expect(known(planned.used) * 1e12, `seed ${seed}`).toBe(walked.used_ps);
      if (differs(known(planned.syncShift), walked.commandsIn_ps))
        expect(known(planned.syncShift) * 1e12, `seed ${seed}`).toBe(walked.commandsIn_ps);
      expect(walked.conflicts, `seed ${seed}: frames that wait`).toBe(0);
    }
  });

  it('cycle walked exchange by exchange, and the split adds up to the cycle', () => {
    for (const { cases } of results) {
      for (const { seed, planned } of cases) {
        const sum = planned.shares.reduce((total, { time }) => total + known(time), 0);
        expect(differs(sum, 1e11), `seed ${seed}`).toBe(false);
      }
    }
  });

  it('arrival walked hop by hop agrees within a picosecond', () => {
    for (const { cases, topology } of results.filter((each) => each.topology !== 'ring')) {
      for (const { seed, planned, walked } of cases) {
        for (const { device, there, answered } of planned.exchanges) {
          expect(
            differs(known(there), walked.there_ps.get(device.name)!),
            `${topology}, seed ${seed}, ${device.name}`,
          ).toBe(false);
          expect(
            differs(known(answered), walked.answered_ps.get(device.name)!),
            `${topology}, seed ${seed}, ${device.name}`,
          ).toBe(false);
        }
      }
    }
  });

  it('one repeat more does not fit, and those that fit do', () => {
    for (const { cases } of results) {
      for (const { seed, planned } of cases.slice(0, 40)) {
        const [fit, reserved, free, longest] = [
          known(planned.repeatsThatFit),
          known(planned.network.repeats),
          known(planned.free),
          Math.max(...planned.repeatable.map(known)),
        ];
        expect((fit - reserved) * longest, `seed ${seed}`).toBeLessThanOrEqual(free + 1e-12);
        expect((fit - reserved + 1) * longest, `seed ${seed}`).toBeGreaterThan(free - 1e-12);
        const { network, used, repeatable } = planned;
        const share = q(0.2, '1');
        const given = { n: network.repeats, q: share, T: network.cycle, u: used, x: repeatable };
        const kept = repeatsWithReserve(given as Parameters<typeof repeatsWithReserve>[0], 'n').value;
        const left = free - 0.2 * known(network.cycle);
        expect((kept - reserved) * longest, `seed ${seed}`).toBeLessThanOrEqual(left + 1e-12);
        expect((kept - reserved + 1) * longest, `seed ${seed}`).toBeGreaterThan(left - 1e-12);
      }
    }
  });

  /** How many cases a changed closed form is told apart in. */
  const found = (change: (planned: Planned) => number): number =>
    results.flatMap(({ cases }) => cases).filter(({ planned, walked }) => differs(change(planned), walked.used_ps))
      .length;
  const replanned = (change: (network: Network) => Network) =>
    found(({ network }) => known(plan(change(network)).used));
  const less = (value: unknown, by: number): never => {
    const quantity = value as Quantity;
    return new Quantity(quantity.value - by, quantity.unit, quantity.by, quantity.inputs, quantity.about) as never;
  };

  it('a hop that is missed is found', () => {
    const missed = replanned((network) => {
      const devices = network.devices.map((device) => ({
        ...device,
        way: { ...device.way, passed: device.way.passed.slice(1) },
      }));
      return { ...network, topology: 'line', devices };
    });
    expect(missed).toBeGreaterThan(100);
  });
  it('a gap that is missed is found', () =>
    expect(
      replanned((network) => ({ ...network, profile: { ...network.profile, gap: less(network.profile.gap, 96) } })),
    ).toBeGreaterThan(1000));
  it('a tag that is missed is found', () =>
    expect(
      replanned((network) => ({
        ...network,
        profile: { ...network.profile, overhead: less(network.profile.overhead, 32) },
      })),
    ).toBeGreaterThan(1000));
  it('a repeat at the length of the last exchange is found', () => {
    const wrong = found(
      (planned) =>
        known(planned.used) -
        known(planned.repeats) +
        known(planned.network.repeats) * known(planned.repeatable.at(-1)!),
    );
    expect(wrong).toBeGreaterThan(300);
  });
  it('phases that are not balanced are found', () => {
    const unbalanced = results
      .flatMap(({ cases }) => cases)
      .filter(
        ({ planned, made, walked }) =>
          made.closing_ps === undefined &&
          planned.pattern > 1 &&
          differs(
            walk(made.network, new Map(planned.exchanges.map(({ device }) => [device.name, 0]))).used_ps * 1e-12,
            walked.used_ps,
          ),
      );
    expect(unbalanced.length).toBeGreaterThan(100);
  });

  it('the walk imports nothing', () => {
    const text = readFileSync(new URL('./cycle-walk.support.ts', import.meta.url), 'utf8');
    expect(text.match(/^\s*(import|export .* from)\b/gm)).toBeNull();
    expect('import x from "y"'.match(/^\s*(import|export .* from)\b/gm)).not.toBeNull();
  });
});

describe('phases', () => {
  /** Every choice of phases, one after another. */
  function bestOfAll(loads: readonly number[], multiples: readonly number[]): number {
    const pattern = patternOf(multiples);
    let best = Number.POSITIVE_INFINITY;
    const total = multiples.reduce((product, each) => product * each, 1);
    for (let choice = 0; choice < total; choice++) {
      let rest = choice;
      const phases = multiples.map((each) => {
        const phase = rest % each;
        rest = Math.floor(rest / each);
        return phase;
      });
      best = Math.min(best, Math.max(...loadsOf(loads, multiples, phases, pattern)));
    }
    return best;
  }

  it('leave the fullest cycle as empty as the best of all choices, on 400 small sets', () => {
    for (let seed = 1; seed <= 400; seed++) {
      const random = seeded(seed);
      const multiples = Array.from({ length: 2 + Math.floor(random() * 6) }, () => 1 + Math.floor(random() * 4));
      const loads = multiples.map(() => (random() < 0.4 ? 10 : 1 + Math.floor(random() * 30)));
      const fullest = Math.max(...loadsOf(loads, multiples, balance(loads, multiples), patternOf(multiples)));
      expect(fullest, `seed ${seed}`).toBe(bestOfAll(loads, multiples));
    }
  });
});
