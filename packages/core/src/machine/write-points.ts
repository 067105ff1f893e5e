// The points of a list written into a machine file: all of them, or none.
import { namesTwice, pointLines } from '../points/print.ts';
import type { PointsTable } from '../points/table.ts';
import type { Problem } from '../problems/problem.ts';
import { listed, plural } from '../problems/wording.ts';
import { type Machine, read } from './machine.ts';
import { writeLines } from './write-planned.ts';
import { refused } from './written.ts';

/** What is wrong with a list, its values among it: it is read as that of a machine that has nothing else. */
export const problemsOfTable = (table: PointsTable): readonly Problem[] =>
  read('layshaft: 1\npoints_from: [list]\n', { tables: new Map([['list', table]]) }).problems;

/** The machine with the points of a list; refused where the list has problems, or names that stand already. */
export function writePoints(machine: Machine, table: PointsTable): ReturnType<typeof writeLines> {
  const wrong = problemsOfTable(table).length;
  if (wrong > 0) return refused(`the list has ${plural(wrong, 'problem')}`, 'Mend it, and ask again.');
  const twice = namesTwice(table.entries, machine.points);
  if (twice.length > 0)
    return refused(`${machine.file} has ${listed(twice)} already`, 'Remove them there, or in the list.');
  const lines = pointLines(table.entries).map(({ name, value }) => ({ path: name, value }));
  return writeLines(machine, 'points', lines);
}
