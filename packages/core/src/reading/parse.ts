// From text to plain trees, one top-level section at a time, so that an unchanged section is not parsed again.
import { isAlias, isMap, isScalar, isSeq, type ParsedNode, parseDocument, Scalar, type Node as YamlNode } from 'yaml';
import type { ProblemCode } from '../problems/codes.ts';
import type { Place } from '../problems/problem.ts';
import { SourceText } from './source-text.ts';
import type { Entry, Node, Span } from './tree.ts';

/** A defect that is found before the meaning of the text plays a part. */
export interface Defect extends Span {
  readonly code: ProblemCode;
  readonly message: string;
  readonly remedy: string;
  readonly other?: { readonly span: Span; readonly message: string };
}

/** One top-level key with all that belongs to it. Spans count from `start`. */
export interface ParsedSection {
  readonly text: string;
  readonly entry: Entry | undefined;
  readonly defects: readonly Defect[];
  /** The text could not be parsed to its end: what was read of it may be something else than what was meant. */
  readonly broken: boolean;
}

export interface PlacedSection {
  readonly source: SourceText;
  readonly start: number;
  readonly parsed: ParsedSection;
  /** A table beside the machine file, which no edit of the machine file reaches. */
  readonly isTable?: true;
}

export interface ParsedText {
  readonly source: SourceText;
  readonly sections: readonly PlacedSection[];
  /** Defects of the text as a whole; spans count from its start. */
  readonly defects: readonly Defect[];
}

/** Texts larger than this are refused before they are parsed (our judgement: fifty times the largest example). */
export const largestText_octets = 2_000_000;
/** Deeper nesting than this is refused before it is parsed (our judgement: no machine needs ten). */
export const deepestNesting = 32;

/** Parses a text. Sections whose text stands in `previous` unchanged are taken from there. Never throws. */
export function parseText(file: string, text: string, previous?: ParsedText): ParsedText {
  const source = new SourceText(file, text);
  const refusal = refuse(text);
  if (refusal !== undefined) return { source, sections: [], defects: [refusal] };
  const known = new Map(previous?.sections.map((section) => [section.parsed.text, section.parsed]));
  const defects: Defect[] = [];
  const sections = cut(text, defects).map((span): PlacedSection => {
    const own = text.slice(span.from, span.to);
    return { source, start: span.from, parsed: known.get(own) ?? parseSection(own) };
  });
  const first = new Map<string, PlacedSection>();
  for (const section of sections) {
    const entry = section.parsed.entry;
    if (entry === undefined) continue;
    const other = first.get(entry.key);
    if (other === undefined) first.set(entry.key, section);
    else {
      defects.push({
        ...shift(entry.keySpan, section.start),
        ...twice(entry.key),
        other: { span: shift(other.parsed.entry!.keySpan, other.start), message: 'it stands here already' },
      });
    }
  }
  return {
    source,
    sections: sections.filter((each) => each.parsed.entry === undefined || first.get(each.parsed.entry.key) === each),
    defects,
  };
}

/** The place of a span of a section. */
export const placeIn = (section: PlacedSection, span: Span): Place =>
  section.source.place(section.start + span.from, section.start + span.to);

export const shift = (span: Span, by: number): Span => ({ from: span.from + by, to: span.to + by });

const twice = (key: string) => ({
  code: 'key-twice' as const,
  message: `'${key}' stands twice`,
  remedy: 'Keep one of the two; the first one is read.',
});

function refuse(text: string): Defect | undefined {
  const whole = { from: 0, to: 1 };
  if (text.length > largestText_octets) {
    return {
      ...whole,
      code: 'text-too-large',
      message: `the file has ${text.length} characters; at most ${largestText_octets} are read`,
      remedy: 'Split the machine, or look whether this is the right file.',
    };
  }
  return scan(text) ?? tooDeepByIndent(text);
}

/** One pass over the characters: what no plain text has (control characters, what a wrong encoding leaves), and brackets. */
function scan(text: string): Defect | undefined {
  let brackets = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code > 31 && code < 91) continue;
    if (code < 32 ? code !== 10 && code !== 13 && code !== 9 : code === 127 || code === 0xfffd || code === 0xfeff) {
      return {
        from: at,
        to: at + 1,
        code: 'text-not-plain',
        message: 'this is no plain UTF-8 text',
        remedy: 'Save the file as UTF-8 text without control characters.',
      };
    }
    if (code === 91 || code === 123) brackets++;
    else if (code === 93 || code === 125) brackets = Math.max(0, brackets - 1);
    if (brackets > deepestNesting) return deep(at);
  }
  return undefined;
}

