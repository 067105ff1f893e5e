// Links: the cables between two devices that pass the signal on, couplings included.
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { cableAttenuation, linkAttenuation, linkLength } from './calc/limits.ts';
import type { Device, Network, Run } from './network.ts';

export interface Link {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly runs: readonly Run[];
  readonly length: Value<Quantity<'m'>>;
  readonly attenuation: Value<Quantity<'dB'>>;
}

/** The links of a network, each named by its ends. */
export function linksOf(network: Network): readonly Link[] {
  const couplings = new Map(
    network.devices.filter((device) => device.kind === 'coupling').map((device) => [device.name, device]),
  );
  const links: Link[] = [];
  const left = new Set(network.runs);
  for (const run of network.runs) {
    if (!left.has(run) || couplings.has(run.from)) continue;
    left.delete(run);
    links.push(linkAlong(run, left, couplings, network));
  }
  return links;
}

/** From an active device through any number of couplings to the next active one. */
function linkAlong(first: Run, left: Set<Run>, couplings: ReadonlyMap<string, Device>, network: Network): Link {
  const runs = [first];
  const passed: Device[] = [];
  let end = first.to;
  for (let coupling = couplings.get(end); coupling !== undefined; coupling = couplings.get(end)) {
    passed.push(coupling);
    const next = [...left].find((run) => run.from === end || run.to === end);
    if (next === undefined) break;
    left.delete(next);
    runs.push(next);
    end = next.from === end ? next.to : next.from;
  }
  const name = `${first.from}_${end}`;
  const about = `${network.name}.${name}`;
  const cables = runs.map((run) =>
    given({ l: run.length, k: run.attenuation }, (known) => cableAttenuation(known, `${network.name}.${run.name}`)),
  );
  return {
    name,
    from: first.from,
    to: end,
    runs,
    length: given({ l: runs.map((run) => run.length) }, (known) => linkLength(known, about)),
    attenuation: given({ k: [...cables, ...passed.map((device) => device.attenuation)] }, (known) =>
      linkAttenuation(known, about),
    ),
  };
}
