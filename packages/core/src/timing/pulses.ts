// Pulses that a task counts: how long the signal is there or away at least, and how long nobody looks at it.
import type { MasterSpeed } from '../physics/master-speed.ts';
import type { NetworkService } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  betweenLooks,
  practicalScan,
  pulsePeriod,
  pulsePeriodTurning,
  shortestPhase,
  shortestSeen,
} from './calc/signal-rate.ts';
import { servedIn } from './links.ts';
import type { PointSection } from './section.ts';
import { speedOf } from './speed-of.ts';
import type { PlannedTask } from './tasks.ts';

type Time = Value<Quantity<'s'>>;

/** A point whose pulses a task counts; a counter does it by itself. */
export interface CountedPulses {
  readonly point: PointSection;
  readonly period: Time;
  /** How long the signal is there or away, whichever is less. */
  readonly phase: Time;
}

export interface PlannedPulses extends CountedPulses {
  readonly name: string;
  readonly path: string;
  /** The name of the task that looks. */
  readonly reader: Value<string>;
  /** From one look to the next at most. */
  readonly looks: Time;
  /** How long it must be there or away. */
  readonly needs: Time;
  /** The scans that rules of practice ask for, the slower one first. */
  readonly practical: readonly Time[];
}

export interface AroundPulses {
  readonly tasks: readonly PlannedTask[];
  readonly services: readonly NetworkService[];
}

export const countedPulses = (
  points: readonly PointSection[],
  masters: readonly MasterSpeed[],
): readonly CountedPulses[] =>
  points.flatMap((point) => {
    const { name, kind, pulse_every, pulse_on } = point;
    if (pulse_every === undefined || counters.some((each) => each === kind)) return [];
    const period = periodOf(point, masters);
    return [{ point, period, phase: given({ P: period, d: pulse_on ?? half }, (known) => shortestPhase(known, name)) }];
  });

const counters = ['counter', 'encoder'] as const;

export function pulsesOf({ point, period, phase }: CountedPulses, around: AroundPulses): PlannedPulses {
  const { name, path, filter } = point;
  const task = readerOf(point, around.tasks);
  const looks = given({ task, station: stationOf(point, around.services) }, (known) =>
    given(
      { T: [...known.station.periods, periodFor(known.task)], l: [...known.station.late, known.task.begins()] },
      (all) => betweenLooks(all, name),
    ),
  );
  return {
    name,
    path,
    point,
    reader: given({ task }, (known) => known.task.name),
    period,
    phase,
    looks,
    needs:
      filter === undefined
        ? looks
        : given({ f: filter, g: looks }, ({ f, g }) => shortestSeen({ f: f as Quantity<'s'>, g }, name)),
    practical: rules.map((n) => given({ P: period }, ({ P }) => practicalScan({ P, n }, `${name}.${n.value}`))),
  };
}

const half = assumed('timing.pulse_on_unsaid', 0.5, '1', {
  source: 'judgement',
  because: 'a pulse of which nothing else is said is there for half of its period',
  as: '%',
});

const rules = [5, 10].map((scans) =>
  assumed(`timing.scans_in_a_period.${scans}`, scans, '1', {
    source: 'common-practice',
    because: 'rules of practice scan five to ten times in the period of a pulse',
  }),
);

function periodOf(
  { name, path, pulse_every, pulse_speed: speed, pulse_of: of }: PointSection,
  masters: readonly MasterSpeed[],
): Time {
  const every = pulse_every!;
  if (every instanceof Missing) return every;
  if (every.unit === 's') return every as Quantity<'s'>;
  return given({ v: speedOf({ speed, of, at: `${path}.pulse_speed` }, masters) }, ({ v }): Time => {
    if (every.unit === 'm' && v.unit === 'm/s')
      return pulsePeriod({ l: every as Quantity<'m'>, v: v as Quantity<'m/s'> }, name);
    if (every.unit === 'rad' && v.unit === 'rad/s')
      return pulsePeriodTurning({ l: every as Quantity<'rad'>, v: v as Quantity<'rad/s'> }, name);
    return every.unit === 'm'
      ? missing(`${path}.pulse_every`, 'problem', 'an angle or a time, since what moves it turns', '10°')
      : missing(`${path}.pulse_every`, 'problem', 'a length or a time, since what moves it goes along', '25.4 mm');
  });
}

function readerOf({ path, read_by: reader }: PointSection, tasks: readonly PlannedTask[]): Value<PlannedTask> {
  if (reader instanceof Missing) return reader;
  const own = tasks.filter(({ kind }) => kind !== 'kernel');
  const task =
    reader === undefined ? (own.length === 1 ? own[0] : undefined) : own.find(({ name }) => name === reader.name);
  return task ?? missing(`${path}.read_by`, 'absent', 'the task that counts its pulses', 'fast');
}

/** What looks before the task does: a station as its network serves it; the controller looks with the task. */
function stationOf(
  { path, at }: PointSection,
  services: readonly NetworkService[],
): Value<{ readonly periods: readonly Time[]; readonly late: readonly Time[] }> {
  if (at instanceof Missing) return at;
  if (at === undefined || at.name === 'main') return { periods: [], late: [] };
  const served = servedIn(at.name, services);
  if (served === undefined) return missing(`${path}.at`, 'problem', 'a station that a network serves', 'rack_o');
  const { station, service } = served;
  return { periods: [station.period], late: service.startJitter === undefined ? [] : [service.startJitter] };
}

const periodFor = ({ path, isCyclic, period }: PlannedTask): Time =>
  isCyclic ? period : missing(`${path}.every`, 'absent', 'a period, since events may stay away', '10 ms');
