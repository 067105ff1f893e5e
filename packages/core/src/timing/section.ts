// The sections `tasks`, `chains`, `points` and `memory` of a machine file.
import { pointKinds } from '../physics/point.ts';
import type { Read } from '../reading/field.ts';
import { figure } from '../reading/figure.ts';
import { group, list, optional, section } from '../reading/groups.ts';
import { mustBeOneOf } from '../reading/must-be-one-of.ts';
import type { Reading } from '../reading/reading.ts';
import { count, type Named, name, quantity, quantityIn, share, word } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { countOrAll, nameOr, timeOrCycles, wayOrTime } from './fields.ts';

const many = (what: string, example: string) => optional(count({ about: `How many ${what}.`, least: 0, example }));

export const tasksField = group(
  section(
    {
      kind: optional(
        word(['control', 'communication'], {
          about: 'Whether it controls the machine, or talks to others; control unless said.',
        }),
      ),
      every: optional(timeOrCycles('From one start to the next: a time, or cycles of a network.')),
      of: optional(
        name({
          about: 'The network whose cycles count, where there are several.',
          due: 'a network',
          example: 'drives',
        }),
      ),
      events_apart: optional(
        quantity('s', {
          about: 'For a task that events start: the least distance between two of them.',
          above: 0,
          example: '5 ms',
        }),
      ),
      priority: count({
        about: 'The smaller, the more urgent, as in IEC 61131-3; 0 goes before all others.',
        least: 0,
        example: '1',
      }),
      takes: figure('s', {
        about: 'Its longest execution, when nothing interrupts it; what it contains tells an estimate otherwise.',
        above: 0,
        example: '180 µs',
      }),
      takes_at_least: optional(
        quantity('s', {
          about: 'Its shortest execution; it may take no time unless said.',
          least: 0,
          example: '90 µs',
        }),
      ),
      contains: optional(
        section(
          {
            axes: optional(
              countOrAll(
                'How many axes it commands that go by themselves; all counts those that follow a master by how they do.',
                '6',
              ),
            ),
            geared: many('axes it commands that follow a master by an electronic gear', '4'),
            cammed: many('axes it commands that follow a master in any other way', '2'),
            cams: many('cams it switches or reads', '2'),
            blocks: many('motion blocks it calls', '20'),
            points: optional(countOrAll('How many points it reads or writes.', '40')),
            messages: many('messages it sends or answers in each run', '3'),
            lines: many('lines of logic it works through', '1500'),
          },
          { about: 'What it does in each run, from which an execution that is not known is estimated.' },
        ),
      ),
      jitter: optional(quantity('s', { about: 'By how much a start may come late.', least: 0, example: '50 µs' })),
      blocks: optional(
        quantity('s', { about: 'The longest stretch in which nothing can interrupt it.', least: 0, example: '40 µs' }),
      ),
      deadline: optional(
        quantity('s', {
          about: 'By when it must be done, from its start; its period unless said.',
          above: 0,
          example: '4 ms',
        }),
      ),
      offset: optional(
        quantity('s', {
          about: 'When it starts on the clock of networks and tasks; one without it has a clock of its own.',
          least: 0,
          example: '0 ms',
        }),
      ),
      core: optional(
        name({
          about: 'The core that it runs on; main, with the motion kernel, unless said.',
          due: 'a core',
          example: 'second',
        }),
      ),
      watchdog: optional(
        section(
          {
            after: quantity('s', {
              about: 'A device that this task writes to faults when nothing came for so long.',
              above: 0,
              example: '1 s',
            }),
            bears: optional(count({ about: 'How many values in a row may be lost before.', least: 0, example: '1' })),
          },
          { about: 'What watches over the values that the task writes.' },
        ),
      ),
    },
    { about: 'A task.' },
  ),
  { about: 'The tasks of the controller, by name.', reserved: { kernel: 'the motion kernel has it' } },
);

const signal = {
  delay: optional(
    figure('s', {
      about: 'From the cause to the signal, or from the signal to the effect.',
      least: 0,
      example: '8 ms',
    }),
  ),
  filter: optional(
    quantity('s', { about: 'Time for which an input must be the same before it counts.', least: 0, example: '1 ms' }),
  ),
  jitter: optional(
    quantity('s', {
      about: 'By how much the delay may be longer; it is always the same unless said.',
      least: 0,
      example: '2 ms',
    }),
  ),
};

