// Many values written at once into one section: the first as any edit is made, the others as lines behind it, so that a
// file with a thousand of them is read three times and not a thousand times.
import { type Machine, read } from './machine.ts';
import { spliceEach } from './splice.ts';

export interface PlannedValue {
  readonly path: string;
  readonly value: string;
}

/** The machine with the values under `planned`; where it cannot take them, what `splice` says of it. */
export const writePlanned = (machine: Machine, values: readonly PlannedValue[]): ReturnType<typeof spliceEach> =>
  writeLines(machine, 'planned', values);

/** The machine with the values under a section, at their paths in it; where it cannot take them, what `splice` says of it. */
export function writeLines(
  machine: Machine,
  section: string,
  values: readonly PlannedValue[],
): ReturnType<typeof spliceEach> {
  const asEdit = ({ path, value }: PlannedValue) => ({ path: `${section}.${path}`, value, at: 'here' as const });
  // What is no path is refused by the first that looks at it.
  if (values.some(({ path }) => path.split('.').includes(''))) return spliceEach(machine, values.map(asEdit));
  const isThere = (after: Machine, { path }: PlannedValue): boolean => after.where(`${section}.${path}`) !== undefined;
  const there = new Set(values.filter((each) => isThere(machine, each)));
  const fresh = values.filter((each) => !there.has(each));
  const [first, ...rest] = fresh;
  const started = spliceEach(machine, [...there, ...(first === undefined ? [] : [first])].map(asEdit));
  if (started.kind !== 'edits' || first === undefined || rest.length === 0) return started;
  const behind = lineOf(started.machine, section, first);
  // Inside braces there are no lines of their own.
  if (behind === undefined) return spliceEach(machine, values.map(asEdit));
  const { text } = started.machine.parsed.source;
  const insert = rest.map(({ path, value }) => `${behind.indent}${path}: ${value}${behind.end}`).join('');
  const after = read(text.slice(0, behind.at) + insert + text.slice(behind.at), {
    file: machine.file,
    previous: started.machine,
    tables: machine.tables,
  });
  const taken = rest.every((each) => isThere(after, each));
  const isWhole = taken && after.problems.length <= started.machine.problems.length;
  return isWhole
    ? { kind: 'edits', edits: [...started.edits, { from: behind.at, to: behind.at, insert }], machine: after }
    : spliceEach(machine, values.map(asEdit));
}

/** Where the line behind that of a value begins, with its indent and its line break. */
function lineOf(
  machine: Machine,
  section: string,
  { path }: PlannedValue,
): { readonly at: number; readonly indent: string; readonly end: string } | undefined {
  const place = machine.where(`${section}.${path}`);
  if (place === undefined) return undefined;
  const { text } = machine.parsed.source;
  const breaks = [...text.matchAll(/\r?\n/g)];
  const start = place.line === 1 ? 0 : breaks[place.line - 2]!.index + breaks[place.line - 2]![0].length;
  const end = breaks[place.line - 1];
  const line = text.slice(start, end?.index);
  const indent = /^ +/.exec(line)?.[0];
  if (indent === undefined || end === undefined || !line.startsWith(`${indent}${path}:`)) return undefined;
  return { at: end.index + end[0].length, indent, end: end[0] };
}
