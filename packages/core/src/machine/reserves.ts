// The checks that a reserve can be set for.
import { networkChecks } from '../networks/checks/all.ts';

export const reserveChecks: readonly string[] = networkChecks
  .filter((check) => check.reserve !== undefined)
  .map((check) => check.id);