/** What timing reads of a point. */
export const pointTimes = {
  kind: word(pointKinds, { about: 'What it is.' }),
  at: optional(
    name({
      about: 'The station that it hangs on, or main for the controller; its chains go through that station.',
      due: 'a station of a network, or main',
      example: 'rack_o',
    }),
  ),
  ...signal,
  pulse_every: optional(
    wayOrTime({
      about: 'From one pulse to the next: a length or an angle of what moves, or a time.',
      above: 0,
      example: '25.4 mm',
    }),
  ),
  pulse_on: optional(
    share({ about: 'The share of it for which the signal is there; half unless said.', above: 0, example: '50 %' }),
  ),
  pulse_speed: optional(
    quantityIn(['m/s', 'rad/s'], {
      about: 'The highest speed of what moves, where no master tells it.',
      above: 0,
      example: '74 m/min',
    }),
  ),
  pulse_of: optional(
    name({ about: 'The master that moves it, where there are several.', due: 'a master', example: 'line' }),
  ),
  read_by: optional(
    name({
      about: 'The task that reads it, where a task counts its pulses; the only one where there are no others.',
      due: 'a task',
      example: 'fast',
    }),
  ),
};

const pointField = section(pointTimes, { about: 'A point.' });

const signalField = section(signal, { about: 'A signal without a name.' });

const linkField = section(
  {
    name: optional(name({ about: 'What it is called in tables.', due: 'a name', example: 'loop' })),
    every: optional(
      quantity('s', {
        about: 'It looks once in this time; without it, it passes on at once.',
        above: 0,
        example: '20 ms',
      }),
    ),
    offset: optional(
      quantity('s', { about: 'When it looks, on the clock of networks and tasks.', least: 0, example: '0 ms' }),
    ),
    takes: quantity('s', { about: 'From its look to its output, at most.', least: 0, example: '20 ms' }),
    takes_at_least: optional(
      quantity('s', { about: 'The same at least; no time unless said.', least: 0, example: '20 ms' }),
    ),
  },
  { about: 'A link without a task or a station.' },
);

export const chainsField = group(
  section(
    {
      from: nameOr(
        name({ about: 'The point where it begins.', due: 'a point, or a map', example: 'eye_reject' }),
        signalField,
      ),
      through: list(
        nameOr(name({ about: 'A station, a task, or a map.', due: 'a station or a task', example: 'fast' }), linkField),
        { about: 'What the signal goes through, in its order: stations of networks, tasks, and maps of their own.' },
      ),
      to: nameOr(
        name({
          about: 'The point where it ends, or the axis whose tool moves.',
          due: 'a point, an axis, or a map',
          example: 'reject_valve',
        }),
        signalField,
      ),
      within: optional(
        wayOrTime({
          about: 'What it may take: a time, or a way of the product meanwhile.',
          above: 0,
          example: '30 mm',
        }),
      ),
      of: optional(
        name({
          about: 'The master that the way counts of, where there are several.',
          due: 'a master',
          example: 'line',
        }),
      ),
      speed: optional(
        quantityIn(['m/s', 'rad/s'], {
          about: 'The speed at which the way is gone, where no master tells it.',
          above: 0,
          example: '150 m/min',
        }),
      ),
      seen: optional(
        section(
          {
            moved: quantityIn(['m', 'rad'], {
              about: 'By how much the effect lies further on at the higher speed.',
              least: 0,
              example: '0.5 mm',
            }),
            lower: quantityIn(['m/s', 'rad/s'], { about: 'The lower speed.', least: 0, example: '10 m/min' }),
            higher: quantityIn(['m/s', 'rad/s'], { about: 'The higher speed.', above: 0, example: '60 m/min' }),
          },
          { about: 'Where the effect was seen on the product at two speeds: its delay follows from that.' },
        ),
      ),
      lead: optional(
        word(['none', 'constant_part'], {
          about: 'Whether the part of the delay that is always there is made good by a lead; none unless said.',
        }),
      ),
    },
    { about: 'A chain from a cause to its effect.' },
  ),
  { about: 'Chains from a cause to its effect, by name.' },
);

