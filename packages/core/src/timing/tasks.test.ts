// Tasks of a file: the motion kernel among them, events, cores, estimates, and what is told where something is missing.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { known } from '../working/testing.support.ts';
import { watchedOf } from './watchdog.ts';

const assessed = (text: string): Assessment => assessText(`layshaft: 1\n${text}`, 'machine.yaml');
const finding = ({ findings }: Assessment, address: string) => findings.find((each) => each.address === address);
const demand_us = (assessment: Assessment, address: string) =>
  (finding(assessment, address)?.demand?.value ?? Number.NaN) * 1e6;

const network = `
controller: controller_m
axes: { feed: { drive: drive_5 }, knife: { drive: drive_5 } }
networks:
  drives:
    profile: polled_100
    cycle: 500 µs
    runs: [[controller, feed, 2 m, solid], [feed, knife, 2 m, solid]]
`;

describe('beside a network', () => {
  it('the motion kernel goes before all tasks: 30 µs and 9 µs for each of two axes, by hand', () => {
    const found = assessed(`${network}tasks: { fast: { every: 2 cycles, takes: 100 µs, priority: 0 } }\n`);
    expect(demand_us(found, 'timing.response@fast')).toBeCloseTo(148, 6);
    expect(finding(found, 'timing.response@fast')?.capacity?.value).toBe(1e-3);
    expect(finding(found, 'timing.load@main')?.demand?.value).toBeCloseTo(48 / 500 + 0.1, 12);
  });

  it('a task that blocks makes the motion kernel late, and so does the kernel of a second network', () => {
    const blocks = (time: string): string =>
      `${network}tasks: { logic: { every: 10 ms, takes: 1 ms, priority: 4, blocks: ${time} } }\n`;
    const late = assessed(blocks('460 µs'));
    expect(demand_us(late, 'timing.response@kernel')).toBeCloseTo(460 + 48, 6);
    expect(finding(late, 'timing.response@kernel')).toMatchObject({ verdict: 'fails', capacity: { value: 500e-6 } });
    expect(finding(assessed(blocks('400 µs')), 'timing.response@kernel')?.verdict).toBe('holds');
    const alone = assessed(`${network}tasks: { logic: { every: 10 ms, takes: 1 ms, priority: 4 } }\n`);
    expect(finding(alone, 'timing.response@kernel')).toBeUndefined();
    const second = `${network}  racks: { port: 2, profile: polled_100, cycle: 1 ms, nodes: { rack: rack_small }, runs: [[controller, rack, 2 m, solid]] }\n`;
    const both = assessed(`${second}tasks: { logic: { every: 10 ms, takes: 1 ms, priority: 4 } }\n`);
    const [one, two] = both.timing.cores[0]!.tasks.slice(0, 2).map(({ takes }) => known(takes) * 1e6);
    // Of one priority: each may wait for the other one, whose cycle is twice as long.
    for (const name of ['kernel_drives', 'kernel_racks'])
      expect(demand_us(both, `timing.response@${name}`)).toBeCloseTo(one! + two!, 6);
  });

  it('what takes the time of a core is told kind by kind, with what is left and the task that misses first', () => {
    const found = assessed(
      `${network}tasks: { fast: { every: 1 ms, takes: 100 µs, priority: 0 }, panel: { kind: communication, every: 10 ms, takes: 1 ms, priority: 9 } }\n`,
    );
    const [core] = found.timing.cores;
    expect(core!.loads.map(({ kind, load }) => [kind, known(load)])).toEqual([
      ['kernel', expect.closeTo(48 / 500, 12)],
      ['control', expect.closeTo(0.1, 12)],
      ['communication', expect.closeTo(0.1, 12)],
    ]);
    expect(known(core!.left)).toBeCloseTo(1 - 48 / 500 - 0.2, 12);
    const tight = assessed(
      'tasks: { a: { every: 7 ms, takes: 3 ms, priority: 1 }, b: { every: 12 ms, takes: 3 ms, priority: 2 }, c: { every: 20 ms, takes: 5 ms, priority: 3 } }\n',
    );
    expect(known(tight.timing.cores[0]!.growth())).toBeCloseTo(1, 12);
    expect(tight.timing.cores[0]!.firstToMiss()?.name).toBe('c');
  });

  it('a task on another core runs undisturbed', () => {
    const found = assessed(`${network}tasks: { fast: { every: 1 ms, takes: 100 µs, priority: 0, core: second } }\n`);
    expect(demand_us(found, 'timing.response@fast')).toBeCloseTo(100, 6);
    expect(finding(found, 'timing.load@second')?.demand?.value).toBeCloseTo(0.1, 12);
    expect(finding(found, 'timing.load@main')).toBeUndefined();
  });

  it('a priority is a rank, however large its number', () => {
    const tasks = (last: number) =>
      `tasks: { fast: { every: 2 cycles, takes: 100 µs, priority: 1 }, slow: { every: 10 ms, takes: 1 ms, priority: ${last} } }\n`;
    const responses = (last: number) =>
      ['fast', 'slow'].map((name) => demand_us(assessed(network + tasks(last)), `timing.response@${name}`));
    expect(responses(2)).toEqual([expect.closeTo(148, 6), expect.closeTo(1000 + 3 * 48 + 2 * 100, 6)]);
    for (const last of [255, 9007, 9008, 65535, 4294967295]) expect(responses(last), `${last}`).toEqual(responses(2));
  });

  it('what the kernel lacks, the tasks lack', () => {
    const found = assessed(
      `${network.replace('controller: controller_m', '')}tasks: { fast: { every: 1 ms, takes: 100 µs, priority: 0 } }\n`,
    );
    expect(finding(found, 'timing.response@fast')?.verdict).toBe('unknown');
    expect(finding(found, 'timing.response@fast')?.says).toContain('controller');
  });

  it('a task that contains things is estimated with what each costs at most, and the likely one stands beside it', () => {
    const found = assessed(
      `${network}tasks: { logic: { every: 10 ms, priority: 3, contains: { axes: all, lines: 1000, messages: 2 } } }\n`,
    );
    const [task] = found.timing.cores[0]!.tasks.slice(1);
    expect(known(task!.takes) * 1e6).toBeCloseTo(20 + 2 * 8 + 1000 * 0.14 + 2 * 95, 6);
    expect(known(task!.estimate!.likely) * 1e6).toBeCloseTo(14 + 2 * 5 + 1000 * 0.09 + 2 * 60, 6);
    expect(finding(found, 'timing.response@logic')?.says).toContain('estimated');
  });

  it('an estimate that is below the shortest execution that the file says is not computed with', () => {
    const file = (least: string) =>
      assessed(
        `controller: { task_base: 10 µs, task_per_line: 1 µs }\ntasks: { logic: { every: 10 ms, priority: 3, contains: { lines: 90 }, takes_at_least: ${least} }, late: { every: 20 ms, takes: 1 ms, priority: 4 } }\n`,
      );
    expect(finding(file('100 µs'), 'timing.response@logic')?.says).toBe(
      'done after 100 µs at the latest, due after 10 ms; its execution is estimated',
    );
    for (const name of ['logic', 'late'])
      expect(finding(file('101 µs'), `timing.response@${name}`)).toMatchObject({
        verdict: 'unknown',
        says: 'tasks.logic.takes_at_least has a problem: no longer than 100 µs, the longest execution by estimate from what the task contains; takes says a measured one',
      });
  });

  it('axes that follow cost what their kind of following does; where the controller states none, as much as any other', () => {
    const following = network.replace(
      'feed: { drive: drive_5 }, knife: { drive: drive_5 }',
      `feed: { drive: drive_5, motion: { follow: line, gear: [1, 1] } }, knife: { drive: drive_5, motion: { follow: line, cuts: { length: 1 m, circumference: 1 m, blades: 1, working: 30°, recover: modified_sine } } }, lift: { drive: drive_5 }`,
    );
    const masters = 'masters: { line: { speed: 1 m/s, repeat: 1 m } }\n';
    const logic = 'tasks: { logic: { every: 10 ms, priority: 3, contains: { axes: all } } }\n';
    const by = (text: string) => {
      const { estimate, takes } = assessed(text).timing.cores[0]!.tasks.at(-1)!;
      return [known(takes) * 1e6, ...estimate!.parts.map(({ content, count }) => `${content} ${known(count)}`)];
    };
    expect(by(following + masters + logic)).toEqual([
      expect.closeTo(20 + 8 + 5.5 + 13, 6),
      'axes 1',
      'geared 1',
      'cammed 1',
    ]);
    const own = 'controller: { part: controller_m, task_per_geared: 3 µs }';
    const typed = logic.replace('axes: all', 'axes: 2, geared: 3');
    expect(by(network.replace('controller: controller_m', own) + typed)[0]).toBeCloseTo(20 + 2 * 8 + 3 * 3, 6);
    const bare = 'controller: { task_base: 10 µs, task_per_axis: 2 µs }\n';
    expect(by(bare + typed)[0]).toBeCloseTo(10 + 5 * 2, 6);
  });

  it('the likely answer is that with likely executions, of the task and of those that come in between', () => {
    const found = assessed(
      `${network}tasks: { fast: { every: 1 ms, priority: 0, contains: { lines: 500 } }, logic: { every: 10 ms, priority: 3, contains: { lines: 1000 } } }\n`,
    );
    const [, fast, logic] = found.timing.cores[0]!.tasks;
    // The kernel takes 48 µs in 500, the fast task 14 + 45 in a millisecond: 48 + 59 + 104 are done before the next kernel.
    expect(known(fast!.likelyResponse()) * 1e6).toBeCloseTo(48 + 14 + 45, 6);
    expect(known(logic!.likelyResponse()) * 1e6).toBeCloseTo(48 + 14 + 45 + 14 + 90, 6);
    expect(known(logic!.response)).toBeGreaterThan(known(logic!.likelyResponse()));
  });

  it('a measured execution goes before what the task contains', () => {
    const found = assessed(
      `${network}tasks: { logic: { every: 10 ms, priority: 3, takes: { measured: 1 ms, date: 2026-10-01, count: 5 }, contains: { lines: 9 } } }\n`,
    );
    expect(found.timing.cores[0]!.tasks[1]!.estimate).toBeUndefined();
  });
});

