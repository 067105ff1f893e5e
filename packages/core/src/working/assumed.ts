// A default that is used where the file says nothing: a leaf that is listed as an assumption, with who says so and why.
import { printQuantity } from '../units/print-quantity.ts';
import type { Unit } from '../units/si.ts';
import { leaf, type Quantity } from './quantity.ts';
import { cite, type SourceId } from './sources.ts';

export interface Reason {
  readonly source: SourceId;
  readonly because: string;
  /** The spelling that it is written in, where it is not the SI unit: `%` for a share. */
  readonly as?: string;
  /** Significant digits, where the usual four would round it. */
  readonly digits?: number;
}

/** `value` in SI; `path` is where the user could say another one. */
export function assumed<U extends Unit>(path: string, value: number, unit: U, reason: Reason): Quantity<U> {
  const { source, because, as, digits } = reason;
  return leaf(value, unit, {
    kind: 'assumed',
    path,
    via: [],
    writtenAt: path,
    written: printQuantity(value, unit, { ...(as !== undefined && { as }), ...(digits !== undefined && { digits }) }),
    writtenUnit: as ?? unit,
    source: `${cite(source)}: ${because}`,
  });
}
