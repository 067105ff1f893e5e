// Lit lines: those that are there, each once, and they stay on their text.
import { EditorState } from '@codemirror/state';
import { expect, it } from 'vitest';
import { lightLines, litLines } from './lit-lines.ts';

function lit(state: EditorState): readonly number[] {
  const lines: number[] = [];
  state.field(litLines).between(0, state.doc.length, (from) => {
    lines.push(state.doc.lineAt(from).number);
  });
  return lines;
}

it('are those that the text has, go with their text, and go out with the next', () => {
  let state = EditorState.create({ doc: 'a\nb\nc\n', extensions: [litLines] });
  state = state.update(lightLines(state, [3, 1, 3, 0, 9])).state;
  expect(lit(state)).toEqual([1, 3]);
  state = state.update({ changes: { from: 1, insert: '\nnew' } }).state;
  expect(lit(state)).toEqual([1, 4]);
  state = state.update(lightLines(state, [])).state;
  expect(lit(state)).toEqual([]);
});
