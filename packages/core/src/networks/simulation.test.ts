// Simulations of files against their closed forms, what is told of them, and what was on the wire before a trip.
import { readFileSync } from 'node:fs';
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { textOf } from '../assess/noise.support.ts';
import { file, planned, played, simulation } from '../assess/simulation.support.ts';
import { quantitiesIn } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { replay } from '../working/working.ts';
import { runSimulation } from './calc/simulate/run.ts';
import type { Planned } from './planned.ts';
import { resultOf, simulationOf } from './simulation.ts';
import { tracedCycles } from './simulation-trace.ts';
import { simulationView } from './simulation-view.ts';

const example = (name: string, change: (text: string) => string): Planned => {
  const text = readFileSync(new URL(`../../../../examples/${name}/machine.yaml`, import.meta.url), 'utf8');
  const changed = change(text);
  if (changed === text) throw new Error(`nothing was changed in ${name}`);
  return assess(resolve(read(changed), [demonstration()])).networks[0]!;
};

describe('a simulation of a file against its closed forms', () => {
  const ratio = 2e-5;
  const cycles = 60_000;
  const noise = [`bit_errors: ${ratio}`, 'trip_after: 3'];

  it.each(['polled_100', 'pipelined_100', 'chained_100', 'summation_100', 'slotted_100'])(
    'every station of a line lies in its interval: %s',
    (profile) => {
      for (const repeats of [0, 1, 2]) {
        const { stations, comparison } = played(
          file({ profile, repeats, noise, command: 50, answer: 90, cycle: '2 ms' }),
          { cycles, seed: 5 + repeats },
        );
        expect(comparison).toBe('exact');
        for (const { agrees, loss } of stations) expect(agrees, `${loss.device.name} with ${repeats}`).toBe('inside');
      }
    },
  );

  it('finds a bit error ratio that is wrong by a fifth', () => {
    const asked = simulation(file({ noise, command: 50, answer: 90, cycle: '2 ms' }), { cycles, seed: 5 });
    const wrong = file({
      noise: [`bit_errors: ${1.2 * ratio}`, 'trip_after: 3'],
      command: 50,
      answer: 90,
      cycle: '2 ms',
    });
    const counts = asked.chunks.map((chunk) => runSimulation(chunk));
    const { stations } = resultOf({ ...simulation(wrong, { cycles, seed: 5 }), chunks: asked.chunks }, counts);
    expect(stations.map(({ agrees }) => agrees)).toEqual(['above', 'above', 'above', 'above']);
  });

  it('holds for a ring as it is planned, and for stars', () => {
    for (const profile of ['polled_100', 'summation_100']) {
      const ring = played(file({ profile, laid: 'ring', noise, cycle: '2 ms' }), { cycles, seed: 3 });
      expect(ring.stations.map(({ agrees }) => agrees)).toEqual(['inside', 'inside', 'inside', 'inside']);
    }
    const star = played(file({ laid: 'star', noise, repeats: 1, cycle: '2 ms' }), { cycles, seed: 3 });
    expect(star.stations.map(({ agrees }) => agrees)).toEqual(['inside', 'inside', 'inside', 'inside']);
  });

  it('holds for the labeller where its cables are much worse, and its bursts keep the bound', () => {
    const worse = (text: string): string =>
      text
        .replace('repeats: 2 ', 'repeats: 1 ')
        .replace('bit_errors: 1e-10 ', 'bit_errors: 2e-5 ')
        .replace('label_feed, 1e-9]', 'label_feed, 6e-5]');
    const machine = example('labeller', worse);
    const chance = played(machine, { cycles: 40_000, seed: 2, kinds: ['bit_errors'] });
    expect(chance.comparison).toBe('exact');
    expect(chance.stations.map(({ agrees }) => agrees)).toEqual(chance.stations.map(() => 'inside'));
    expect(Math.min(...chance.stations.map(({ lost }) => lost.value))).toBeGreaterThan(10);
    const all = played(machine, { cycles: 40_000, seed: 2 });
    expect(all.comparison).toBe('bound');
    expect(all.stations.map(({ agrees }) => agrees)).toEqual(all.stations.map(() => 'kept'));
  });

  it('holds for the cartoner, some of whose stations are served in every other or fourth cycle', () => {
    const machine = example('cartoner', (text) => text.replace('noise:\n', 'noise:\n      bit_errors: 3e-6\n'));
    const { stations, comparison } = played(machine, { cycles: 40_000, seed: 2 });
    expect(comparison).toBe('exact');
    expect(stations.filter(({ agrees }) => agrees !== 'inside').length).toBeLessThan(2);
    const updates = new Set(stations.map((each) => each.updates.value));
    expect([...updates].sort((a, b) => a - b)).toEqual([10_000, 20_000, 40_000]);
  });

  it.each(['polled_100', 'chained_100', 'summation_100'])(
    'holds where stations that share repeats and frames are served in other cycles: %s',
    (profile) => {
      const text = textOf({ stations: 5, profile, repeats: 1, noise, command: 120, answer: 190, cycle: '2 ms' })
        .replace('s2: {', 's2: { every: 2 cycles,')
        .replace('s3: {', 's3: { every: 4 cycles,')
        .replace('s5: {', 's5: { every: 2 cycles,');
      const { stations, comparison } = played(planned(text), { cycles: 200_000, seed: 5 });
      expect(comparison).toBe('exact');
      expect(stations.map(({ agrees }) => agrees)).toEqual(stations.map(() => 'inside'));
      expect(Math.min(...stations.map(({ lost }) => lost.value))).toBeGreaterThan(40);
    },
  );

  it('meets a recording, a dropout and a line of two states', () => {
    const noises = [
      [
        'bit_errors: 0',
        'bursts: { r: { pattern: recorded, times: [1 ms, 3.2 ms, 7 ms], period: 9.7 ms, pulse: 5 µs } }',
      ],
      ['bit_errors: 0', 'bursts: { d: { pattern: dropout, burst: 3 ms, period: 53.7 ms } }'],
      ['bit_errors: 0', 'two_state: { to_bad: 1 %, to_good: 20 %, lost_in_bad: 60 % }'],
    ];
    for (const noise of noises) {
      const { stations } = played(file({ noise: [...noise, 'trip_after: 2'] }), { cycles: 20_000, seed: 4 });
      for (const { lost, agrees } of stations) {
        expect(lost.value).toBeGreaterThan(0);
        expect(agrees).toBe('inside');
      }
    }
  });

  it('jumps over cycles without an error, ten thousand million of them in seconds', () => {
    const rare = file({ noise: ['bit_errors: 1e-10', 'trip_after: 2'], repeats: 0, cycle: '500 µs' });
    const { stations, cycles } = played(rare, { cycles: 1e10, seed: 9, skipAhead: true });
    expect(cycles.value).toBe(1e10);
    expect(stations.map(({ agrees }) => agrees)).toEqual(stations.map(() => 'inside'));
    expect(Math.min(...stations.map(({ lost }) => lost.value))).toBeGreaterThan(100);
  });
});

