// What becomes of a cell: what a machine file would say in its place, and whether that is understood.
import type { Unit } from '../units/si.ts';
import { type ColumnKey, unitsOf } from './columns.ts';
import { kindIn } from './kind-words.ts';
import { nameIn, plainWords } from './plain-words.ts';
import { channelIn, isQuantity, placeIn, quantityIn, rangeIn, sensorIn, withPoint, wordIn } from './value-words.ts';

export interface CellContext {
  readonly unit: string | undefined;
  /** Whether a comma between digits is a decimal sign: where semicolons part the cells. */
  readonly commas: boolean;
}

export interface CellRead {
  readonly value: string | readonly [string, string];
  /** What it says of other columns, where these say nothing. */
  readonly more?: { readonly sensor?: string; readonly range?: readonly [string, string] };
  /** False where the value is the cell as it stands, for whoever reads it to say what is wrong. */
  readonly understood: boolean;
}

const nothing = ['', '-', '–', '—', 'n/a', 'N/A'];

/** A cell in which nothing is said. */
export const isEmptyCell = (text: string, key: ColumnKey | undefined): boolean =>
  key === 'title' || key === undefined ? text === '' : nothing.includes(text);

/** Whether it is written as a machine file writes it: a word in place of a value, or a map or list in brackets. */
export const isOwnForm = (text: string): boolean => text === 'open' || text === 'unknown' || /^[{[]/.test(text);

/** Longer ones are no values (our judgement: a measurement with its date has sixty characters). */
const longestCell = 200;

export function cellRead(key: ColumnKey, cell: string, { unit, commas }: CellContext): CellRead {
  if (key === 'title') return { value: cell, understood: true };
  if (cell.length > longestCell) return { value: cell, understood: false };
  if (key === 'name') return valueIn(key, cell, unit) ?? { value: cell, understood: false };
  if (cell === '?') return { value: 'unknown', understood: true };
  if (isOwnForm(cell)) return { value: cell, understood: true };
  const found = valueIn(key, commas ? withPoint(cell) : cell, unit);
  return found === undefined ? { value: cell, understood: false } : found;
}

function valueIn(key: Exclude<ColumnKey, 'title'>, cell: string, unit: string | undefined): CellRead | undefined {
  switch (key) {
    case 'name':
    case 'like':
    case 'at':
    case 'together':
    case 'apart':
    case 'potential':
    case 'cabinet':
      return understood(nameIn(cell));
    case 'kind': {
      const { kind, ...more } = kindIn(cell) ?? {};
      return kind && { value: kind, more, understood: true };
    }
    case 'designation':
    case 'conductors':
      return understood(cell);
    case 'function':
      return /^[A-Za-z][A-Za-z0-9_.]*$/.test(cell) ? understood(cell) : undefined;
    case 'circuit':
    case 'status_of':
      return understood(plainWords(cell).replaceAll(' ', '_'));
    case 'sensor':
      return understood(sensorIn(cell));
    case 'type':
    case 'level':
    case 'fails_to':
    case 'screen':
      return understood(wordIn(key, cell));
    case 'range':
      return understood(rangeIn(cell, unit));
    case 'place':
      return understood(placeIn(cell));
    case 'channel':
      return understood(channelIn(cell, 'main', '1'));
    default: {
      const value = quantityIn(cell, unit);
      return { value, understood: isQuantity(value, unitsOf(key) as readonly Unit[]) };
    }
  }
}

const understood = (value: CellRead['value'] | undefined): CellRead | undefined =>
  value === undefined ? undefined : { value, understood: true };
