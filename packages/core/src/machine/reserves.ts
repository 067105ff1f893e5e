// The checks that a reserve can be set for.
import type { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { allChecks } from './checks/all.ts';

export const reserveChecks: readonly string[] = allChecks.flatMap((check) =>
  'reserve' in check && check.reserve !== undefined ? [check.id] : [],
);

/** The share that a check keeps free: what the file wants, else what the check keeps by itself; none where it has no reserve. */
export function keptFree(
  reserves: object,
  checks: readonly { readonly id: string; readonly reserve?: { readonly share: number } | undefined }[],
): (id: string) => number {
  const wanted = wantedShares(reserves);
  const shares = new Map(
    checks.map(({ id, reserve }) => {
      const own = wanted[id];
      return [id, own instanceof Quantity ? own.value : (reserve?.share ?? 0)];
    }),
  );
  return (id) => shares.get(id) ?? 0;
}

/** The share that the file wants kept free, by check; the spare of racks, which has one for each kind, is not among them. */
export const wantedShares = (reserves: object): Readonly<Record<string, Quantity<'1'> | Missing | undefined>> => {
  const { 'racks.spare': _, ...shares } = reserves as Readonly<Record<string, Quantity<'1'> | undefined>>;
  return shares;
};
