// What one domain hands over to another: records of physics, filled here, since domains do not know each other.
import type { Axis, Master } from '../axes/axis.ts';
import type { AxisDemand } from '../axes/demand.ts';
import { highestAcceleration } from '../axes/highest-acceleration.ts';
import { highestJerk, highestSpeedOfMotion } from '../axes/highest-of-motion.ts';
import { lostInCycle } from '../axes/lost-motion.ts';
import { kits } from '../axes/motion-kit.ts';
import type { Sections } from '../machine/format.ts';
import { updatePeriod } from '../networks/calc/cycle.ts';
import { kernelOf } from '../networks/kernel.ts';
import type { Planned } from '../networks/planned.ts';
import type { AxisMotion, AxisMotions } from '../physics/axis-motion.ts';
import type { AxisUpdate, CountedMaster, FollowedAxis } from '../physics/axis-update.ts';
import type { LostMotions } from '../physics/lost-motion.ts';
import type { NetworkService } from '../physics/service.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

/** How a network serves what hangs on it. */
export function serviceOf(planned: Planned): NetworkService {
  const { network, exchanges } = planned;
  const { name, path, cycle } = network;
  return {
    name,
    path,
    cycle,
    clock: network.clock,
    offset: network.offset,
    startJitter: network.startJitter,
    kernel: kernelOf(planned),
    stations: exchanges.map(({ device, there, answered }) => ({
      name: device.name,
      path: device.path,
      isAxis: device.axis,
      every: device.every,
      period:
        device.every === undefined
          ? cycle
          : given({ n: device.every, T: cycle }, (known) => updatePeriod(known, `${name}.${device.name}`)),
      arrival: there,
      answered,
    })),
  };
}

const motionIn = (demand: AxisDemand): AxisMotion => ({
  speed: demand.toolSpeed,
  acceleration: highestAcceleration(demand),
});

/** What the networks ask of the motion of an axis, of those that are described. */
export const motionsOf =
  (axes: readonly AxisDemand[]): AxisMotions =>
  (name) => {
    const demand = axes.find(({ axis }) => axis.name === name);
    return demand && motionIn(demand);
  };

/** What the trains of axes that are described lose between motor and tool. */
export const lostMotionsOf =
  (axes: readonly AxisDemand[]): LostMotions =>
  (name) => {
    const demand = axes.find(({ axis }) => axis.name === name);
    return demand && lostInCycle(demand);
  };

/** What the motion of each axis asks of its updates; `entries` are those of the file, `all` those that are described. */
export const updatesOf = (
  axes: readonly AxisDemand[],
  entries: readonly Sections['axes'][number][],
  all: readonly Axis[],
): readonly AxisUpdate[] =>
  axes.flatMap((demand) => {
    const { name, path } = demand.axis;
    const entry = entries.find((each) => each.name === name);
    if (entry === undefined) return [];
    const { tolerance, speed_step_at_most: speedStep, agrees_with: agrees } = entry;
    const overNetwork = entry.loop === 'controller';
    if (tolerance === undefined && speedStep === undefined && agrees === undefined && !overNetwork) return [];
    return [
      {
        name,
        path,
        speed: highestSpeedOfMotion(demand),
        acceleration: highestAcceleration(demand),
        jerk: highestJerk(demand),
        shaft: { inertias: [demand.inertia, demand.axis.motor.inertia], speed: demand.speed },
        tolerance,
        speedStep,
        overNetwork,
        follows: followedOf(demand.axis),
        counted: countedBy(demand),
        partners: agrees === undefined ? [] : partnersIn(agrees, all),
      },
    ];
  });

/** How many axes of the file go by themselves, follow a master by a gear, or in any other way. */
export function followingsOf(entries: readonly Sections['axes'][number][]) {
  const following = entries.filter(({ motion }) => motion.follow !== undefined);
  const geared = following.filter(({ motion }) => motion.gear !== undefined || motion.turns !== undefined).length;
  return { axes: entries.length - following.length, geared, cammed: following.length - geared };
}

/** Once for each axis: it may be the partner of several. */
const followedOf = onceForEach((axis: Axis): FollowedAxis => {
  const { name, path, master, gain, feedForward, drive } = axis;
  const said = <W extends string>(value: Value<W>, otherwise: W): Value<W> => (isAbsent(value) ? otherwise : value);
  return {
    name,
    path,
    master: master instanceof Missing ? undefined : master?.name,
    gain,
    feedForward,
    drive: {
      ...drive,
      interpolates: said(drive.interpolates, 'linear'),
      setpoints: said(drive.setpoints, 'in_step'),
    },
  };
});

/** How an axis that is described goes by its setpoints. */
export const followersIn =
  (all: readonly Axis[]) =>
  (name: string): FollowedAxis | undefined => {
    const axis = all.find((each) => each.name === name);
    return axis && followedOf(axis);
  };

const partnersIn = (
  agrees: NonNullable<Sections['axes'][number]['agrees_with']>,
  all: readonly Axis[],
): readonly Value<FollowedAxis>[] =>
  agrees instanceof Missing
    ? [agrees]
    : agrees.map((each) => {
        if (each instanceof Missing) return each;
        const partner = all.find((axis) => axis.name === each.name);
        return partner === undefined
          ? missing(`axes.${each.name}.motion`, 'absent', 'a motion', '{ follow: line, gear: [1, 1] }')
          : followedOf(partner);
      });

function countedBy(demand: AxisDemand): CountedMaster | undefined {
  const { name, master } = demand.axis;
  if (master === undefined || master instanceof Missing || master.encoder === undefined) return undefined;
  const { sample, filter, lead } = master.encoder;
  return {
    name: master.name,
    sample,
    filter,
    lead: lead ?? 'none',
    ramp: given({ v: highestSpeedOfMotion(demand), t: steeperRamp(master) }, ({ v, t }) =>
      kits[v.unit === 'm/s' ? 'm' : 'rad'].up({ v, t }, `${name}.behind_${master.name}`),
    ),
  };
}

function steeperRamp({ path, ramp_up: up, ramp_down: down }: Master): Value<Quantity<'s'>> {
  if (up === undefined || down === undefined)
    return up ?? down ?? missing(`${path}.ramp_up`, 'absent', 'a time', '6 s');
  return given({ up, down }, (known) => (known.down.value < known.up.value ? known.down : known.up));
}
