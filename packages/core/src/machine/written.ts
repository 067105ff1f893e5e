// How far a path is written in a machine file, and why what it inherits on the way may keep it from a value of its own.
import { lastOf, rootOf, stepInto, type Trail, trailTo } from '../reading/edit-tree.ts';
import type { PlacedSection } from '../reading/parse.ts';
import { type Cursor, plannedVia } from '../reading/reading.ts';
import type { Machine } from './machine.ts';
import { type Outline, placeInRow, segmentsOf, takesPart, under, wholeFile } from './outline.ts';

/** Nothing is changed, and why. */
export interface Refusal {
  readonly kind: 'refused';
  readonly message: string;
  /** What to do instead, in one line. */
  readonly remedy: string;
}

export const refused = (message: string, remedy: string): Refusal => ({ kind: 'refused', message, remedy });

/** How far a path is written: the way to the last node on it, and the names that have nothing yet. */
export interface Written {
  readonly section: PlacedSection;
  readonly trail: Trail;
  readonly rest: readonly string[];
  /** The path of that last node. */
  readonly at: string;
  readonly outline: Outline;
}

/** The longest part of a path that is written; `source` follows what is inherited to where it is written. */
export function writtenPart(
  machine: Machine,
  segments: readonly string[],
  at: 'here' | 'source',
): Written | Refusal | undefined {
  const passed: Cursor[] = [];
  for (let count = segments.length; count > 0; count--) {
    const cursor = machine.reading.places.get(segments.slice(0, count).join('.'));
    if (cursor === undefined) continue;
    const own = cursor.writtenAt === cursor.path;
    if (!own && at === 'here') {
      passed.push(cursor);
      continue;
    }
    if (cursor.section.isTable) return inTable(machine, cursor, segments.join('.'));
    const barrier = own ? barrierOf(passed, segments.join('.')) : partOfSetting(machine, cursor);
    if (barrier !== undefined) return barrier;
    const entry = cursor.section.parsed.entry;
    const trail = entry && trailTo(cursor.node, rootOf(entry));
    if (trail === undefined) continue;
    return descended({
      section: cursor.section,
      trail,
      rest: segments.slice(count),
      at: cursor.writtenAt,
      outline: outlineAt(entry!.key, trail),
    });
  }
  const section = machine.parsed.sections.find((each) => each.parsed.entry?.key === segments[0]);
  const entry = section?.parsed.entry;
  if (section === undefined || entry === undefined) return undefined;
  return descended({
    section,
    trail: rootOf(entry),
    rest: segments.slice(1),
    at: entry.key,
    outline: under(wholeFile, entry.key),
  });
}

/** Goes on through keys that are written but not read: a key can have points, an item of a list has a number. */
function descended(from: Written): Written {
  const { node } = lastOf(from.trail);
  for (let count = from.rest.length; count > 0; count--) {
    const name = from.rest.slice(0, count).join('.');
    const index =
      node.kind === 'map'
        ? node.entries.findIndex(({ key }) => key === name)
        : node.kind === 'list'
          ? node.items.findIndex((_, at) => String(at) === name || at === placeInRow(from.outline, name))
          : -1;
    if (index < 0) continue;
    return descended({
      ...from,
      trail: [...from.trail, stepInto(node, index)],
      rest: from.rest.slice(count),
      at: `${from.at}.${name}`,
      outline: under(from.outline, node.kind === 'map' ? name : undefined),
    });
  }
  // The name of a part that stands alone is its part.
  if (
    node.kind === 'leaf' &&
    node.text !== '' &&
    from.rest.length === 1 &&
    from.rest[0] === 'part' &&
    takesPart(from.outline)
  )
    return { ...from, rest: [] };
  return from;
}

function outlineAt(section: string, trail: Trail): Outline {
  let outline = under(wholeFile, section);
  for (let depth = 1; depth < trail.length; depth++) {
    const { node } = trail[depth - 1]!;
    outline = under(outline, node.kind === 'map' ? node.entries[trail[depth]!.index]!.key : undefined);
  }
  return outline;
}

/** Why a path cannot have an own value below what it inherits on the way there. */
function barrierOf(passed: readonly Cursor[], path: string): Refusal | undefined {
  for (const { node, path: on, writtenAt, via } of passed.toReversed()) {
    const name = on.slice(on.lastIndexOf('.') + 1);
    const [from = ''] = via;
    if (from.startsWith('range ')) {
      return refused(
        `'${name}' is one name of the range ${from.slice(6)}, which is written once for all of them`,
        `Change it for the whole range, at ${writtenAt}, or take ${name} out of the range first.`,
      );
    }
    if (on !== path && (from.startsWith('set[') || from === plannedVia || node.kind === 'list')) {
      return refused(
        `'${on}' comes from ${writtenAt} as a whole, and a part of it written here would go before all of it`,
        `Change it at ${writtenAt}, or write the whole of ${on} here first.`,
      );
    }
  }
  return undefined;
}

/** What stands in a table is edited in the table. */
function inTable(machine: Machine, cursor: Cursor, path: string): Refusal {
  const { file, line } = machine.reading.place(cursor, 'key');
  return refused(
    `'${path}' ${cursor.path === path ? 'stands' : 'belongs to a point that stands'} in line ${line} of ${file}, which is edited there and not here`,
    `Change line ${line} of ${file}.`,
  );
}

/** A line of `set` puts maps around its value; these are written nowhere. */
function partOfSetting(machine: Machine, cursor: Cursor): Refusal | undefined {
  const label = /^set\.(\d+)\.value$/.exec(cursor.writtenAt)?.[1];
  const setting = machine.set.find((each) => each.label === `set[${label}]`);
  if (setting === undefined || segmentsOf(cursor.path).length >= setting.segments.length) return undefined;
  return refused(
    `set[${label}] gives one value inside '${cursor.path}', not the whole of it`,
    `Change the value at ${cursor.writtenAt}, or write ${cursor.path} here.`,
  );
}
