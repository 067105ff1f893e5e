// Capacity: the kernel, the most axes, ten more, line against star; and two facts of the trade.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { verdictOf } from '../checks/margin.ts';
import { read } from '../machine/machine.ts';
import { type Design, resolve } from '../machine/resolve.ts';
import type { Quantity } from '../working/quantity.ts';
import { known, q } from '../working/testing.support.ts';
import { shortestAllowed, shortestCycle } from './calc/cycle.ts';
import { addedAxes, broken, mostAxesOf, usesOf } from './capacity.ts';
import { asLine, asStar, lineOf } from './grow.ts';
import { controlledBy, kernelOf, kernelShareOf } from './kernel.ts';
import { type Device, type Network, stationsOf } from './network.ts';
import { plan } from './planned.ts';

const catalogue = demonstration();
const reserves = { cycle: 0.2, kernel: 0.15 };

function designOf(networks: string, axes = 1, controller = 'controller_m'): Design {
  const names = Array.from({ length: axes }, (_, index) => `  a${index}: { drive: drive_5 }`).join('\n');
  const design = resolve(read(`layshaft: 1\ncontroller: ${controller}\naxes:\n${names}\nnetworks:\n${networks}`), [
    catalogue,
  ]);
  expect(design.problems).toEqual([]);
  return design;
}

const lineText = (axes: number, profile = 'polled_100', cycle = '1 ms', length = '0.5 m') => `  n:
    port: 1
    profile: ${profile}
    cycle: ${cycle}
    repeats: 1
    non_cyclic: 300 octets
    runs:
${Array.from({ length: axes }, (_, index) => `      - [${index === 0 ? 'controller' : `a${index - 1}`}, a${index}, ${length}, solid]`).join('\n')}
`;

const networkOf = (axes: number, ...rest: [string?, string?, string?]): Network =>
  designOf(lineText(axes, ...rest), axes).networks[0]!;
const firstOf = (network: Network): Device => stationsOf(network)[0]!;

describe('the motion kernel', () => {
  it('kernel by hand: base 30 µs, 9 µs for each of six axes, 18 ns for each of 120 octets, of a cycle of 1 ms', () => {
    const text = `${lineText(6)}      - [a5, rack, 4 m, solid]\n    nodes: { rack: rack_large }\n`;
    const { networks } = designOf(text, 6);
    const planned = plan(networks[0]!);
    expect(known(kernelOf(planned))).toBeCloseTo(30e-6 + 6 * 9e-6 + 120 * 18e-9, 15);
    expect(known(kernelShareOf(controlledBy([planned])[0]!))).toBeCloseTo(0.08616, 12);
  });

  it('kernel by hand: two networks of one controller add up', () => {
    const one = plan(networkOf(4, 'polled_100', '1 ms'));
    const two = plan(networkOf(2, 'polled_100', '500 µs'));
    expect(known(kernelShareOf({ controller: one.network.controller, networks: [one, two] }))).toBeCloseTo(
      66e-6 / 1e-3 + 48e-6 / 500e-6,
      12,
    );
  });

  it('counts axes on a multiple of the cycle in their fullest cycle only', () => {
    const text = lineText(4);
    const axes = [0, 1, 2, 3].map((index) => `  a${index}: { drive: { part: drive_5, every: 2 cycles } }`).join('\n');
    const { networks } = resolve(read(`layshaft: 1\ncontroller: controller_m\naxes:\n${axes}\nnetworks:\n${text}`), [
      catalogue,
    ]);
    expect(known(kernelOf(plan(networks[0]!)))).toBeCloseTo(30e-6 + 2 * 9e-6, 15);
  });
});

