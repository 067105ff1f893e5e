// A machine with one value changed, without text: what planning, sweeping and asking backwards are made of.

import { leafOf, nested, replaceNode, withEntry, withoutEntry } from '../reading/edit-tree.ts';
import type { Field } from '../reading/field.ts';
import type { ParsedText, PlacedSection } from '../reading/parse.ts';
import { type Cursor, Reading } from '../reading/reading.ts';
import { asMap } from '../reading/share.ts';
import type { Node } from '../reading/tree.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { type Machine, readParsed } from './machine.ts';

export interface Variation {
  /**
   * For an inherited value: `here` gives the entry a value of its own, `source` changes the value where it is written,
   * for all who share it. Default `here`.
   */
  readonly at?: 'here' | 'source';
}

/**
 * The machine as it would be read if `value` stood at `path`; `undefined` removes what stands there. The result is the
 * same as changing the text and reading it again. Gives nothing when the path leads into something that has no keys.
 */
export function vary(
  machine: Machine,
  path: string,
  value: string | undefined,
  variation: Variation = {},
): Machine | undefined {
  const quick = value === undefined ? undefined : patched(machine, path, value, variation);
  return quick ?? reread(machine, path, value, variation);
}

/** One change of a machine since its text was read. */
interface Change {
  readonly path: string;
  readonly value: string | undefined;
  readonly at: 'here' | 'source';
}

const changes = new WeakMap<Machine, readonly Change[]>();

// ── the quick way: a value that is written where it is asked for is read again alone ─────────────────────────────────

function patched(machine: Machine, path: string, value: string, { at = 'here' }: Variation): Machine | undefined {
  const { reading } = machine;
  const asked = reading.places.get(path);
  if (asked === undefined || asked.node.kind !== 'leaf' || value === 'open' || value === 'unknown') return undefined;
  if (at === 'here' && asked.writtenAt !== path) return undefined;
  if (machine.set.length > 0 || reading.problems.length > 0 || reading.remarks.length > 0) return undefined;
  let varied: Machine = machine;
  for (const place of reading.sharing(asked.writtenAt)) {
    const cursor = reading.places.get(place)!;
    const field = reading.fields.get(place);
    if (field === undefined || cursor.node.kind !== 'leaf') return undefined;
    const alone = new Reading('machine');
    const read = (field as Field<unknown>).read(
      { ...cursor, node: { ...cursor.node, text: value, quoted: false } },
      place,
      alone,
    );
    if (alone.problems.length > 0 || read instanceof Missing) return undefined;
    const next = replaceAt(varied, place, read);
    if (next === undefined) return undefined;
    varied = next as Machine;
  }
  if (varied === machine) return undefined;
  changes.set(varied, [...(changes.get(machine) ?? []), { path, value, at }]);
  return varied;
}

/** The value tree with what stands at a path replaced; nothing when the tree holds no value of that path. */
function replaceAt(tree: unknown, path: string, by: unknown, at = ''): unknown {
  if (typeof tree !== 'object' || tree === null || tree instanceof Quantity) return undefined;
  if (Array.isArray(tree)) {
    const index = tree.findIndex((each) => leadsTo(pathOf(each), path));
    const own = index < 0 ? '' : pathOf(tree[index]);
    const next = own === path ? by : replaceAt(tree[index], path, by, own);
    return next === undefined ? undefined : tree.with(index, next);
  }
  const key = Object.keys(tree).find((each) => leadsTo(at === '' ? each : `${at}.${each}`, path));
  if (key === undefined) return undefined;
  const own = at === '' ? key : `${at}.${key}`;
  const next = own === path ? by : replaceAt((tree as Record<string, unknown>)[key], path, by, own);
  return next === undefined ? undefined : { ...tree, [key]: next };
}

const leadsTo = (own: string, path: string): boolean =>
  path === own || (path.startsWith(own) && path[own.length] === '.');

const pathOf = (value: unknown): string =>
  value instanceof Quantity ? value.about : ((value as { path?: string } | undefined)?.path ?? '');

// ── the whole way: the tree is changed and read again ────────────────────────────────────────────────────────────────

function reread(
  machine: Machine,
  path: string,
  value: string | undefined,
  { at = 'here' }: Variation,
): Machine | undefined {
  const done = changes.get(machine) ?? [];
  const all = [...done, { path, value, at }];
  // A machine that was varied the quick way has trees of before; the changes since then are made in them first.
  let state: Machine | undefined = done.length > 0 ? readParsed(machine.parsed) : machine;
  for (const change of done.length > 0 ? all : all.slice(-1)) {
    state = state && changed(state, change, all.indexOf(change) + 1);
  }
  return state;
}

function changed(machine: Machine, { path, value, at }: Change, number: number): Machine | undefined {
  const asked = machine.reading.places.get(path);
  const written = asked?.writtenAt === path || at === 'source';
  if (asked !== undefined && written)
    return value === undefined ? removed(machine, asked) : withNode(machine, asked, leafOf(value, number * 100));
  if (value === undefined) return machine;
  return inserted(machine, path, leafOf(value, number * 100));
}

const withNode = (machine: Machine, at: Cursor, node: Node): Machine =>
  readParsed(replaceIn(machine.parsed, at.section, at.node, node));

/** Removes the entry of a cursor from the map that holds it, or a whole section. */
function removed(machine: Machine, at: Cursor): Machine | undefined {
  const key = at.path.slice(at.path.lastIndexOf('.') + 1);
  const parent = parentOf(machine, at.path);
  if (parent === undefined) {
    return readParsed({
      ...machine.parsed,
      sections: machine.parsed.sections.filter((section) => section.parsed !== at.section.parsed),
    });
  }
  return parent.node.kind === 'map' ? withNode(machine, parent, withoutEntry(parent.node, key)) : undefined;
}

/** Adds an entry under the nearest thing that stands in the file on the way to the path. */
function inserted(machine: Machine, path: string, value: Node): Machine | undefined {
  const keys: string[] = [];
  let rest = path;
  for (;;) {
    const own = machine.reading.places.get(rest);
    if (own !== undefined && own.writtenAt === rest) {
      if (own.node.kind === 'list') return undefined;
      const map = asMap(own.node);
      return withNode(machine, own, withEntry(map, keys[0]!, nested(keys.slice(1), value)));
    }
    const dot = rest.lastIndexOf('.');
    keys.unshift(rest.slice(dot + 1));
    if (dot < 0) return readParsed(withSection(machine.parsed, keys[0]!, nested(keys.slice(1), value)));
    rest = rest.slice(0, dot);
  }
}

const parentOf = (machine: Machine, path: string): Cursor | undefined =>
  path.includes('.') ? machine.reading.places.get(path.slice(0, path.lastIndexOf('.'))) : undefined;

function replaceIn(parsed: ParsedText, section: PlacedSection, target: Node, by: Node): ParsedText {
  const sections = parsed.sections.map((each): PlacedSection => {
    const entry = each.parsed.entry;
    if (each.parsed !== section.parsed || entry === undefined) return each;
    return { ...each, parsed: { ...each.parsed, entry: { ...entry, value: replaceNode(entry.value, target, by) } } };
  });
  return { ...parsed, sections };
}

const withSection = (parsed: ParsedText, key: string, value: Node): ParsedText => ({
  ...parsed,
  sections: [
    ...parsed.sections,
    {
      source: parsed.source,
      start: parsed.source.text.length,
      parsed: { text: '', defects: [], entry: { key, keySpan: value, value } },
    },
  ],
});
