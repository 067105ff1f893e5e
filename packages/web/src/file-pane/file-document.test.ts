// The document and its one undo: drags, typing, whole replacements, and a history that survives a reload.
import { redo, undo } from '@codemirror/commands';
import type { EditorState, TransactionSpec } from '@codemirror/state';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedBy, documentOf, fileHistory, replacement, savedDocument, sheetEdit } from './file-document.ts';

const text = 'cycle: 500 µs\nrepeats: 2\n';
const begin = (of = text): EditorState => documentOf(of, undefined, fileHistory());

/** A document that edits are made on, one after another. */
function open(state = begin()) {
  let now = state;
  const dispatch = (edit: TransactionSpec): void => {
    now = now.update(edit).state;
  };
  const step = (command: typeof undo): boolean =>
    command({
      state: now,
      dispatch: (edit) => {
        now = edit.state;
      },
    });
  return {
    dispatch,
    state: () => now,
    text: () => now.doc.toString(),
    edit: (from: number, to: number, insert: string, group?: string) =>
      dispatch(sheetEdit(now, { from, to, insert }, group)),
    undo: () => step(undo),
    redo: () => step(redo),
  };
}

describe('undo', () => {
  it('takes a whole drag back in one step, and a second drag in another', () => {
    const doc = open();
    for (const value of ['600', '700', '800']) doc.edit(7, 10, value, 'drag 1');
    for (const value of ['3', '4']) doc.edit(23, 24, value, 'drag 2');
    expect(doc.text()).toBe('cycle: 800 µs\nrepeats: 4\n');
    doc.undo();
    expect(doc.text()).toBe('cycle: 800 µs\nrepeats: 2\n');
    doc.undo();
    expect(doc.text()).toBe(text);
    expect(doc.undo()).toBe(false);
    doc.redo();
    doc.redo();
    expect(doc.text()).toBe('cycle: 800 µs\nrepeats: 4\n');
  });

  it('keeps edits without a group apart, and typing apart from a drag', () => {
    const doc = open();
    doc.edit(23, 24, '3');
    doc.edit(23, 24, '4');
    doc.edit(7, 10, '600', 'drag');
    doc.dispatch({ changes: { from: 0, insert: '# ' }, userEvent: 'input.type' });
    for (const left of [
      'cycle: 600 µs\nrepeats: 4\n',
      'cycle: 500 µs\nrepeats: 4\n',
      'cycle: 500 µs\nrepeats: 3\n',
      text,
    ]) {
      doc.undo();
      expect(doc.text()).toBe(left);
    }
  });

  it('has no limit', () => {
    const doc = open();
    for (let at = 0; at < 2000; at++) doc.edit(23, doc.text().length - 1, String(at));
    for (let at = 0; at < 2000; at++) expect(doc.undo()).toBe(true);
    expect(doc.text()).toBe(text);
  });

  it('survives being saved and taken up again, but not by another text', () => {
    const doc = open();
    doc.edit(23, 24, '3');
    const saved = savedDocument(doc.state());
    const again = open(documentOf(doc.text(), saved, fileHistory()));
    again.undo();
    expect(again.text()).toBe(text);
    expect(open(documentOf('other\n', saved, fileHistory())).undo()).toBe(false);
    expect(open(documentOf(text, '{"cut off', fileHistory())).text()).toBe(text);
  });
});

describe('another text', () => {
  it('seeded: takes the place of this one as one step, whatever both are', () => {
    const lines = fc.array(fc.constantFrom('a: 1', 'b: 2', '', '  c: µs', '# d'), { maxLength: 8 });
    const property = fc.property(lines, lines, (from, to) => {
      const doc = open(begin(from.join('\n')));
      doc.dispatch(replacement(doc.state(), to.join('\n')));
      expect(doc.text()).toBe(to.join('\n'));
      if (from.join('\n') !== to.join('\n')) doc.undo();
      expect(doc.text()).toBe(from.join('\n'));
    });
    fc.assert(property, { seed: 5, numRuns: 300 });
  });

  it('touches only what differs', () => {
    const edit = begin().update(replacement(begin(), text.replace('500', '600')));
    const touched: [number, number][] = [];
    edit.changes.iterChanges((from, to) => touched.push([from, to]));
    expect(touched).toEqual([[7, 8]]);
    expect(changedBy(edit)).toBe('replace');
  });

  it('has one line break, whatever the file has', () => {
    expect(begin('a: 1\r\nb: 2\r').doc.toString()).toBe('a: 1\nb: 2\n');
  });
});
