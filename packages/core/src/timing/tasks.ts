// The tasks of the controller, core by core: what each takes, how long each takes to answer, what the core has left.
import { equalWithin } from '../checks/margin.ts';
import type { NetworkService } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { counted } from '../working/counted.ts';
import { type Values, valuesOf } from '../working/formula.ts';
import { given, Missing, missing } from '../working/missing.ts';
import { later } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import {
  beginsAmong,
  firstToMiss,
  growthAmong,
  responseAmong,
  responseSum,
  sumsAmong,
  taskPeriod,
  unboundedBecause,
} from './calc/among.ts';
import { loadReserve } from './calc/estimate.ts';
import { hyperbolicProduct, periodicBound, utilisation } from './calc/utilisation.ts';
import { type AxesByFollowing, type Estimate, estimateOf } from './estimate.ts';
import type { TimingDesign } from './resolve.ts';
import type { TaskSection } from './section.ts';

type Time = Value<Quantity<'s'>>;

/** A task of the file, or the motion kernel of a network. */
export interface PlannedTask {
  readonly name: string;
  readonly path: string;
  readonly kind: 'kernel' | 'control' | 'communication';
  readonly core: string;
  readonly isCyclic: boolean;
  /** The name of the network whose clock it goes with; absent for a clock of its own or of the core. */
  readonly network: string | undefined;
  /** That network, where it goes by a clock of its own. */
  readonly clock: string | undefined;
  /** Or the least distance of its events. */
  readonly period: Time;
  readonly takes: Time;
  /** Where the execution is estimated. */
  readonly estimate: Estimate | undefined;
  readonly takesAtLeast: Time;
  readonly priority: Value<Quantity<'1'>>;
  readonly jitter: Time;
  readonly blocks: Time;
  readonly deadline: Time;
  readonly offset: Time | undefined;
  readonly response: Time;
  /** The same with the likely execution of every task that is estimated. */
  readonly likelyResponse: () => Time;
  /** Why the response has no longest one that is known; nothing where it has. */
  readonly unbounded: () => 'overload' | 'length' | undefined;
  /** By how much it begins late at most, counted from its start without jitter; missing where it may never be done. */
  readonly begins: () => Time;
  /** How the response is found. */
  readonly sums: () => Value<readonly Quantity<'s'>[]>;
  readonly section: TaskSection | undefined;
}

export interface PlannedCore {
  readonly name: string;
  /** The more urgent first. */
  readonly tasks: readonly PlannedTask[];
  readonly load: Value<Quantity<'1'>>;
  readonly bound: Quantity<'1'>;
  readonly product: Value<Quantity<'1'>>;
  /** The share of the core that tasks of one kind take; kinds without a task are left out. */
  readonly loads: readonly { readonly kind: PlannedTask['kind']; readonly load: Value<Quantity<'1'>> }[];
  readonly left: Value<Quantity<'1'>>;
  /** By which factor all executions can grow. */
  readonly growth: () => Value<Quantity<'1'>>;
  /** The task that misses its deadline first when they do; nothing where it cannot be told. */
  readonly firstToMiss: () => Pick<PlannedTask, 'kind' | 'name' | 'network'> | undefined;
}

/** The core of what does not name one. */
export const mainCore = 'main';

/** The cores that have a task of the file; the motion kernels run on the main one. */
export function planCores(
  design: TimingDesign,
  services: readonly NetworkService[],
  axes: AxesByFollowing,
): readonly PlannedCore[] {
  const tasks = design.tasks.map((task) => taskOf(task, design, services, axes));
  const names = [...new Set(tasks.map(({ core }) => core))];
  const kernels = services.map((service) => kernelTask(service, services.length === 1));
  return names.map((name) => {
    const own = tasks.filter(({ core }) => core === name);
    return coreOf(name, inOrder([...(name === mainCore ? kernels : []), ...own]));
  });
}

type Answered = 'response' | 'likelyResponse' | 'unbounded' | 'begins' | 'sums';
type Bare = Omit<PlannedTask, Answered>;

/** A time that the file does not say. */
export const zero = (path: string, because: string): Quantity<'s'> =>
  assumed(path, 0, 's', { source: 'judgement', because });

/** So that not every task lists what it does not say. */
const inTime = assumed('timing.jitter_unsaid', 0, 's', {
  source: 'judgement',
  because: 'a task without jitter starts in time',
});
const interruptible = assumed('timing.blocks_unsaid', 0, 's', {
  source: 'judgement',
  because: 'a task without blocks can be interrupted anywhere',
});

