// A machine with one value changed, without text: what planning, sweeping and asking backwards are made of.

import type { Field } from '../reading/field.ts';
import { nodeOf } from '../reading/print-node.ts';
import { Reading } from '../reading/reading.ts';
import { nameForm } from '../reading/tree.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { changeOf, type Edit, isChange } from './change.ts';
import { changed, VariedText } from './changed.ts';
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
 * same as changing the text with `splice` and reading it again; gives nothing where `splice` refuses.
 */
export function vary(
  machine: Machine,
  path: string,
  value: string | undefined,
  variation: Variation = {},
): Machine | undefined {
  const edit = { path, value, at: variation.at ?? 'here' };
  return patched(machine, edit) ?? reread(machine, edit);
}

/** What a machine that was varied the quick way differs in from the machine that was read. */
const changes = new WeakMap<Machine, readonly Edit[]>();

/** Whether a machine says something else than the text it was read from. */
export const isVaried = (machine: Machine): boolean =>
  changes.has(machine) || machine.parsed.source instanceof VariedText;

// ── the quick way: a value that is written where it is asked for is read again alone ─────────────────────────────────

function patched(machine: Machine, edit: Edit): Machine | undefined {
  const { reading } = machine;
  const { path, value, at } = edit;
  const asked = reading.places.get(path);
  if (
    asked?.node.kind !== 'leaf' ||
    asked.section.isTable ||
    value === undefined ||
    value === 'open' ||
    value === 'unknown'
  )
    return undefined;
  if (at === 'here' && asked.writtenAt !== path) return undefined;
  if (machine.set.length > 0 || reading.problems.length > 0 || reading.remarks.length > 0) return undefined;
  if (nodeOf(value).kind !== 'leaf') return undefined;
  // The name of a part can become a map of others that share it; then more depends on it than the places of its own.
  const sharedAsMap = reading.sharing(`${asked.writtenAt}.part`).length > 0;
  if (sharedAsMap || nameForm.test(value) !== nameForm.test(asked.node.text)) return undefined;
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
  changes.set(varied, [...(changes.get(machine) ?? []), edit]);
  return varied;
}

/** The value tree with what stands at a path replaced; nothing when the tree holds no value of that path. */
function replaceAt(tree: unknown, path: string, by: unknown, at = ''): unknown {
  if (typeof tree !== 'object' || tree === null || tree instanceof Quantity) return undefined;
  if (Array.isArray(tree)) {
    const index = tree.findIndex((each) => leadsTo(pathOf(each), path));
    const own = index < 0 ? '' : pathOf(tree[index]);
    const next = own === path ? named(tree[index], by) : replaceAt(tree[index], path, by, own);
    return next === undefined ? undefined : tree.with(index, next);
  }
  const key = Object.keys(tree).find((each) => leadsTo(at === '' ? each : `${at}.${each}`, path));
  if (key === undefined) return undefined;
  const own = at === '' ? key : `${at}.${key}`;
  const next = own === path ? by : replaceAt((tree as Record<string, unknown>)[key], path, by, own);
  return next === undefined ? undefined : { ...tree, [key]: next };
}

/** An entry of a group has its name beside what its field reads. */
const named = (entry: object, read: unknown): unknown =>
  'name' in entry ? { ...(read as object), name: entry.name } : read;

const leadsTo = (own: string, path: string): boolean =>
  path === own || (path.startsWith(own) && path[own.length] === '.');

const pathOf = (value: unknown): string =>
  value instanceof Quantity ? value.about : ((value as { path?: string } | undefined)?.path ?? '');

// ── the whole way: the tree is changed and read again ────────────────────────────────────────────────────────────────

function reread(machine: Machine, last: Edit): Machine | undefined {
  // A machine that was varied the quick way has trees of before; the changes since then are made in them first.
  const done = changes.get(machine) ?? [];
  let state: Machine | undefined = done.length > 0 ? readParsed(machine.parsed, machine.tables) : machine;
  for (const each of [...done, last]) state = state && withChange(state, each);
  return state;
}

function withChange(machine: Machine, edit: Edit): Machine | undefined {
  const change = changeOf(machine, edit);
  return isChange(change) ? readParsed(changed(machine.parsed, change), machine.tables) : undefined;
}
