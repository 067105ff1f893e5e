// The pane of the machine file. Its text is the only state of the sheet: every edit, also from the sheet, goes through it.
import { defaultKeymap, historyKeymap, indentWithTab, redo, undo } from '@codemirror/commands';
import { type Extension, Transaction } from '@codemirror/state';
import { EditorView, keymap, lineNumbers } from '@codemirror/view';
import { type AskOffering, fileCompletion, type OfferedPart, type Offering } from './completion.ts';
import {
  type ChangedBy,
  changedBy,
  documentOf,
  fileHistory,
  replacement,
  savedDocument,
  sheetEdit,
} from './file-document.ts';
import { lightLines, litLines } from './lit-lines.ts';
import { type ProblemAt, problemMarks, setProblems } from './problem-marks.ts';
import type { TextEdit } from './text-changes.ts';
import { yamlText } from './yaml-text.ts';
import './file-pane.css';

export type { ChangedBy, OfferedPart, Offering, ProblemAt, TextEdit };

export interface FilePane {
  /** The text as it stands. Line breaks are `\n`, whatever the file on disk has; all offsets count in this text. */
  text(): string;
  /** An edit made on the sheet. Edits with one group (one drag of a number) are one step of undo, however slow. */
  apply(edit: TextEdit, group?: string): void;
  /** Another text (a merge, a newer one from disk) as one step of undo; only what differs is touched. */
  replaceText(text: string): void;
  /** False when there is nothing to undo. */
  undo(): boolean;
  redo(): boolean;
  /** Shows these problems and no others; until the next call they move with the text. */
  setProblems(problems: readonly ProblemAt[]): void;
  /** Lights these lines, counted from 1, and no others. */
  light(lines: readonly number[]): void;
  /** Scrolls to a line, counted from 1, selects it and takes the focus; no step of undo. */
  reveal(line: number): void;
  /** The document with its whole history as JSON text, for `saved` of `createFilePane`. */
  toJSON(): string;
  destroy(): void;
}

export interface FilePaneOptions {
  readonly parent: HTMLElement;
  readonly text: string;
  /** What `toJSON` gave; its history is taken up if it belongs to the same text. */
  readonly saved?: string;
  /** What the pane is called for those who do not see it. */
  readonly label: string;
  /** Of the content security policy, for the style sheets that the editor makes. */
  readonly nonce?: string;
  /** What can be completed from. */
  readonly completion: AskOffering;
  readonly onChange: (text: string, by: ChangedBy) => void;
}

export function createFilePane(options: FilePaneOptions): FilePane {
  const state = documentOf(options.text, options.saved, extensionsFor(options));
  const view = new EditorView({ state, parent: options.parent });
  return {
    text: () => view.state.doc.toString(),
    apply: (edit, group) => {
      if (view.state.sliceDoc(edit.from, edit.to) !== edit.insert) view.dispatch(sheetEdit(view.state, edit, group));
    },
    replaceText: (text) => {
      const edit = view.state.update(replacement(view.state, text));
      if (edit.docChanged) view.dispatch(edit);
    },
    undo: () => undo(view),
    redo: () => redo(view),
    setProblems: (problems) => view.dispatch({ effects: setProblems.of(problems) }),
    light: (lines) => view.dispatch(lightLines(view.state, lines)),
    reveal: (line) => {
      const { from, to } = view.state.doc.line(Math.min(line, view.state.doc.lines));
      view.dispatch({
        selection: { anchor: from, head: to },
        effects: EditorView.scrollIntoView(from, { y: 'center' }),
        annotations: Transaction.addToHistory.of(false),
      });
      view.focus();
    },
    toJSON: () => savedDocument(view.state),
    destroy: () => view.destroy(),
  };
}

const extensionsFor = (options: FilePaneOptions): Extension => [
  options.nonce === undefined ? [] : EditorView.cspNonce.of(options.nonce),
  EditorView.editorAttributes.of({ class: 'file-pane' }),
  EditorView.contentAttributes.of({
    'aria-label': options.label,
    tabindex: '0',
    'aria-description': 'Tab indents the line. To leave with Tab, press Escape first.',
  }),
  lineNumbers(),
  EditorView.lineWrapping,
  yamlText(),
  fileHistory(),
  litLines,
  problemMarks,
  fileCompletion(options.completion),
  keymap.of([
    { key: 'Mod-Shift-z', run: redo, preventDefault: true },
    ...historyKeymap,
    indentWithTab,
    ...defaultKeymap,
    { key: 'Escape', run: leaveWithTab },
  ]),
  listener(options),
];

/** Escape frees Tab until another key is pressed, for as long as it takes. */
function leaveWithTab(view: EditorView): boolean {
  const hour_ms = 3_600_000;
  view.setTabFocusMode(hour_ms);
  return true;
}

function listener({ onChange }: FilePaneOptions): Extension {
  return EditorView.updateListener.of(({ state, transactions }) => {
    const edit = transactions.findLast((each) => each.docChanged);
    if (edit !== undefined) onChange(state.doc.toString(), changedBy(edit));
  });
}
