// The lines that the number looked at rests on, lit in the file at the same time.
import { type EditorState, StateEffect, StateField, type TransactionSpec } from '@codemirror/state';
import { Decoration, type DecorationSet, EditorView } from '@codemirror/view';

/** Lights these lines and no others, counted from 1; lines that the text does not have are left out. */
export const lightLines = (state: EditorState, lines: readonly number[]): TransactionSpec => {
  const there = [...new Set(lines)].filter((line) => line >= 1 && line <= state.doc.lines);
  return { effects: lit.of(there.map((line) => state.doc.line(line).from)) };
};

/** The lit lines of a state; they stay on their text through edits. */
export const litLines = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update: (marks, edit) => {
    const effect = edit.effects.find((each) => each.is(lit));
    if (effect !== undefined)
      return Decoration.set(
        effect.value.map((from) => litLine.range(from)),
        true,
      );
    return marks.map(edit.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});

const lit = StateEffect.define<readonly number[]>();
const litLine = Decoration.line({ class: 'file-lit' });
