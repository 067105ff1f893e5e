// layshaft simulate: what it prints, in which forms, what it refuses, and how it is stopped.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demonstration } from '@layshaft/catalogue';
import { assess, read, resolve, resultOf, type Simulation, simulationOf, simulationView } from '@layshaft/core';
import { runSimulation } from '@layshaft/core/kernels';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../../tools/build.mjs';
import { layshaft, type Outcome } from './fake-io.ts';
import { onThreads } from './on-threads.ts';
import { runParts } from './run-parts.ts';

const text = `layshaft: 1
networks:
  line:
    profile: polled_100
    cycle: 1 ms
    repeats: 1
    nodes:
      near: { turnaround: 2 µs, forwarding: 1 µs, command: 30 octets, answer: 30 octets }
      far: { turnaround: 2 µs, forwarding: 1 µs, command: 30 octets, answer: 30 octets }
    runs: [[controller, near, 2 m, solid], [near, far, 20 m, solid]]
    noise: { bit_errors: 1e-4, trip_after: 3, bursts: { coil: { pattern: contactor, period: 100 ms, hits: [[near, far]] } } }
`;
const rare = text.replace('1e-4', '1e-9').replace(/, bursts.*/, ' }');
const two = text.replace(
  'networks:\n',
  `networks:\n  other: { profile: polled_100, cycle: 1 ms, nodes: { third: { turnaround: 2 µs, forwarding: 1 µs, command: 30 octets, answer: 30 octets } }, runs: [[controller, third, 2 m, solid]] }\n`,
);
const files = {
  'm.yaml': text,
  'rare.yaml': rare,
  'coil.yaml': text.replace('1e-4', '1e-9'),
  'two.yaml': two,
  'quiet.yaml': text.replace(/ {4}noise.*\n/, ''),
  'none.yaml': 'layshaft: 1\n',
};

let folder: string;
beforeAll(async () => {
  await build();
  folder = mkdtempSync(join(tmpdir(), 'layshaft-simulate-'));
  writeFileSync(join(folder, 'm.yaml'), text);
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true }));

const never = new Promise<void>(() => undefined);
const threads = onThreads(new URL('../dist/thread.js', import.meta.url));
const simulate = (options: string, file = 'm.yaml'): Promise<Outcome> =>
  layshaft(`simulate ${file} ${options}`.trim(), { files, interrupted: never, runParts: threads });

