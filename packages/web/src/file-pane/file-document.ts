// The document: the text of the machine file with its whole history, changed by typing and from the sheet alike.
import { history, historyField, isolateHistory } from '@codemirror/commands';
import {
  Annotation,
  EditorState,
  type Extension,
  StateField,
  Transaction,
  type TransactionSpec,
} from '@codemirror/state';
import { changesBetween, type TextEdit } from './text-changes.ts';

export type ChangedBy = 'typing' | 'sheet' | 'undo' | 'replace';

/** What a state needs to be the document. The history has no limit. */
export const fileHistory = (): Extension => [
  openGroup,
  history({
    minDepth: Number.POSITIVE_INFINITY,
    joinToEvent: (edit, adjacent) => {
      const open = edit.startState.field(openGroup);
      const group = edit.annotation(inGroup);
      return group === undefined ? open === undefined && adjacent : open?.group === group.group;
    },
  }),
];

/** An edit made on the sheet. One group is one step of undo, however slow, until something else changes the text. */
export function sheetEdit(state: EditorState, edit: TextEdit, group?: string): TransactionSpec {
  const by = madeBy.of('sheet');
  if (group === undefined) return { changes: edit, annotations: [by, isolateHistory.of('full')] };
  const open = state.field(openGroup);
  // The history parts what lies apart in time, so all edits of a group carry the time of its first.
  const time = open?.group === group ? open.time : Date.now();
  const apart = open?.group === group ? [] : [isolateHistory.of('before')];
  return { changes: edit, annotations: [by, inGroup.of({ group, time }), Transaction.time.of(time), ...apart] };
}

/** Another text in place of this one, as one step of undo that touches only what differs. */
export const replacement = (state: EditorState, text: string): TransactionSpec => ({
  changes: changesBetween(state.doc.toString(), plainBreaks(text)),
  annotations: [madeBy.of('replace'), isolateHistory.of('full')],
});

/** Who changed the text in a transaction; redoing counts as undoing. */
export function changedBy(edit: Transaction): ChangedBy {
  return edit.annotation(madeBy) ?? (edit.isUserEvent('undo') || edit.isUserEvent('redo') ? 'undo' : 'typing');
}

/** The document with its whole history as JSON text. */
export const savedDocument = (state: EditorState): string => JSON.stringify(state.toJSON({ history: historyField }));

/**
 * The state for a text. What was saved gives it its history, if it was saved of this very text; what belongs to another
 * text, or cannot be read, gives none. `extensions` contain `fileHistory()`.
 */
export function documentOf(text: string, saved: string | undefined, extensions: Extension): EditorState {
  const doc = plainBreaks(text);
  const restored = saved === undefined ? undefined : restoredDocument(saved, extensions);
  return restored?.doc.toString() === doc ? restored : EditorState.create({ doc, extensions });
}

function restoredDocument(saved: string, extensions: Extension): EditorState | undefined {
  try {
    return EditorState.fromJSON(JSON.parse(saved), { extensions }, { history: historyField });
  } catch {
    // Written by another version, or cut off: a history that nobody can read is as good as none.
    return undefined;
  }
}

/** Inside, a line break is one character. */
const plainBreaks = (text: string): string => text.replace(/\r\n?/g, '\n');

interface Group {
  readonly group: string;
  readonly time: number;
}

const madeBy = Annotation.define<ChangedBy>();
const inGroup = Annotation.define<Group>();

/** The group that the next edit from the sheet may go on with. */
const openGroup = StateField.define<Group | undefined>({
  create: () => undefined,
  update: (open, edit) => {
    const moved = edit.selection !== undefined && edit.annotation(Transaction.addToHistory) !== false;
    return edit.annotation(inGroup) ?? (edit.docChanged || moved ? undefined : open);
  },
});
