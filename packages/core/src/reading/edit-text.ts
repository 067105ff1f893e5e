// Changes in the text of plain trees: a node replaced, removed or added, every other byte left as it is.
// Spans count from the start of the text; lines, columns and brackets around the change say how it is to be written.
import { childrenOf, lastOf, type Step, stepInto, type Trail } from './edit-tree.ts';
import {
  blockEnd,
  breakOf,
  columnOf,
  joined,
  keepColumn,
  lineEnd,
  lineStart,
  nextLine,
  opensLine,
  type TextEdit,
  withoutLines,
} from './lines.ts';
import { printKey, printNode } from './print-node.ts';
import type { Node, Span } from './tree.ts';

/** A child to be added: an entry, or an item where it has no key. */
export interface NewChild {
  readonly index: number;
  readonly key: string | undefined;
  readonly value: Node;
  /** How many levels of its value get lines of their own where the text around it has lines; the rest gets brackets. */
  readonly levels: number;
  /** Whether a parent that has nothing yet gets lines of its own, not brackets. */
  readonly opens: boolean;
}

// ── replace ──────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The last node of the trail gives way to another. */
export function replacedText(text: string, trail: Trail, by: Node): TextEdit {
  const step = lastOf(trail);
  const { node, keySpan } = step;
  const printed = printNode(by, isInBrackets(text, trail) ? 'flow' : 'block');
  if (isEmpty(node)) return keepColumn(text, filled(text, step, printed));
  if (!isBlock(text, node)) return keepColumn(text, { from: node.from, to: endOf(text, step), insert: printed });
  if (keySpan === undefined || !opensLine(text, node.from))
    return { from: node.from, to: lineEnd(text, endOf(text, step)), insert: printed };
  const block = {
    from: lineEnd(text, keySpan.to),
    to: blockEnd(text, endOf(text, step), columnOf(text, keySpan.from)),
  };
  return joined(text, keepColumn(text, filled(text, step, printed)), { ...block, insert: '' });
}

/** Puts a value behind the colon of a key, or the dash of an item, that has none. */
function filled(text: string, { node, keySpan }: Step, printed: string): TextEdit {
  if (keySpan === undefined) {
    const dash = text.lastIndexOf('-', node.from) + 1;
    return { from: dash, to: dash, insert: ` ${printed}` };
  }
  const colon = colonAfter(text, keySpan);
  return {
    from: colon ?? keySpan.to,
    to: colon ?? keySpan.to,
    insert: colon === undefined ? `: ${printed}` : ` ${printed}`,
  };
}

// ── remove ───────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The last node of the trail goes, with its key; the trail has at least two steps. */
export function removedText(text: string, trail: Trail): TextEdit {
  const above = trail.slice(0, -1);
  const parent = lastOf(above).node;
  const { index } = lastOf(trail);
  if (!isBlock(text, parent)) return keepColumn(text, outOfBrackets(text, parent, index));
  const start = startOf(text, parent, index);
  const end = blockEnd(text, endOf(text, lastOf(trail)), columnOf(text, start));
  if (childrenOf(parent).length === 1) return emptied(text, above, start, end);
  if (opensLine(text, start)) return withoutLines(text, lineStart(text, start), end);
  // The first one, on the line of a dash: the next one comes up to the dash, unless comments stand between.
  const next = startOf(text, parent, index + 1);
  if (text.slice(end, next).trim() === '') return { from: start, to: next, insert: '' };
  return { from: text.slice(0, start).trimEnd().length, to: end, insert: '' };
}

/** A block loses its only child: brackets with nothing in them say that it is empty, and comments in it stay. */
function emptied(text: string, trail: Trail, start: number, end: number): TextEdit {
  const step = lastOf(trail);
  const printed = step.node.kind === 'map' ? '{}' : '[]';
  if (step.keySpan === undefined || !opensLine(text, start)) return { from: start, to: end, insert: printed };
  return joined(text, keepColumn(text, filled(text, step, printed)), withoutLines(text, lineStart(text, start), end));
}

