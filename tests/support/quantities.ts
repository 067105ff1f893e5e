// The quantities that an assessment holds, and what each of them rests on.
import type { Assessment } from '@layshaft/core';
import { Quantity } from '../../packages/core/src/working/quantity.ts';
import { walk } from '../../packages/core/src/working/working.ts';

/** Every quantity in the results and findings, and all that they rest on, each once. */
export function quantitiesOf({ networks, findings }: Pick<Assessment, 'networks' | 'findings'>): readonly Quantity[] {
  const found = new Set<Quantity>();
  const seen = new Set<unknown>();
  const look = (value: unknown): void => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    if (value instanceof Quantity) for (const each of restsOn([value])) found.add(each);
    else for (const each of value instanceof Map ? value.values() : Object.values(value)) look(each);
  };
  look(networks);
  look(findings);
  return [...found];
}

/** The quantities and all that they rest on, each once. */
export function restsOn(quantities: readonly (Quantity | undefined)[]): readonly Quantity[] {
  const seen = new Set<Quantity>();
  for (const quantity of quantities) if (quantity !== undefined) walk(quantity, () => undefined, seen);
  return [...seen];
}