export const memoryField = section(
  {
    retained: optional(
      quantity('bit', { about: 'Variables that last while the power is off.', least: 0, example: '24000 octets' }),
    ),
    cam_tables: optional(quantity('bit', { about: 'Tables of cams.', least: 0, example: '600000 octets' })),
    logs: optional(quantity('bit', { about: 'Logs.', least: 0, example: '8000000 octets' })),
  },
  { about: 'What the program keeps in the memories of the controller.' },
);

export type TaskSection = Read<typeof tasksField>[number];
export type PointSection = Read<typeof pointField> & { readonly name: string };
export type SignalSection = Read<typeof signalField>;
export type LinkSection = Read<typeof linkField>;
export type ChainSection = Read<typeof chainsField>[number];
export type MemorySection = Read<typeof memoryField>;

/** Whether a name stands where a map of its own may stand. */
export const isNamed = (value: Named | object): value is Named => 'at' in value && 'name' in value;

/** The names that tasks, chains and points may point to. */
export interface TimingNames {
  readonly networks: readonly string[];
  readonly masters: readonly string[];
  readonly axes: readonly { readonly name: string }[];
  /** Of all networks, axes among them. */
  readonly stations: readonly string[];
  readonly tasks: readonly TaskSection[];
  readonly points: readonly PointSection[];
  readonly chains: readonly ChainSection[];
}

/** Reports names that do not exist, and tasks whose values exclude each other. */
export function compareTiming(names: TimingNames, reading: Reading): void {
  const { networks, masters, axes, stations, tasks, points, chains } = names;
  const pointNames = points.map((point) => point.name);
  const taskNames = tasks.map((task) => task.name);
  for (const task of tasks) {
    if (task.of !== undefined && !(task.of instanceof Missing))
      mustBeOneOf(task.of, networks, 'network', 'Describe it under networks.', reading);
    reportTwoStarts(task, reading);
    reportShorter(task, reading);
  }
  for (const { at, pulse_of: moves, read_by: reader } of points) {
    if (at !== undefined && !(at instanceof Missing) && stations.length > 0)
      mustBeOneOf(
        at,
        [...stations, 'main'],
        'station',
        'Name a station of a network, or main for the controller.',
        reading,
      );
    if (moves !== undefined && !(moves instanceof Missing))
      mustBeOneOf(moves, masters, 'master', 'Describe it under masters, or write a speed.', reading);
    if (reader !== undefined && !(reader instanceof Missing))
      mustBeOneOf(reader, taskNames, 'task', 'Describe it under tasks.', reading);
  }
  for (const { from, through, to, of } of chains) {
    if (!(from instanceof Missing) && isNamed(from))
      mustBeOneOf(from, pointNames, 'point', 'Describe it under points, or write a map here.', reading);
    if (!(to instanceof Missing) && isNamed(to))
      mustBeOneOf(
        to,
        [...pointNames, ...axes.map((axis) => axis.name)],
        'point and no axis',
        'Describe it under points or axes, or write a map here.',
        reading,
      );
    for (const link of through instanceof Missing ? [] : through)
      if (!(link instanceof Missing) && isNamed(link))
        mustBeOneOf(
          link,
          [...taskNames, ...stations],
          'task and no station',
          'Describe it under tasks, or write a map.',
          reading,
        );
    if (of !== undefined && !(of instanceof Missing))
      mustBeOneOf(of, masters, 'master', 'Describe it under masters, or write a speed.', reading);
  }
}

function reportTwoStarts({ path, every, events_apart }: TaskSection, reading: Reading): void {
  const at = reading.places.get(`${path}.events_apart`);
  if (every === undefined || events_apart === undefined || at === undefined) return;
  reading.problem(at, 'key', {
    code: 'kind-not-one',
    message: 'a task starts in a period or by events; here stand every and events_apart',
    remedy: 'Remove one of the two.',
  });
}

function reportShorter({ path, takes, takes_at_least }: TaskSection, reading: Reading): void {
  const at = reading.places.get(`${path}.takes_at_least`);
  if (takes instanceof Missing || takes_at_least === undefined || takes_at_least instanceof Missing) return;
  if (takes_at_least.value <= takes.value || at === undefined) return;
  reading.problem(at, 'value', {
    code: 'out-of-range',
    message: 'the shortest execution cannot be longer than the longest',
    remedy: 'Write a time that is no longer than takes.',
  });
}