function taskOf(
  task: TaskSection,
  design: TimingDesign,
  services: readonly NetworkService[],
  axes: AxesByFollowing,
): Bare {
  const { name, path, every, events_apart, core } = task;
  const network = networkOf(task, services);
  const period: Time =
    events_apart ??
    periodOf(task, network) ??
    missing(`${path}.every`, 'absent', 'a time, or a number of cycles', '10 ms');
  const estimate = estimateOf(task, design.controller, { axes, points: design.points.length });
  const inCycles = every !== undefined && !(every instanceof Missing) && every.unit === '1';
  return {
    name,
    path,
    kind: task.kind === undefined || task.kind instanceof Missing ? 'control' : task.kind,
    core: core === undefined || core instanceof Missing ? mainCore : core.name,
    isCyclic: events_apart === undefined,
    network: inCycles ? network?.name : undefined,
    clock: inCycles && network !== undefined ? ownClockOf(network) : undefined,
    period,
    takes: estimate === undefined ? task.takes : notRefuted(estimate.takes, task),
    estimate,
    takesAtLeast: task.takes_at_least ?? zero(`${path}.takes_at_least`, 'not said, so that it may take no time at all'),
    priority: task.priority,
    jitter: task.jitter ?? inTime,
    blocks: task.blocks ?? interruptible,
    deadline: task.deadline ?? period,
    offset: task.offset,
    section: task,
  };
}

/** An estimate of the longest execution that the file's own shortest one exceeds is too low. */
function notRefuted(takes: Time, { path, takes_at_least: least }: TaskSection): Time {
  if (takes instanceof Missing || least === undefined || least instanceof Missing) return takes;
  return least.value <= takes.value * (1 + equalWithin)
    ? takes
    : missing(
        `${path}.takes_at_least`,
        'problem',
        `no longer than ${print(takes)}, the longest execution by estimate from what the task contains; takes says a measured one`,
        '',
      );
}

function periodOf({ name, path, every }: TaskSection, network: NetworkService | undefined): Time | undefined {
  if (every === undefined || every instanceof Missing) return every;
  if (every.unit === 's') return every as Quantity<'s'>;
  const n = every as Quantity<'1'>;
  const T = network?.cycle ?? missing(`${path}.of`, 'absent', 'the network whose cycles count', 'drives');
  return given({ n, T }, (known) => taskPeriod(known, name));
}

/** The network that a task names; the only one where it names none. */
function networkOf({ of }: TaskSection, services: readonly NetworkService[]): NetworkService | undefined {
  if (of instanceof Missing) return undefined;
  return of === undefined
    ? services.length === 1
      ? services[0]
      : undefined
    : services.find(({ name }) => name === of.name);
}

/** The name of a network that goes by a clock of its own; nothing for one that keeps step with tasks and other networks. */
export const ownClockOf = ({ name, clock }: NetworkService): string | undefined => (clock === 'own' ? name : undefined);

function kernelTask(service: NetworkService, alone: boolean): Bare {
  const { name, path, cycle, kernel } = service;
  const at = `${path}.kernel`;
  return {
    name: alone ? 'kernel' : `kernel_${name}`,
    path,
    kind: 'kernel',
    core: mainCore,
    isCyclic: true,
    network: name,
    clock: ownClockOf(service),
    period: cycle,
    takes: kernel,
    estimate: undefined,
    takesAtLeast: zero(`${at}.takes_at_least`, 'in a cycle that serves nothing it takes next to no time'),
    priority: assumed(`${at}.priority`, -1, '1', {
      source: 'common-practice',
      because: 'the motion kernel goes before all tasks',
    }),
    jitter: inTime,
    blocks: interruptible,
    deadline: cycle,
    offset: service.offset ?? zero(`${at}.offset`, 'the motion kernel starts with the cycle of its network'),
    section: undefined,
  };
}

/** What has no priority stands last. */
const inOrder = (tasks: readonly Bare[]): readonly Bare[] => tasks.toSorted((a, b) => rank(a) - rank(b));

const rank = ({ priority }: Bare): number => (priority instanceof Missing ? Number.MAX_SAFE_INTEGER : priority.value);

const kinds = ['kernel', 'control', 'communication'] as const;

