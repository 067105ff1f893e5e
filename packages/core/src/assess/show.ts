// What is shown at an address: the margins, a network, a station, a run; an address that is the start of several shows them all.

import type { Master } from '../axes/axis.ts';
import { busView } from '../axes/bus-view.ts';
import { masterView } from '../axes/master-view.ts';
import { aTurn } from '../axes/own-encoder.ts';
import { axisView } from '../axes/views.ts';
import { nearly } from '../axes/winding.ts';
import { quantitiesIn, type View } from '../checks/view.ts';
import { markView } from '../marks/views.ts';
import type { Surroundings } from '../networks/capacity-tables.ts';
import { isOfNoise, noiseAddress, noiseView } from '../networks/noise-view.ts';
import type { Planned } from '../networks/planned.ts';
import { networkView, runView, stationView } from '../networks/views.ts';
import { moduleAddresses, moduleViews } from '../racks/module-view.ts';
import { pointView } from '../racks/point-view.ts';
import { pointsAddress, pointsAloneView } from '../racks/points-alone.ts';
import { hasRacks, locationView, racksAddress, racksView } from '../racks/views.ts';
import { isOfWiring, wiringAddresses, wiringViews } from '../racks/wiring-view.ts';
import { chainView } from '../timing/chain-view.ts';
import { memoryView } from '../timing/memory-view.ts';
import { taskView } from '../timing/task-view.ts';
import { tasksOf } from '../timing/tasks.ts';
import { hasTiming, timingAddress, timingView } from '../timing/views.ts';
import { allFormulas, allMethods } from '../working/formula.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { choicesFor } from './choosing.ts';
import { motionsOf } from './hand-over.ts';
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
    ...timingViews(assessment, address),
    ...assessment.marks.filter(({ mark }) => address === 'marks' || address === mark.path).map(markView),
    ...rackViews(assessment, address),
    ...moduleViews(assessment.racks, address),
    ...wiringViews(assessment.racks, address),
  ];
}

/** All together, those at one location, or one of the points that are on them. */
function rackViews(assessment: Assessment, address: string): readonly View[] {
  const { racks, design, findings } = assessment;
  if (address === pointsAddress) return hasPointsAlone(assessment) ? [pointsAloneView(design.racks.alone)] : [];
  if (address === racksAddress) return hasRacks(racks) ? [racksView(racks, design.offered)] : [];
  return racks.locations.flatMap((each): readonly View[] => {
    if (address === each.location.path) return [locationView(each)];
    const point = each.location.points.find(({ path }) => path === address);
    return point === undefined ? [] : [pointView(each, point, findings)];
  });
}

function networkViews(assessment: Assessment, address: string): readonly View[] {
  return assessment.networks.flatMap((planned): readonly View[] => {
    const { network } = planned;
    const noise = (): readonly View[] => [noiseView(planned, motionsOf(assessment.axes)) ?? []].flat();
    const whole = (): View => networkView(planned, surroundings(assessment, planned));
    if (address === 'networks') return [whole(), ...noise()];
    if (address === network.path) return [whole()];
    if (address === noiseAddress(planned)) return noise();
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

function timingViews({ timing }: Assessment, address: string): readonly View[] {
  const whole = address === timingAddress && hasTiming(timing) ? [timingView(timing)] : [];
  const all = address === timingAddress;
  const tasks = timing.cores.flatMap((core) =>
    core.tasks.flatMap((task) =>
      task.section !== undefined && (all || address === 'tasks' || address === task.path) ? [taskView(core, task)] : [],
    ),
  );
  const chains = timing.chains.flatMap((chain) =>
    all || address === 'chains' || address === chain.path ? [chainView(chain, timing.design.points)] : [],
  );
  const { path } = timing.design.memory;
  const memory = timing.memory.length > 0 && (all || address === path) ? [memoryView(timing.memory, path)] : [];
  return [...whole, ...tasks, ...chains, ...memory];
}

/** Every address at which something of time is shown. */
const timingAddresses = ({ timing }: Assessment): readonly string[] => [
  ...(hasTiming(timing) ? [timingAddress] : []),
  ...tasksOf(timing.cores).map(({ path }) => path),
  ...timing.chains.map(({ path }) => path),
  ...(timing.memory.length > 0 ? [timing.design.memory.path] : []),
];

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
    ...(network.noise === undefined && network.counters === undefined ? [] : [`${network.path}.noise`]),
    ...network.devices.map(({ name }) => `${network.path}.nodes.${name}`),
    ...network.runs.map(({ path }) => path),
  ]),
  ...timingAddresses(assessment),
  ...assessment.marks.map(({ mark }) => mark.path),
  ...rackAddresses(assessment),
];

/** Points that neither racks nor chains tell of. */
export const hasPointsAlone = ({ design, timing }: Assessment): boolean =>
  design.racks.alone.length > 0 && timing.chains.length === 0;

/** Every address at which something of racks is shown. */
const rackAddresses = (assessment: Assessment): readonly string[] => {
  const { racks } = assessment;
  return [
    ...(hasPointsAlone(assessment) ? [pointsAddress] : []),
    ...(hasRacks(racks) ? [racksAddress] : []),
    ...racks.locations.flatMap(({ location: { path, points } }) => [path, ...points.map((point) => point.path)]),
    ...moduleAddresses(racks),
    ...wiringAddresses(racks),
  ];
};