/** Nesting by indentation and by list marks on one line, so that the parser never sees a bomb. */
function tooDeepByIndent(text: string): Defect | undefined {
  // Fewer columns before the first word than levels allowed: nothing can be too deep.
  if (!farIn.test(text)) return undefined;
  const indents: number[] = [];
  for (const line of text.matchAll(/^( *)((?:[-?] +)*)[^\s#]/gm)) {
    const indent = line[1]!.length;
    while (indents.length > 0 && indents.at(-1)! >= indent) indents.pop();
    indents.push(indent);
    if (indents.length + line[2]!.split(' ').filter((mark) => mark !== '').length > deepestNesting)
      return deep(line.index);
  }
  return undefined;
}

const farIn = new RegExp(`^[-? ]{${deepestNesting}}`, 'm');

const deep = (at: number): Defect => ({
  from: at,
  to: at + 1,
  code: 'nested-too-deep',
  message: `more than ${deepestNesting} levels stand inside one another here`,
  remedy: 'A machine file needs fewer than ten levels; look for a bracket that is not closed.',
});

/** Cuts the text before each line that starts in the first column with something else than a comment. */
function cut(text: string, defects: Defect[]): readonly Span[] {
  const starts: number[] = [];
  for (const line of text.matchAll(/^[^\s#].*$/gm)) {
    if (/^(---|\.\.\.)(\s|$)/.test(line[0]) || line[0].startsWith('%')) {
      if (line[0].trim() === '---' && starts.length === 0) continue;
      defects.push({
        from: line.index,
        to: line.index + line[0].length,
        code: 'yaml',
        message: 'a file holds one machine; document marks and directives are not used',
        remedy: 'Remove this line.',
      });
    } else starts.push(line.index);
  }
  const lead = text.slice(0, starts[0] ?? text.length).match(/^[^\S\n]+[^\s#].*$/m);
  if (lead?.index !== undefined) {
    defects.push({
      from: lead.index,
      to: lead.index + lead[0].length,
      code: 'section-expected',
      message: 'the first section must start in the first column',
      remedy: 'Remove the spaces at the start of this line.',
    });
  }
  return starts.map((from, index) => ({ from, to: starts[index + 1] ?? text.length }));
}

function parseSection(text: string): ParsedSection {
  const defects: Defect[] = [];
  const document = parseDocument(text, {
    schema: 'failsafe',
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'silent',
  });
  // Only the first error is the user's; the others come of it.
  const [error] = document.errors;
  const broken = error !== undefined;
  if (broken) {
    const from = error.pos[0] + leadOf(text, error.pos[0]);
    defects.push({ from, to: Math.max(error.pos[1], from + 1), code: 'yaml', ...wordingOf(error.code, error.message) });
  }
  const root = document.contents as ParsedNode | null;
  const map = root === null ? undefined : toNode(root, broken ? [] : defects);
  if (map?.kind !== 'map' || map.entries.length === 0) {
    if (defects.length === 0) {
      defects.push({
        from: 0,
        to: firstLine(text),
        code: 'section-expected',
        message: 'a section is expected here, such as axes: or networks:',
        remedy: 'Start the line with the name of a section and a colon.',
      });
    }
    return { text, entry: undefined, defects, broken };
  }
  return { text, entry: map.entries[0], defects, broken };
}

/** How much of the text at the start of a line is indentation and comment, before what an error of the line is about. */
const leadOf = (text: string, at: number): number =>
  at > 0 && text[at - 1] !== '\n'
    ? 0
    : (/^(?:[^\S\n]*(?:#.*)?\n)*[^\S\n]*(?=\S)/.exec(text.slice(at))?.[0].length ?? 0);

const firstLine = (text: string): number => Math.max(1, text.split('\n', 1)[0]!.trimEnd().length);

/** The parser's own words are for programmers; these are for the people who write machine files. */
function wordingOf(code: string, message: string): { message: string; remedy: string } {
  const known: Readonly<Record<string, readonly [string, string]>> = {
    BAD_INDENT: [
      'the indentation does not fit the lines around it',
      'Indent keys of one map by the same number of spaces.',
    ],
    TAB_AS_INDENT: ['a tab stands in the indentation', 'Indent with spaces.'],
    MISSING_CHAR: [
      'a colon, comma, bracket or quote is missing here or before',
      'Look at the end of the line above, too.',
    ],
    BAD_COLLECTION_TYPE: ['keys and list items are mixed here', "Use either 'key: value' or '- item' at one level."],
    MULTILINE_IMPLICIT_KEY: ['a key must stand on one line with its colon', "Write 'key: value'."],
    BLOCK_AS_IMPLICIT_KEY: [
      "a value cannot hold 'key: value' on the same line",
      'Put it on a line of its own, indented, or into { }.',
    ],
    BAD_SCALAR_START: [
      'a value cannot start with this character',
      'Put the value in quotes, or write what is missing before it.',
    ],
    UNEXPECTED_TOKEN: [
      'this belongs to nothing that stands before it',
      'Look for a bracket, comma or quote that is one too many, or missing before.',
    ],
    BLOCK_IN_FLOW: ['inside { } and [ ] there are no lines of their own', 'Write { key: value, key: value }.'],
    BAD_DQ_ESCAPE: ['in double quotes a backslash needs another one', 'Use single quotes.'],
    BAD_ALIAS: ['anchors and aliases are not used', 'Use like: to share values.'],
  };
  const found = known[code];
  return found === undefined
    ? {
        message: `the text is not readable here (${message.replace(/\s+at line.*$/s, '')})`,
        remedy: 'Look for a missing bracket, quote or colon, also in the line above.',
      }
    : { message: found[0], remedy: found[1] };
}

function toNode(node: YamlNode, defects: Defect[]): Node {
  const [from, to] = node.range ?? [0, 0];
  forbid(node, from, to, defects);
  if (isScalar(node)) {
    const quoted = node.type === Scalar.QUOTE_DOUBLE || node.type === Scalar.QUOTE_SINGLE;
    return { kind: 'leaf', text: String(node.value ?? ''), quoted, from, to };
  }
  if (isSeq(node))
    return { kind: 'list', items: node.items.map((item) => toNode(item as YamlNode, defects)), from, to };
  if (!isMap(node)) return { kind: 'leaf', text: '', quoted: false, from, to };
  const entries: Entry[] = [];
  const first = new Map<string, Span>();
  for (const pair of node.items) {
    const keyNode = pair.key as YamlNode;
    const key = toNode(keyNode, defects);
    const name = key.kind === 'leaf' ? key.text : '';
    if (key.kind !== 'leaf' || name === '' || name === '<<') {
      defects.push({
        from: key.from,
        to: Math.max(key.to, key.from + 1),
        code: 'yaml',
        ...(name === '<<'
          ? { message: 'merge keys are not used', remedy: 'Use like: to share values.' }
          : { message: 'a key must be a plain name', remedy: "Write 'key: value'." }),
      });
      continue;
    }
    const value: Node =
      pair.value === null
        ? { kind: 'leaf', text: '', quoted: false, from: key.to, to: key.to + 1 }
        : toNode(pair.value as YamlNode, defects);
    const other = first.get(name);
    if (other !== undefined) {
      defects.push({
        from: key.from,
        to: key.to,
        ...twice(name),
        other: { span: other, message: 'it stands here already' },
      });
      continue;
    }
    first.set(name, key);
    entries.push({ key: name, keySpan: { from: key.from, to: key.to }, value });
  }
  return { kind: 'map', entries, from, to };
}

function forbid(node: YamlNode, from: number, to: number, defects: Defect[]): void {
  const anchored = !isAlias(node) && (node as { anchor?: string }).anchor !== undefined;
  if (isAlias(node) || anchored) {
    defects.push({
      from,
      to: Math.max(to, from + 1),
      code: 'yaml',
      message: 'anchors and aliases are not used',
      remedy: 'Use like: to share values.',
    });
  } else if (node.tag !== undefined) {
    defects.push({
      from,
      to: Math.max(to, from + 1),
      code: 'yaml',
      message: 'tags are not used',
      remedy: 'Remove the word that starts with an exclamation mark.',
    });
  }
}
