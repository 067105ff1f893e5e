// The checks that a reserve can be set for.
import { axisChecks } from '../axes/checks/all.ts';
import { networkChecks } from '../networks/checks/all.ts';

export const reserveChecks: readonly string[] = [...axisChecks, ...networkChecks]
  .filter((check) => check.reserve !== undefined)
  .map((check) => check.id);
