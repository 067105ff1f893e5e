// Whether a profile allows the shape of the runs, and the devices that pass frames on between the stations.
import type { Answer } from '../checks/check.ts';
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import type { Device, Network } from './network.ts';
import type { Passer } from './parts.ts';

export const laying = (network: Network): Value<Answer> =>
  given(
    { shapes: network.profile.topologies, passes: network.profile.passes, wired: network.wired },
    ({ shapes, passes }) => {
      const shape = network.topology;
      if (!shapes.includes(shape)) {
        return { yes: false, because: `the runs make a ${shape}; the profile allows ${shapes.join(', ')}` };
      }
      const strangers = network.devices.filter((device) => {
        const passer = passerOf(device);
        return passer !== undefined && !passes.includes(passer);
      });
      if (strangers.length === 0) return { yes: true, because: `a ${shape} is allowed` };
      const names = strangers.map((device) => `${device.name} (${passerNames[passerOf(device)!]})`).join(', ');
      const allowed = passes.map((passer) => passerNames[passer]).join(', ') || 'stations alone';
      return { yes: false, because: `${names} cannot pass frames on here; the profile allows ${allowed}` };
    },
  );

const passerNames: Readonly<Record<Passer, string>> = {
  hub: 'a hub',
  branch: 'a switch that waits for nothing',
  start: 'a switch after the start of a frame',
  frame: 'a switch that stores frames',
};

/** What kind of passer a device is; a station or a coupling is none. */
export function passerOf(device: Device): Passer | undefined {
  if (device.kind === 'hub') return 'hub';
  if (device.kind !== 'switch') return undefined;
  return device.passing === 'bits' ? 'branch' : device.passing;
}
