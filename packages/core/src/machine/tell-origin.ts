// Where a number of the file, of a part or of an assumption comes from, in a few words.
import { where } from '../problems/problem.ts';
import type { Origin } from '../working/origin.ts';
import type { Catalogue } from './catalogue.ts';
import type { Machine } from './machine.ts';

export interface Filled {
  readonly machine: Machine;
  readonly catalogues: readonly Catalogue[];
  /** The catalogue that is no file of the user's. */
  readonly builtIn: string;
}

/** 'given at machine.yaml:12:5', 'part drive_10: demonstration data, usually 2.1 µs', 'assumed, our judgement: …'. */
export function tellOrigin(origin: Origin, { machine, catalogues, builtIn }: Filled): string {
  const { kind, path, via, writtenAt, source, typical, condition, measured } = origin;
  // Entries of a range are written under the name of the range, at which no single path stands.
  const place = machine.where(writtenAt) ?? machine.where(path);
  const at = place === undefined ? '' : ` at ${where(place)}`;
  const shared = via.length === 0 ? '' : `, by ${via.join(', ')}`;
  switch (kind) {
    case 'given':
      return `given${at}${shared}`;
    case 'planned':
      return `chosen by the planner${at}`;
    case 'measured':
      return `measured ${measured?.date}, ${measured?.count} times; given${at}${shared}`;
    case 'assumed':
      return `assumed, ${source}`;
    case 'catalogue': {
      const stating = catalogues.findLast(({ kinds }) =>
        [...kinds.keys()].some((name) => `part ${name}` === via.at(-1)),
      );
      const ofFile = stating === undefined || stating.name === builtIn ? '' : ` of ${stating.name}`;
      return [
        `${via.join(', ')}${ofFile}: ${source}`,
        ...(typical === undefined ? [] : [`usually ${typical}`]),
        ...(condition === undefined ? [] : [`holds for: ${condition}`]),
      ].join('; ');
    }
  }
}
