// What one domain hands over to another: records of physics, filled here, since domains do not know each other.
import type { AxisDemand } from '../axes/demand.ts';
import { highestAcceleration } from '../axes/highest-acceleration.ts';
import { lostInCycle } from '../axes/lost-motion.ts';
import type { Sections } from '../machine/format.ts';
import { updatePeriod } from '../networks/calc/cycle.ts';
import { kernelOf } from '../networks/kernel.ts';
import type { Planned } from '../networks/planned.ts';
import type { AxisMotion, AxisMotions } from '../physics/axis-motion.ts';
import type { AxisUpdate } from '../physics/axis-update.ts';
import type { LostMotions } from '../physics/lost-motion.ts';
import type { NetworkService } from '../physics/service.ts';
import { given } from '../working/missing.ts';

/** How a network serves what hangs on it. */
export function serviceOf(planned: Planned): NetworkService {
  const { network, exchanges } = planned;
  const { name, path, cycle } = network;
  return {
    name,
    path,
    cycle,
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

/** What the motion of each axis asks of its updates; `entries` are those of the file. */
export const updatesOf = (
  axes: readonly AxisDemand[],
  entries: readonly Pick<Sections['axes'][number], 'name' | 'tolerance' | 'loop'>[],
): readonly AxisUpdate[] =>
  axes.flatMap((demand) => {
    const { name, path, gain } = demand.axis;
    const entry = entries.find((each) => each.name === name);
    const overNetwork = entry?.loop === 'controller';
    if (entry === undefined || (entry.tolerance === undefined && !overNetwork)) return [];
    return [
      {
        name,
        path,
        ...motionIn(demand),
        tolerance: entry.tolerance,
        gain,
        overNetwork,
      },
    ];
  });
