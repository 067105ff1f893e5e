// A network whose remote racks have the data of their modules, where neither the file nor their part says other data.
import type { RackData } from '../physics/rack-data.ts';
import { isAbsent } from '../working/missing.ts';
import type { Network } from './network.ts';

export function withRackData(network: Network, racks: readonly RackData[]): Network {
  const fills = (data: RackData): boolean =>
    network.devices.some(
      ({ name, command, answer }) => name === data.station && (isAbsent(command) || isAbsent(answer)),
    );
  if (!racks.some(fills)) return network;
  const devices = network.devices.map((device) => {
    const data = racks.find(({ station }) => station === device.name);
    if (data === undefined) return device;
    const { command, answer } = device;
    return {
      ...device,
      command: isAbsent(command) ? data.command : command,
      answer: isAbsent(answer) ? data.answer : answer,
    };
  });
  return { ...network, devices };
}