describe('layshaft simulate', () => {
  it('prints losses beside the closed forms, runs, trips and strips, and what it leaves out', async () => {
    const { status, out, err } = await simulate('--cycles 20000 --seed 3');
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(/^Simulation of network line\nIn 20000 cycles, 20 s on the machine, far lost most, /);
    for (const part of [
      '(stations)',
      '(runs)',
      '(trips)',
      '(left_out)',
      '(trip_1)',
      '· ▓ answer · ▒ spoilt on its way',
    ])
      expect(out).toContain(part);
    expect(out).toMatch(/\nThe same cycles and seed give the same numbers again, on any number of threads\.\n$/);
  });

  it('prints the same with one thread and three, what the core gives in one, and something else for another seed', async () => {
    const [one, three, other] = await Promise.all([
      simulate('--cycles 20000 --threads 1'),
      simulate('--cycles 20000 --threads 3'),
      simulate('--cycles 20000 --threads 3 --seed 2'),
    ]);
    expect(three).toEqual(one);
    expect(other!.out).not.toBe(one!.out);
    const { networks } = assess(resolve(read(text), [demonstration()]));
    const asked = simulationOf(networks[0]!, { cycles: 20_000, seed: 1 }) as Simulation;
    const { stations } = resultOf(
      asked,
      asked.chunks.map((chunk) => runSimulation(chunk)),
    );
    const data = JSON.parse((await simulate('--cycles 20000 --json')).out) as {
      views: { tables: { name: string; rows: { value?: number }[][] }[] }[];
    }; // prettier-ignore
    const [table] = data.views[0]!.tables;
    expect(table!.name).toBe('stations');
    expect(table!.rows.map((row) => row[2]!.value)).toEqual(stations.map(({ lost }) => lost.value));
    expect(
      simulationView(
        resultOf(
          asked,
          asked.chunks.map((chunk) => runSimulation(chunk)),
        ),
      ).title,
    ).toContain('line');
  });

  it('gives one table, comma-separated values, data, and a picture as a file', async () => {
    const [table, csv, svg] = await Promise.all([
      simulate('--cycles 20000 --table runs'),
      simulate('--cycles 20000 --table stations --csv'),
      layshaft('simulate m.yaml --cycles 20000 --picture trip_1 --svg trip.svg', {
        files,
        interrupted: never,
        runParts: threads,
      }),
    ]);
    expect(table!.out).toContain('(runs)');
    expect(table!.out).not.toContain('(stations)');
    expect(csv!.out.split('\r\n')[0]).toMatch(/^station,updates,/);
    expect(svg!.out).toBe('trip.svg is written.\n');
    expect(svg!.written['trip.svg']).toMatch(/^<svg [\s\S]*The cycles before/);
  });

  it('explains a number of its own, down to what is given', async () => {
    const address = 'networks.simulation.share_at_most@line.far';
    expect((await simulate('--cycles 20000 --table stations --addresses')).out).toContain(address);
    const { status, out } = await simulate(`--cycles 20000 --seed 7 --explain ${address}`);
    expect([status, out.split('\n')[0]]).toEqual([
      0,
      'largest share that the counts allow, with 99 % confidence both ways',
    ]);
    for (const part of ['networks.line.simulation.cycles', 'networks.line.simulation.seed', 'Student', '20000'])
      expect(out).toContain(part);
    const wrong = await simulate('--cycles 1000 --explain nowhere');
    expect([wrong.status, wrong.err]).toEqual([
      2,
      'The simulation has no number at the address nowhere; --addresses shows those that it has.\n',
    ]);
  });

  it('jumps over cycles without an error', async () => {
    const { out, status } = await simulate('--cycles 1e10 --skip-ahead', 'rare.yaml');
    expect([status, out.split('\n')[1]]).toEqual([0, expect.stringMatching(/^In 1e10 cycles, /)]);
    const only = await simulate('--cycles 1e9 --skip-ahead --only bit_errors', 'coil.yaml');
    expect(only.out).toContain('Pulses were left out, as it was asked for.');
  });

  it.each([
    [
      '--cycles 0',
      "Option '--cycles <number>' argument '0' is invalid. Write a whole number of cycles from 1 on, such as 1e6.",
    ],
    ['--cycles many', 'Write a whole number of cycles'],
    ['--seed 1.5', 'Write a whole number from 0 to 4294967295.'],
    ['--seed -1', 'Write a whole number from 0 to 4294967295.'],
    ['--threads 0', 'Write a whole number from 1 to 256.'],
    ['--only rain', 'Allowed choices are bit_errors, two_state, bursts.'],
    ['--network none', 'The file has no network none; it has line.'],
    ['--cycles 100 --skip-ahead', 'Cycles can be jumped over with random bit errors alone. Add --only bit_errors.'],
    ['--cycles 1e15', 'would take days. Jump over those without an error, or ask for fewer.'],
    ['--cycles 1000 --table none', 'networks.line.simulation has no table none; it has stations, runs'],
    ['--cycles 1 --picture trip_9', 'Nothing is drawn of networks.line.simulation'],
    ['--csv --json', 'cannot be used with'],
  ])('refuses %s', async (options, message) => {
    const { status, out, err } = await simulate(options);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });

  it('says which network to choose, that there is none, and what a network lacks', async () => {
    expect((await simulate('', 'two.yaml')).err).toBe(
      'The file has several networks: other, line. Choose one with --network.\n',
    );
    expect((await simulate('--cycles 1000 --network line', 'two.yaml')).status).toBe(0);
    expect((await simulate('', 'none.yaml')).err).toBe('The file has no network: there is nothing to simulate.\n');
    const quiet = await simulate('', 'quiet.yaml');
    expect([quiet.status, quiet.out]).toEqual([3, '']);
    expect(quiet.err).toBe(
      'It cannot be simulated yet: networks.line.noise is not given: a section on noise, such as { bit_errors: 1e-10 }.\n',
    );
    expect(await simulate('--cycles 100 --only two_state')).toMatchObject({
      status: 3,
      err: expect.stringContaining('networks.line.noise.two_state is not given'),
    }); // prettier-ignore
  });

  it('is stopped at once, and prints nothing that was not counted', async () => {
    const { status, out, err } = await layshaft('simulate m.yaml --cycles 1e8', { files, runParts: threads });
    expect([status, out, err]).toEqual([
      130,
      '',
      'Stopped before the first part was done: there is nothing to print.\n',
    ]);
  });
});

describe('parts on threads', () => {
  it('are given up to the first that was not done when somebody stops, with progress in a terminal', async () => {
    const { networks } = assess(resolve(read(text), [demonstration()]));
    const asked = simulationOf(networks[0]!, { cycles: 64_000, seed: 1 }) as Simulation;
    let interrupt: () => void = () => undefined;
    const interrupted = new Promise<void>((resolve) => {
      interrupt = resolve;
    });
    const told: string[] = [];
    const stderr = {
      isTTY: true,
      write: (line: string) => {
        told.push(line);
        if (line.includes(', 3 %')) interrupt();
      },
    };
    const { results, isWhole, says } = await runParts(
      { task: 'simulation', chunks: asked.chunks },
      { counts: 'cycles', count: 64_000, threads: 1 },
      { stderr, env: {}, untilInterrupted: () => interrupted, runParts: threads },
    );
    expect(results).toEqual(asked.chunks.slice(0, results.length).map((chunk) => runSimulation(chunk)));
    expect(results.length).toBeGreaterThanOrEqual(2);
    expect(results.length).toBeLessThan(64);
    expect([isWhole, says]).toEqual([false, expect.stringMatching(/^[\d ]+ of 64 000 cycles, \d+ %$/)]);
    expect(told.slice(0, 2)).toEqual(['\r\x1b[K0 of 64 000 cycles, 0 %', '\r\x1b[K1 000 of 64 000 cycles, 1 %']);
    expect(told.at(-1)).toBe('\r\x1b[K');
  });
});