function outOfBrackets(text: string, parent: Node, index: number): TextEdit {
  const start = startOf(text, parent, index);
  const end = endOf(text, stepInto(parent, index));
  const comma = /^\s*,/.exec(text.slice(end))?.[0].length ?? 0;
  const behind = end + comma;
  if (opensLine(text, start) && isLineRest(text, behind))
    return withoutLines(text, lineStart(text, start), lineEnd(text, behind));
  if (childrenOf(parent).length === 1) {
    const inside = { from: parent.from + 1, to: parent.to - 1 };
    return text.slice(inside.from, start).trim() === '' && text.slice(behind, inside.to).trim() === ''
      ? { ...inside, insert: '' }
      : { from: start, to: behind, insert: '' };
  }
  const isLast = index === childrenOf(parent).length - 1;
  const next = isLast ? undefined : startOf(text, parent, index + 1);
  if (next !== undefined && !text.slice(start, next).includes('\n')) return { from: start, to: next, insert: '' };
  const before = index === 0 ? undefined : endOf(text, stepInto(parent, index - 1));
  if (before !== undefined && !text.slice(before, end).includes('\n')) return { from: before, to: end, insert: '' };
  return { from: start, to: behind, insert: '' };
}

/** Whether nothing but a comment follows on the line. */
const isLineRest = (text: string, at: number): boolean => /^[ \t]*(?:$|#)/.test(text.slice(at, lineEnd(text, at)));

// ── add ──────────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The last node of the trail, a map or list or nothing yet, gets one child more. */
export function addedText(text: string, trail: Trail, child: NewChild): TextEdit {
  const step = lastOf(trail);
  const inBrackets = isInBrackets(text, trail);
  if (isBlock(text, step.node)) return intoBlock(text, trail, child);
  const blank =
    isEmpty(step.node) || (step.node.kind !== 'leaf' && /^.\s*.$/.test(text.slice(step.node.from, step.node.to)));
  if (blank && child.opens && !inBrackets && step.keySpan !== undefined) return opened(text, step, step.keySpan, child);
  if (step.node.kind !== 'leaf') return keepColumn(text, intoBrackets(text, step.node, child));
  return replacedText(text, trail, wrapped(child));
}

/** The first line under a key that had nothing, or empty brackets. */
function opened(text: string, step: Step, key: Span, child: NewChild): TextEdit {
  const colon = colonAfter(text, key) ?? key.to;
  const emptied = keepColumn(text, { from: colon, to: Math.max(colon, endOf(text, step)), insert: '' });
  const end = lineEnd(text, emptied.to);
  const lines = linesOf(text, child, columnOf(text, key.from) + indentStep(text), child.levels);
  return joined(text, emptied, { from: end, to: end, insert: breakOf(text) + lines });
}

const wrapped = ({ key, value }: NewChild): Node =>
  key === undefined
    ? { kind: 'list', from: 0, to: 0, items: [value] }
    : { kind: 'map', from: 0, to: 0, entries: [{ key, keySpan: value, value }] };

function intoBlock(text: string, trail: Trail, child: NewChild): TextEdit {
  const { node, keySpan } = lastOf(trail);
  const first = startOf(text, node, 0);
  const column = columnOf(text, first);
  const lines = linesOf(text, child, column, child.levels, columnOfValues(text, node, child.index));
  if (child.index > 0) {
    const own = startOf(text, node, child.index - 1);
    const end = blockEnd(text, endOf(text, stepInto(node, child.index - 1)), columnOf(text, own));
    return { from: end, to: end, insert: breakOf(text) + lines };
  }
  if (keySpan === undefined || !opensLine(text, first))
    return { from: first, to: first, insert: lines.trimStart() + breakOf(text) + ' '.repeat(column) };
  const end = lineEnd(text, keySpan.to);
  return { from: end, to: end, insert: breakOf(text) + lines };
}

function intoBrackets(text: string, parent: Node, { index, key, value }: NewChild): TextEdit {
  const printed = (key === undefined ? '' : `${printKey(key, 'flow')}: `) + printNode(value, 'flow');
  const count = childrenOf(parent).length;
  if (count === 0) {
    if (text.slice(parent.from, parent.to).includes('\n'))
      return { from: parent.from + 1, to: parent.from + 1, insert: ` ${printed}` };
    return { from: parent.from, to: parent.to, insert: key === undefined ? `[${printed}]` : `{ ${printed} }` };
  }
  const neighbour = Math.max(0, index - 1);
  const start = startOf(text, parent, neighbour);
  const end = endOf(text, stepInto(parent, neighbour));
  const ownLine = opensLine(text, start);
  const margin = breakOf(text) + ' '.repeat(columnOf(text, start));
  if (index === 0) return { from: start, to: start, insert: `${printed},${ownLine ? margin : ' '}` };
  const comma = /^[ \t]*,/.exec(text.slice(end, lineEnd(text, end)))?.[0].length ?? 0;
  if (!ownLine || !isLineRest(text, end + comma)) return { from: end, to: end, insert: `, ${printed}` };
  const lineStop = lineEnd(text, end);
  if (comma > 0) return { from: lineStop, to: lineStop, insert: `${margin}${printed},` };
  const withComma = keepColumn(text, { from: end, to: end, insert: ',' });
  return joined(text, withComma, { from: lineStop, to: lineStop, insert: margin + printed });
}

/** The lines of a new child, without a line break at the end. */
function linesOf(text: string, child: NewChild, column: number, levels: number, valueColumn = 0): string {
  const { key, value } = child;
  const head = ' '.repeat(column) + (key === undefined ? '-' : `${printKey(key, 'block')}:`);
  const [only] = childrenOf(value);
  if (levels <= 0 || only === undefined) {
    const gap = Math.max(1, valueColumn - head.length);
    return head + ' '.repeat(gap) + printNode(value, 'block');
  }
  const inner = {
    index: 0,
    key: value.kind === 'map' ? value.entries[0]!.key : undefined,
    value: only,
    levels,
    opens: true,
  };
  return head + breakOf(text) + linesOf(text, inner, column + indentStep(text), levels - 1);
}

/** The lines of a section: a child of the file. */
export const sectionLines = (text: string, child: NewChild): string => linesOf(text, child, 0, child.levels);

/** The column in which the values of a block are aligned; 0 when they are not. */
function columnOfValues(text: string, block: Node, index: number): number {
  if (block.kind !== 'map') return 0;
  const onOneLine = block.entries.flatMap(({ keySpan, value }, at) => {
    const colon = colonAfter(text, keySpan);
    if (colon === undefined || isEmpty(value) || value.from > lineEnd(text, keySpan.to)) return [];
    return [{ at, gap: value.from - colon, column: columnOf(text, value.from) }];
  });
  const model = onOneLine.findLast(({ at }) => at < index) ?? onOneLine[0];
  return onOneLine.some(({ gap, column }) => gap > 1 && column === model!.column) ? model!.column : 0;
}

/** By how many columns the text indents (two where it does not). */
const indentStep = (text: string): number => /^ +(?=[^\s#-])/m.exec(text)?.[0].length ?? 2;

// ── where things stand ───────────────────────────────────────────────────────────────────────────────────────────────

const isEmpty = (node: Node): boolean => node.kind === 'leaf' && !node.quoted && node.text === '';

/** Whether a map or list has lines of its own instead of brackets. */
export const isBlock = (text: string, node: Node): boolean => node.kind !== 'leaf' && !/[{[]/.test(text[node.from]!);

const isInBrackets = (text: string, trail: Trail): boolean =>
  trail.slice(0, -1).some(({ node }) => node.kind !== 'leaf' && !isBlock(text, node));

/** Where a child starts: at its key, at the dash of an item, at an item in brackets. */
function startOf(text: string, parent: Node, index: number): number {
  const { node, keySpan } = stepInto(parent, index);
  if (keySpan !== undefined) return keySpan.from;
  if (!isBlock(text, parent)) return node.from;
  if (index === 0) return parent.from;
  let at = endOf(text, stepInto(parent, index - 1));
  do at = nextLine(text, at);
  while (at < text.length && !/^\s*-/.test(text.slice(at, lineEnd(text, at))));
  return at + /^\s*/.exec(text.slice(at))![0].length;
}

/** Where the content of a child ends; the span of a block itself reaches over comments and blank lines behind it. */
function endOf(text: string, { node, keySpan }: Step): number {
  if (isEmpty(node)) return keySpan === undefined ? node.from : (colonAfter(text, keySpan) ?? keySpan.to);
  const children = childrenOf(node);
  if (isBlock(text, node) && children.length > 0) return endOf(text, stepInto(node, children.length - 1));
  return text.slice(0, node.to).trimEnd().length;
}

/** The offset behind the colon of a key. */
function colonAfter(text: string, key: Span): number | undefined {
  const found = /^[ \t]*:/.exec(text.slice(key.to, lineEnd(text, key.to)));
  return found === null ? undefined : key.to + found[0].length;
}
