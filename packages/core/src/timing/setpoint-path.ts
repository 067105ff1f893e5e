// The way of a setpoint into its axis: cycles in which it waits, what delays it beside them, by how much it jitters.
import type { FollowedAxis } from '../physics/axis-update.ts';
import type { ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { isAbsent, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';

type Time = Quantity<'s'>;
type Count = Quantity<'1'>;

export interface SetpointPath {
  /** In periods of the axis, one after another. */
  readonly cycles: readonly Value<Count>[];
  readonly delays: readonly Value<Time>[];
}

/** From the start of the period in which the command leaves until the axis goes by it. */
export function pathInto({ drive }: FollowedAxis, { arrival }: ServedStation): Value<SetpointPath> {
  const { setpoints, setpoint_cycles: buffers } = drive;
  if (setpoints instanceof Missing) return setpoints;
  return setpoints === 'in_step'
    ? { cycles: [untilNext, buffers], delays: [] }
    : { cycles: [buffers], delays: [arrival] };
}

/** By how many periods a setpoint may come late: one where a clock takes it over that nothing ties to the network. */
export const lateCycles = ({ drive }: FollowedAxis): readonly Value<Count>[] =>
  drive.setpoints instanceof Missing ? [drive.setpoints] : drive.setpoints === 'own_clock' ? [ownClock] : [];

/** Said by the drive; what is usual where drives are kept in step. */
export const jitterOf = onceForEach(
  ({ drive }: FollowedAxis): Value<Time> =>
    isAbsent(drive.setpoint_jitter) && drive.setpoints === 'in_step'
      ? assumed(`${drive.path}.setpoint_jitter`, 1e-6, 's', {
          source: 'common-practice',
          because: 'networks that keep their drives in step keep them within 1 µs',
          as: 'µs',
        })
      : drive.setpoint_jitter,
);

const untilNext = assumed('timing.next_period', 1, '1', {
  source: 'definition',
  because: 'what is taken over in step waits for the next period to begin',
});
const ownClock = assumed('timing.own_clock', 1, '1', {
  source: 'definition',
  because: 'a clock that nothing ties to the network may just have come round',
});
