// What an edit at a path means for the tree as it is written: which node gives way, goes, or gets a child more.
// Text and trees are changed by the same decision, so that an edit of the text and a machine without text agree.
import { besidePart, type Child, lastOf, nested, shiftedEntry, type Trail } from '../reading/edit-tree.ts';
import { type PlacedSection, parseText } from '../reading/parse.ts';
import { nodeOf, printKey, printNode } from '../reading/print-node.ts';
import type { Cursor } from '../reading/reading.ts';
import type { Node } from '../reading/tree.ts';
import type { Machine } from './machine.ts';
import { keysUnder, type Outline, placeAmong, segmentsOf, takesPart, under, wholeFile } from './outline.ts';
import { type Refusal, refused, type Written, writtenPart } from './written.ts';

export interface Edit {
  readonly path: string;
  /** As the user types it: a text, or a map or list in brackets on one line. Undefined removes what stands there. */
  readonly value: string | undefined;
  /** For an inherited value: `here` gives the entry one of its own, `source` changes it where it is written. */
  readonly at?: 'here' | 'source';
}

/** The value is inherited: whether it shall change here or at its source is for the user to say. */
export interface Choice {
  readonly kind: 'choice';
  /** The path that was asked for. */
  readonly here: string;
  /** The path at which the value is written. */
  readonly source: string;
  /** All paths that take their value from there. */
  readonly shared: readonly string[];
}

/** What happens to the tree of a section. */
export type Change =
  | (Place & { readonly kind: 'replace'; readonly line: Line })
  | (Place & { readonly kind: 'remove' })
  | (Place & Addition & { readonly kind: 'add' })
  | (Addition & { readonly kind: 'add-section' });

interface Place {
  readonly section: PlacedSection;
  readonly trail: Trail;
}

interface Addition {
  readonly index: number;
  readonly line: Line;
  /** How many levels of the value lead to what the user typed. */
  readonly depth: number;
  /** What the format knows of the place that it is added to. */
  readonly outline: Outline;
}

/** What is new, written on a line of its own; its spans count from the start of that line. */
export interface Line extends Child {
  readonly text: string;
}

/** The change that an edit asks for. */
export function changeOf(machine: Machine, edit: Edit): Change | Choice | Refusal {
  const { path, value, at } = edit;
  const segments = segmentsOf(path);
  if (segments.includes('')) return refused(`'${path}' is no path`, 'Write names with points between them.');
  const asked = machine.reading.places.get(path);
  const inherited = asked !== undefined && asked.writtenAt !== path;
  if (inherited && at === undefined)
    return { kind: 'choice', here: path, source: asked.writtenAt, shared: sharing(machine, asked) };
  const written = writtenPart(machine, segments, at ?? 'here');
  if (written === undefined) return newSection(machine, edit, segments);
  if ('kind' in written) return written;
  const { section, trail, rest } = written;
  const slip = slipOf(machine, section);
  if (slip !== undefined) return slip;
  if (rest.length > 0) return addition(edit, written, inherited ? asked.writtenAt : undefined);
  if (value === undefined) return { kind: 'remove', section, trail };
  const line = lineOf(undefined, nodeOf(value));
  return line === undefined ? tooDeep(path) : { kind: 'replace', section, trail, line };
}

/** The line, from the text that it would be; nothing when no file could hold it. */
function lineOf(key: string | undefined, value: Node): Line | undefined {
  const text = `${key === undefined ? 'v' : printKey(key, 'block')}: ${printNode(value, 'block')}`;
  const entry = parseText('', text).sections[0]?.parsed.entry;
  if (entry === undefined) return undefined;
  return key === undefined ? { ...shiftedEntry(entry, -3), key, text: text.slice(3) } : { ...entry, text };
}

const tooDeep = (path: string): Refusal =>
  refused(`what would stand at '${path}' is nested deeper than any file may be`, 'Write a simpler value.');

