// Problems stay inside the text, wherever they are told to be and whatever is typed afterwards.
import { EditorState } from '@codemirror/state';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mostSaid, type ProblemAt, problemMarks, problemsOf, setProblems } from './problem-marks.ts';

const problem = (from: number, to: number): ProblemAt => ({
  from,
  to,
  line: 1,
  column: 1,
  message: 'wrong',
  remedy: 'Write something else.',
  severity: 'problem',
});

it('one goes with its text, tells the line it has come to, and takes in what is typed into it', () => {
  let state = EditorState.create({ doc: 'a: 1\nb: flexibel\n', extensions: [problemMarks] });
  state = state.update({ effects: setProblems.of([{ ...problem(8, 16), line: 2, column: 4 }]) }).state;
  state = state.update({ changes: { from: 16, insert: ' # here' } }).state;
  state = state.update({ changes: { from: 0, insert: '# new\n- ' } }).state;
  expect(problemsOf(state)).toMatchObject([{ from: 16, line: 3, column: 4 }]);
  const { from } = problemsOf(state)[0]!;
  state = state.update({ changes: { from, to: from + 8, insert: 'solid' } }).state;
  expect(state.sliceDoc(from, problemsOf(state)[0]!.to)).toBe('solid # here');
});

it('all are underlined, the first of many are also said under their lines', () => {
  const doc = 'x\n'.repeat(mostSaid + 10);
  const all = Array.from({ length: mostSaid + 10 }, (_, line) => problem(2 * line, 2 * line + 1));
  let state = EditorState.create({ doc, extensions: [problemMarks] });
  state = state.update({ effects: setProblems.of(all) }).state;
  let [underlined, said] = [0, 0];
  state.field(problemMarks).marks.between(0, doc.length, (from, to, { spec }) => {
    if (spec.block === true) said++;
    else if (to === from + 1) underlined++;
  });
  expect([underlined, said]).toEqual([mostSaid + 10, mostSaid]);
});

it('one behind the end of the text does not keep the next letter from being typed', () => {
  let state = EditorState.create({ doc: 'runs:\n  - [', extensions: [problemMarks] });
  state = state.update({ effects: setProblems.of([problem(11, 12), problem(40, 50)]) }).state;
  for (const letter of 'a, b]') state = state.update({ changes: { from: state.doc.length, insert: letter } }).state;
  expect(state.doc.toString()).toBe('runs:\n  - [a, b]');
});

it('seeded: any problem and any edits', () => {
  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.nat(5),
    insert: fc.string({ maxLength: 3 }),
  });
  const property = fc.property(
    fc.string({ maxLength: 20 }),
    fc.nat(40),
    fc.nat(40),
    fc.array(edit),
    (doc, from, size, edits) => {
      let state = EditorState.create({ doc, extensions: [problemMarks] });
      state = state.update({ effects: setProblems.of([problem(from, from + size)]) }).state;
      for (const { at, cut, insert } of edits) {
        const start = Math.floor(at * state.doc.length);
        const end = Math.min(start + cut, state.doc.length);
        state = state.update({ changes: { from: start, to: end, insert } }).state;
        for (const each of problemsOf(state)) {
          expect(each.from).toBeLessThanOrEqual(each.to);
          expect(each.to).toBeLessThanOrEqual(state.doc.length);
        }
      }
    },
  );
  fc.assert(property, { seed: 5, numRuns: 500 });
});
