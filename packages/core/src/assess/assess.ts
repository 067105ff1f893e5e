// The pipeline from a design to findings: one function with numbered phases. A newcomer starts here.
//
//   1 axes       motion, train, what both demand at the motor shaft
//   2 networks   ways, exchanges, the cycle and its parts
//   3 findings   every check asked of every subject
//   4 order      tightest first
import { axisChecks } from '../axes/checks/all.ts';
import { type AxisDemand, demandOf } from '../axes/demand.ts';
import { type Finding, find } from '../checks/finding.ts';
import { ranked } from '../checks/rank.ts';
import { requires } from '../machine/checks/requires.ts';
import type { Design } from '../machine/resolve.ts';
import { networkChecks } from '../networks/checks/all.ts';
import { type Planned, plan } from '../networks/planned.ts';
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface Assessment {
  readonly design: Design;
  readonly axes: readonly AxisDemand[];
  readonly networks: readonly Planned[];
  /** Tightest first. */
  readonly findings: readonly Finding[];
}

/** Asks every check of a design. Never throws on what a user wrote; half a file gives half an answer. */
export function assess(design: Design): Assessment {
  const axes = design.axes.map((axis) => demandOf(axis, design.gravity));

  const networks = design.networks.map(plan);

  const reserves = design.machine.reserves as Readonly<Record<string, Quantity<'1'> | Missing | undefined>>;
  const findings = [
    ...axisChecks.flatMap((check) => check.ask(axes, reserves[check.id])),
    ...networkChecks.flatMap((check) => check.ask(networks, reserves[check.id])),
  ];

  const needs = design.parts.filter(
    (part, index, all) => part.requires.length > 0 && all.findIndex((each) => each.name === part.name) === index,
  );
  const required = needs.map((part) => find(requires, { part, used: design.parts }, undefined));

  return { design, axes, networks, findings: ranked([...findings, ...required]) };
}
