// Captures of a simulated file: every frame has the length that the plan of its cycle gives it, and the window is what was asked.
import { describe, expect, it } from 'vitest';
import { sound, textOf } from '../assess/noise.support.ts';
import { known } from '../working/testing.support.ts';
import { summationFrames } from './disciplines.ts';
import { type Planned, servedIn } from './planned.ts';
import { type Simulation, simulationOf } from './simulation.ts';
import { captureFrom } from './simulation-capture.ts';

/** Stations of different lengths and multiples, and frames so short that all data do not fit into one. */
const fileOf = (profile: string): Planned => {
  const text = textOf({ stations: 5, profile, cycle: '2 ms', noise: ['bit_errors: 0'], answer: 700 });
  const changed = ['s2', 's4', 's5'].reduce(
    (all, name, at) =>
      all
        .replace(`${name}: { turnaround`, `${name}: { every: ${at + 2} cycles, turnaround`)
        .replace('command: 30', `command: ${31 + 40 * at}`),
    text,
  );
  return sound(changed).networks[0]!;
};

/** The octets of every packet, behind section and interface. */
function lengthsIn(file: Uint8Array): readonly number[] {
  const view = new DataView(file.buffer);
  const lengths: number[] = [];
  for (let at = 0; at < file.length; at += view.getUint32(at + 4, true))
    if (view.getUint32(at, true) === 6) lengths.push(view.getUint32(at + 20, true));
  return lengths;
}

/** From the plan, cycle by cycle: what is sent and what is answered, in octets. */
function expectedOf(planned: Planned, cycle: number): readonly number[] {
  const { network, exchanges, phases } = planned;
  const served = servedIn(cycle, exchanges, phases);
  const { discipline, overhead, frame_at_least } = network.profile;
  if (discipline === 'summation') {
    const frames = summationFrames(network, served, 'test') as readonly {
      readonly length: { readonly value: number };
    }[];
    return frames.flatMap(({ length }) => [length.value, length.value]).map((bits) => bits / 8);
  }
  const forAll = served.reduce((sum, { device }) => sum + known(device.command), known(overhead));
  const commands =
    discipline === 'chained'
      ? served.length === 0
        ? []
        : [Math.max(known(frame_at_least), forAll)]
      : served.map(({ commandFrame }) => known(commandFrame));
  return [...commands, ...served.map(({ answerFrame }) => known(answerFrame))].map((bits) => bits / 8);
}

const simulated = (planned: Planned): Simulation => simulationOf(planned, { cycles: 1000, seed: 1 }) as Simulation;

describe('a capture of a file', () => {
  it.each(['polled_100', 'pipelined_100', 'chained_100', 'summation_100', 'slotted_100'])(
    'has every frame in its length, whoever is served in its cycle: %s',
    (profile) => {
      const planned = fileOf(profile);
      expect(planned.pattern).toBe(12);
      const asked = simulated(planned);
      const different = new Set<string>();
      for (let cycle = 0; cycle < planned.pattern; cycle++) {
        const { file, frames, says } = captureFrom(asked, { from: cycle, cycles: 1 });
        const due = expectedOf(planned, cycle)
          .map((octets) => Math.max(64, octets))
          .toSorted((a, b) => a - b);
        expect(lengthsIn(file).toSorted((a, b) => a - b)).toEqual(due);
        expect([frames, says]).toEqual([due.length, `cycle ${cycle}`]);
        different.add(String(due));
      }
      expect(different.size).toBeGreaterThan(2);
    },
  );

  it('is of the first hundred cycles where nothing is said, or of as many as there are behind the first', () => {
    const asked = simulated(fileOf('polled_100'));
    expect(captureFrom(asked, {}).says).toBe('cycles 0 to 99');
    expect(captureFrom(asked, { from: 950 }).says).toBe('cycles 950 to 999');
    expect(captureFrom(asked, { from: 3, cycles: 200 }).says).toBe('cycles 3 to 202');
    expect(() => captureFrom(asked, { from: 1000 })).toThrow('behind the last of the 1000 cycles');
    expect(() => captureFrom(asked, { from: 900, cycles: 101 })).toThrow(RangeError);
  });

  it('has both ports of a ring that sends both ways, each copy at the time at which it passes there', () => {
    const ring = textOf({
      stations: 3,
      profile: 'slotted_100',
      laid: 'ring',
      cycle: '1 ms',
      noise: ['bit_errors: 0'],
    }).replace('[s2, s3, 2 m', '[s2, s3, 90 m');
    const { file, frames } = captureFrom(simulated(sound(ring).networks[0]!), { cycles: 1 });
    expect(frames).toBe(3 * 2 * 2);
    const view = new DataView(file.buffer);
    const found: { readonly port: number; readonly stamp_ns: bigint }[] = [];
    const names: string[] = [];
    for (let at = 0; at < file.length; at += view.getUint32(at + 4, true)) {
      const type = view.getUint32(at, true);
      if (type === 1)
        names.push(Buffer.from(file.subarray(at + 20, at + 20 + view.getUint16(at + 18, true))).toString());
      if (type === 6)
        found.push({
          port: view.getUint32(at + 8, true),
          stamp_ns: (BigInt(view.getUint32(at + 12, true)) << 32n) | BigInt(view.getUint32(at + 16, true)),
        });
    }
    expect(names).toEqual(['n, controller_s1', 'n, s3_controller']);
    expect(found.filter(({ port }) => port === 0)).toHaveLength(6);
    const stamps = found.map(({ stamp_ns }) => stamp_ns);
    expect(stamps).toEqual(stamps.toSorted((a, b) => Number(a - b)));
    const at = (which: number) => found.flatMap(({ port, stamp_ns }) => (port === which ? [stamp_ns] : []));
    // Commands leave both ports at once; answers come in as far as their ways are.
    expect(at(0)).not.toEqual(at(1));
    expect(at(0).filter((stamp) => at(1).includes(stamp)).length).toBeGreaterThanOrEqual(3);
  });
});
