// Chains that end in the tool of an axis, and chains over networks that go by clocks of their own.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { restsOn } from '../../../../tests/support/quantities.ts';
import { Missing } from '../working/missing.ts';
import { addressOf } from '../working/quantity.ts';
import { known, q } from '../working/testing.support.ts';
import { loopDelay } from './calc/link-times.ts';

const assessed = (text: string) => assessText(text, 'machine.yaml');
const timesOf = (text: string) => {
  const { times, links } = assessed(text).timing.chains[0]!;
  if (times instanceof Missing || links instanceof Missing) throw new Error(JSON.stringify(times));
  return {
    least: times.least.value,
    most: times.most.value,
    spread: times.spread(),
    titles: links.map(({ title }) => title),
  };
};

describe('a chain that ends in an axis', () => {
  const file = (drive: string, through = 'fast', axis = 'gain: 50 1/s'): string => `layshaft: 1
controller: controller_m
axes:
  knife: { drive: { part: drive_5, ${drive} }, motion: { cycle: 1 s, runs: { speed: 1 m/s, for: 1 s } }, train: [{ slide: { mass: 1 kg } }], ${axis} }
networks:
  n: { port: 1, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, runs: [[controller, knife, 2 m, solid]] }
tasks: { fast: { every: 4 ms, takes: 1 ms, priority: 1, core: second } }
chains: { it: { from: { delay: 2 ms }, through: [${through}], to: knife, within: 50 ms } }
`;
  const inStep = 'setpoint_cycles: 2 cycles, setpoint_jitter: 10 µs';
  const before = 2e-3 + (4e-3 + 1e-3) + 1e-3;

  it('a chain that ends in an axis counts the buffers of its drive: in step three periods, the jitter, and 1/k of its loop', () => {
    const { most, least, titles } = timesOf(file(inStep));
    expect(most).toBeCloseTo(before + 3e-3 + 10e-6 + 20e-3, 12);
    expect(least).toBeCloseTo(2e-3 + 3e-3 - 10e-6 + 20e-3, 12);
    expect(titles.slice(-2)).toEqual(['setpoints of knife, until it goes by them', 'position loop of knife']);
    expect(timesOf(file(inStep, 'fast, knife'))).toMatchObject({ most, least });
  });

  it('on arrival it goes by them as they come; by a clock of its own up to a period later', () => {
    const [there] = assessed(file(inStep)).networks[0]!.exchanges.map((exchange) => known(exchange.there));
    const with_ = (setpoints: string): number => timesOf(file(`${inStep}, setpoints: ${setpoints}`)).most;
    expect(with_('on_arrival')).toBeCloseTo(before + 2e-3 + there! + 10e-6 + 20e-3, 12);
    expect(with_('own_clock') - with_('on_arrival')).toBeCloseTo(1e-3, 12);
  });

  it('what is fed forward does not lag, and what is not known is named', () => {
    const fed = timesOf(file(inStep, 'fast', 'gain: 50 1/s, feed_forward: 90 %'));
    expect(timesOf(file(inStep)).most - fed.most).toBeCloseTo(0.9 / 50, 12);
    const lacks = (text: string) =>
      assessed(text)
        .findings.find(({ address }) => address === 'timing.chain@it')!
        .lacks.map(({ path }) => path);
    expect(lacks(file(inStep, 'fast', 'tolerance: 1 mm'))).toEqual(['axes.knife.gain']);
    expect(lacks(file('setpoint_cycles: unknown'))).toEqual(['axes.knife.drive.setpoint_cycles']);
    const { problems } = assessed(file(inStep).replace('to: knife', 'to: knive')).design;
    expect(problems.map(({ message }) => message)).toEqual(["no point and no axis is called 'knive'"]);
  });

  it('a position loop that is integrated is behind its setpoint by its gain', () => {
    for (const [k, f] of [
      [50, 0],
      [80, 0.7],
    ] as const) {
      let position = 0;
      const [v, dt] = [2, 1e-5];
      for (let step = 0; step < 100_000; step++) position += dt * (f * v + k * (v * (step + 0.5) * dt - position));
      const behind = (v * 100_000 * dt - position) / v;
      expect(loopDelay({ f: q(f, '1'), k: q(k, '1/s') }, 'test').value).toBeCloseTo(behind, 5);
    }
  });
});

describe('clocks of networks', () => {
  const file = (second: string, task = ''): string => `layshaft: 1
controller: controller_m
networks:
  a: { port: 1, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, nodes: { rack_a: rack_small }, runs: [[controller, rack_a, 2 m, solid]] }
  b: { port: 2, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, nodes: { rack_b: rack_small }, runs: [[controller, rack_b, 2 m, solid]]${second} }
tasks: { pass: { every: 1 cycle, of: b, takes: 100 µs, takes_at_least: 100 µs, offset: 200 µs, priority: 1, core: second${task} } }
chains: { it: { from: { delay: 0 ms }, through: [rack_a, pass, rack_b], to: { delay: 0 ms }, within: 50 ms } }
`;
  const wait = 1e-3;

  it('two networks that keep step hand over without a wait, which is listed as assumed; by a clock of its own one waits a cycle', () => {
    const shared = timesOf(file(''));
    const own = timesOf(file(', clock: own'));
    const rack = assessed(file('')).networks[1]!.exchanges[0]!;
    // Input at its look in a, then pass at 200 µs, then the next cycle of b at 1 ms: one way in phase, any in the other.
    const [there, back] = [known(rack.there), known(rack.answered) - known(rack.there)];
    expect(shared.most).toBeCloseTo(wait + (1e-3 - there) + there, 12);
    expect(own.most).toBeCloseTo(wait + back + wait + (1e-3 - 200e-6) + there, 12);
    expect(own.least).toBeCloseTo(back + (1e-3 - 200e-6) + there, 12);
    const { demand } = assessed(file('')).findings.find(({ address }) => address === 'timing.chain@it')!;
    const paths = restsOn([demand]).map((each) => addressOf(each));
    expect(paths).toEqual(expect.arrayContaining(['networks.a.offset', 'networks.b.offset']));
    // Both runs are independent of each other: how the delay spreads is known all the same.
    expect(own.spread).toBeDefined();
  });

  it('a cycle that may start late costs its jitter: at the look, and where the next link just misses it a cycle more', () => {
    const plain = timesOf(file(', offset: 700 µs'));
    const late = timesOf(file(', offset: 700 µs, start_jitter: 20 µs'));
    expect(late.most - plain.most).toBeCloseTo(20e-6, 12);
    expect(late.least).toBeLessThanOrEqual(plain.least);
    // In at the start of a cycle of a, and pass at 0 reads it only if it came in time.
    const tight = (jitter: string): string =>
      file('').replace('cycle: 1 ms', `cycle: 1 ms${jitter}`).replace('offset: 200 µs', 'offset: 20 µs');
    expect(timesOf(tight(', start_jitter: 30 µs')).most - timesOf(tight('')).most).toBeCloseTo(1e-3, 12);
  });

  it('two networks that begin their cycles apart: the wait between them is that of their instants', () => {
    const apart = timesOf(file(', offset: 700 µs'));
    const rack = assessed(file('')).networks[0]!.exchanges[0]!;
    const there = known(rack.there);
    expect(apart.most).toBeCloseTo(wait + (0.7e-3 - there) + there, 12);
  });
});
