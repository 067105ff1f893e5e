// What a machine says, as one text that two machines can be compared by: values and origins, no places in the text.
import type { Problem } from '../problems/problem.ts';
import type { Cursor } from '../reading/reading.ts';
import type { Node } from '../reading/tree.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { format } from './format.ts';
import type { Machine } from './machine.ts';

/** The sections with all origins, the wiring, problems and remarks; spans, places and the order of keys left out. */
export const saidBy = (machine: Machine): string =>
  JSON.stringify(
    {
      ...Object.fromEntries(Object.keys(format).map((key) => [key, plain(machine[key as keyof typeof format])])),
      wirings: [...machine.wirings].map(([name, { stations, wires }]) => [name, stations, wires.map(plainWire)]),
      problems: machine.problems.map(plainProblem).sort(),
      remarks: machine.remarks.map(plainProblem).sort(),
    },
    null,
    1,
  );

function plain(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(plain);
  if (value instanceof Quantity) return { value: value.value, unit: value.unit, by: sorted(value.by) };
  if (value instanceof Missing) return value.lacks;
  if ('node' in value && 'section' in value) return plainCursor(value as Cursor);
  return sorted(value);
}

const sorted = (value: object): object =>
  Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, plain(inner)]),
  );

const plainCursor = ({ path, writtenAt, via, node }: Cursor) => ({ path, writtenAt, via, node: plainNode(node) });

function plainNode(node: Node): unknown {
  if (node.kind === 'leaf') return node.text;
  if (node.kind === 'list') return node.items.map(plainNode);
  return Object.fromEntries(node.entries.map(({ key, value }) => [key, plainNode(value)]));
}

const plainWire = ({ index, from, to }: { index: number; from: string; to: string }) => [index, from, to];
const plainProblem = ({ code, message, remedy, path, notes }: Problem): string =>
  JSON.stringify([code, message, remedy, path, notes.map((note) => note.message)]);
