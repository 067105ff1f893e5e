// What `show` tells of time in a machine as a whole.
import type { Cell, Table, View } from '../checks/view.ts';
import { capital } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { chainGist } from './chain-view.ts';
import type { PlannedChain } from './chains.ts';
import { titleOf } from './lanes.ts';
import { told } from './memory-view.ts';
import type { PlannedPulses } from './pulses.ts';
import type { PlannedCore } from './tasks.ts';
import type { Timing } from './timing.ts';
import type { Reason } from './update-reasons.ts';
import { type PlannedUpdate, strictest } from './updates.ts';

/** Where the tasks and chains of a machine are shown together. */
export const timingAddress = 'timing';

export const hasTiming = ({ cores, chains, updates, pulses, memory }: Timing): boolean =>
  [cores, chains, updates, pulses, memory].some(({ length }) => length > 0);

export function timingView(timing: Timing): View {
  return {
    address: timingAddress,
    title: 'Tasks, chains and updates',
    says: [...timingGist(timing), '.'].map((cell, at) => (at === 0 && typeof cell === 'string' ? capital(cell) : cell)),
    inputs: [],
    pictures: [],
    tables: [
      ...(timing.cores.length === 0
        ? []
        : [tasksTable(timing.cores), loadsTable(timing.cores), coresTable(timing.cores)]),
      ...(timing.chains.length === 0 ? [] : [chainsTable(timing.chains)]),
      ...(timing.pulses.length === 0 ? [] : [pulsesTable(timing.pulses)]),
      ...(timing.updates.length === 0 ? [] : [updatesTable(timing.updates), reasonsTable(timing.updates)]),
    ],
    later: [],
  };
}

/** The result in a few words: the fullest core; the first chain where there is no task. */
export function timingGist({ cores, chains, updates, pulses, memory }: Timing): readonly Cell[] {
  const loads = cores.flatMap(({ load }) => (load instanceof Missing ? [] : [load]));
  const fullest = loads.reduce<Quantity | undefined>(
    (most, each) => (most && most.value >= each.value ? most : each),
    undefined,
  );
  const [chain] = chains;
  if (cores.length === 0 && chain !== undefined) return chainGist(chain);
  if (cores.length === 0)
    return updates.length > 0
      ? ['how often axes need a setpoint']
      : memory.length > 0
        ? ['the program keeps ', ...told(memory)]
        : [pulses.length === 1 ? 'pulses of one point' : `pulses of ${pulses.length} points`];
  return fullest === undefined ? ['how much the tasks take is not known'] : ['tasks take ', fullest, ' of their core'];
}

function tasksTable(cores: readonly PlannedCore[]): Table {
  return {
    name: 'tasks',
    title: 'Tasks, the more urgent first',
    note: 'how they interrupt each other is drawn for each task',
    columns: ['task', 'core', 'period', 'execution', 'response', 'deadline'],
    rows: cores.flatMap(({ tasks }) =>
      tasks.map((task) => [titleOf(task), task.core, task.period, task.takes, task.response, task.deadline]),
    ),
  };
}

function coresTable(cores: readonly PlannedCore[]): Table {
  return {
    name: 'cores',
    title: 'Cores: how far executions can grow',
    note: 'bounds: up to this load, or a hyperbolic product of 2, all tasks whose priorities follow their periods answer in time, if none blocks or starts late; beyond, their responses tell',
    columns: [
      'core',
      'bound of Liu and Layland',
      'hyperbolic product',
      'executions can grow by the factor',
      'then misses',
    ],
    rows: cores.map((core) => {
      const first = core.firstToMiss();
      return [core.name, core.bound, core.product, core.growth(), first === undefined ? '' : titleOf(first)];
    }),
  };
}

const kindNames = { kernel: 'motion kernel', control: 'tasks that control', communication: 'communication' } as const;

function loadsTable(cores: readonly PlannedCore[]): Table {
  return {
    name: 'loads',
    title: 'What takes the time of each core',
    columns: ['core', 'what', 'load'],
    rows: cores.flatMap((core): readonly (readonly Cell[])[] => [
      ...core.loads.map(({ kind, load }) => [core.name, kindNames[kind], load]),
      [core.name, 'together', core.load],
      [core.name, 'left', core.left],
    ]),
  };
}

function chainsTable(chains: readonly PlannedChain[]): Table {
  return {
    name: 'chains',
    title: 'Chains from a cause to its effect',
    note: 'counts: what is held against what is allowed, as time or as way of the product',
    columns: ['chain', 'at least', 'at most', 'counts', 'allowed'],
    rows: chains.map(({ name, times, demand, counts, section }) => [
      name,
      given({ times }, (known) => known.times.least),
      given({ times }, (known) => known.times.most),
      demand ?? counts,
      section.within ?? '',
    ]),
  };
}

function pulsesTable(pulses: readonly PlannedPulses[]): Table {
  return {
    name: 'pulses',
    title: 'Pulses that tasks count',
    note: 'there or away: the shorter of both; every scan that is shorter sees each pulse, and rules of practice take a fifth to a tenth of the time from pulse to pulse; where no task is as quick, a hardware counter',
    columns: ['point', 'pulse every', 'there or away', 'read by', 'from look to look', 'a fifth', 'a tenth'],
    rows: pulses.map(({ name, period, phase, reader, looks, practical }) => [
      name,
      period,
      phase,
      reader,
      looks,
      ...practical,
    ]),
  };
}

function updatesTable(updates: readonly PlannedUpdate[]): Table {
  return {
    name: 'updates',
    title: 'How often axes get a setpoint, and how often they need one',
    note: 'follows after: periods from the start of the one in which a command leaves until the axis goes by it, network and buffers of the drive; behind by: how far the tool is behind what the controller commands meanwhile',
    columns: ['axis', 'served every', 'slowest that will do', 'because of', 'follows after', 'behind by'],
    rows: updates.map((update) => [
      update.axis.name,
      update.station.period,
      slowestIn(update.slowest ?? 'any'),
      strictest(update),
      update.waits,
      update.behind,
    ]),
  };
}

/** Below 0, what no period makes less is more than is allowed. */
const slowestIn = (slowest: Reason['slowest']): Cell =>
  slowest instanceof Quantity && slowest.value <= 0 ? 'none will do' : slowest;

function reasonsTable(updates: readonly PlannedUpdate[]): Table {
  return {
    name: 'reasons',
    title: 'Why so often: what each reason costs, and the slowest that it bears',
    note: 'each is held against all that is allowed; of a loop, the bandwidth that is left to it and the one that it needs',
    columns: ['axis', 'reason', 'costs as served', 'allowed', 'slowest'],
    rows: updates.flatMap(({ axis, reasons }) =>
      reasons.flatMap(({ title, costs, allowed, slowest, parts }): readonly (readonly Cell[])[] => [
        [axis.name, title, costs, allowed, slowestIn(slowest)],
        ...parts.map((part) => [axis.name, `… ${part.title}`, part.costs, '', '']),
      ]),
    ),
  };
}
