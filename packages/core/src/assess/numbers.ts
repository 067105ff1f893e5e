// Every number of an assessment by its address, and its working.

import type { Finding } from '../checks/finding.ts';
import { quantitiesIn, type Table, type View } from '../checks/view.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { type Working, walk, workingOf } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { numberShown } from './show.ts';

/** All quantities that an assessment holds or rests on, by address; a finding's address leads to its margin. */
export function numbersOf(assessment: Assessment): ReadonlyMap<string, Quantity> {
  const numbers = new Map<string, Quantity>();
  const seen = new Set<Quantity>();
  const add = (quantity: Quantity): void => walk(quantity, (each) => void numbers.set(addressOf(each), each), seen);
  for (const network of assessment.networks) collect(network, add, new Set());
  for (const { known, capability } of assessment.marks) collect([known, capability], add, new Set());
  for (const { way, time } of assessment.stops) collect([way, time], add, new Set());
  for (const finding of assessment.findings) {
    const { demand, capacity, reserve, enough, margin } = finding;
    for (const each of [demand, capacity, reserve, enough, margin]) if (each) add(each);
    const rests = restOf(finding);
    if (rests !== undefined) numbers.set(finding.address, rests);
  }
  return numbers;
}

function numberIn(tables: readonly Table[], address: string): Quantity | undefined {
  let found: Quantity | undefined;
  const seen = new Set<Quantity>();
  for (const cell of tables.flatMap(({ rows }) => rows.flat()))
    if (cell instanceof Quantity)
      walk(
        cell,
        (each) => {
          if (addressOf(each) === address) found ??= each;
        },
        seen,
      );
  return found;
}

/** What a finding's address leads to: its margin, else what is known of it. */
const restOf = ({ margin, enough, demand, capacity }: Finding): Quantity | undefined =>
  margin ?? enough ?? demand ?? capacity;

/** Goes through plain results (objects, lists, maps) to the quantities in them. */
function collect(value: unknown, add: (quantity: Quantity) => void, seen: Set<unknown>): void {
  if (typeof value !== 'object' || value === null || seen.has(value)) return;
  seen.add(value);
  if (value instanceof Quantity) add(value);
  else if (value instanceof Map) for (const each of value.values()) collect(each, add, seen);
  else for (const each of Object.values(value)) collect(each, add, seen);
}

/**
 * The working of the number at an address, those that are only shown beside the findings included, or nothing when no number
 * has it. The numbers of tables that a long work made go first.
 */
export function explain(assessment: Assessment, address: string, made: readonly Table[] = []): Working | undefined {
  const own = numberIn(made, address);
  if (own !== undefined) return workingOf(own);
  const finding = assessment.findings.find((each) => each.address === address);
  const quantity =
    (finding && restOf(finding)) ?? numbersOf(assessment).get(address) ?? numberShown(assessment, address);
  return quantity && workingOf(quantity);
}

/** The working of a number that a view shows or rests on; what a simulation has counted is in no assessment. */
export function explainIn(view: View, address: string): Working | undefined {
  let found: Quantity | undefined;
  const seen = new Set<Quantity>();
  for (const quantity of quantitiesIn(view))
    walk(
      quantity,
      (each) => {
        if (addressOf(each) === address) found ??= each;
      },
      seen,
    );
  return found && workingOf(found);
}