describe('capacity', () => {
  it('the most axes are those that hold, and one more does not', () => {
    const network = networkOf(1);
    const most = mostAxesOf(network, firstOf(network), designOf(lineText(1)).alternatives.controllers(), reserves);
    expect(most.length).toBeGreaterThan(10);
    for (const { controller, cycle, axes, stops } of most) {
      const at = (count: number) =>
        broken(usesOf(plan(lineOf({ ...network, controller, cycle }, firstOf(network), count))), reserves);
      if (axes > 0) expect(at(axes), `${controller.part} ${cycle.value}`).toBeUndefined();
      expect(at(axes + 1)?.resource, `${controller.part} ${cycle.value}`).toBe(stops);
    }
  });

  it('ten more axes: computing time breaks before the wire on a short pipelined network with a small controller', () => {
    const network = designOf(lineText(8, 'pipelined_100', '1 ms'), 8, 'controller_s').networks[0]!;
    const added = addedAxes(network, firstOf(network), 10, reserves);
    expect(added[0]?.resource).toBe('motion kernel');
    const compute = added.find(({ resource }) => resource === 'motion kernel')!;
    expect(compute.after.demand - compute.before.demand).toBeCloseTo(10 * 22e-6, 12);
    const wire = added.find(({ resource }) => resource === 'cycle')!;
    // Ten more on the wire: ten more commands and answers side by side, and a longer way.
    expect(wire.after.demand - wire.before.demand).toBeLessThan(10 * 2 * 6.72e-6);
    expect(wire.breaksAt).toBeGreaterThan(compute.breaksAt!);
  });
});

describe('views', () => {
  it('the shortest cycle just keeps its reserve', () => {
    const network = networkOf(5);
    const { used } = plan(network);
    const shortest = shortestCycle({ u: used as Quantity<'s'>, q: q(0.2, '1') }, 'n');
    expect(verdictOf(known(used), shortest.value, 0.2)).toBe('holds');
    expect(verdictOf(known(used), shortest.value * 0.999, 0.2)).toBe('thin');
    // Where the profile allows less, that is the shortest; else the profile's own.
    const allowed = (least_s: number) =>
      shortestAllowed({ u: used as Quantity<'s'>, q: q(0.2, '1'), m: q(least_s, 's') }, 'n').value;
    expect(allowed(shortest.value * 0.9)).toBe(shortest.value);
    expect(allowed(shortest.value * 1.1)).toBe(shortest.value * 1.1);
  });
});

describe('line and star', () => {
  const centre = (network: Network): Device => {
    const text = `  n:\n    port: 1\n    profile: polled_100\n    cycle: 1 ms\n    nodes: { s: { part: switch_8, plugs: 100 } }\n    runs:\n      - [controller, s, 0 m, solid]\n      - [s, a0, 0 m, solid]\n`;
    const { devices } = designOf(text).networks[0]!;
    return { ...devices.find(({ name }) => name === 's')!, plugged: network.devices.length + 1 };
  };
  const usedAs = (count: number) => {
    const network = lineOf(
      networkOf(1, 'polled_100', '4 ms', '0 m'),
      firstOf(networkOf(1, 'polled_100', '4 ms', '0 m')),
      count,
    );
    return { line: known(plan(asLine(network)).busy), star: known(plan(asStar(network, centre(network))).busy) };
  };

  it('common practice, no source: a star over a store-and-forward switch does not beat a line of fewer than about 50 drives of 0.4 µs', () => {
    const counts = Array.from({ length: 70 }, (_, index) => index + 1);
    const wins = counts.filter((count) => usedAs(count).star < usedAs(count).line);
    expect(wins[0]).toBeGreaterThanOrEqual(48);
    expect(wins[0]).toBeLessThanOrEqual(52);
    expect(wins).toEqual(counts.filter((count) => count >= wins[0]!));
  });
});

describe('common practice, no source', () => {
  const shortest = (count: number, profile: string): number => known(plan(networkOf(count, profile)).used) * 1e3;
  const bare = (count: number, profile: string): number => {
    const { busy } = plan(networkOf(count, profile));
    return known(busy) * 1e3;
  };
  it('a handful of servo axes (four) run at 0.25 ms on a polled network with a repeat in hand', () =>
    expect(shortest(4, 'polled_100')).toBeLessThan(0.25));
  it('60 stations run at 4 ms', () => expect(shortest(60, 'polled_100')).toBeLessThan(4));
  it('60 stations polled one after another cannot run at 0.5 ms: two minimum frames each take 0.81 ms', () => {
    expect(60 * 2 * 0.00672).toBeCloseTo(0.8064, 10);
    expect(bare(60, 'polled_100')).toBeGreaterThan(0.8064);
  });
  it('pipelined they need 0.40 ms of wire', () => {
    const planned = plan(networkOf(60, 'pipelined_100'));
    const commands = planned.exchanges.reduce((sum, { command }) => sum + known(command), 0) * 1e3;
    expect(commands).toBeCloseTo(0.4032, 10);
    expect(bare(60, 'pipelined_100')).toBeLessThan(0.5);
  });
});
