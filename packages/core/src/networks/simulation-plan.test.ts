// What the simulation is given against the walk: every frame on every cable, for every discipline on every topology.
import { describe, expect, it } from 'vitest';
import { sound, textOf } from '../assess/noise.support.ts';
import { Missing } from '../working/missing.ts';
import type { CyclePlan, Hop } from './calc/simulate/plan.ts';
import { casesOf, pairs } from './cycle-cases.support.ts';
import type { WalkHop } from './cycle-walk.support.ts';
import { withoutBreak } from './disciplines.ts';
import { type Planned, plan } from './planned.ts';
import { type Simulated, simulatedOf } from './simulation-plan.ts';

const perPair = 40;

/** The cases say nothing of noise. */
function withNoise({ network }: Planned): Planned {
  const quiet = sound(textOf({ stations: 1, noise: ['bit_errors: 0'] })).networks[0]!.network;
  const runs = network.runs.map((run) => ({ ...run, bitErrors: quiet.runs[0]!.bitErrors }));
  const own = new Map(network.runs.map((run, at) => [run, runs[at]!]));
  const devices = network.devices.map((device) => ({
    ...device,
    way: { ...device.way, runs: device.way.runs.map((run) => own.get(run)!) },
    otherWay: device.otherWay && { ...device.otherWay, runs: device.otherWay.runs.map((run) => own.get(run)!) },
  }));
  return plan({ ...network, runs, devices, noise: quiet.noise });
}

function simulated(planned: Planned): Simulated {
  const found = simulatedOf(planned);
  if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
  return found;
}

const flown = ({ branches, exchanges }: CyclePlan): readonly Hop[] => [
  ...branches,
  ...exchanges.flatMap(({ hops }) => hops),
];

describe(`the plan of a simulation and the walk, ${perPair} seeded networks for each of ${pairs.length} pairs`, () => {
  it.each(casesOf(perPair))(
    'every frame on every cable is where the walk has it, to a picosecond: $name',
    ({ cases }) => {
      let compared = 0;
      for (const { seed, made, planned: before, walked, breaks } of cases) {
        const planned = withNoise(before);
        const { network } = planned;
        const { plan } = simulated(planned);
        const { discipline } = made.network;
        // Of a ring, frames that pass through all stations leave out the shortest run.
        const kept = withoutBreak(network);
        const at =
          discipline === 'summation'
            ? network.devices.findIndex(({ way }) => !kept.includes(way.runs.at(-1)!))
            : planned.brokenAfter!;
        const { cycles } = made.closing_ps === undefined ? walked : breaks[at < 0 ? network.devices.length : at]!;
        /** A cable of the walk is called after the device at its far end. */
        const cableOf = (run: number): string => network.runs[run]!.name;
        const nameOf = ({ cable }: WalkHop): string => {
          const index = network.devices.findIndex(({ name }) => name === cable);
          const device = network.devices[index]!;
          const isOtherWay = made.closing_ps !== undefined && index >= (at < 0 ? network.devices.length : at);
          return (isOtherWay ? device.otherWay! : device.way).runs.at(-1)!.name;
        };
        const key = (cable: string, from_ps: number, to_ps: number): string => `${cable} ${from_ps} ${to_ps}`;
        for (const [cycle, { hops }] of cycles.entries()) {
          const due = new Set(hops.map((hop) => key(nameOf(hop), Math.round(hop.from_ps), Math.round(hop.to_ps))));
          const found = new Set(
            flown(plan.cycles[cycle]!).map(({ run, from_ps, lasts_ps }) =>
              key(cableOf(run), from_ps, from_ps + lasts_ps),
            ),
          );
          expect([...found].sort(), `seed ${seed}, cycle ${cycle}`).toEqual([...due].sort());
          compared += due.size;
        }
      }
      expect(compared).toBeGreaterThan(perPair);
    },
  );

  it('finds a hop that is moved by a nanosecond, and a device that is passed too quickly', () => {
    const cases = casesOf(4)
      .filter(({ topology }) => topology === 'line')
      .flatMap((each) => each.cases);
    let found = 0;
    for (const { planned: before, walked } of cases) {
      const { network } = withNoise(before);
      const quicker = network.devices.map((device) => ({
        ...device,
        way: { ...device.way, passed: device.way.passed.slice(1) },
      }));
      const { plan: own } = simulated(plan({ ...network, devices: quicker }));
      const due = new Set(walked.cycles[0]!.hops.map(({ from_ps }) => Math.round(from_ps)));
      const flights = flown(own.cycles[0]!);
      if (flights.some(({ from_ps }) => !due.has(from_ps))) found++;

      expect(due.has(flights[0]!.from_ps + 1000)).toBe(false);
    }
    expect(found).toBeGreaterThan(cases.length / 4);
  });
});