describe('what is told of a simulation', () => {
  const noise = ['bit_errors: 3e-5', 'bursts: { c: { pattern: contactor, period: 50 ms } }', 'trip_after: 3'];
  const request = { cycles: 4000, seed: 6 };
  const machine = file({ noise, repeats: 1 });
  const result = played(machine, request);
  const view = simulationView(result);

  it('comes again from its inputs, bit for bit, with cycles, seed and what the plan rests on among them', () => {
    const shown = [...quantitiesIn(view)].filter(({ by }) => 'id' in by && by.id.startsWith('networks.simulation.'));
    const kinds = new Map(shown.map((each) => ['id' in each.by ? each.by.id : '', each]));
    expect([...kinds.keys()].sort()).toEqual(
      [
        'cycles',
        'late',
        'longest',
        'lost',
        'repeats',
        'runs',
        'share',
        'share_at_least',
        'share_at_most',
        'time',
        'trip_cycle',
        'trips',
        'updates',
      ].map((each) => `networks.simulation.${each}`),
    );
    for (const each of kinds.values()) expect(replay(each), addressOf(each)).toBe(each.value);
    const { inputs } = kinds.get('networks.simulation.lost')!;
    expect(addressOf(inputs!.N as Quantity)).toBe('networks.n.simulation.cycles');
    expect(addressOf(inputs!.s as Quantity)).toBe('networks.n.simulation.seed');
    expect((inputs!.p as readonly Quantity[]).map(addressOf)).toContain('networks.n.noise.bit_errors');
  });

  it('is another number for another bit error ratio among its inputs, and for another seed', () => {
    const { again, inputs, plan } = result.simulation;
    const values = Object.values(inputs).map((list) => (list as readonly Quantity[]).map(({ value }) => value));
    expect(again(values)).toEqual(plan);
    const worse = Object.entries(inputs).map(([, list]) =>
      (list as readonly Quantity[]).map((each) => (addressOf(each).endsWith('bit_errors') ? 2 : 1) * each.value),
    );
    const [before, after] = [plan, again(worse)].map(({ cycles }) => cycles[0]!.exchanges[0]!.hops[0]!.spoils);
    expect(after! / before!).toBeCloseTo(2, 1);
    const other = played(machine, { ...request, seed: 7 });
    expect(other.stations.map(({ lost }) => lost.value)).not.toEqual(result.stations.map(({ lost }) => lost.value));
  });

  it('counts what was done where it was stopped, and says so', () => {
    const asked = simulation(machine, request);
    const half = resultOf(
      asked,
      asked.chunks.slice(0, 32).map((chunk) => runSimulation(chunk)),
    );
    expect(half.isWhole).toBe(false);
    expect(half.cycles.value).toBe(2000);
    expect(simulationView(half).says[0]).toBe('Stopped before all of ');
    for (const each of [half.cycles, half.stations[0]!.lost]) expect(replay(each)).toBe(each.value);
    const [one] = resultOf(asked, [runSimulation(asked.chunks[0]!)]).stations;
    expect(one!.least).toBeInstanceOf(Missing);
  });

  it('says what it leaves out, in lines that a terminal holds', () => {
    const lines = view.tables.find(({ name }) => name === 'left_out')!.rows.map(([line]) => String(line));
    expect(lines.length).toBeGreaterThan(8);
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(76);
    const some = played(machine, { ...request, kinds: ['bit_errors'] });
    const left = simulationView(some).tables.find(({ name }) => name === 'left_out')!;
    expect(left.rows.flat()).toContain('Pulses were left out, as it was asked for.');
  });

  it('lacks what the file lacks, by name', () => {
    const lacking = (text: string) => {
      const found = simulationOf(assess(resolve(read(text), [demonstration()])).networks[0]!, request);
      return found instanceof Missing ? found.lacks.map(({ path, why }) => `${path} ${why}`) : [];
    };
    const text = textOf({ stations: 2, noise: ['trip_after: 3'] });
    expect(lacking(text)).toEqual([]);
    expect(lacking(text.replace(/ {4}noise:\n.*\n/, ''))).toEqual(['networks.n.noise absent']);
    expect(lacking(text.replace('cycle: 1 ms', 'cycle: open'))).toEqual(['networks.n.cycle open']);
    expect(lacking(text.replace('turnaround: 2 µs', 'turnaround: unknown'))).toEqual([
      'networks.n.nodes.s1.turnaround unknown',
    ]);
    expect(lacking(text.replace('trip_after: 3', 'bit_errors: unknown'))).toEqual([
      'networks.n.noise.bit_errors unknown',
    ]);
    expect(lacking(text.replace('repeats: 0', 'repeats: 100000'))).toEqual(['networks.n.repeats problem']);
    const only = simulationOf(planned(text), { ...request, kinds: ['bursts'] });
    expect(only instanceof Missing && only.lacks[0]?.path).toBe('networks.n.noise.bursts');
  });

  it.each(['polled_100', 'pipelined_100', 'chained_100', 'summation_100', 'slotted_100'])(
    'lacks any single value that is unknown, and never throws: %s',
    (profile) => {
      const text = textOf({
        stations: 3,
        profile,
        noise: [
          'trip_after: 3',
          'bit_errors: 1e-9',
          'two_state: { to_bad: 1 %, to_good: 20 %, step: 1 ms, lost_in_bad: 60 % }',
          'bursts: { c: { pattern: contactor, pulse: 1 µs, pulse_every: 20 µs, burst: 1 ms, period: 40 ms } }',
        ],
      });
      let found = 0;
      for (const { index, 0: whole, 1: key } of text.matchAll(/\b(\w+): [\d.e-]+ ?(?:µs|ms|octets|%)?(?=[\n, ])/g)) {
        if (key === 'layshaft') continue;
        const spoilt = `${text.slice(0, index)}${key}: unknown${text.slice(index + whole.length)}`;
        const asked = simulationOf(assess(resolve(read(spoilt), [demonstration()])).networks[0]!, request);
        // What trips a station only says when, neither a way through all stations nor a timetable waits for an answer, a
        // timetable knows no repeats, and behind the last station there is nobody to pass a frame on to.
        const idle = { summation_100: ['turnaround'], slotted_100: ['turnaround', 'repeats'] }[profile];
        const isNeeded = key !== 'trip_after' && !idle?.includes(key!);
        if (key !== 'forwarding') expect(asked instanceof Missing, `${key} of ${profile}`).toBe(isNeeded);
        if (asked instanceof Missing) expect(asked.lacks.some(({ path }) => path.endsWith(`.${key}`))).toBe(true);
        found++;
      }
      expect(found).toBeGreaterThan(20);
    },
  );

  it('refuses what would take days, and a jump over noise that comes in bunches', () => {
    expect(() => simulationOf(machine, { cycles: 1e12, seed: 1 })).toThrow(/days/);
    expect(() => simulationOf(machine, { cycles: 100, seed: 1, skipAhead: true })).toThrow(RangeError);
  });
});

