// Positions against another reader of YAML: every key and value of every example, also with the rest not yet typed.
import { readdirSync, readFileSync } from 'node:fs';
import { EditorState } from '@codemirror/state';
import { describe, expect, it } from 'vitest';
import { isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import { keysUnder, type Spot, spotAt } from './path-at.ts';
import type { Path } from './schema-at.ts';
import { yamlText } from './yaml-text.ts';

const stateOf = (doc: string): EditorState => EditorState.create({ doc, extensions: yamlText() });

/** What stands at the `|` of a text. */
const at = (marked: string): Spot | undefined => spotAt(stateOf(marked.replace('|', '')), marked.indexOf('|'));

interface Word {
  readonly at: 'key' | 'value';
  readonly path: Path;
  readonly from: number;
  readonly to: number;
  readonly taken: readonly string[];
}

/** The keys and plain values of a text, in its order. */
function wordsOf(node: Node | null | undefined, path: Path = []): readonly Word[] {
  if (isScalar(node)) return [{ at: 'value', path, from: node.range![0], to: node.range![1], taken: [] }];
  if (isSeq<Node>(node)) return node.items.flatMap((item, index) => wordsOf(item, [...path, index]));
  if (!isMap<Node, Node>(node)) return [];
  const keys = node.items.map(({ key }) => String(key));
  return node.items.flatMap(({ key, value }, index) => [
    { ...wordsOf(key)[0]!, at: 'key' as const, path, taken: keys.filter((_, other) => other !== index) },
    ...wordsOf(value, [...path, keys[index]!]),
  ]);
}

const examples = readdirSync('examples')
  .filter((name) => name !== 'problems')
  .map((name) => ({ name, text: readFileSync(`examples/${name}/machine.yaml`, 'utf8') }));

describe('a position', () => {
  it.each(examples)('at both ends and within every word of $name is on this word', ({ text }) => {
    const state = stateOf(text);
    const words = wordsOf(parseDocument(text).contents);
    expect(words.length).toBeGreaterThan(50);
    for (const word of words) {
      for (const position of [word.from, word.from + 1, word.to]) {
        expect(spotAt(state, position), text.slice(word.from, word.to)).toMatchObject(word);
      }
    }
  });

  it.each(examples)(
    'behind the first letter of every word of $name finds its place before the rest is typed',
    ({ text }) => {
      const words = wordsOf(parseDocument(text).contents);
      for (const { at, path, from } of words) {
        // A lone dash begins an item of a list, until more is typed.
        if (text[from] === '-') continue;
        const lineEnd = text.indexOf('\n', from);
        const begun = stateOf(text.slice(0, from + 1) + text.slice(lineEnd));
        expect(spotAt(begun, from + 1), text.slice(from, lineEnd)).toMatchObject({ at, path, from });
      }
    },
  );

  it.each([
    ['an empty text', '|', 'key', []],
    ['an empty line in a map', 'a:\n  b: 1\n  |\n', 'key', ['a']],
    ['an empty line between two keys', 'a:\n  b: 1\n  |\n  c: 2\n', 'key', ['a']],
    ['an empty line in the first column', 'a:\n  b: 1\n|', 'key', []],
    ['an empty line under a key', 'a:\n  |', 'key', ['a']],
    ['the place behind a colon', 'a:\n  b: |\n  c: 2\n', 'value', ['a', 'b']],
    ['an item without anything', 'a:\n  - |', 'key', ['a', 0]],
    ['a second key of an item', 'a:\n  - b: 1\n    c|', 'key', ['a', 0]],
    ['empty braces', 'a: {|}', 'key', ['a']],
    ['the place behind a comma in braces', 'a: { b: 1, | }', 'key', ['a']],
    ['the place behind a colon in braces', 'a: { b: | }', 'value', ['a', 'b']],
    ['the place behind a colon in braces that nobody closed', 'a: { b: |\nc: 1\n', 'value', ['a', 'b']],
    ['the place behind a comma in brackets', 'a: [x, | ]', 'value', ['a', 1]],
    ['brackets that nobody closed', 'a:\n  - [x, y, |\n  - [u, v]\n', 'value', ['a', 0, 2]],
    ['a map whose first key is a range', 'a:\n  b_[1..3]: { c: 1 }\n  d:\n    e: |', 'value', ['a', 'd', 'e']],
    ['the entry of a range', 'a:\n  b_[1..3]c: { d: | }', 'value', ['a', 'b_[1..3]c', 'd']],
    ['a map behind a bracket that is no range', 'a: [1..3]\nb: |', 'value', ['b']],
    ['braces over several lines', 'a: { b: 1,\n     c| }', 'key', ['a']],
  ])('in %s', (_, marked, kind, path) => {
    expect(at(marked)).toMatchObject({ at: kind, path });
  });

  it.each([
    ['a comment', 'a: 1 # b|'],
    ['a line of its own that is a comment', '# a|'],
    ['the place right behind a colon', 'a:|'],
    ['the place behind a bracket', 'a: [b]|'],
  ])('in %s is on nothing', (_, marked) => {
    expect(at(marked)).toBeUndefined();
  });

  it('tells what replaces what, and whether the colon is there', () => {
    expect(at('a: { dri|ve: x }')).toMatchObject({ from: 5, to: 10, colon: true, inBrackets: true, taken: [] });
    expect(at('a:\n  dri|')).toMatchObject({ from: 5, to: 8, colon: false, inBrackets: false });
    expect(at('a:\n  b: 1\n  dri|ve: x\n  c: 2')).toMatchObject({ taken: ['b', 'c'] });
    expect(at('a: { b: | }')).toMatchObject({ from: 8, to: 8 });
  });
});

it('the keys under a path are those of the map there, quoted ones without their quotes', () => {
  const state = stateOf('a:\n  b: [{ c: 1, "d e": 2 }, { f: 3 }]\n  g: 1\n');
  expect(keysUnder(state, [])).toEqual(['a']);
  expect(keysUnder(state, ['a'])).toEqual(['b', 'g']);
  expect(keysUnder(state, ['a', 'b', 0])).toEqual(['c', 'd e']);
  expect(keysUnder(state, ['a', 'b', 1])).toEqual(['f']);
  expect(keysUnder(state, ['a', 'g'])).toEqual([]);
  expect(keysUnder(state, ['a', 'h', 0])).toEqual([]);
});
