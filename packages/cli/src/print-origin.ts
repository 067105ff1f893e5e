// Where a number of the file, of a part or of an assumption comes from, in a few words.
import { demonstrationName } from '@layshaft/catalogue';
import { type Origin, where } from '@layshaft/core';
import type { OpenedDesign } from './open-design.ts';

/** 'given at machine.yaml:12:5', 'part drive_10: demonstration data, usually 2.1 µs', 'assumed, our judgement: …'. */
export function printOrigin(origin: Origin, { machine, catalogues }: OpenedDesign): string {
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
    case 'catalogue':
      return [
        `${via.join(', ')}${ofFile(via.at(-1), catalogues)}: ${source}`,
        ...(typical === undefined ? [] : [`usually ${typical}`]),
        ...(condition === undefined ? [] : [`holds for: ${condition}`]),
      ].join('; ');
  }
}

/** The catalogue file that states a part, ` of our_parts.yaml`; the demonstration is no file of the user's. */
function ofFile(link: string | undefined, catalogues: OpenedDesign['catalogues']): string {
  const stating = catalogues.findLast(({ parts }) => [...parts.values()].some(({ via }) => via[0] === link));
  return stating === undefined || stating.name === demonstrationName ? '' : ` of ${stating.name}`;
}
