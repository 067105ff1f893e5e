// Edits of a machine file's text: a value changed, added or removed, every byte outside the reported range unchanged.

import { addedText, isBlock, type NewChild, removedText, replacedText, sectionLines } from '../reading/edit-text.ts';
import { childrenOf, lastOf, rootOf, saysTheSame, shiftedEntry, stepInto, type Trail } from '../reading/edit-tree.ts';
import { breakOf, isBlankLine, lineEnd, lineStart, nextLine, type TextEdit, withoutLines } from '../reading/lines.ts';
import { type ParsedText, type PlacedSection, parseText } from '../reading/parse.ts';
import { type Change, type Choice, changeOf, type Edit, isChange, type Line } from './change.ts';
import { changed } from './changed.ts';
import { type Machine, read } from './machine.ts';
import { hasLines, isGroup, type Outline, under } from './outline.ts';
import { isVaried } from './vary.ts';
import { type Refusal, refused } from './written.ts';

export type SpliceResult = TextSplice | Choice | Refusal;

/** What stood from `from` up to `to` (offsets in the old text) became `insert`; `text` is the whole new text. */
export interface TextSplice extends TextEdit {
  readonly kind: 'edit';
  readonly text: string;
  /** The new text, parsed already: `read` takes it for its `previous`. */
  readonly parsed: ParsedText;
}

/**
 * Edits the text that a machine was read from. An inherited value without `at` gives the choice between both ways; what
 * cannot be edited is refused with a remedy. Read again, the new text is the machine that `vary` gives. Never throws.
 */
export function splice(machine: Machine, edit: Edit): SpliceResult {
  const change = changeOf(machine, edit);
  if (!isChange(change)) return change;
  const { text } = machine.parsed.source;
  if (isVaried(machine))
    return refused(
      'this machine was varied and has no text of its own',
      'Edit the machine that was read from the file.',
    );
  const { from, to, insert } = change.kind === 'add-section' ? newSection(machine, change) : inSection(text, change);
  const after = text.slice(0, from) + insert + text.slice(to);
  const parsed = parseText(machine.file, after, machine.parsed);
  if (readsAsMeant(machine, change, parsed)) return { kind: 'edit', from, to, insert, text: after, parsed };
  return refused(
    `the text around '${edit.path}' is laid out in a way that this edit would break`,
    'Change it in the file by hand.',
  );
}

export interface Splices {
  readonly kind: 'edits';
  /** Each in the text that the one before it made; one that changes nothing is left out. */
  readonly edits: readonly TextEdit[];
  /** Read from the text that the last one made. */
  readonly machine: Machine;
}

/** Several edits one behind another: all of them, or what the first that cannot be made says. */
export function spliceEach(machine: Machine, edits: readonly Edit[]): Splices | Choice | Refusal {
  const made: TextEdit[] = [];
  let after = machine;
  for (const edit of edits) {
    const result = splice(after, edit);
    if (result.kind !== 'edit') return result;
    const { from, to, insert, text, parsed } = result;
    if (text === after.parsed.source.text) continue;
    made.push({ from, to, insert });
    after = read(text, { file: machine.file, previous: { parsed }, tables: machine.tables });
  }
  return { kind: 'edits', edits: made, machine: after };
}

/** Whether the new text has the trees that are meant, and no defects beside those that it had. */
function readsAsMeant({ parsed }: Machine, change: Change, found: ParsedText): boolean {
  const meant = changed(parsed, change);
  return (
    found.defects.length === parsed.defects.length &&
    found.sections.length === meant.sections.length &&
    found.sections.every((section, at) => {
      const due = meant.sections[at]!.parsed;
      if (section.parsed === due || section.parsed.entry === undefined) return section.parsed.text === due.text;
      const { entry, defects } = section.parsed;
      return (
        defects.length === due.defects.length &&
        entry.key === due.entry?.key &&
        saysTheSame(entry.value, due.entry.value)
      );
    })
  );
}

type Added = Extract<Change, { depth: number }>;

// ── inside a section ─────────────────────────────────────────────────────────────────────────────────────────────────

