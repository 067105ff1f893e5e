// The devices of a network in the order of their wiring, with the times of a command: what a wiring map is drawn from.
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Device, Run, Way } from './network.ts';
import type { Planned } from './planned.ts';
import { delays, hop, wayDelay, wayTo } from './ways.ts';

type Time = Value<Quantity<'s'>>;

/** A device on the way of a command. */
export interface Stop {
  readonly device: Device;
  /** Of a station: its number in the order in which the stations are reached, from 1. */
  readonly number: number | undefined;
  /** The one before it; the controller where there is none. */
  readonly before: Stop | undefined;
  readonly run: Run | undefined;
  /** First bit of the command, counted from its leaving the controller. */
  readonly there: Time;
  /** The time to pass it on, of a device that takes any. */
  readonly passing: Time | undefined;
  /** The branch it is on, from 0: the first device behind another continues its branch, each further one begins a new one. */
  readonly branch: number;
  /** The last branch that begins right behind it. */
  readonly lastBranch: number;
  readonly behind: readonly Stop[];
}

/**
 * On a ring, both ways up to the break for which the cycle is planned. A device that stores frames is timed with the
 * command to the first station behind it.
 */
export function stopsOf(planned: Planned): readonly Stop[] {
  const { network, cables, exchanges, brokenAfter = network.devices.length } = planned;
  const nodes = network.devices.map((device) => newNode(device, wayTo(device, network, brokenAfter)));
  const named = new Map(nodes.map((node) => [node.device.name, node]));
  const roots: Node[] = [];
  for (const node of nodes) {
    node.before = named.get(node.way.passed.at(-1)?.name ?? '');
    (node.before?.behind ?? roots).push(node);
  }
  for (const [index, { device, commandFrame, there }] of exchanges.entries()) {
    const station = named.get(device.name)!;
    station.number = index + 1;
    station.there = there;
    for (let at: Node | undefined = station; at !== undefined && at.frame === undefined; at = at.before)
      at.frame = commandFrame;
  }
  for (const node of nodes) {
    const { device, way, frame = network.profile.frame_at_least } = node;
    const about = `${network.name}.${device.name}`;
    if (node.number === undefined) node.there = wayDelay(way, frame, network, cables, about);
    if (delays(device, network)) node.passing = hop(device, frame, network, about);
  }
  return inBranches(roots);
}

/** When the first bit has left a device again; nothing when that is not known. */
export function passedOn({ there, passing }: Stop): number | undefined {
  if (there instanceof Missing || passing instanceof Missing) return undefined;
  return there.value + (passing?.value ?? 0);
}

interface Node extends Stop {
  readonly way: Way;
  readonly behind: Node[];
  frame: Value<Quantity<'bit'>> | undefined;
  number: number | undefined;
  before: Node | undefined;
  there: Time;
  passing: Time | undefined;
  branch: number;
  lastBranch: number;
}

const newNode = (device: Device, way: Way): Node => ({
  device,
  way,
  run: way.runs.at(-1),
  behind: [],
  frame: undefined,
  number: undefined,
  before: undefined,
  there: new Missing([]),
  passing: undefined,
  branch: 0,
  lastBranch: 0,
});

/** Branch by branch, each from the controller outwards. */
function inBranches(roots: readonly Node[]): readonly Node[] {
  const order: Node[] = [];
  const waiting = [...roots].reverse();
  let branches = 0;
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    const { before } = node;
    node.branch = before !== undefined && before.behind[0] === node ? before.branch : branches++;
    node.lastBranch = node.branch;
    if (before !== undefined) before.lastBranch = Math.max(before.lastBranch, node.branch);
    order.push(node);
    for (let last = node.behind.length - 1; last >= 0; last--) waiting.push(node.behind[last]!);
  }
  return order;
}
