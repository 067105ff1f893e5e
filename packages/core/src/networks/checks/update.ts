// networks.update: is each axis served as often as it asks for?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { given } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { updatePeriod } from '../calc/cycle.ts';
import type { Device } from '../network.ts';
import type { Planned } from '../planned.ts';

interface Updated {
  readonly device: Device;
  readonly planned: Planned;
  readonly wanted: Value<Quantity<'s'>>;
}

export const update = question<readonly Planned[], Updated>({
  id: 'networks.update',
  title: 'Update period',
  asks: 'Is the axis served at least as often as it states?',
  page: `Asked of every axis that states \`cycle_at_most\`. Demand: the cycle of its network times the multiple on which its
drive is served. Capacity: the stated longest period.`,
  advice: 'a shorter cycle, or the drive on a smaller multiple of it',
  subjects: (networks) =>
    networks.flatMap((planned) =>
      planned.network.devices.flatMap((device) =>
        device.cycleAtMost === undefined ? [] : [{ device, planned, wanted: device.cycleAtMost }],
      ),
    ),
  name: ({ device }) => device.name,
  path: ({ device }) => `axes.${device.name}.cycle_at_most`,
  reserve: { share: 0, source: 'judgement', because: 'what the axis states is taken as it is' },
  demand: ({ device, planned: { network } }) =>
    device.every === undefined
      ? network.cycle
      : given({ n: device.every, T: network.cycle }, (known) => updatePeriod(known, `${network.name}.${device.name}`)),
  capacity: ({ wanted }) => wanted,
  says: (demand, capacity) => `the file serves it every ${demand}, the axis states ${capacity} at most`,
});
