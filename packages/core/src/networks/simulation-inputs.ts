// The quantities that a plan of a simulation rests on: each noted once as it is read, and read again from other values.
import type { Value } from '../reading/values.ts';
import type { Values } from '../working/formula.ts';
import { Missing, missing, unique } from '../working/missing.ts';
import { addressOf, type Inputs, Quantity } from '../working/quantity.ts';

/** Gives the value of a quantity, and notes what is missing. */
export type Read = (value: Value<Quantity>) => number;

const symbolOf: Readonly<Record<string, string>> = { s: 't', bit: 'L', '1': 'p', 'bit/s': 'R' };

/** What each list of inputs holds. */
export const inputMeans: Readonly<Record<string, string>> = {
  t: 'times: cycle, frames as planned, cables, turnaround, forwarding, pulses',
  L: 'data: preamble, gap, what devices wait for, what a bit error ratio counts',
  p: 'chances and counts: bit errors of each run, states of a line, repeats, losses that trip',
  R: 'bits per second',
};

/** Notes every quantity that is read, once, and everything that lacks. */
export function recorder() {
  const places = new Map<string, Quantity[]>();
  const had = new Set<Quantity>();
  const missed: Missing[] = [];
  const read: Read = (value) => {
    if (value instanceof Missing) {
      missed.push(value);
      return Number.NaN;
    }
    if (!Number.isFinite(value.value))
      missed.push(missing(addressOf(value), 'not finite', 'a number that is finite', ''));
    if (!had.has(value)) {
      had.add(value);
      const symbol = symbolOf[value.unit]!;
      places.set(symbol, [...(places.get(symbol) ?? []), value]);
    }
    return value.value;
  };
  return {
    read,
    lacks: () => unique(missed.flatMap(({ lacks }) => lacks)),
    inputs: (): Inputs => Object.fromEntries(places),
  };
}

export function readerOf(inputs: Inputs, values: Values): Read {
  const of = new Map<Quantity, number>();
  for (const [at, list] of Object.values(inputs).entries())
    for (const [index, each] of (list as readonly Quantity[]).entries())
      of.set(each, (values[at] as readonly number[])[index]!);
  return (value) => (value instanceof Quantity ? of.get(value)! : Number.NaN);
}