/** The number at an address that rests in a view: of another profile or topology, or of a part that is only on offer. */
export function numberShown(assessment: Assessment, address: string): Quantity | undefined {
  const stated = statedOf(assessment, address);
  if (stated !== undefined) return stated;
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

/** What the file or a part states of motor, drive and train of an axis, or a data sheet assumes of all, without making a view. */
function statedOf({ axes }: Assessment, address: string): Quantity | undefined {
  const assumed = [aTurn, nearly].find((each) => addressOf(each) === address);
  if (assumed !== undefined) return assumed;
  const axis = axes.find((each) => address.startsWith(`${each.axis.path}.`))?.axis;
  if (axis === undefined) return undefined;
  const elements = axis.train instanceof Missing ? [] : axis.train.flatMap((element) => Object.values(element));
  return [axis.motor, axis.drive, ...elements]
    .flatMap((each) => (each instanceof Quantity ? [each] : Object.values(each ?? {})))
    .find((each): each is Quantity => each instanceof Quantity && addressOf(each) === address);
}

/** Views take time to make, so only those are looked into whose subject the address names, the smallest first. */
function viewsThatMayHold(assessment: Assessment, address: string): readonly string[] {
  const { axes, buses, networks, marks } = assessment;
  const wiring = wiringAddresses(assessment.racks);
  if (isOfWiring(address)) return wiring;
  if (address.startsWith('points.count.alone') && hasPointsAlone(assessment)) return [pointsAddress];
  const ofRacks = racksMayHold(assessment, address);
  if (ofRacks !== undefined) return [...ofRacks, ...wiring];
  // What a controller usually takes is shown beside what a task takes by estimate.
  if (address.startsWith('controller.')) return tasksOf(assessment.timing.cores).map(({ path }) => path);
  if (/^(tasks|axes|points)\.count/.test(address) && hasTiming(assessment.timing)) return [timingAddress];
  // What parts of racks cost and state, and what profiles and controllers on offer state.
  if (address.startsWith('parts.'))
    return [
      ...(hasRacks(assessment.racks) ? [racksAddress] : []),
      ...networks.map(({ network }) => network.path),
      ...wiring,
    ];
  // What is compared in the view of the noise, and stands nowhere in the file.
  const within = networks.filter(({ network: { path } }) => address.startsWith(`${path}.`));
  if (within.length > 0) return within.map(noiseAddress);
  // Speeds and numbers of trials that only views try.
  if (address.startsWith('marks.') && !address.includes('@')) return marks.map(({ mark }) => mark.path);
  // What decides how often an axis needs a setpoint, of itself, its neighbours and its master.
  if (/^(axes|masters)\.[^@]*$/.test(address) && assessment.timing.updates.length > 0) return [timingAddress];
  const [formula = '', about = ''] = address.split('@');
  // What the tables of time count with, whatever they are about.
  if (about === '' && formula.startsWith('timing.')) return timingAddresses(assessment);
  if (![...allFormulas(), ...allMethods()].some(({ id }) => id === formula)) return [];
  if (isOfNoise(formula)) return networks.map(noiseAddress);
  const names = (name: string): boolean => about === name || about.startsWith(`${name}.`);
  return [
    ...mastersShown(assessment).flatMap((master) => {
      const follows = axes.some(({ axis }) => axis.master === master && names(axis.name));
      return follows || names(master.name) ? [master.path] : [];
    }),
    ...axes.flatMap(({ axis }) => (names(axis.name) ? [axis.path] : [])),
    ...buses.flatMap(({ bus }) => (names(bus.name) ? [bus.path] : [])),
    ...networks.flatMap((planned) =>
      planned.network.devices.some((device) => device.axis && names(device.name)) ? [noiseAddress(planned)] : [],
    ),
    ...marks.flatMap(({ mark: { name, axisName, path } }) =>
      names(name) || (axisName !== undefined && names(axisName)) ? [path] : [],
    ),
    ...networks.flatMap(({ network: { name, path, devices, runs } }) => {
      if (!names(name)) return [];
      const next = about.slice(name.length + 1).split('.', 1)[0];
      const device = devices.some((each) => each.name === next) ? [`${path}.nodes.${next}`] : [];
      const run = runs.find((each) => each.name === next);
      return [...device, ...(run === undefined ? [] : [run.path]), path, `${path}.noise`];
    }),
    ...timingMayHold(assessment, formula, names),
  ];
}

/** What racks count and sum, and what points and the parts of racks state; nothing where the address is of something else. */
function racksMayHold({ racks }: Assessment, address: string): readonly string[] | undefined {
  if (!hasRacks(racks)) return undefined;
  const [formula = ''] = address.split('@');
  if (/^racks\.\w+$/.test(formula) && address !== formula) return [racksAddress];
  if (/^(points|racks)\.count\./.test(address))
    return [racksAddress, ...racks.locations.map(({ location }) => location.path)];
  if (address.startsWith('reserves.racks.')) return [racksAddress];
  const isOf = (path: string): boolean => address.startsWith(`${path}.`);
  const views = racks.locations.flatMap(({ location: { path, points } }) => [
    ...points.filter((point) => isOf(point.path)).map((point) => point.path),
    // A point shows what its channel states.
    ...(isOf(path) ? [path, ...points.map((point) => point.path)] : []),
  ]);
  return views.length === 0 ? undefined : views;
}

/** A number of time is about a task, a core or a chain; the whole has them all. */
function timingMayHold(assessment: Assessment, formula: string, names: (name: string) => boolean): readonly string[] {
  const { cores, chains, updates } = assessment.timing;
  const own = [...tasksOf(cores), ...chains].flatMap(({ name, path }) => (names(name) ? [path] : []));
  const ofUpdate = updates.some(({ axis: { name, follows } }) =>
    [name, follows.master].some((each) => each !== undefined && names(each)),
  );
  const whole = ofUpdate || (formula.startsWith('timing.') && hasTiming(assessment.timing));
  return whole ? [...own, timingAddress] : own;
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
