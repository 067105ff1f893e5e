// The pipeline from a design to findings: one function with numbered phases. A newcomer starts here.
//
//   1 axes       motion, train, what both demand at the motor shaft
//   2 racks      modules at their places, points on their channels
//   3 networks   ways, exchanges, the cycle and its parts
//   4 timing     tasks, chains and updates, on what axes and networks hand over
//   5 marks      budgets, captures, register control
//   6 findings   every check asked of every subject
//   7 order      tightest first

import { type BusDemand, busDemand } from '../axes/buses.ts';
import { axisChecks, busChecks, encoderChecks, stopChecks } from '../axes/checks/all.ts';
import { type Counted, countedOf } from '../axes/counted.ts';
import { type AxisDemand, demandOf } from '../axes/demand.ts';
import { type StopDemand, stopsOf } from '../axes/stops.ts';
import { type Finding, find, type Question } from '../checks/finding.ts';
import { ranked } from '../checks/rank.ts';
import { requires } from '../machine/checks/requires.ts';
import { wantedShares } from '../machine/reserves.ts';
import type { Design } from '../machine/resolve.ts';
import { markChecks } from '../marks/checks/all.ts';
import { type MarkDemand, markDemandOf } from '../marks/demand.ts';
import { missedChecks, networkChecks } from '../networks/checks/all.ts';
import { type Planned, plan } from '../networks/planned.ts';
import { withRackData } from '../networks/with-rack-data.ts';
import { rackChecks, servedChecks } from '../racks/checks/all.ts';
import { dataOf, filtersOf } from '../racks/data-of.ts';
import { type PlannedRacks, planRacks } from '../racks/planned.ts';
import { timingChecks } from '../timing/checks/all.ts';
import { withFilters } from '../timing/resolve.ts';
import { type Timing, timingOf, untimed } from '../timing/timing.ts';
import { followersIn, followingsOf, lostMotionsOf, motionsOf, serviceOf, updatesOf } from './hand-over.ts';
import { webLines } from './web-lines.ts';

export interface Assessment {
  readonly design: Design;
  readonly axes: readonly AxisDemand[];
  /** The masters whose position an encoder gives. */
  readonly counted: readonly Counted[];
  readonly buses: readonly BusDemand[];
  readonly stops: readonly StopDemand[];
  readonly networks: readonly Planned[];
  readonly timing: Timing;
  readonly marks: readonly MarkDemand[];
  readonly racks: PlannedRacks;
  /** Tightest first. */
  readonly findings: readonly Finding[];
}

export interface Asked {
  /** The address of the one finding that is wanted; what it does not rest on is left out of the assessment. */
  readonly only?: string;
}

/** Asks every check of a design. Never throws on what a user wrote; half a file gives half an answer. */
export function assess(design: Design, { only }: Asked = {}): Assessment {
  const wanted = only === undefined ? everything : aboutOf(only, design);

  const axes = design.axes.filter(({ name }) => wanted.axis(name)).map((axis) => demandOf(axis, design.gravity));
  const masters = wanted.domain('axes') ? design.masters : [];
  const counted = masters.flatMap((master) => countedOf(master, axes) ?? []);

  const stops = masters.flatMap((master) => stopsOf(master, axes));
  const buses = design.buses.filter(({ name }) => wanted.bus(name)).map((bus) => busDemand(bus, axes, design.site));

  const racks = planRacks(
    wanted.domain('racks') || wanted.domain('networks') || wanted.domain('timing')
      ? design.racks
      : { ...design.racks, locations: [] },
  );

  const data = racks.locations.flatMap((each) => dataOf(each) ?? []);
  const networks = wanted.domain('networks') ? design.networks.map((each) => plan(withRackData(each, data))) : [];

  const services = networks.map(serviceOf);
  const timed = withFilters(design.timing, racks.locations.flatMap(filtersOf));
  const timing = timingOf(wanted.domain('timing') ? timed : untimed(timed), {
    services,
    masters: design.masters,
    motions: () => (wanted.check('timing.update') ? updatesOf(axes, design.machine.axes, design.axes) : []),
    axes: followingsOf(design.machine.axes),
    followers: followersIn(design.axes),
  });
  const onLines = wanted.domain('marks') ? design.marks : [];
  const lines =
    onLines.length === 0
      ? []
      : webLines(
          design.masters,
          design.machine.masters,
          design.masters.flatMap((master) => stopsOf(master, [])),
        );
  const lost = lostMotionsOf(axes);
  const marks = onLines.map((mark) => markDemandOf(mark, lines, lost));

  const reserves = wantedShares(design.machine.reserves);
  const ask = <In>(checks: readonly Question<In>[], subjects: In): readonly Finding[] =>
    checks.filter(({ id }) => wanted.check(id)).flatMap((check) => check.ask(subjects, reserves[check.id]));
  const findings = [
    ...ask(axisChecks, axes),
    ...ask(encoderChecks, counted),
    ...ask(busChecks, buses),
    ...ask(stopChecks, stops),
    ...ask(networkChecks, networks),
    ...ask(missedChecks, { networks, motions: motionsOf(axes) }),
    ...ask(timingChecks, timing),
    ...ask(markChecks, marks),
    ...ask(rackChecks, racks),
    ...ask(servedChecks, { racks, services }),
  ];

  const needs = design.parts.filter(
    (part, index, all) =>
      wanted.check(requires.id) &&
      part.requires.length > 0 &&
      all.findIndex((each) => each.name === part.name) === index,
  );
  const required = needs.map((part) => find(requires, { part, used: design.parts }, undefined));

  return {
    design,
    axes,
    counted,
    buses,
    stops,
    networks,
    timing,
    marks,
    racks,
    findings: ranked([...findings, ...required]),
  };
}

interface Wanted {
  readonly domain: (name: string) => boolean;
  readonly check: (id: string) => boolean;
  readonly axis: (name: string) => boolean;
  readonly bus: (name: string) => boolean;
}

const everything: Wanted = { domain: () => true, check: () => true, axis: () => true, bus: () => true };

/**
 * What the finding at an address rests on. An axis follows its master whatever other axes do; networks share a controller;
 * a mark rests on the train of the axis that acts on it.
 */
function aboutOf(address: string, { buses, marks }: Design): Wanted {
  const [check = '', subject = ''] = address.split('@');
  const domain = check.split('.')[0];
  const bus = busChecks.some(({ id }) => id === check) ? buses.find(({ name }) => name === subject) : undefined;
  return {
    // Tasks, chains and updates go with the networks; of racks, only how often a station is served.
    domain: (name) => name === domain || ((domain === 'timing' || check === 'racks.update') && name === 'networks'),
    check: (id) => id === check,
    axis: (name) =>
      bus === undefined
        ? (domain === 'marks' && marks.some((mark) => mark.axisName === name)) ||
          (domain === 'axes' && (subject === name || subject.startsWith(`${name}.`))) ||
          ((check === 'timing.update' || missedChecks.some(({ id }) => id === check)) && subject === name)
        : bus.axes.some((axis) => axis.name === name),
    bus: (name) => name === bus?.name,
  };
}
