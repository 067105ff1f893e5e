// Position errors of times and clocks as whole machine files, against published figures; arithmetic on a source's inputs is
// called derived.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';

const assessed = (text: string) => {
  const machine = read(`layshaft: 1\n${text}`);
  expect(machine.problems).toEqual([]);
  return assess(resolve(machine, [demonstration()]));
};
const demandOf = (chain: string): number =>
  assessed(`chains: { it: ${chain} }\n`).findings.find(({ address }) => address === 'timing.chain@it')!.demand!.value;

describe('a chain whose way is allowed', () => {
  it('J1 as a file: Olson 2010, sensor synchronisation: 90°/s for 10 ms move a point at 10 m by 15.7 cm', () => {
    const angle = demandOf(
      '{ from: { delay: 10 ms }, through: [{ takes: 0 ms }], to: { delay: 0 ms }, within: 5°, speed: 15 rpm }',
    );
    expect(10 * angle).toBeCloseTo(0.1571, 4);
  });

  it('J2 as a file (derived): 10 m/s for 1 µs are 10 µm, all that a lead for the constant part leaves of it', () => {
    const way = demandOf(
      '{ from: { delay: 4 ms, jitter: 1 µs }, through: [{ takes: 0 ms }], to: { delay: 2 ms }, within: 1 mm, speed: 10 m/s, lead: constant_part }',
    );
    expect(way).toBeCloseTo(10e-6, 12);
  });
});

describe('a drive with a clock of its own', () => {
  const file = (cycle: string, apart: string): string => `catalogue: [demonstration]
controller: controller_m
axes:
  a:
    motion: { cycle: 1 s, runs: { speed: 2 m/s, for: 1 s } }
    train: [{ slide: { mass: 1 kg } }]
    tolerance: 5 mm
    drive: { part: drive_5, setpoints: own_clock, setpoint_jitter: 0 µs, clock_apart: ${apart} }
networks:
  n: { port: 1, profile: polled_100, cycle: ${cycle}, repeats: 0, non_cyclic: 0 octets, runs: [[controller, a, 2 m, solid]] }
`;
  const partsIn = (text: string): readonly number[] =>
    assessed(text)
      .timing.updates[0]!.reasons.find(({ title }) => title === 'jitter of the setpoints')!
      .parts.map(({ costs }) => {
        if (costs instanceof Missing) throw new Error(JSON.stringify(costs.lacks));
        return costs.value;
      });

  it('J3 as a file (derived): 200 ppm over 500 µs are 100 ns, inputs of the clock drift showcase of INET', () => {
    expect(partsIn(file('500 µs', '200 ppm'))[0]! / 2).toBeCloseTo(100e-9, 15);
  });

  it('question 20 (derived): 1 ms with 50 ppm beat every 20 s', () => {
    expect(partsIn(file('1 ms', '50 ppm'))[1]).toBeCloseTo(20, 9);
  });
});
