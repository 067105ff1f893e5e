// The links of a chain, in order: what each waits for and takes, from signals, stations, tasks and maps of their own.
import type { NetworkService, ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { slowestSignal, wayBack } from './calc/link-times.ts';
import { type ChainSection, isNamed, type LinkSection, type PointSection, type SignalSection } from './section.ts';
import { type PlannedTask, responseForSure, zero } from './tasks.ts';

type Time = Quantity<'s'>;

export interface PlannedLink {
  /** What it is, for tables. */
  readonly title: string;
  /** Where it is described. */
  readonly path: string;
  /** How often it looks; nothing for what passes on at once. */
  readonly period: Time | undefined;
  /** When it looks, on the clock of networks and tasks; nothing for a clock of its own. */
  readonly phase: Time | undefined;
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
}

/** From the cause to the effect; missing where one of them is. */
export function linksOf({ name, path, from, through, to }: ChainSection, named: Named): Value<readonly PlannedLink[]> {
  if (through instanceof Missing) return through;
  // What stands in front of the first task brings its inputs, what stands behind one takes its outputs.
  const first = through.findIndex((each) => !(each instanceof Missing) && (!isNamed(each) || isTask(each.name, named)));
  const between = through.map((each, at): Value<PlannedLink> => {
    if (each instanceof Missing) return each;
    const about = `${name}.${at + 1}`;
    if (!isNamed(each)) return ownLink(each, `${path}.through.${at}`, about);
    const task = named.tasks.find((found) => found.name === each.name);
    if (task !== undefined) return taskLink(task);
    const station = stationOf(each.name, named.services);
    if (station === undefined) return missing(`${path}.through.${at}`, 'problem', 'a station or a task', 'rack_o');
    return first >= 0 && at > first ? outputLink(station) : inputLink(station, about);
  });
  const names = through.map((each) => (each instanceof Missing || !isNamed(each) ? undefined : each.name));
  const before = first < 0 ? names : names.slice(0, first);
  const behind = first < 0 ? names : names.slice(first + 1);
  return given(
    {
      begin: signalLinks(from, { path: `${path}.from`, about: `${name}.from`, points: named.points }),
      inputs: hung(from, before, named, (station) => inputLink(station, `${name}.from`)),
      between,
      outputs: hung(to, behind, named, outputLink),
      end: signalLinks(to, { path: `${path}.to`, about: `${name}.to`, points: named.points }),
    },
    (known) => [...known.begin, ...known.inputs, ...known.between, ...known.outputs, ...known.end],
  );
}

/** The station that a point hangs on, where the chain does not name it on that side: the signal goes through it all the same. */
function hung(
  end: ChainSection['from'],
  names: readonly (string | undefined)[],
  { points, services }: Named,
  link: (station: ServedStation) => Value<PlannedLink>,
): Value<readonly PlannedLink[]> {
  const point = end instanceof Missing || !isNamed(end) ? undefined : points.find(({ name }) => name === end.name);
  const at = point?.at;
  if (point === undefined || at === undefined) return [];
  if (at instanceof Missing) return at;
  if (at.name === 'main' || names.includes(at.name)) return [];
  const station = stationOf(at.name, services);
  if (station === undefined) return missing(`${point.path}.at`, 'problem', 'a station that a network serves', 'rack_o');
  return given({ own: link(station) }, ({ own }) => [{ ...own, title: `${own.title}, where ${point.name} hangs` }]);
}

const isTask = (name: string, { tasks }: Named): boolean => tasks.some((task) => task.name === name);

const stationOf = (name: string, services: readonly NetworkService[]): ServedStation | undefined =>
  services.flatMap(({ stations }) => stations).find((station) => station.name === name);

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
    period: undefined,
    phase: undefined,
    late: undefined,
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
    { T: task.period, b: task.takesAtLeast, R: responseForSure(task), φ: task.offset, l: task.begins() },
    ({ T, b, R, φ, l }) => {
      const phase = task.isCyclic ? (φ as Time | undefined) : undefined;
      return {
        title: `task ${task.name}`,
        path: task.path,
        period: task.isCyclic ? T : undefined,
        phase,
        late: phase === undefined ? undefined : l,
        least: b,
        most: R,
        task: task.isCyclic ? task : undefined,
      };
    },
  );

/** A station that is not served in each cycle has a place in the pattern that the file does not say: a clock of its own. */
const inputLink = (station: ServedStation, about: string): Value<PlannedLink> =>
  given({ T: station.period, t: station.arrival, a: station.answered }, ({ T, t, a }) => {
    const takes = wayBack({ a, t }, about);
    return {
      title: `${station.name}, its inputs`,
      path: station.path,
      period: T,
      phase: station.every === undefined ? t : undefined,
      late: undefined,
      least: takes,
      most: takes,
      task: undefined,
    };
  });

const withTheCycle = assumed('timing.commands_leave', 0, 's', {
  source: 'definition',
  because: 'commands are taken as the cycle of their network starts',
});

const outputLink = (station: ServedStation): Value<PlannedLink> =>
  given({ T: station.period, t: station.arrival }, ({ T, t }) => ({
    title: `${station.name}, its outputs`,
    path: station.path,
    period: T,
    phase: station.every === undefined ? withTheCycle : undefined,
    late: undefined,
    least: t,
    most: t,
    task: undefined,
  }));

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
      late: undefined,
      least: b,
      most: R,
      task: undefined,
    }),
  );