describe('alone in a file', () => {
  it('events count with their least distance, equal priorities keep each other waiting', () => {
    const found = assessed(
      'tasks: { a: { every: 10 ms, takes: 2 ms, priority: 1 }, b: { events_apart: 5 ms, takes: 1 ms, priority: 1 } }\n',
    );
    expect(demand_us(found, 'timing.response@a')).toBeCloseTo(3000, 6);
    expect(demand_us(found, 'timing.response@b')).toBeCloseTo(3000, 6);
  });

  it.each([
    ['every', '{ takes: 1 ms, priority: 1 }', 'tasks.a.every'],
    ['takes', '{ every: 1 ms, priority: 1 }', 'tasks.a.takes'],
    ['priority', '{ every: 2 ms, takes: 1 ms }', 'tasks.a.priority'],
    ['the network of its cycles', '{ every: 2 cycles, takes: 1 ms, priority: 1 }', 'tasks.a.of'],
    ['what each costs', '{ every: 2 ms, priority: 1, contains: { lines: 5 } }', 'controller'],
  ])('without %s the response is unknown, and says what would settle it', (_, task, path) => {
    const found = finding(assessed(`tasks: { a: ${task} }\n`), 'timing.response@a');
    expect(found?.verdict).toBe('unknown');
    expect(found?.says).toContain(path);
  });

  it('two ways to start, a shortest run longer than the longest, and a network that is none are told by their place', () => {
    const { problems } = assessed(
      'tasks: { a: { every: 2 cycles, of: drivs, events_apart: 1 ms, takes: 1 ms, takes_at_least: 2 ms, priority: 1 }, kernel: { every: 1 ms } }\n',
    ).design;
    expect(problems.map(({ code }) => code).sort()).toEqual([
      'kind-not-one',
      'name-form',
      'name-unknown',
      'out-of-range',
    ]);
  });

  it('a watchdog bears the longest silence: writing every 0.5 s, one lost, and what the response varies by', () => {
    const text = (after: string): string =>
      `tasks: { a: { every: 500 ms, takes: 20 ms, priority: 1, watchdog: { after: ${after}, bears: 1 } } }\n`;
    expect(demand_us(assessed(text('1 s')), 'timing.watchdog@a')).toBeCloseTo(1.02e6, 3);
    expect(finding(assessed(text('1 s')), 'timing.watchdog@a')?.verdict).toBe('fails');
    // One of two may be lost, and the later one be 20 ms late.
    const [task] = assessed(text('1 s')).timing.cores[0]!.tasks;
    expect(known(watchedOf(task!)!.slowest)).toBeCloseTo(0.49, 12);
    const [view] = show(assessed(text('1 s')), 'tasks.a');
    expect(view!.tables.map(({ name }) => name)).toContain('watchdog');
    expect(finding(assessed(text('1.1 s')), 'timing.watchdog@a')?.verdict).toBe('holds');
    const events = assessed(text('1 s').replace('every: 500 ms', 'events_apart: 500 ms'));
    expect(finding(events, 'timing.watchdog@a')?.verdict).toBe('unknown');
  });

  it('memories are held against what the controller states', () => {
    const found = assessed('controller: controller_s\nmemory: { retained: 30000 octets, logs: 5000000 octets }\n');
    expect(finding(found, 'timing.memory@retained')?.verdict).toBe('thin');
    expect(finding(found, 'timing.memory@logs')?.verdict).toBe('fails');
    const alone = finding(assessed('memory: { cam_tables: 9 octets }\n'), 'timing.memory@cam_tables');
    expect([alone?.verdict, alone?.says.includes('controller')]).toEqual(['unknown', true]);
  });

  it('every number of the views has its working', () => {
    const found = assessed(
      'tasks: { a: { every: 7 ms, takes: 3 ms, priority: 1 }, b: { every: 20 ms, takes: 5 ms, priority: 2, blocks: 1 ms } }\n',
    );
    const views = show(found, 'timing');
    expect(views.map(({ address }) => address)).toEqual(['timing', 'tasks.a', 'tasks.b']);
    expect(show(found, 'tasks').map(({ address }) => address)).toEqual(['tasks.a', 'tasks.b']);
    const [picture] = views[2]!.pictures;
    expect(picture!.picture.marks.filter(({ kind }) => kind === 'bar')).toHaveLength(4);
  });
});