function coreOf(name: string, tasks: readonly Bare[]): PlannedCore {
  const C = tasks.map(({ takes }) => takes);
  const T = tasks.map(({ period }) => period);
  const J = tasks.map(({ jitter }) => jitter);
  const P = tasks.map(({ priority }) => priority);
  const D = tasks.map(({ deadline }) => deadline);
  const b = tasks.map(({ blocks }) => blocks);
  const load = given({ C, T }, (known) => utilisation(known, name));
  return {
    name,
    tasks: tasks.map((task) => ({ ...task, ...answered(task, tasks) })),
    load,
    loads: kinds.flatMap((kind) => {
      const own = tasks.filter((task) => task.kind === kind);
      const asked = { C: own.map(({ takes }) => takes), T: own.map(({ period }) => period) };
      return own.length === 0 ? [] : [{ kind, load: given(asked, (known) => utilisation(known, `${name}.${kind}`)) }];
    }),
    left: given({ U: load }, (known) => loadReserve(known, name)),
    bound: periodicBound({ n: counted('tasks', tasks.length, `count_on_${name}`) }, name),
    product: given({ C, T }, (known) => hyperbolicProduct(known, name)),
    growth: () => given({ C, T, J, P, D, b }, (known) => growthAmong(known, name)),
    firstToMiss: () => {
      const inputs = given({ C, T, J, P, D, b }, (known) => known);
      const at = inputs instanceof Missing ? undefined : firstToMiss(valuesOf(inputs));
      return at === undefined ? undefined : tasks[at];
    },
  };
}

function answered(task: Bare, all: readonly Bare[]): Pick<PlannedTask, Answered> {
  const others = all.filter((each) => each !== task);
  const inputsWith = (takes: (task: Bare) => Time) =>
    given(
      {
        C: takes(task),
        T: task.period,
        J: task.jitter,
        P: task.priority,
        D: task.deadline,
        c: others.map(takes),
        t: others.map(({ period }) => period),
        j: others.map(({ jitter }) => jitter),
        p: others.map(({ priority }) => priority),
        b: others.map(({ blocks }) => blocks),
      },
      (known) => known,
    );
  const inputs = inputsWith(({ takes }) => takes);
  const { means } = responseAmong;
  const unbounded = () => (inputs instanceof Missing ? undefined : unboundedBecause(valuesOf(inputs)));
  const response = given({ inputs }, (known): Time => {
    const found = responseAmong(known.inputs, task.name);
    return Number.isNaN(found.value) && unbounded() === 'length' ? notFound(task) : found;
  });
  const begin = later(() => ({
    latest: given({ inputs, response: forSure(task, response, unbounded) }, (known) =>
      beginsAmong(known.inputs, task.name),
    ),
  }));
  return {
    response,
    likelyResponse: () =>
      given({ inputs: inputsWith(({ estimate, takes }) => estimate?.likely ?? takes) }, (known) =>
        responseAmong(known.inputs, `${task.name}.likely`),
      ),
    unbounded,
    begins: () => begin().latest,
    sums: () =>
      given({ inputs }, (known) =>
        sumsAmong(valuesOf(known.inputs)).map((value, at) =>
          responseSum(
            { inputs: known.inputs, means, of: (...values: Values) => sumsAmong(values)[at] ?? Number.NaN, value },
            `${task.name}.sum_${at + 1}`,
          ),
        ),
      ),
  };
}

/** Those of the file. */
export const tasksOf = (cores: readonly PlannedCore[]): readonly PlannedTask[] =>
  cores.flatMap(({ tasks }) => tasks.filter(({ kind }) => kind !== 'kernel'));

/** Whether others of its core can make a motion kernel late: a task that blocks, or the kernel of another network. */
export const isKeptWaiting = (kernel: PlannedTask, { tasks }: PlannedCore): boolean =>
  tasks.some((task) => task !== kernel && (task.kind === 'kernel' || task.section?.blocks !== undefined));

/** What rests on the response needs the longest one: where more is asked of the core than all of its time, there is none. */
export const responseForSure = (task: PlannedTask): Time => forSure(task, task.response, task.unbounded);

const forSure = (task: Bare, response: Time, unbounded: PlannedTask['unbounded']): Time => {
  if (response instanceof Missing) return response;
  const why = unbounded();
  if (why === undefined) return response;
  return why === 'length'
    ? notFound(task)
    : missing('tasks', 'problem', `less work than core ${task.core} has time for`, 'longer periods');
};

/** The search goes through every release until the core has nothing to do, and is given up after very many. */
const notFound = ({ path, core }: Bare): Missing =>
  missing(
    path,
    'problem',
    `a longest response that is found within a million steps; core ${core} has next to no time to spare`,
    'shorter executions, or periods that are multiples of each other',
  );
