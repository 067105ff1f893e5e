// The figures of a catalogue part as lines for people.
import { Missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { Quantity } from '../working/quantity.ts';
import type { Part } from './parts.ts';

export interface PartFigure {
  readonly key: string;
  /** What checks count with, as the catalogue writes it. */
  readonly text: string;
  readonly typical?: string | undefined;
  readonly source?: string | undefined;
  readonly condition?: string | undefined;
}

const notFigures = ['path', 'kind', 'title', 'cost', 'source', 'condition', 'version', 'requires'];

/** Every figure that the part states, in the order of its kind. */
export const figuresOf = (part: Part): readonly PartFigure[] =>
  Object.entries(part.values)
    .filter(([key]) => !notFigures.includes(key))
    .flatMap(([key, value]) => lines(key, value, part));

function lines(key: string, value: unknown, part: Part): readonly PartFigure[] {
  if (value === undefined || value instanceof Missing) return [];
  if (value instanceof Quantity) {
    const { written, typical, source, condition } = value.by as Origin;
    return [{ key, text: written, typical, source: source ?? part.source, condition: condition ?? part.condition }];
  }
  if (Array.isArray(value))
    return value.length > 0 && value.every(isSection)
      ? value.flatMap((each, at) => lines(`${key}.${at + 1}`, each, part))
      : [{ key, text: value.map(writtenOf).join(', ') || 'none' }];
  if (typeof value === 'string') return [{ key, text: value }];
  return Object.entries(value as object)
    .filter(([inner]) => inner !== 'path')
    .flatMap(([inner, each]) => lines(`${key}.${inner}`, each, part));
}

const isSection = (value: unknown): value is object => typeof value === 'object' && !(value instanceof Quantity);

const writtenOf = (value: unknown): string =>
  value instanceof Quantity ? (value.by as Origin).written : String(value);

/** What a part says of itself, as written; nothing when it says nothing. */
export const textOf = (value: unknown): string | undefined =>
  value === undefined || value instanceof Missing ? undefined : writtenOf(value);
