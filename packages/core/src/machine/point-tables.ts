// The tables with points that a machine file names: their points join those that it has itself.
import { twice } from '../points/entries.ts';
import type { PointsTable } from '../points/table.ts';
import type { Problem } from '../problems/problem.ts';
import type { Cursor, Reading } from '../reading/reading.ts';
import { namesOf } from '../reading/share.ts';
import type { Entry } from '../reading/tree.ts';
import type { Named } from '../reading/values.ts';
import { format } from './format.ts';
import type { Machine } from './machine.ts';

/** By the name that the machine file has for them. */
export type PointTables = ReadonlyMap<string, PointsTable>;

/** The names of the tables that a machine file lists. */
export const tablesNamed = ({ points_from: from }: Pick<Machine, 'points_from'>): readonly string[] =>
  listed(from).map(({ name }) => name);

const listed = (from: Machine['points_from']): readonly Named[] =>
  'length' in from ? from.filter((each): each is Named => 'name' in each) : [];

interface Joined {
  readonly open: ReadonlyMap<string, Cursor>;
  readonly remarks: readonly Problem[];
}

/** The sections with the points of the tables among `points`. A table that was not handed in is a problem at its name. */
export function joinTables(open: ReadonlyMap<string, Cursor>, tables: PointTables, reading: Reading): Joined {
  const from = open.get('points_from');
  const names = from === undefined ? [] : listed(format.points_from.read(from, 'points_from', reading));
  const own = open.get('points');
  if (from === undefined || (own !== undefined && own.node.kind !== 'map')) return { open, remarks: [] };
  const entries: Entry[] = own?.node.kind === 'map' ? [...own.node.entries] : [];
  const known = new Map(entries.flatMap((entry) => namesOf(entry.key).map((name) => [name, placeOf(entry, own!)])));
  const remarks: Problem[] = [];
  for (const [index, { name, at }] of names.entries()) {
    const before = names.slice(0, index).find((each) => each.name === name);
    if (before !== undefined) {
      reading.problem(at, 'value', twice(name, name, { before: name, place: reading.place(before.at) }));
      continue;
    }
    const table = tables.get(name);
    if (table === undefined) {
      reading.problem(at, 'value', notThere(name));
      reading.damage();
      continue;
    }
    remarks.push(...table.remarks);
    for (const problem of table.problems) reading.add(problem);
    if (table.columns.length === 0) reading.damage();
    for (const entry of table.entries) {
      const place = placeOf(entry, { ...from, section: table.section });
      const both = namesOf(entry.key).find((each) => known.has(each));
      if (both !== undefined) {
        const first = known.get(both)!;
        const wording = twice(writtenIn(place), both, {
          before: writtenIn(first),
          place: reading.place(first, 'key'),
        });
        reading.problem(place, 'key', wording);
        continue;
      }
      for (const each of namesOf(entry.key)) known.set(each, place);
      entries.push(entry);
    }
  }
  if (entries.length === 0) return { open, remarks };
  // Where only tables have points, the section is none of the file's own and stands at no place of it.
  const base = own ?? { ...from, path: 'points', writtenAt: 'points' };
  const node = { kind: 'map', entries, from: base.node.from, to: base.node.to } as const;
  return { open: new Map([...open, ['points', { ...base, node }]]), remarks };
}

/** For what is said of the name of a point. */
const placeOf = ({ key, keySpan, value }: Entry, at: Cursor): Cursor => ({
  ...at,
  node: value,
  path: `points.${key}`,
  writtenAt: `points.${key}`,
  keySpan,
});

/** A name as it stands in its file. */
const writtenIn = ({ section: { source, start }, keySpan: { from, to } }: Cursor): string =>
  source.text.slice(start + from, start + to);

const notThere = (name: string) => ({
  code: 'table-unknown' as const,
  message: `no table '${name}' can be read`,
  remedy: 'Write the name of a CSV file that lies beside this one, such as points.csv.',
});
