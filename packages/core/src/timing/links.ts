// The links of a chain, in order: what each waits for and takes, from signals, stations, tasks and maps of their own.
import type { FollowedAxis } from '../physics/axis-update.ts';
import type { NetworkService, ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { lookInCycle, loopDelay, quickestSignal, setpointTakes, slowestSignal, wayBack } from './calc/link-times.ts';
import { type ChainSection, isNamed, type LinkSection, type PointSection, type SignalSection } from './section.ts';
import { jitterOf, lateCycles, pathInto } from './setpoint-path.ts';
import { ownClockOf, type PlannedTask, responseForSure, zero } from './tasks.ts';

type Time = Quantity<'s'>;

export interface PlannedLink {
  /** What it is, for tables. */
  readonly title: string;
  /** Where it is described. */
  readonly path: string;
  /** How often it looks; nothing for what passes on at once. */
  readonly period: Time | undefined;
  /** When it looks, on the clock of networks and tasks or on that of its network; nothing for a clock of its own. */
  readonly phase: Time | undefined;
  /** The network whose clock that is, where it goes by one of its own. */
  readonly clock: string | undefined;
  /** By how much it may look late; nothing for what looks in time, or has a clock of its own. */
  readonly late: Time | undefined;
  readonly least: Time;
  readonly most: Time;
  /** The task that it is, where it is one that is not waited for by events. */
  readonly task: PlannedTask | undefined;
}

/** What a chain may name. */
export interface Named {
  readonly points: readonly PointSection[];
  readonly tasks: readonly PlannedTask[];
  readonly services: readonly NetworkService[];
  /** How an axis that is described goes by its setpoints. */
  readonly followers: (name: string) => FollowedAxis | undefined;
}

/** A station, and the network that serves it. */
interface Served {
  readonly station: ServedStation;
  readonly service: NetworkService;
  /** Whether others share a clock with it, or with each other. */
  readonly isOneOfSeveral: boolean;
}

/** From the cause to the effect; missing where one of them is. */
export function linksOf({ name, path, from, through, to }: ChainSection, named: Named): Value<readonly PlannedLink[]> {
  if (through instanceof Missing) return through;
  // What stands in front of the first task brings its inputs, what stands behind one takes its outputs.
  const first = through.findIndex((each) => !(each instanceof Missing) && (!isNamed(each) || isTask(each.name, named)));
  const axis = axisAtEnd(to, named);
  const between = through.map((each, at): Value<PlannedLink> | [] => {
    if (each instanceof Missing) return each;
    const about = `${name}.${at + 1}`;
    if (!isNamed(each)) return ownLink(each, `${path}.through.${at}`, about);
    const task = named.tasks.find((found) => found.name === each.name);
    if (task !== undefined) return taskLink(task);
    const served = servedIn(each.name, named.services);
    if (served === undefined) return missing(`${path}.through.${at}`, 'problem', 'a station or a task', 'rack_o');
    if (first < 0 || at < first) return inputLink(served, about);
    // The axis where it ends is told of there.
    return axis === each.name ? [] : outputLink(served, about);
  });
  const names = through.map((each) => (each instanceof Missing || !isNamed(each) ? undefined : each.name));
  const before = first < 0 ? names : names.slice(0, first);
  const behind = first < 0 ? names : names.slice(first + 1);
  return given(
    {
      begin: signalLinks(from, { path: `${path}.from`, about: `${name}.from`, points: named.points }),
      inputs: hung(from, before, named, (served) => inputLink(served, `${name}.from`)),
      between,
      outputs: hung(to, behind, named, (served) => outputLink(served, `${name}.to`)),
      end:
        axis === undefined
          ? signalLinks(to, { path: `${path}.to`, about: `${name}.to`, points: named.points })
          : axisLinks(axis, named, `${name}.to`),
    },
    (known) => [...known.begin, ...known.inputs, ...known.between.flat(), ...known.outputs, ...known.end],
  );
}

/** The station that a point hangs on, where the chain does not name it on that side: the signal goes through it all the same. */
function hung(
  end: ChainSection['from'],
  names: readonly (string | undefined)[],
  { points, services }: Named,
  link: (served: Served) => Value<PlannedLink>,
): Value<readonly PlannedLink[]> {
  const point = end instanceof Missing || !isNamed(end) ? undefined : points.find(({ name }) => name === end.name);
  const at = point?.at;
  if (point === undefined || at === undefined) return [];
  if (at instanceof Missing) return at;
  if (at.name === 'main' || names.includes(at.name)) return [];
  const served = servedIn(at.name, services);
  if (served === undefined) return missing(`${point.path}.at`, 'problem', 'a station that a network serves', 'rack_o');
  return given({ own: link(served) }, ({ own }) => [{ ...own, title: `${own.title}, where ${point.name} hangs` }]);
}

const isTask = (name: string, { tasks }: Named): boolean => tasks.some((task) => task.name === name);

export function servedIn(name: string, services: readonly NetworkService[]): Served | undefined {
  const shared = services.filter((service) => ownClockOf(service) === undefined);
  for (const service of services) {
    const station = service.stations.find((each) => each.name === name);
    if (station !== undefined) return { station, service, isOneOfSeveral: shared.length > 1 };
  }
  return undefined;
}

/** The axis whose tool is the effect; a point goes before an axis of the same name. */
const axisAtEnd = (to: ChainSection['to'], { points, services }: Named): string | undefined =>
  to instanceof Missing || !isNamed(to) || points.some(({ name }) => name === to.name)
    ? undefined
    : services.some(({ stations }) => stations.some(({ name, isAxis }) => isAxis && name === to.name))
      ? to.name
      : undefined;

interface Where {
  readonly path: string;
  readonly about: string;
  readonly points: readonly PointSection[];
}

/** The delay of a sensor or of what acts, and the filter of an input. */
function signalLinks(end: ChainSection['from'], { path, about, points }: Where): Value<readonly PlannedLink[]> {
  if (end instanceof Missing) return end;
  const point = isNamed(end) ? points.find(({ name }) => name === end.name) : undefined;
  if (isNamed(end) && point === undefined) return missing(path, 'problem', 'a point, or a map', 'eye_reject');
  const signal: SignalSection = point ?? (end as SignalSection);
  const at = point?.path ?? path;
  const title = point?.name ?? (path.endsWith('from') ? 'cause' : 'effect');
  const d = signal.delay ?? zero(`${at}.delay`, 'not said, so that the signal is there at once');
  const delayed = given({ d, j: signal.jitter }, ({ d, j }) => ({
    title: `delay of ${title}`,
    path: at,
    ...passing,
    least: d,
    most: j === undefined ? d : slowestSignal({ d, j: j as Time }, about),
    task: undefined,
  }));
  return given({ delayed, f: signal.filter }, ({ delayed: own, f }) =>
    f === undefined ? [own] : [own, { ...own, title: `filter of ${title}`, least: f as Time, most: f as Time }],
  );
}

/** A task looks at its inputs as it starts and writes its outputs as it ends; one that events start passes on at once. */
const taskLink = (task: PlannedTask): Value<PlannedLink> =>
  given(
    { T: task.period, b: task.takesAtLeast, R: responseForSure(task), φ: task.offset, l: task.offset && task.begins() },
    ({ T, b, R, φ, l }) => {
      const phase = task.isCyclic ? (φ as Time | undefined) : undefined;
      return {
        title: `task ${task.name}`,
        path: task.path,
        period: task.isCyclic ? T : undefined,
        phase,
        clock: task.clock,
        late: phase === undefined ? undefined : (l as Time | undefined),
        least: b,
        most: R,
        task: task.isCyclic ? task : undefined,
      };
    },
  );

/** A station that is not served in each cycle has a place in the pattern that the file does not say: a clock of its own. */
function looking({ station, service, isOneOfSeveral }: Served, inCycle: Time, about: string) {
  const { path, clock, offset } = service;
  const own = ownClockOf(service);
  const isInPhase = station.every === undefined && !(clock instanceof Missing);
  const o =
    offset ??
    (isOneOfSeveral && own === undefined
      ? assumed(`${path}.offset`, 0, 's', {
          source: 'judgement',
          because: 'not said, so that its cycles start with those of the other networks',
        })
      : undefined);
  return given({ T: station.period, o: isInPhase ? o : undefined, j: service.startJitter }, (known) => {
    const late = known.j as Time | undefined;
    return {
      path: station.path,
      period: known.T,
      phase: !isInPhase ? undefined : known.o === undefined ? inCycle : lookInCycle({ o: known.o, t: inCycle }, about),
      clock: own,
      late: isInPhase ? late : undefined,
      task: undefined,
      /** From the look that is meant until it is passed on, where the cycle starts as late as it may. */
      upTo: (takes: Time): Time => (late === undefined ? takes : slowestSignal({ d: takes, j: late }, `${about}.late`)),
    };
  });
}

const inputLink = (served: Served, about: string): Value<PlannedLink> =>
  given({ t: served.station.arrival, a: served.station.answered }, ({ t, a }) =>
    given({ link: looking(served, t, about) }, ({ link: { upTo, ...link } }) => {
      const takes = wayBack({ a, t }, about);
      return { ...link, title: `${served.station.name}, its inputs`, least: takes, most: upTo(takes) };
    }),
  );

const withTheCycle = assumed('timing.commands_leave', 0, 's', {
  source: 'definition',
  because: 'commands are taken as the cycle of their network starts',
});

const outputLink = (served: Served, about: string): Value<PlannedLink> =>
  given(
    { t: served.station.arrival, link: looking(served, withTheCycle, about) },
    ({ t, link: { upTo, ...link } }) => ({
      ...link,
      title: `${served.station.name}, its outputs`,
      least: t,
      most: upTo(t),
    }),
  );

/** Through network and drive until the axis goes by its setpoint, and by how much its position loop is behind that. */
function axisLinks(name: string, { services, followers }: Named, about: string): Value<readonly PlannedLink[]> {
  const served = servedIn(name, services)!;
  const { station } = served;
  const follows = followers(name);
  if (follows === undefined)
    return missing(`axes.${name}.motion`, 'absent', 'a motion', '{ follow: line, gear: [1, 1] }');
  const k = follows.gain ?? missing(`axes.${name}.gain`, 'absent', 'a gain', '60 1/s');
  const path = pathInto(follows, station);
  return given(
    {
      link: looking(served, withTheCycle, about),
      d: given({ path, T: station.period }, (known) =>
        given({ n: known.path.cycles, d: known.path.delays }, ({ n, d }) => setpointTakes({ n, T: known.T, d }, about)),
      ),
      j: jitterOf(follows),
      late: lateCycles(follows),
      loop: given({ f: follows.feedForward, k }, (known) => loopDelay(known, about)),
    },
    ({ link: { upTo, ...link }, d, j, late, loop }) => [
      {
        ...link,
        title: `setpoints of ${name}, until it goes by them`,
        least: quickestSignal({ d, j }, about),
        most: upTo(slowestSignal({ d, j }, about)),
      },
      ...late.map(() => ({
        ...passing,
        title: `clock of the drive of ${name}`,
        path: link.path,
        period: link.period,
        least: takenOver,
        most: takenOver,
      })),
      { ...passing, title: `position loop of ${name}`, path: follows.path, least: loop, most: loop },
    ],
  );
}

const takenOver = assumed('timing.taken_over', 0, 's', {
  source: 'definition',
  because: 'as its clock comes round, a drive takes over what is there',
});

/** What passes on at once. */
const passing = { period: undefined, phase: undefined, clock: undefined, late: undefined, task: undefined } as const;

const ownLink = (link: LinkSection, path: string, about: string): Value<PlannedLink> =>
  given(
    {
      T: link.every,
      φ: link.offset,
      R: link.takes,
      b: link.takes_at_least ?? zero(`${path}.takes_at_least`, 'not said, so that it may take no time at all'),
    },
    ({ T, φ, R, b }) => ({
      title:
        link.name === undefined || link.name instanceof Missing ? `link ${about.split('.').at(-1)}` : link.name.name,
      path,
      period: T as Time | undefined,
      phase: T === undefined ? undefined : (φ as Time | undefined),
      clock: undefined,
      late: undefined,
      least: b,
      most: R,
      task: undefined,
    }),
  );
