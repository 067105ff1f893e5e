// Points as a list with our own columns, which is read again as the same points, and as lines of a machine file.
import type { Table } from '../checks/view.ts';
import { printNode } from '../reading/print-node.ts';
import { plannedVia, type Reading } from '../reading/reading.ts';
import type { Entry, Node } from '../reading/tree.ts';
import { meanings } from './columns.ts';

/** Columns in our order; those in which nothing would stand are not there. */
export function pointsSheet(entries: readonly Entry[]): Table {
  const cells = entries.map(({ key, value }) => new Map([['name', key], ...cellsOf(value)]));
  const columns = meanings.map(({ key }) => key).filter((key) => cells.some((row) => row.has(key)));
  return {
    name: 'points',
    title: 'Points',
    columns,
    rows: cells.map((row) => columns.map((key) => row.get(key) ?? '')),
  };
}

const cellsOf = (point: Node): readonly (readonly [string, string])[] =>
  point.kind !== 'map'
    ? []
    : point.entries.flatMap(({ key, value }) => {
        const ends = value.kind === 'list' ? value.items : [];
        const [from, to] = ends;
        if (key === 'range' && ends.length === 2 && from?.kind === 'leaf' && to?.kind === 'leaf')
          return [['range from', from.text] as const, ['range to', to.text] as const];
        return [[key, value.kind === 'leaf' ? value.text : printNode(value, 'flow')] as const];
      });

export interface PointLine {
  readonly name: string;
  readonly value: string;
}

/** Each point as it stands in a machine file. */
export const pointLines = (entries: readonly Entry[]): readonly PointLine[] =>
  entries.map(({ key, value }) => ({ name: key, value: printNode(value, 'flow') }));

/** The points of a machine with all that they share written out; what the planner chose stays with it. */
export function entriesRead(names: readonly string[], { places }: Pick<Reading, 'places'>): readonly Entry[] {
  return names.map((name): Entry => {
    const path = `points.${name}`;
    const keySpan = { from: 0, to: 0 };
    const entries = meanings.flatMap(({ key }): readonly Entry[] => {
      const at = places.get(`${path}.${key}`);
      if (at === undefined || key === 'like') return [];
      const value: Node = at.via.includes(plannedVia)
        ? { ...keySpan, kind: 'leaf', text: 'open', quoted: false }
        : at.node;
      return [{ key, keySpan, value }];
    });
    return { key: name, keySpan, value: { ...keySpan, kind: 'map', entries } };
  });
}

/** The names among those of `entries` that a machine has already. */
export const namesTwice = (
  entries: readonly Entry[],
  points: readonly { readonly name: string }[],
): readonly string[] => {
  const known = new Set(points.map(({ name }) => name));
  return entries.map(({ key }) => key).filter((key) => known.has(key));
};