function inSection(text: string, change: Exclude<Change, { kind: 'add-section' }>): TextEdit {
  const trail = inText(change.section, change.trail);
  if (change.kind === 'replace') return replacedText(text, trail, change.line.value);
  if (change.kind === 'add') return addedText(text, trail, newChild(text, change, trail));
  if (trail.length > 1) return removedText(text, trail);
  return withoutLines(text, change.section.start, endOfSection(text, change.section));
}

/** The trail with spans that count from the start of the text. */
function inText({ parsed, start }: PlacedSection, trail: Trail): Trail {
  const way = [...rootOf(shiftedEntry(parsed.entry!, start))];
  for (const { index } of trail.slice(1)) way.push(stepInto(lastOf(way).node, index));
  return way;
}

/** How a new child is written: as the format suggests, and among entries with names as the last of them is. */
function newChild(text: string, { index, line, depth, outline }: Added, above: Trail): NewChild {
  const parent = above.at(-1)?.node;
  const siblings = parent?.kind === 'map' && isGroup(outline) ? childrenOf(parent) : [];
  const model = siblings.findLast((node) => node.kind === 'map' && node.entries.length > 0);
  const usual = levelsOf(line, depth, under(outline, line.key), above.length);
  const levels = model === undefined ? usual : isBlock(text, model) ? Math.max(usual, Math.min(depth, 1)) : 0;
  return { index, key: line.key, value: line.value, levels, opens: hasLines(outline, above.length - 1) };
}

/** How many levels of what is added, from its top, usually have lines of their own. */
function levelsOf({ value }: Pick<Line, 'value'>, left: number, outline: Outline, depth: number): number {
  if (left === 0 || !hasLines(outline, depth)) return 0;
  const key = value.kind === 'map' ? value.entries[0]!.key : undefined;
  return 1 + levelsOf({ value: childrenOf(value)[0]! }, left - 1, under(outline, key), depth + 1);
}

// ── sections ─────────────────────────────────────────────────────────────────────────────────────────────────────────

/** A new section stands in the order of the format, apart from its neighbours where the file keeps them apart. */
function newSection(machine: Machine, change: Extract<Change, { kind: 'add-section' }>): TextEdit {
  const { source, sections } = machine.parsed;
  const { text } = source;
  const line = breakOf(text);
  const lines = sectionLines(text, newChild(text, change, []));
  const [first] = sections;
  if (first === undefined) {
    const lead = text === '' ? '' : (text.endsWith('\n') ? '' : line) + (text.trim() === '' ? '' : line);
    return { from: text.length, to: text.length, insert: lead + lines + line };
  }
  const ends = sections.map((section) => endOfSection(text, section));
  const apart =
    sections.length < 2 || sections.some(({ start }, at) => at > 0 && hasBlankLine(text, ends[at - 1]!, start));
  const gap = apart ? line : '';
  const before = ends[change.index - 1];
  if (before !== undefined) {
    const follows = nextLine(text, before) < text.length && !isBlankLine(text, nextLine(text, before));
    return { from: before, to: before, insert: line + gap + lines + (follows ? gap : '') };
  }
  const at = aboveComments(text, first.start);
  return { from: at, to: at, insert: lines + line + gap };
}

/** The end of the last line of a section; blank lines and comments in the first column behind it are not its own. */
function endOfSection(text: string, { start, parsed }: PlacedSection): number {
  let line = lineStart(text, start + parsed.text.length - 1);
  while (line > start && (isBlankLine(text, line) || text[line] === '#')) line = lineStart(text, line - 1);
  return lineEnd(text, line);
}

const hasBlankLine = (text: string, from: number, to: number): boolean => /\n[ \t]*\r?\n/.test(text.slice(from, to));

/** Comments right above a section belong to it, where a blank line parts them from the head of the file. */
function aboveComments(text: string, start: number): number {
  let at = start;
  while (at > 0 && text[lineStart(text, at - 1)] === '#') at = lineStart(text, at - 1);
  return at > 0 && isBlankLine(text, at - 1) ? at : start;
}
