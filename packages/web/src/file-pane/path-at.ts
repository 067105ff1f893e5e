// Where a position of the text lies in the file: on a key or a value, and under which path, also while a line is typed.
import { ensureSyntaxTree } from '@codemirror/language';
import type { EditorState, Text } from '@codemirror/state';
import type { Path } from './schema-at.ts';
import { machineYaml } from './yaml-text.ts';

export interface Spot {
  readonly at: 'key' | 'value';
  /** The path of the value, or of the map that the key belongs to. */
  readonly path: Path;
  /** The key or value that is touched; empty, `from` = `to`, where none stands yet. */
  readonly from: number;
  readonly to: number;
  /** The other keys of the map. */
  readonly taken: readonly string[];
  /** Whether the key stands within brackets. */
  readonly inBrackets: boolean;
  /** Whether the colon of the key is there already. */
  readonly colon: boolean;
}

/** What the position touches, or what would be typed there; nothing in a comment or beside a bracket. */
export function spotAt(state: EditorState, position: number): Spot | undefined {
  const line = state.doc.lineAt(position);
  const before = line.text.slice(0, position - line.from);
  const after = line.text.slice(position - line.from);
  const colonless = /^\s*(?:-\s+)*[^\s:,[\]{}#]*$/.test(before) && /^[^\s:,[\]{}#]*\s*(?:#.*)?$/.test(after);
  const touches = /[^\s,[{]$/.test(before) || /^[^\s,\]}#]/.test(after);
  // What is typed just now is completed to a full word or a full key, so that the tree of a valid text can be asked.
  const word = touches ? '' : 'x';
  const wordEnd = position + /^[^\s:]*/.exec(after)![0].length;
  const edits = [{ from: position, insert: word }, ...(colonless ? [{ from: wordEnd, insert: ':' }] : [])];
  const whole = state.update({ changes: edits, filter: false }).state;
  const top = treeOf(whole);
  const node = top?.resolve(position, /[^\s,[{]$/.test(before) ? -1 : 1);
  if (node?.name !== 'Literal' && node?.name !== 'QuotedLiteral') return undefined;

  const pair = pairOfKey(node, whole.doc);
  const to = touches ? Math.min(Math.max(node.to, position), line.to) : position;
  return {
    at: pair === undefined ? 'value' : 'key',
    path: pathOf(node, whole.doc),
    from: node.from,
    to,
    taken: pair ? keysOf(pair.parent!, whole.doc, pair) : [],
    inBrackets: pair?.parent?.name === 'FlowMapping',
    colon: /^\s*:/.test(state.sliceDoc(to, line.to)),
  };
}

/**
 * The pair of which a word is the key. A word alone in brackets that are not closed is none, though the tree says so and may
 * take a colon of a later line for its own.
 */
function pairOfKey(word: Node, text: Text): Node | undefined {
  const pair = word.parent?.name === 'Key' ? word.parent.parent! : undefined;
  const braceless = pair?.parent?.name === 'FlowMapping' && pair.parent.getChild('{') === null;
  const colon = pair?.getChild(':') ?? null;
  const own = colon !== null && text.lineAt(colon.from).number === text.lineAt(word.from).number;
  return braceless && !own ? undefined : pair;
}

/** The keys of the map at a path, as they are written. */
export function keysUnder(state: EditorState, path: Path): readonly string[] {
  let at = treeOf(state)?.getChild('Document')?.firstChild ?? undefined;
  for (const step of path) {
    const inner: Node | undefined =
      typeof step === 'number'
        ? at?.getChildren('Item')[step]
        : at?.getChildren('Pair').find((pair) => keyOf(pair, state.doc) === step);
    at = inner?.lastChild ?? undefined;
  }
  return at === undefined ? [] : keysOf(at, state.doc);
}

type Node = NonNullable<ReturnType<typeof ensureSyntaxTree>>['topNode'];

/** How long a tree may take, ms: usually all but a line of it is there. Our judgement; later, nothing is offered. */
const patience_ms = 1000;

/** Texts up to this length are parsed afresh in a few milliseconds; our judgement. */
const parsedAfresh = 200_000;

/** A tree that takes over parts of the one before an edit can hang a block under its neighbour, so it is the last resort. */
const treeOf = (state: EditorState): Node | undefined =>
  state.doc.length <= parsedAfresh
    ? machineYaml.parser.parse(state.sliceDoc()).topNode
    : ensureSyntaxTree(state, state.doc.length, patience_ms)?.topNode;

function pathOf(node: Node, text: Text): Path {
  const path: (string | number)[] = [];
  for (let at = node; at.parent !== null; at = at.parent) {
    if (at.parent.name === 'Pair' && at.name !== 'Key') path.unshift(keyOf(at.parent, text));
    if (at.name === 'Item') path.unshift(at.parent.getChildren('Item').findIndex(({ from }) => from === at.from));
  }
  return path;
}

const keysOf = (map: Node, text: Text, but?: Node): readonly string[] =>
  map
    .getChildren('Pair')
    .filter((pair) => pair.from !== but?.from)
    .map((pair) => keyOf(pair, text))
    .filter((key) => key !== '');

function keyOf(pair: Node, text: Text): string {
  const key = pair.getChild('Key');
  return key === null ? '' : text.sliceString(key.from, key.to).replace(/^(['"])(.*)\1$/s, '$2');
}
