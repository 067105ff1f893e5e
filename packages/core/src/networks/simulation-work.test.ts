// The simulation as long work: its parts anywhere give what one run gives, every number explains itself and comes again.
import { describe, expect, it } from 'vitest';
import { assessed, sound, textOf } from '../assess/noise.support.ts';
import { explain } from '../assess/numbers.ts';
import { show } from '../assess/show.ts';
import { readAsked } from '../checks/asked.ts';
import type { Asked, LongJob, LongWork, Table } from '../checks/view.ts';
import { compute } from '../working/formula.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, isStep, Quantity } from '../working/quantity.ts';
import type { SimulationChunk } from './calc/simulate/plan.ts';
import { runSimulation } from './calc/simulate/run.ts';
import { resultOf, type Simulation, simulationOf } from './simulation.ts';

const text = textOf({ stations: 3, repeats: 1, noise: ['bit_errors: 1e-4', 'trip_after: 2'] });
const workIn = (of: string): LongWork => show(assessed(of), 'networks.n.noise')[0]!.works![0]!;

function jobOf(of: string, asked: Asked): LongJob {
  const job = workIn(of).job(asked);
  if (job instanceof Missing) throw new Error(job.lacks[0]!.due);
  return job;
}

/** Parts from the last to the first, each as another thread would get it and give its result. */
const runBackwards = ({ chunks, merge }: LongJob): Table =>
  merge(
    structuredClone(
      [...structuredClone(chunks)].reverse().map((chunk) => runSimulation(chunk as SimulationChunk)),
    ).reverse(),
  );
const numbersIn = ({ rows }: Table): readonly Quantity[] =>
  rows.flat().filter((cell): cell is Quantity => cell instanceof Quantity);

describe('a simulation beside the noise of a network', () => {
  const asked = { count: 20_000, seed: 7 };

  it('is asked for in cycles, and is what simulate makes of as many', () => {
    const { name, counts, least, usual, most } = workIn(text);
    expect([name, counts, least, usual, most]).toEqual(['simulation', 'cycles', 1000, 1_000_000, 1_000_000_000]);
    const job = jobOf(text, asked);
    const simulation = simulationOf(sound(text).networks[0]!, { cycles: 20_000, seed: 7 }) as Simulation;
    const { stations } = resultOf(
      simulation,
      simulation.chunks.map((chunk) => runSimulation(chunk)),
    ); // prettier-ignore
    const table = runBackwards(job);
    expect([job.task, table.name]).toEqual(['simulation', 'simulation']);
    const values = (column: string) => {
      const at = table.columns.indexOf(column);
      return table.rows.map((row) => (row[at] as Quantity).value);
    };
    expect(values('lost')).toEqual(stations.map(({ lost }) => lost.value));
    expect(values('trips')).toEqual(stations.map(({ trips }) => (trips as Quantity).value));
    expect(values('in a row')).toEqual(stations.map(({ longest }) => longest.value));
    expect(Math.max(...values('trips'))).toBeGreaterThan(1);
    expect(values('updates')).toEqual([20_000, 20_000, 20_000]);
    expect(runBackwards(jobOf(text, { count: 20_000, seed: 8 })).rows).not.toEqual(table.rows);
    expect(table.note).toContain('no proof that a stop works in time');
  });

  it('has numbers with addresses of their own, which say how many cycles and which seed, and come again', () => {
    const table = runBackwards(jobOf(text, { count: 1003, seed: 7 }));
    const numbers = numbersIn(table);
    expect(new Set(numbers.map(addressOf)).size).toBe(numbers.length);
    const share = numbers.find((each) => addressOf(each) === 'networks.simulation.share@n.s3')!;
    expect(isStep(share) && [share.inputs.N, share.inputs.s].map((each) => addressOf(each as Quantity))).toEqual([
      'networks.n.simulation.cycles',
      'networks.n.simulation.seed',
    ]);
    expect(isStep(share) && [share.inputs.N, share.inputs.s]).toMatchObject([
      { value: 1003, by: { kind: 'given' } },
      { value: 7, by: { kind: 'given' } },
    ]);
    for (const each of numbers)
      if (isStep(each)) expect(compute(each.by, each.inputs), addressOf(each)).toBe(each.value);
  });

  it('is explained as soon as it is made', () => {
    const table = runBackwards(jobOf(text, asked));
    const address = 'networks.simulation.lost@n.s2';
    expect(explain(assessed(text), address, [])).toBeUndefined();
    expect(explain(assessed(text), address, [table])!.value).toBe(
      (table.rows[1]![table.columns.indexOf('lost')] as Quantity).value,
    );
    expect(explain(assessed(text), 'networks.n.simulation.seed', [table])!.value).toBe(7);
  });

  it('tells what it takes for granted', () => {
    const later = show(assessed(text), 'networks.n.noise')[0]!.later.find(({ name }) => name === 'left_out')!;
    const { rows } = later.make();
    expect(rows.flat()).toContain('Bits fail independently of each other; a pulse on a frame spoils it.');
    expect(rows.flat()).toContain('An estimate for qualified people, and no proof that a stop works in time.');
  });

  it('takes no more cycles than can be borne, however large the network is', () => {
    const large = workIn(textOf({ stations: 120, noise: ['bit_errors: 1e-9'] }));
    expect([large.least, large.usual, large.most]).toEqual([1000, 1_000_000, 3_472_222]);
    expect(large.job({ count: large.most, seed: 1 })).not.toBeInstanceOf(Missing);
    expect(readAsked(large, { count: '4e6', seed: '1' })).toEqual({
      of: 'count',
      advice: 'The number of cycles is a whole one from 1 000 to 3 472 222.',
    });
  });

  it.each([
    ['networks.n.noise.bursts.c.hits', 'bursts: { c: { pattern: contactor, hits: unknown } }'],
    ['networks.n.noise.bit_errors', 'bit_errors: unknown'],
  ])('says what lacks: %s', (path, said) => {
    const lacking = workIn(textOf({ stations: 2, noise: [said] })).job(asked);
    expect(lacking).toMatchObject({ lacks: [{ path }] });
  });

  it('is not offered where nothing is said of noise', () => {
    const counted = textOf({ stations: 1, noise: ['bit_errors: 0'] }).replace(
      / {4}noise:\n.*\n/,
      '    counters: { ports: [[controller, s1, 1000, 3]] }\n',
    );
    const views = show(assessed(counted), 'networks.n.noise');
    expect(views.map(({ works }) => works)).toEqual([undefined]);
  });
});