/** The other paths whose value stands where that of the cursor does. */
const sharing = (machine: Machine, asked: Cursor): readonly string[] =>
  [...machine.reading.places.values()]
    .filter(
      ({ path, section, node }) =>
        path !== asked.writtenAt &&
        section.parsed === asked.section.parsed &&
        node.from === asked.node.from &&
        node.to === asked.node.to,
    )
    .map(({ path }) => path);

/** A section whose text cannot be read, or that stands twice, is mended by hand first. */
function slipOf(machine: Machine, { parsed, start }: PlacedSection): Refusal | undefined {
  const key = parsed.entry?.key;
  const twice = machine.parsed.defects.some(({ other }) => other?.span.from === start);
  return parsed.defects.length === 0 && !twice
    ? undefined
    : refused(
        `the section '${key}' has a mistake in its text`,
        'Mend it first; the problems of the file say where it is.',
      );
}

// ── what is added ────────────────────────────────────────────────────────────────────────────────────────────────────

function addition({ path, value }: Edit, written: Written, source?: string): Change | Refusal {
  const { section, trail, rest, at, outline } = written;
  if (value === undefined) {
    return source === undefined
      ? refused(`nothing stands at '${path}'`, 'There is nothing to remove.')
      : refused(`nothing is written at '${path}' itself; its value comes from ${source}`, `Remove it at ${source}.`);
  }
  const { node } = lastOf(trail);
  const count = node.kind === 'list' ? node.items.length : 0;
  const keys = node.kind === 'list' ? keysIn(count, outline, rest) : keysUnder(outline, rest);
  if (keys === undefined || (keys[0] === undefined && node.kind === 'map'))
    return refused(`the list at '${at}' has no '${rest[0]}'`, `Write ${at}.${count} to add to it.`);
  const given = nodeOf(value);
  if (node.kind === 'leaf' && node.text !== '') {
    if (!takesPart(outline) || keys[0] === 'part')
      return refused(`'${node.text}' stands where '${path}' needs keys`, `Write the whole of ${at} anew.`);
    const line = lineOf(undefined, besidePart(node, keys, given));
    return line === undefined ? tooDeep(path) : { kind: 'replace', section, trail, line };
  }
  const [key, ...inner] = keys;
  const line = lineOf(key, nested(inner, given));
  const index = node.kind === 'map' ? placeAmong(node.entries, key!, outline) : count;
  return line === undefined
    ? tooDeep(path)
    : { kind: 'add', section, trail, index, line, depth: inner.length, outline };
}

/** A list takes one item more, behind its last one. */
function keysIn(
  count: number,
  outline: Outline,
  [first, ...others]: readonly string[],
): readonly (string | undefined)[] | undefined {
  const keys = first === String(count) ? keysUnder(under(outline, undefined), others) : undefined;
  return keys && [undefined, ...keys];
}

function newSection(machine: Machine, { path, value }: Edit, segments: readonly string[]): Change | Refusal {
  if (value === undefined) return refused(`nothing stands at '${path}'`, 'There is nothing to remove.');
  const { sections, defects, source } = machine.parsed;
  const unread = sections.find(({ parsed }) => parsed.entry === undefined);
  if (unread !== undefined || (sections.length === 0 && defects.length > 0 && source.text.trim() !== '')) {
    return refused('a part of the file cannot be read', 'Mend it first; the problems of the file say where it is.');
  }
  const [key, ...inner] = keysUnder(wholeFile, segments) ?? [];
  if (key === undefined) return refused(`'${path}' leads into a list that is not there`, 'Write 0 for its first item.');
  const index = placeAmong(
    sections.map(({ parsed }) => ({ key: parsed.entry!.key })),
    key,
    wholeFile,
  );
  const line = lineOf(key, nested(inner, nodeOf(value)));
  return line === undefined
    ? tooDeep(path)
    : { kind: 'add-section', index, line, depth: inner.length, outline: wholeFile };
}

export const isChange = (found: Change | Choice | Refusal): found is Change =>
  found.kind !== 'choice' && found.kind !== 'refused';
