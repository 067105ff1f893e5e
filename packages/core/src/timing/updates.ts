// How slow the cycle of each axis may be, reason by reason: straight lines between setpoints, and a loop over the network.
import type { AxisUpdate } from '../physics/axis-update.ts';
import type { NetworkService, ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { goneIn } from './calc/lead.ts';
import {
  cycleForBandwidth,
  cycleForLinearAngle,
  cycleForLinearWay,
  loopBandwidth,
  slowestOf,
} from './calc/needed-rate.ts';

type Time = Quantity<'s'>;

export interface PlannedUpdate {
  readonly axis: AxisUpdate;
  /** The station that it is, and how often it is served. */
  readonly station: ServedStation;
  readonly reasons: readonly Reason[];
  readonly slowest: Value<Time>;
  /** How far the tool is behind one that gets its setpoint at once, where nothing makes up for the way of the command. */
  readonly skew: Value<Quantity>;
}

export interface Reason {
  /** 'straight lines between setpoints'. */
  readonly title: string;
  readonly slowest: Value<Time>;
}

/** Of the axes that say what they must keep to, and that a network serves. */
export function planUpdates(
  axes: readonly AxisUpdate[],
  services: readonly NetworkService[],
): readonly PlannedUpdate[] {
  const stations = services.flatMap((service) => service.stations).filter(({ isAxis }) => isAxis);
  return axes.flatMap((axis) => {
    const station = stations.find(({ name }) => name === axis.name);
    const reasons = reasonsOf(axis);
    if (station === undefined || reasons.length === 0) return [];
    return [
      {
        axis,
        station,
        reasons,
        slowest: given({ T: reasons.map(({ slowest }) => slowest) }, (known) => slowestOf(known, axis.name)),
        skew: given({ v: axis.speed, t: station.arrival }, ({ v, t }) => goneIn(v, t, `${axis.name}.skew`)),
      },
    ];
  });
}

/** The one that allows least. */
export const strictest = ({ reasons, slowest }: PlannedUpdate): string =>
  reasons.find(
    (reason) =>
      !(reason.slowest instanceof Missing || slowest instanceof Missing) && reason.slowest.value === slowest.value,
  )?.title ?? '';

function reasonsOf(axis: AxisUpdate): readonly Reason[] {
  const lines = axis.tolerance === undefined ? undefined : linesOf(axis, axis.tolerance);
  const loop = axis.gain === undefined || !axis.overNetwork ? undefined : loopOf(axis.name, axis.gain);
  return [
    ...(lines === undefined ? [] : [{ title: 'straight lines between setpoints', slowest: lines }]),
    ...(loop === undefined ? [] : [{ title: 'the loop that closes over the network', slowest: loop }]),
  ];
}

/** Nothing for an axis that goes at constant speed: a straight line is what it goes. */
function linesOf({ name, path, acceleration }: AxisUpdate, tolerance: Value<Quantity>): Value<Time> | undefined {
  if (!(acceleration instanceof Missing) && acceleration.value === 0) return undefined;
  return given({ e: tolerance, a: acceleration }, ({ e, a }): Value<Time> => {
    const along = a.unit === 'm/s²';
    if (e.unit !== (along ? 'm' : 'rad'))
      return missing(`${path}.tolerance`, 'problem', along ? 'a length' : 'an angle', along ? '0.05 mm' : '0.1°');
    return along
      ? cycleForLinearWay({ e: e as Quantity<'m'>, a: a as Quantity<'m/s²'> }, name)
      : cycleForLinearAngle({ e: e as Quantity<'rad'>, a: a as Quantity<'rad/s²'> }, name);
  });
}

const loopOf = (name: string, gain: Value<Quantity<'1/s'>>): Value<Time> =>
  given({ k: gain }, ({ k }) =>
    cycleForBandwidth({ φ: phaseMargin, f: loopBandwidth({ k }, name), n: cyclesOfLoop, d: nothingBeside }, name),
  );

const phaseMargin = assumed('timing.phase_margin', Math.PI / 3, 'rad', {
  source: 'common-practice',
  because: 'a position loop that hardly overshoots keeps 60°',
  as: '°',
});
const cyclesOfLoop = assumed('timing.cycles_of_loop', 2.5, '1', {
  source: 'judgement',
  because: 'one for the answer, one for the command, and half of the one in which it is held',
});
const nothingBeside = assumed('timing.dead_time_beside', 0, 's', {
  source: 'judgement',
  because: 'the loops in the drive are much quicker',
});