describe('the cycles before a trip', () => {
  const profiles = ['polled_100', 'pipelined_100', 'chained_100', 'summation_100', 'slotted_100'];
  const pulses =
    'bursts: { c: { pattern: contactor, period: 40 ms }, d: { pattern: dropout, burst: 2 ms, period: 71 ms, hits: [[s1, s2]] } }';

  it.each(profiles)('show every hop that was spoilt, once, and what did it: %s', (profile) => {
    for (const [noise, causes] of [
      [['bit_errors: 1e-4'], /^bit error$/],
      [['bit_errors: 0', pulses], /^(c|d|c and d)$/],
      [['bit_errors: 0', 'two_state: { to_bad: 1 %, to_good: 20 %, lost_in_bad: 60 % }'], /^two-state line$/],
      [['bit_errors: 2e-5', pulses], /^(bit error|c|d|c and d)$/],
    ] as const) {
      const { simulation: asked, trips } = played(file({ profile, repeats: 1, noise: [...noise, 'trip_after: 3'] }), {
        cycles: 20_000,
        seed: 8,
      });
      expect(trips.length).toBeGreaterThan(0);
      for (const { trace } of trips) {
        const cycles = tracedCycles(asked, trace);
        const shown = cycles.flatMap(({ tries, spoiltForAll }) => [
          ...spoiltForAll,
          ...tries.flatMap(({ spoilt }) => spoilt),
        ]);
        expect(shown.length).toBe(trace.spoilt.length);
        for (const { by } of shown) expect(by).toMatch(causes);
        for (const { lost } of cycles) expect(lost).toContain(trace.station);
        if (noise[0] === 'bit_errors: 0' && noise[1] === pulses)
          for (const each of cycles) expect(each.pulses.length).toBeGreaterThan(0);
      }
    }
  });

  it('are drawn with spoilt frames and repeats, and told in words', () => {
    const { pictures } = simulationView(
      played(file({ repeats: 1, noise: ['bit_errors: 1e-4', 'trip_after: 3'] }), { cycles: 20_000, seed: 8 }),
    );
    expect(pictures.map(({ picture }) => picture.name)).toEqual(['trip_1', 'trip_2', 'trip_3']);
    const [{ picture, numbers }] = pictures as [(typeof pictures)[number]];
    const spoilt = picture.marks.filter((mark) => mark.kind === 'bar' && mark.tone === 'fails');
    expect(spoilt.length).toBeGreaterThan(2);
    expect(numbers.map(addressOf)).toEqual([
      'networks.simulation.trip_cycle@n.trip_1',
      'networks.simulation.time@n.trip_1',
    ]);
    const said = picture.text.slice(1).map((words) => words.join(''));
    expect(said.map((each) => each.split(':')[0])).toEqual(['2 cycles before', '1 cycle before', 'the trip']);
    for (const each of said) expect(each).toMatch(/spoilt on \w+ by bit error: .*lost: /);
  });
});
