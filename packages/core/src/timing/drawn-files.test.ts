// Whole files drawn at random, tasks on two cores and a chain through them, against processors walked tick by tick.
import { expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { loadOf, randomTasks, type TickTask, tickWalk } from './calc/ticks.support.ts';

interface DrawnTask extends TickTask {
  readonly name: string;
  readonly core: string;
  readonly jitter: number;
  readonly shortest: number;
  readonly hasOffset: boolean;
  readonly holds: number;
  readonly phase: number;
}

/** A tick is a millisecond. */
const taskLine = ({ name, core, period, longest, priority, jitter, shortest, hasOffset, holds, phase }: DrawnTask) =>
  `  ${name}: { every: ${period} ms, takes: ${longest} ms, takes_at_least: ${shortest} ms, priority: ${priority}, core: ${core}${
    jitter > 0 ? `, jitter: ${jitter} ms` : ''
  }${holds > 0 ? `, blocks: ${holds} ms` : ''}${hasOffset ? `, offset: ${phase} ms` : ''} }\n`;

it('150 files: no task answers later, and no chain takes less or more, than the file says, over cores, jitter, blocking, offsets and links of their own', () => {
  const random = seeded(83);
  const whole = (most: number): number => Math.floor(random() * (most + 1));
  const drawTasks = (core: string): readonly DrawnTask[] => {
    let plain: readonly TickTask[];
    do plain = randomTasks(random);
    while (loadOf(plain) > 0.85);
    return plain.map((task, at) => {
      const jitter = random() < 0.4 ? whole(task.period / 3) : 0;
      const shortest = random() < 0.5 ? task.longest : 1 + whole(task.longest - 1);
      const drawn = Array.from({ length: 300 }, () => [whole(jitter), shortest + whole(task.longest - shortest)]);
      return {
        ...task,
        name: `${core}_${at}`,
        core,
        jitter,
        shortest,
        hasOffset: random() < 0.6,
        holds: Math.min(task.longest, whole(2)),
        phase: whole(task.period - 1),
        lateBy: (job) => drawn[job % 300]![0]!,
        takes: (job) => drawn[job % 300]![1]!,
      };
    });
  };
  let [chains, least, most] = [0, 0, 0];
  for (let file = 0; file < 150; file++) {
    const tasks = [...drawTasks('one'), ...drawTasks('two')];
    const chosen = tasks
      .filter(() => random() < 0.4)
      .map((task) => ({ task, by: random() }))
      .sort((a, b) => a.by - b.by)
      .map(({ task }) => task);
    const [delay, filter, own] = [whole(4), whole(3), { every: 5, offset: whole(4), takes: whole(3) }];
    const through = [
      `{ every: ${own.every} ms, offset: ${own.offset} ms, takes: ${own.takes} ms, takes_at_least: ${own.takes} ms }`,
      ...chosen.map(({ name }) => name),
    ];
    const text = `layshaft: 1\ntasks:\n${tasks.map(taskLine).join('')}chains: { it: { from: { delay: ${delay} ms, filter: ${filter} ms }, through: [${through.join(', ')}], to: { delay: 1 ms } } }\n`;
    const machine = read(text);
    expect(machine.problems, text).toEqual([]);
    const { timing } = assess(resolve(machine, []));
    const jobs = ['one', 'two'].flatMap((core) => {
      const its = tasks.filter((task) => task.core === core);
      return tickWalk(its, 960).map((job) => ({ ...job, name: its[job.task]!.name }));
    });
    for (const planned of timing.cores.flatMap((core) => core.tasks)) {
      if (planned.unbounded() !== undefined || planned.response instanceof Missing) continue;
      const own = jobs.filter((job) => job.name === planned.name && job.end >= 0);
      const seen = Math.max(...own.map((job) => job.end - job.nominal));
      expect(seen, text).toBeLessThanOrEqual(planned.response.value * 1e3 + 1e-9);
    }
    const { times } = timing.chains[0]!;
    if (times instanceof Missing) continue;
    const lines = chosen.map(({ name }) => jobs.filter((job) => job.name === name && job.end >= 0));
    chains++;
    const took: number[] = [];
    for (let cause = 300; cause < 540; cause++)
      for (const soon of [0, 1e-6]) {
        const at = cause + soon + delay + filter;
        const looked = own.offset + Math.ceil((at - own.offset) / own.every) * own.every + own.takes;
        const end = lines.reduce((now, line) => line.find(({ begin }) => begin >= now)?.end ?? Number.NaN, looked);
        if (!Number.isNaN(end)) took.push(end + 1 - cause - soon);
      }
    const [shortest, longest] = [Math.min(...took), Math.max(...took)];
    expect(shortest, text).toBeGreaterThanOrEqual(times.least.value * 1e3 - 1e-9);
    expect(longest, text).toBeLessThanOrEqual(times.most.value * 1e3 + 1e-9);
    if (shortest < times.least.value * 1e3 + 1) least++;
    if (longest > times.most.value * 1e3 - 1) most++;
  }
  expect(chains).toBeGreaterThan(100);
  // Some of them are reached.
  expect(Math.min(least, most)).toBeGreaterThan(10);
});
