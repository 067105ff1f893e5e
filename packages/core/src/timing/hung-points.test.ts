// A point hangs on a station: its chains go through that station, whether they name it or not.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';

const file = (through: string, at = 'rack_o', networks = true): string => `layshaft: 1
catalogue: [demonstration]
controller: controller_m
${
  networks
    ? `networks:
  n: { port: 1, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, nodes: { rack_o: rack_small, rack_p: rack_small }, runs: [[controller, rack_o, 20 m, solid], [rack_o, rack_p, 20 m, solid]] }
`
    : ''
}tasks: { fast: { every: 4 ms, takes: 1 ms, priority: 1 } }
points:
  eye: { kind: digital_in, at: ${at}, delay: 1 ms }
  valve: { kind: digital_out, at: ${at}, delay: 8 ms }
chains: { it: { from: eye, through: [${through}], to: valve, within: 50 ms } }
`;
const assessed = (text: string) => {
  const design = resolve(read(text), [demonstration()]);
  expect(design.problems).toEqual([]);
  return assess(design);
};
const timesOf = (text: string) => {
  const { times, links } = assessed(text).timing.chains[0]!;
  if (times instanceof Missing || links instanceof Missing) throw new Error(JSON.stringify(times));
  return { least: times.least.value, most: times.most.value, titles: links.map(({ title }) => title) };
};

describe('the station that a point hangs on', () => {
  it('is put in on the side where the chain does not name it, and makes no difference to one that does', () => {
    const named = timesOf(file('rack_o, fast, rack_o'));
    for (const through of ['fast', 'rack_o, fast', 'fast, rack_o']) {
      const { least, most } = timesOf(file(through));
      expect({ least, most }, through).toEqual({ least: named.least, most: named.most });
    }
    expect(timesOf(file('fast')).titles).toEqual([
      'delay of eye',
      'rack_o, its inputs, where eye hangs',
      'task fast',
      'rack_o, its outputs, where valve hangs',
      'delay of valve',
    ]);
  });

  it('costs what its network does: a cycle and the way there and back, both ways', () => {
    const [at, main] = [timesOf(file('fast')), timesOf(file('fast', 'main'))];
    const [inputs, outputs] = assessed(file('fast')).networks[0]!.exchanges.map(({ there }) => there);
    expect([inputs, outputs].every((each) => !(each instanceof Missing))).toBe(true);
    // Each of the two looks once in a cycle of 1 ms; the answer takes some µs.
    expect(at.most - main.most).toBeGreaterThan(2e-3);
    expect(at.most - main.most).toBeLessThan(2.05e-3);
  });

  it('is told on the page of the chain', () => {
    const [view] = show(assessed(file('fast')), 'chains.it');
    expect(JSON.stringify(view!.tables[0]!.rows.map(([title]) => title))).toContain('where eye hangs');
    expect(view!.tables[0]!.note).toContain('whether it names them or not');
  });

  it('is missing where no network serves it, and named by the point', () => {
    const { verdict, lacks } = assessed(file('fast', 'rack_o', false)).findings.find(
      ({ address }) => address === 'timing.chain@it',
    )!;
    expect(verdict).toBe('unknown');
    expect(lacks.map(({ path }) => path)).toEqual(['points.eye.at', 'points.valve.at']);
  });
});

describe('what a link adds is told beside it', () => {
  const addsOf = (text: string): readonly number[] => {
    const { times, links } = assessed(text).timing.chains[0]!;
    if (times instanceof Missing || links instanceof Missing) throw new Error(JSON.stringify(times));
    return links.map((_, at) => times.adds(at).value);
  };

  it('a filter its time, a task with a clock of its own its period and its response', () => {
    const text = file('fast', 'main').replace('delay: 1 ms', 'delay: 1 ms, filter: 3 ms');
    const found = assessed(text).timing.chains[0]!.times;
    if (found instanceof Missing) throw new Error('no times');
    const adds = addsOf(text);
    const kernel = 1; // Of the network, which goes before the task.
    expect(adds[1]).toBeCloseTo(3e-3, 12);
    expect(adds[2]).toBeGreaterThanOrEqual((4 + kernel) * 1e-3);
    expect(adds.reduce((sum, each) => sum + each, 0)).toBeCloseTo(found.most.value, 12);
  });

  it('a station that is served in every fourth cycle three cycles more than one that is served in each', () => {
    const text = file('fast').replace('rack_o: rack_small', 'rack_o: { part: rack_small, every: 4 cycles }');
    const [often, seldom] = [addsOf(file('fast'))[1]!, addsOf(text)[1]!];
    expect(seldom - often).toBeCloseTo(3e-3, 6);
  });
});
