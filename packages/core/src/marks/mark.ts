// A mark of the file with the line that carries it: its speed, its spacing, and what else is captured on its axis.
import type { LostMotion, LostMotions } from '../physics/lost-motion.ts';
import type { WebLine } from '../physics/web-line.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { Missing, missing } from '../working/missing.ts';
import { leaf, type Quantity } from '../working/quantity.ts';
import type { MarkSection } from './section.ts';

/** What stands in the file, with the names of others followed. */
export interface Mark {
  readonly name: string;
  readonly path: string;
  readonly said: MarkSection;
  /** The axis that acts on it; nothing where the file names none. */
  readonly axisName: string | undefined;
  /** The master whose web carries it; nothing where the file names neither one nor an axis that follows one. */
  readonly lineName: Value<string> | undefined;
  /** Edges that are captured on its axis from mark to mark, its own included. */
  readonly edges: number;
}

/** The mark on its line. */
export interface PlacedMark extends Mark {
  readonly line: Value<WebLine> | undefined;
  readonly speed: Value<Quantity<'m/s'>>;
  readonly spacing: Value<Quantity<'m'>>;
  /** Of the train of its axis; nothing where the file names no axis that it describes. */
  readonly train: LostMotion | undefined;
}

export function placeOnLine(mark: Mark, lines: readonly WebLine[], lost: LostMotions): PlacedMark {
  const { said, path, lineName, axisName } = mark;
  const line =
    lineName === undefined || lineName instanceof Missing
      ? lineName
      : (lines.find(({ name }) => name === lineName) ??
        missing(`${path}.follow`, 'problem', 'the name of a master', 'line'));
  const ofLine = <T>(take: (line: WebLine) => Value<T>): Value<T> | undefined =>
    line === undefined || line instanceof Missing ? line : take(line);
  return {
    ...mark,
    line,
    speed: said.speed ?? ofLine(({ speed }) => speed) ?? missing(`${path}.speed`, 'absent', 'a speed', '150 m/min'),
    spacing:
      said.spacing ?? ofLine(({ repeat }) => repeat) ?? missing(`${path}.spacing`, 'absent', 'a length', '250 mm'),
    train: axisName === undefined ? undefined : lost(axisName),
  };
}

/** A number of things that stand in the file, as a leaf. */
export const countOf = ({ path }: Mark, what: string, count: number): Quantity<'1'> =>
  leaf(count, '1', {
    kind: 'given',
    path: `${path}.${what}`,
    via: [],
    writtenAt: path,
    written: String(count),
    writtenUnit: '1',
  });

/** What holds where the file says nothing else, and nothing of it is usual. */
export const noneOf = <U extends 's' | 'm' | '1'>(path: string, unit: U, because: string): Quantity<U> =>
  assumed(path, 0, unit, { source: 'judgement', because });
