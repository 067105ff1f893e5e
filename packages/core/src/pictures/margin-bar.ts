// The bar of a finding as data: a line from nothing to the demand, a notch where the wanted reserve begins, a rail at
// the capacity. Every bar of a list has its rail at the same place.
import { printQuantity } from '../units/print-quantity.ts';

/** Positions run from 0 to 1 over the whole bar; what is not known has none. */
export interface MarginBar {
  /** Where the demand ends; at 1 when it goes on beyond the bar. */
  readonly demand?: number;
  /** Up to here the demand keeps the wanted reserve. */
  readonly notch?: number;
  /** The capacity. */
  readonly rail: number;
  /** Whether the demand goes on beyond the bar. */
  readonly cut: boolean;
  /** The same in words. */
  readonly text: string;
}

/** In SI; demand and capacity of one unit, the reserve a share of the capacity. */
export interface Weighed {
  readonly demand?: { readonly value: number } | undefined;
  readonly capacity?: { readonly value: number } | undefined;
  readonly reserve?: { readonly value: number } | undefined;
}

/** Room behind the rail shows a demand of up to 8/7 of the capacity to scale (our judgement). */
const rail = 7 / 8;

/** The bar of a finding; nothing that is missing, not finite or without a true share is given a position. */
export function marginBar({ demand, capacity, reserve }: Weighed): MarginBar {
  const room = capacity?.value ?? Number.NaN;
  const needed = room > 0 ? (demand?.value ?? Number.NaN) / room : Number.NaN;
  const kept = 1 - (reserve?.value ?? Number.NaN);
  const at = needed * rail;
  return {
    ...(Number.isFinite(at) && { demand: Math.min(Math.max(at, 0), 1) }),
    ...(Number.isFinite(kept) && { notch: kept * rail }),
    rail,
    cut: at > 1,
    text: inWords(needed, kept, room),
  };
}

function inWords(needed: number, kept: number, room: number): string {
  const reserve = Number.isFinite(kept) ? `; up to ${share(kept)} keeps the wanted reserve` : '';
  if (Number.isFinite(needed)) return `${share(needed)} of the capacity is needed${reserve}`;
  return room <= 0 ? 'There is no capacity' : `How much of the capacity is needed is not known${reserve}`;
}

const share = (value: number): string => printQuantity(value, '1', { as: '%', digits: 3 });
