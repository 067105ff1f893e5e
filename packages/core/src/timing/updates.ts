// How slow the cycle of each axis may be, reason by reason, and how far the axis is behind what the controller commands.
import type { AxisUpdate } from '../physics/axis-update.ts';
import type { NetworkService, ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { cyclesTogether, delaysTogether } from './calc/lag.ts';
import { slowestOf } from './calc/needed-rate.ts';
import { pathInto } from './setpoint-path.ts';
import { kitOf } from './update-kit.ts';
import { apartFrom, behindMaster } from './update-lags.ts';
import { ownReasons, type Reason, type ServedAxis } from './update-reasons.ts';

type Time = Quantity<'s'>;

export interface PlannedUpdate extends ServedAxis {
  readonly reasons: readonly Reason[];
  /** Nothing where every period will do. */
  readonly slowest: Value<Time> | undefined;
  /** How many periods a setpoint waits until the axis goes by it. */
  readonly waits: Value<Quantity<'1'>>;
  /** How far the tool is behind what the controller commands, by the way of a setpoint into the axis. */
  readonly behind: Value<Quantity>;
}

/** Of the axes that say what they must keep to, and that a network serves. */
export function planUpdates(
  axes: readonly AxisUpdate[],
  services: readonly NetworkService[],
): readonly PlannedUpdate[] {
  const stations = services.flatMap((service) => service.stations).filter(({ isAxis }) => isAxis);
  return axes.flatMap((axis) => {
    const station = stations.find(({ name }) => name === axis.name);
    if (station === undefined) return [];
    const served = { axis, station };
    const reasons = [
      ...ownReasons(served),
      ...(axis.tolerance === undefined || axis.counted === undefined ? [] : [behindMaster(served, axis.counted)]),
      ...axis.partners.map((partner) => apartFrom(served, partner, stations)),
    ];
    if (reasons.length === 0) return [];
    const limits = reasons.flatMap(({ slowest }) => (slowest === 'any' ? [] : [slowest]));
    const slowest = limits.length === 0 ? undefined : given({ T: limits }, (known) => slowestOf(known, axis.name));
    return [{ ...served, reasons, slowest, ...behindCommand(axis, station) }];
  });
}

/** The one that allows least. */
export const strictest = ({ reasons, slowest }: PlannedUpdate): string =>
  reasons.find(
    (reason) =>
      reason.slowest !== 'any' &&
      !(reason.slowest instanceof Missing || slowest instanceof Missing) &&
      reason.slowest.value === slowest?.value,
  )?.title ?? '';

function behindCommand(
  { name, follows, speed }: AxisUpdate,
  station: ServedStation,
): Pick<PlannedUpdate, 'waits' | 'behind'> {
  const about = `${name}.behind_command`;
  const path = pathInto(follows, station);
  const waits = given({ path }, (known) => given({ n: known.path.cycles }, ({ n }) => cyclesTogether({ n }, about)));
  const behind = given({ path }, (known) =>
    given({ v: speed, n: waits, T: station.period, delays: known.path.delays }, ({ v, n, T, delays }) =>
      kitOf(v).lag({ v, n, T, d: delaysTogether({ d: delays }, about) }, about),
    ),
  );
  return { waits, behind };
}
