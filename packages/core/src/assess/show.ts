// What is shown at an address: the margins, a network, a station, a run; an address that is the start of several shows them all.

import type { Master } from '../axes/axis.ts';
import { busView } from '../axes/bus-view.ts';
import { masterView } from '../axes/master-view.ts';
import { axisView } from '../axes/views.ts';
import { quantitiesIn, type View } from '../checks/view.ts';
import { markView } from '../marks/views.ts';
import type { Surroundings } from '../networks/capacity-tables.ts';
import type { Planned } from '../networks/planned.ts';
import { networkView, runView, stationView } from '../networks/views.ts';
import { allFormulas, allMethods } from '../working/formula.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { choicesFor } from './choosing.ts';
import { marginsAddress, marginsView } from './margins-view.ts';

/** The views at an address, most often one; none when nothing is shown there. An axis is shown as the station it is. */
export function show(assessment: Assessment, address: string): readonly View[] {
  if (address === marginsAddress) return [marginsView(assessment.findings)];
  const axes = assessment.axes.filter(({ axis }) => address === 'axes' || address === axis.path);
  const masters = mastersShown(assessment).filter(({ path }) => address === 'masters' || address === path);
  const buses = assessment.buses.filter(({ bus }) => address === 'buses' || address === bus.path);
  return [
    ...masters.map((master) => masterView(master, assessment)),
    ...axes.map((demand) => axisView(demand, () => choicesFor(assessment.design, demand.axis.name))),
    ...buses.map(busView),
    ...networkViews(assessment, address),
    ...assessment.marks.filter(({ mark }) => address === 'marks' || address === mark.path).map(markView),
  ];
}

function networkViews(assessment: Assessment, address: string): readonly View[] {
  return assessment.networks.flatMap((planned): readonly View[] => {
    const { network } = planned;
    if (address === 'networks' || address === network.path)
      return [networkView(planned, surroundings(assessment, planned))];
    const axis = network.devices.find((device) => device.axis && `axes.${device.name}` === address);
    if (axis !== undefined) return [stationView(planned, axis)];
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

/** Those that are counted, and those that stop. */
const mastersShown = ({ design, counted, stops }: Assessment): readonly Master[] =>
  design.masters.filter(
    (master) => counted.some((each) => each.master === master) || stops.some((each) => each.master === master),
  );

/** Every address at which something is shown. */
export const shownAddresses = (assessment: Assessment): readonly string[] => [
  marginsAddress,
  ...mastersShown(assessment).map(({ path }) => path),
  ...assessment.axes.map(({ axis }) => axis.path),
  ...assessment.buses.map(({ bus }) => bus.path),
  ...assessment.networks.flatMap(({ network }) => [
    network.path,
    ...network.devices.map(({ name }) => `${network.path}.nodes.${name}`),
    ...network.runs.map(({ path }) => path),
  ]),
  ...assessment.marks.map(({ mark }) => mark.path),
];

/** The number at an address that rests in a view: of another profile or topology, or of a part that is only on offer. */
export function numberShown(assessment: Assessment, address: string): Quantity | undefined {
  for (const place of viewsThatMayHold(assessment, address)) {
    let found: Quantity | undefined;
    const seen = new Set<Quantity>();
    const look = (each: Quantity): void => {
      if (addressOf(each) === address) found ??= each;
    };
    for (const view of show(assessment, place)) {
      for (const quantity of quantitiesIn(view)) {
        walk(quantity, look, seen);
        if (found !== undefined) return found;
      }
    }
  }
  return undefined;
}

/** Views take time to make, so only those are looked into whose subject the address names, the smallest first. */
function viewsThatMayHold(assessment: Assessment, address: string): readonly string[] {
  const { axes, buses, networks, marks } = assessment;
  if (address.startsWith('parts.')) return networks.map(({ network }) => network.path);
  // Speeds and numbers of trials that only views try.
  if (address.startsWith('marks.') && !address.includes('@')) return marks.map(({ mark }) => mark.path);
  const [formula = '', about = ''] = address.split('@');
  if (![...allFormulas(), ...allMethods()].some(({ id }) => id === formula)) return [];
  const names = (name: string): boolean => about === name || about.startsWith(`${name}.`);
  return [
    ...mastersShown(assessment).flatMap((master) => {
      const follows = axes.some(({ axis }) => axis.master === master && names(axis.name));
      return follows || names(master.name) ? [master.path] : [];
    }),
    ...axes.flatMap(({ axis }) => (names(axis.name) ? [axis.path] : [])),
    ...buses.flatMap(({ bus }) => (names(bus.name) ? [bus.path] : [])),
    ...marks.flatMap(({ mark }) => (names(mark.name) ? [mark.path] : [])),
    ...networks.flatMap(({ network: { name, path, devices, runs } }) => {
      if (!names(name)) return [];
      const next = about.slice(name.length + 1).split('.', 1)[0];
      const device = devices.some((each) => each.name === next) ? [`${path}.nodes.${next}`] : [];
      const run = runs.find((each) => each.name === next);
      return [...device, ...(run === undefined ? [] : [run.path]), path];
    }),
  ];
}

function surroundings({ design, findings }: Assessment, { network }: Planned): Surroundings {
  const reserve = (address: string): Quantity | undefined =>
    findings.find((finding) => finding.address === address)?.reserve;
  const cycle = reserve(`networks.cycle@${network.name}`) as Quantity<'1'> | undefined;
  const { controllers, profiles, centres } = design.alternatives;
  return {
    reserve: cycle,
    reserves: { cycle: cycle?.value ?? 0, kernel: reserve('networks.kernel@controller')?.value ?? 0 },
    controllers: controllers(),
    profiles: profiles(),
    centres: centres(),
  };
}
