// What one domain hands over to another: records of physics, filled here, since domains do not know each other.
import { updatePeriod } from '../networks/calc/cycle.ts';
import { kernelOf } from '../networks/kernel.ts';
import type { Planned } from '../networks/planned.ts';
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
