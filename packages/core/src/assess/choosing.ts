// Which parts of the catalogues do for an axis whose motor, gear or drive is open, with the reserves that the file wants.

import { axisChecks } from '../axes/checks/all.ts';
import { type Choice, choose } from '../axes/choose.ts';
import { keptFree } from '../machine/reserves.ts';
import type { Design } from '../machine/resolve.ts';
import type { Missing } from '../working/missing.ts';

/** Nothing where nothing is open at an axis of that name; missing where what it does is not known. */
export function choicesFor(design: Design, name: string): Choice | Missing | undefined {
  const axis = design.axes.find((each) => each.name === name);
  if (axis === undefined) return undefined;
  const offers = {
    motors: design.offered('motor'),
    gears: design.offered('gear'),
    drives: design.offered('drive'),
  };
  return choose(axis, design.gravity, offers, reservesOf(design));
}

/** By the name of a check of axes, without its domain. */
export function reservesOf({ machine }: Design): (check: string) => number {
  const share = keptFree(machine.reserves, axisChecks);
  return (check) => share(`axes.${check}`);
}