describe('a search for a longest response that grew too long', () => {
  const file = (more: string) =>
    assessed(
      `tasks: { fast: { every: 10 µs, takes: 5 µs, priority: 1 }, slow: { every: 10.000001 µs, takes: 5 µs, priority: 2${more} }, back: { every: 10 s, takes: 10 ns, blocks: 10 ns, priority: 3, core: main } }\n`,
    );
  const says = (more: string) => {
    const { findings } = file(more);
    const of = (name: string) => findings.find(({ address }) => address === `timing.response@${name}`)!;
    return [of('slow'), of('back')].map(({ verdict, says }) => `${verdict}: ${says}`);
  };
  const lacks = (name: string): string =>
    `unknown: tasks.${name} has a problem: a longest response that is found within a million steps; core main has next to no time to spare, such as shorter executions, or periods that are multiples of each other`;
  it('is unknown with a sentence of its own, and fails where a job was found that misses', () => {
    const missed =
      'fails: its longest response was not found, for the search grew too long: not done before 10.01 µs, due after 10.000001 µs';
    expect(says('')).toEqual([missed, lacks('back')]);
    expect(says(', deadline: 1 s')).toEqual(['slow', 'back'].map(lacks));
  });
  it('is told so in the view of the task', () => {
    const [view] = show(file(''), 'tasks.slow');
    expect(view!.says[0]).toBe(
      'The search for the longest response grew too long and was given up: what is certain is that ',
    );
  });
});
