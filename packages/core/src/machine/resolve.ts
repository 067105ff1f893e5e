// From a machine to a design: every part looked up, every value filled, every default listed as an assumption.

import {
  type Axis,
  type Bus,
  type Master,
  resolveAxes,
  resolveBuses,
  resolveMasters,
  type Site,
} from '../axes/resolve.ts';
import { type Mark, resolveMarks } from '../marks/resolve.ts';
import {
  type Alternatives,
  alternativesAmong,
  type Network,
  resolveController,
  resolveNetwork,
} from '../networks/resolve.ts';
import { inOrder, type Problem } from '../problems/problem.ts';
import { type RackDesign, resolveRacks } from '../racks/resolve.ts';
import type { Spare } from '../racks/section.ts';
import type { Part, PartLookUp } from '../reading/parts.ts';
import { Reading } from '../reading/reading.ts';
import type { Value } from '../reading/values.ts';
import { resolveTiming, shortestSignals, type TimingDesign } from '../timing/resolve.ts';
import { assumed } from '../working/assumed.ts';
import { missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Catalogue } from './catalogue.ts';
import type { UsedPart } from './checks/requires.ts';
import { lookUpIn, partsOfKind } from './look-up.ts';
import type { Machine } from './machine.ts';

export interface Design {
  readonly machine: Machine;
  readonly networks: readonly Network[];
  /** Those of which the file says a motion, a train or a motor. */
  readonly axes: readonly Axis[];
  readonly masters: readonly Master[];
  readonly buses: readonly Bus[];
  readonly timing: TimingDesign;
  readonly marks: readonly Mark[];
  readonly racks: RackDesign;
  readonly gravity: Value<Quantity<'m/s²'>>;
  readonly site: Site;
  /** What the catalogues offer instead of what the machine has. */
  readonly alternatives: Alternatives;
  /** Every part of a kind that the catalogues have; a later one goes before an earlier one of its name. */
  readonly offered: (kind: string) => readonly Part[];
  /** Every use of a part that a catalogue has. */
  readonly parts: readonly UsedPart[];
  /** Of the machine file, of the catalogues, and of what one asks of the other. */
  readonly problems: readonly Problem[];
}

/** Fills a machine from catalogues; a later catalogue goes before an earlier one. Never throws. */
export function resolve(machine: Machine, catalogues: readonly Catalogue[]): Design {
  const reading = new Reading('machine');
  if (machine.problems.some(({ code }) => code === 'yaml')) reading.damage();
  const find = lookUpIn(catalogues, reading);
  const parts: UsedPart[] = [];
  const partOf: PartLookUp = (use) => {
    const part = find(use);
    if (part !== undefined) {
      parts.push({ name: part.name, path: use.path, version: use.version ?? part.version, requires: part.requires });
    }
    return part;
  };
  const controller = resolveController(machine.controller, partOf);
  const networks = machine.networks.map((network) =>
    resolveNetwork(network, machine.wirings.get(network.name)!, machine.axes, controller, partOf),
  );
  const masters = resolveMasters(machine);
  const site = siteOf(machine);
  const axes = resolveAxes(machine, masters, site, partOf, find);
  // An axis on no network is looked up too, so that a slip in the name of its drive is reported.
  const wired = new Set(networks.flatMap((network) => network.devices.map((device) => device.path)));
  for (const { drive } of machine.axes) if (!wired.has(drive.path)) partOf(drive);
  const buses = resolveBuses(machine.buses, axes, partOf);
  const timing = resolveTiming(machine, masters, machine.controller, find);
  const marks = resolveMarks(machine.marks, machine.axes, partOf);
  const racks = resolveRacks(
    {
      ...machine,
      pulses: shortestSignals(timing),
      nodes: machine.networks.flatMap(({ nodes }) => nodes),
    },
    machine.reserves['racks.spare'] as Spare | undefined,
    partOf,
    find,
  );
  const offered = (kind: string): readonly Part[] => partsOfKind(catalogues, kind);
  // After all that looks for parts, so that every name that no catalogue has is among them.
  const problems = [machine.problems, ...catalogues.map((each) => each.problems), reading.problems].flat();
  return {
    machine,
    networks,
    axes,
    masters,
    buses,
    timing,
    marks,
    racks,
    gravity: machine.machine.gravity ?? standardGravity,
    site,
    alternatives: alternativesAmong(offered),
    offered,
    parts,
    problems: inOrder(problems),
  };
}

function siteOf({ machine: { ambient, altitude }, cabinet: { supply } }: Machine): Site {
  return {
    ambient: ambient ?? missing('machine.ambient', 'absent', 'a temperature', '35 °C'),
    altitude: altitude ?? missing('machine.altitude', 'absent', 'a length', '400 m'),
    mains: supply.mains ?? missing('cabinet.supply.mains', 'absent', 'a voltage', '400 V'),
    low: supply.low ?? missing('cabinet.supply.low', 'absent', 'a voltage', '360 V'),
  };
}

/** By the third general conference on weights and measures, 1901. */
const standardGravity = assumed('machine.gravity', 9.80665, 'm/s²', {
  source: 'definition',
  because: 'the standard acceleration of gravity',
  digits: 6,
});
