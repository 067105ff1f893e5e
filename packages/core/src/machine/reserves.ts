// The checks that a reserve can be set for.
import { allChecks } from './checks/all.ts';

export const reserveChecks: readonly string[] = allChecks.flatMap((check) =>
  'reserve' in check && check.reserve !== undefined ? [check.id] : [],
);
