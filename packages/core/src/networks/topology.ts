// How the runs of a network are laid, told by their shape alone.
import type { Device } from './network.ts';
import type { Topology } from './parts.ts';
import type { Wiring } from './section.ts';

/**
 * `ring`: the runs come back to the controller. `line`: nothing has more than one run further out. `star`: every
 * station hangs on one hub or switch. `tree`: all else, lines behind a hub among it.
 */
export function topologyOf(wiring: Wiring, devices: readonly Device[]): Topology {
  if (wiring.closing !== undefined) return 'ring';
  const further = new Map<string, number>();
  for (const { before } of wiring.wireTo.values()) further.set(before, (further.get(before) ?? 0) + 1);
  const branching = [...further].filter(([, count]) => count > 1).map(([name]) => name);
  if (branching.length === 0) return 'line';
  const centre = devices.find((device) => device.name === branching[0]);
  const allOnCentre = devices.every(
    (device) => device === centre || (device.way.passed.length === 1 && device.way.passed[0] === centre),
  );
  return branching.length === 1 && centre !== undefined && centre.kind !== 'station' && allOnCentre ? 'star' : 'tree';
}
