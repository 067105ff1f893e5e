// What is shown at an address: a network, a station, a run; an address that is the start of several shows them all.
import { quantitiesIn, type View } from '../checks/view.ts';
import type { Planned } from '../networks/planned.ts';
import { networkView, runView, type Surroundings, stationView } from '../networks/views.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';
import type { Assessment } from './assess.ts';

/** The views at an address, most often one; none when nothing is shown there. */
export function show(assessment: Assessment, address: string): readonly View[] {
  return assessment.networks.flatMap((planned): readonly View[] => {
    const { network } = planned;
    if (address === 'networks' || address === network.path)
      return [networkView(planned, surroundings(assessment, planned))];
    if (!address.startsWith(`${network.path}.`)) return [];
    const [kind, name] = address.slice(network.path.length + 1).split('.');
    const devices = network.devices.filter(
      (device) => kind === 'nodes' && (name === undefined || device.name === name),
    );
    const runs = network.runs.filter((run) => kind === 'runs' && (name === undefined || run.name === name));
    return [
      ...devices.map((device) => stationView(planned, device)),
      ...runs.flatMap((run) => runView(planned, run.name) ?? []),
    ];
  });
}

/** Every address at which something is shown. */
export const shownAddresses = ({ networks }: Assessment): readonly string[] =>
  networks.flatMap(({ network }) => [
    network.path,
    ...network.devices.map(({ name }) => `${network.path}.nodes.${name}`),
    ...network.runs.map(({ path }) => path),
  ]);

/** The numbers of all views, by address: those of other profiles and topologies among them. */
export function numbersShown(assessment: Assessment): ReadonlyMap<string, Quantity> {
  const numbers = new Map<string, Quantity>();
  const seen = new Set<Quantity>();
  for (const address of shownAddresses(assessment)) {
    for (const view of show(assessment, address)) {
      for (const quantity of quantitiesIn(view))
        walk(quantity, (each) => void numbers.set(addressOf(each), each), seen);
    }
  }
  return numbers;
}

function surroundings({ design, findings }: Assessment, { network }: Planned): Surroundings {
  const reserve = (address: string): Quantity | undefined =>
    findings.find((finding) => finding.address === address)?.reserve;
  const cycle = reserve(`networks.cycle@${network.name}`) as Quantity<'1'> | undefined;
  const { controllers, profiles, centres } = design.alternatives;
  return {
    reserve: cycle,
    reserves: { wire: cycle?.value ?? 0, compute: reserve('networks.kernel@controller')?.value ?? 0 },
    controllers: controllers(),
    profiles: profiles(),
    centres: centres(),
  };
}
