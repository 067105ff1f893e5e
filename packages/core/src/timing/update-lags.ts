// Lags as reasons for updates: behind a master that is counted, and of two axes that must agree, behind one master.
import type { AxisUpdate, CountedMaster, FollowedAxis } from '../physics/axis-update.ts';
import type { ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { arrivalsApart, cyclesApart, cyclesTogether, delaysTogether, gainsApart } from './calc/lag.ts';
import { goneIn } from './calc/lead.ts';
import { jitterOf, lateCycles, pathInto } from './setpoint-path.ts';
import { kitOf } from './update-kit.ts';
import { inCycles, lagging, type Reason, reasonOf, type ServedAxis, toleranceOf } from './update-reasons.ts';

type Time = Quantity<'s'>;

/** How far the axis is behind a master that an encoder gives: sample, filter, the controller's cycle, the way into the drive. */
export function behindMaster(served: ServedAxis, counted: CountedMaster): Reason {
  const { axis, station } = served;
  const { sample, filter, lead, ramp } = counted;
  const about = `${axis.name}.behind_${counted.name}`;
  const title = `lag behind the encoder of ${counted.name}`;
  const e = toleranceOf(axis);
  const path = pathInto(axis.follows, station);
  const n = given({ path }, (known) =>
    given({ n: [inController, ...known.path.cycles] }, (all) => cyclesTogether(all, about)),
  );
  const d = given({ path }, (known) =>
    given({ d: [sample, ...(filter === undefined ? [] : [filter]), ...known.path.delays] }, (all) =>
      delaysTogether(all, about),
    ),
  );
  const known = { e, n, T: station.period, d };
  if (lead instanceof Missing) return reasonOf(title, e, lead);
  if (lead === 'none')
    return reasonOf(
      title,
      e,
      given({ ...known, v: axis.speed }, (all) => lagging(all, about)),
    );
  return reasonOf(
    `${title}, its speed carried on`,
    e,
    given({ ...known, a: ramp }, ({ e: allowed, a, n: cycles, T, d: delay }) => ({
      costs: kitOf(a).carriedLag({ a, n: cycles, T, d: delay }, about),
      slowest: inCycles(kitOf(a).carriedTimeLeft({ e: allowed, a, d: delay }, about), cycles, about),
    })),
  );
}

const inController = assumed('timing.controller_cycle', 1, '1', {
  source: 'judgement',
  because: 'the controller reads in one cycle what it commands with the next',
});

/** How far two axes behind one master are apart; its parts are added as if all went the same way. */
export function apartFrom(
  served: ServedAxis,
  partner: Value<FollowedAxis>,
  stations: readonly ServedStation[],
): Reason {
  const { axis } = served;
  const e = toleranceOf(axis);
  if (partner instanceof Missing) return reasonOf('agreement', e, partner);
  const title = `agreement with ${partner.name}`;
  const other = stations.find(({ name }) => name === partner.name);
  if (axis.follows.master === undefined || axis.follows.master !== partner.master)
    return reasonOf(title, e, refused(axis, 'axes that follow the same master', partner.name));
  if (other === undefined) return reasonOf(title, e, refused(axis, 'axes that a network serves', partner.name));
  const about = `${axis.name}.with_${partner.name}`;
  const { gains, n, arrivals, jitter, late } = differences(served, partner, other, about);
  const { speed: v } = axis;
  const T = served.station.period;
  const both = `${about}.both`;
  const cycles = given({ n, late }, (known) => cyclesTogether({ n: [known.n, ...known.late] }, both));
  const jitters = given({ d: jitter }, (known) => delaysTogether(known, `${about}.jitter`));
  const found = given({ gains, arrivals, jitters }, (known) =>
    given({ d: [known.gains, ...known.arrivals, known.jitters] }, (all) => delaysTogether(all, both)),
  );
  const gone = (title: string, t: Value<Time>, of: string): Reason['parts'][number] => ({
    title,
    costs: given({ v, t }, (known) => goneIn(known.v, known.t, `${about}.${of}`)),
  });
  return reasonOf(
    title,
    e,
    given({ e, v, n: cycles, T, d: found }, (known) => lagging(known, about)),
    [
      gone('gains of the position loops', gains, 'gains'),
      {
        title: 'periods in which setpoints wait',
        costs: given({ v, n: cycles, T }, (known) => kitOf(known.v).lag({ ...known, d: noDelay }, `${about}.cycles`)),
      },
      ...(arrivals instanceof Missing ? [] : arrivals.map((each) => gone('arrival of the commands', each, 'arrivals'))),
      gone('jitter of both', jitters, 'jitter_of_both'),
    ],
  );
}

const refused = ({ path }: AxisUpdate, due: string, example: string): Missing =>
  missing(`${path}.agrees_with`, 'problem', due, `[${example}]`);

const noDelay = assumed('timing.no_delay', 0, 's', {
  source: 'definition',
  because: 'what is taken over in step does not depend on its arrival',
});

/** The parts of it, as times: position loops, periods in which setpoints wait, arrivals, jitter. */
function differences({ axis, station }: ServedAxis, partner: FollowedAxis, other: ServedStation, about: string) {
  const { follows } = axis;
  const [own, its] = [pathInto(follows, station), pathInto(partner, other)];
  const same = holdAsMany(follows, station, partner, other);
  const countOf = (path: typeof own, whose: string): Value<Quantity<'1'>> =>
    same
      ? asMany
      : given({ path }, (known) => given({ n: known.path.cycles }, (all) => cyclesTogether(all, `${about}.${whose}`)));
  return {
    gains: given({ f: follows.feedForward, k: gainOf(follows), g: partner.feedForward, l: gainOf(partner) }, (known) =>
      gainsApart(known, about),
    ),
    n: given({ n: countOf(own, 'own'), m: countOf(its, 'its'), S: other.period, T: station.period }, (known) =>
      cyclesApart(known, about),
    ),
    arrivals: given({ own, its }, (known): readonly Value<Time>[] => {
      const [t, u] = [known.own.delays[0], known.its.delays[0]];
      return t === undefined && u === undefined
        ? []
        : [given({ t: t ?? noDelay, u: u ?? noDelay }, (all) => arrivalsApart(all, about))];
    }),
    jitter: [jitterOf(follows), jitterOf(partner)],
    late: [...lateCycles(follows), ...lateCycles(partner)],
  };
}

const gainOf = ({ path, gain }: FollowedAxis): Value<Quantity<'1/s'>> =>
  gain ?? missing(`${path}.gain`, 'absent', 'a gain', '60 1/s');

/** Drives of one part that are served alike hold as many setpoints, whatever number that is. */
function holdAsMany(one: FollowedAxis, station: ServedStation, two: FollowedAxis, other: ServedStation): boolean {
  const [a, b] = [one.drive, two.drive];
  const [T, S] = [station.period, other.period];
  return (
    isAbsent(a.setpoint_cycles) &&
    isAbsent(b.setpoint_cycles) &&
    !(a.part instanceof Missing) &&
    a.part === b.part &&
    a.setpoints === b.setpoints &&
    !(T instanceof Missing || S instanceof Missing) &&
    T.value === S.value
  );
}

const asMany = assumed('timing.as_many_cycles', 1, '1', {
  source: 'judgement',
  because: 'drives of one part that are served alike hold as many setpoints, so that it cancels',
});
