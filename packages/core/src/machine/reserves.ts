// The checks that a reserve can be set for.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { allChecks } from './checks/all.ts';

export const reserveChecks: readonly string[] = allChecks.flatMap((check) =>
  'reserve' in check && check.reserve !== undefined ? [check.id] : [],
);

/** The share that the file wants kept free, by check; the spare of racks, which has one for each kind, is not among them. */
export const wantedShares = (reserves: object): Readonly<Record<string, Quantity<'1'> | Missing | undefined>> => {
  const { 'racks.spare': _, ...shares } = reserves as Readonly<Record<string, Quantity<'1'> | undefined>>;
  return shares;
};
