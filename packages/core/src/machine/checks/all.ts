// Every check of every domain, in the order of the argument.
import { axisChecks, busChecks, encoderChecks, stopChecks } from '../../axes/checks/all.ts';
import { markChecks } from '../../marks/checks/all.ts';
import { missedChecks, networkChecks } from '../../networks/checks/all.ts';
import { rackChecks, servedChecks } from '../../racks/checks/all.ts';
import { timingChecks } from '../../timing/checks/all.ts';
import { requires } from './requires.ts';

export const allChecks = [
  ...axisChecks,
  ...encoderChecks,
  ...busChecks,
  ...stopChecks,
  ...networkChecks,
  ...missedChecks,
  ...timingChecks,
  ...markChecks,
  ...rackChecks,
  ...servedChecks,
  requires,
] as const;
