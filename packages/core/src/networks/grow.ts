// Other networks made from one: with more axes, under another profile or controller, laid as a line or as a star.

import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { linkLength } from './calc/limits.ts';
import { type Device, type Network, type Run, stationsOf, type Way } from './network.ts';

/** A network with so many more axes like one of its own, each behind the one before it at the end of that one's line. */
export function withMore(network: Network, like: Device, count: number): Network {
  const devices = [...network.devices];
  const runs = [...network.runs];
  let end = endOfLine(network, like);
  for (let index = 1; index <= count; index++) {
    const name = `${like.name}_more_${index}`;
    const run: Run = { ...like.way.runs.at(-1)!, name: `${end.name}_${name}`, from: end.name, to: name };
    const added: Device = {
      ...like,
      name,
      plugged: 2,
      address: noAddress,
      way: { runs: [...end.way.runs, run], passed: [...end.way.passed, end] },
      otherWay: undefined,
    };
    devices.push(added);
    runs.push(run);
    end = added;
  }
  return { ...network, devices, runs, topology: network.topology === 'ring' ? 'line' : network.topology };
}

/** An address belongs to one station; a copy has none. */
const noAddress = missing('address', 'absent', 'a whole number', '12');

/** The last station of the line on which a station hangs. */
function endOfLine(network: Network, station: Device): Device {
  const behind = network.devices.filter((device) => device.way.passed.at(-1) === station);
  return behind.length === 0 ? station : endOfLine(network, behind.at(-1)!);
}

/** A line of axes alone, all like one, each by a run like its own. */
export function lineOf(network: Network, like: Device, count: number): Network {
  const run = like.way.runs.at(-1)!;
  const first: Device = { ...like, way: { runs: [run], passed: [] }, otherWay: undefined };
  return withMore({ ...network, devices: [first], runs: [run], topology: 'line' }, first, count - 1);
}

/** The stations of a network one behind another, in the order in which the controller reaches them, by their own runs. */
export function asLine(network: Network): Network {
  let way: Way = { runs: [], passed: [] };
  const devices = stationsOf(network).map((device) => {
    const placed: Device = {
      ...device,
      way: { runs: [...way.runs, device.way.runs.at(-1)!], passed: way.passed },
      otherWay: undefined,
    };
    way = { runs: placed.way.runs, passed: [...placed.way.passed, placed] };
    return placed;
  });
  return { ...network, devices, runs: devices.map((device) => device.way.runs.at(-1)!), topology: 'line' };
}

/** The same stations on one centre; each run is as long as the line from the controller to its station was. */
export function asStar(network: Network, centre: Device): Network {
  const line = asLine(network);
  const first: Run = {
    ...line.runs[0]!,
    name: `controller_${centre.name}`,
    from: 'controller',
    to: centre.name,
    length: none(line.runs[0]!.length),
  };
  const hub: Device = {
    ...centre,
    way: { runs: [first], passed: [] },
    plugged: line.devices.length + 1,
    otherWay: undefined,
  };
  const devices = line.devices.map((device): Device => {
    const own = device.way.runs.at(-1)!;
    const length = given({ l: device.way.runs.map((run) => run.length) }, (known) =>
      linkLength(known, `${network.name}.star_${device.name}`),
    );
    const run: Run = { ...own, name: `${centre.name}_${device.name}`, from: centre.name, to: device.name, length };
    return { ...device, way: { runs: [first, run], passed: [hub] } };
  });
  return {
    ...network,
    devices: [hub, ...devices],
    runs: [first, ...devices.map((device) => device.way.runs[1]!)],
    topology: 'star',
  };
}

/** The centre stands beside the controller. */
const none = (length: Value<Quantity<'m'>>): Value<Quantity<'m'>> =>
  length instanceof Quantity
    ? assumed('parts.star.centre', 0, 'm', { source: 'judgement', because: 'the centre stands beside the controller' })
    : length;
