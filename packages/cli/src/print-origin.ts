// Where a number of the file, of a part or of an assumption comes from, in a few words.
import { type Machine, type Origin, where } from '@layshaft/core';

/** 'given at machine.yaml:12:5', 'part drive_10: demonstration data, usually 2.1 µs', 'assumed, our judgement: …'. */
export function printOrigin(origin: Origin, machine: Machine): string {
  const { kind, via, source, typical, condition, measured } = origin;
  const place = machine.where(origin.writtenAt);
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
        `${via.join(', ')}: ${source}`,
        ...(typical === undefined ? [] : [`usually ${typical}`]),
        ...(condition === undefined ? [] : [`holds for: ${condition}`]),
      ].join('; ');
  }
}
