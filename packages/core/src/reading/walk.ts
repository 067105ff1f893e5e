// Steps through a tree while reading: to a child, over the entries of a map, over the items of a list.
import { listed } from '../problems/wording.ts';
import { nearest } from '../units/nearest.ts';
import type { Cursor, Reading } from './reading.ts';
import { type Entry, entryOf, type Node, nounOf, type Span } from './tree.ts';

/** The cursor of the entry of a key, or nothing. */
export function child(at: Cursor, key: string, reading: Reading): Cursor | undefined {
  const entry = entryOf(at.node, key);
  return entry === undefined ? undefined : enter(at, entry, reading);
}

export const enter = (at: Cursor, entry: Entry, reading: Reading): Cursor =>
  step(at, entry.key, entry.value, entry.keySpan, reading);

/** The cursor of an item of a list, under the name that its path has. */
export const item = (at: Cursor, name: string, node: Node, reading: Reading): Cursor =>
  step(at, name, node, node, reading);

function step(at: Cursor, name: string, node: Node, keySpan: Span, reading: Reading): Cursor {
  const path = at.path === '' ? name : `${at.path}.${name}`;
  const cursor = node.kind === 'leaf' && node.text === 'open' ? reading.planned(path) : undefined;
  return reading.meet(cursor ?? placedAt(at, path, name, node, keySpan));
}

function placedAt(at: Cursor, path: string, name: string, node: Node, keySpan: Span): Cursor {
  const shared = node.shared;
  if (shared !== undefined)
    return { node, path, writtenAt: shared.path, via: shared.via, keySpan: shared.keySpan, section: shared.section };
  const writtenAt = at.writtenAt === at.path ? path : `${at.writtenAt}.${name}`;
  return { node, path, writtenAt, via: at.via, keySpan, section: at.section };
}

/** Whether a map stands here; reports it when not. `due` says what the map describes. */
export function expectMap(at: Cursor, reading: Reading, due: string): boolean {
  if (at.node.kind === 'map') return true;
  reading.problem(at, 'value', {
    code: 'map-expected',
    message: `keys are due here (${due}); ${nounOf(at.node)} stands here`,
    remedy: "Write 'key: value' lines, indented, or { key: value, key: value }.",
  });
  return false;
}

/** Reports each key that is none of `known`, with the nearest spelling. */
export function knownKeys(at: Cursor, known: readonly string[], reading: Reading): void {
  if (at.node.kind !== 'map') return;
  for (const entry of at.node.entries) {
    if (known.includes(entry.key)) continue;
    const near = nearest(entry.key, known);
    reading.problem(enter(at, entry, reading), 'key', {
      code: 'key-unknown',
      message: `the key '${entry.key}' is not known here`,
      remedy: `${near === undefined ? '' : `Did you mean '${near}'? `}The keys that can stand here: ${listed(known)}.`,
      instead: near,
    });
  }
}
