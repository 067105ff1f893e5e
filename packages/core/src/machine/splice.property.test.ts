// Ten thousand edits drawn at random: the text changes in the reported range alone, and reads as the varied machine.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import type { Edit } from './change.ts';
import { drawEdit, examples, layouts, withProblems } from './edits.support.ts';
import { type Machine, read } from './machine.ts';
import { saidBy } from './said.support.ts';
import { splice } from './splice.ts';
import { vary } from './vary.ts';

/** Some edits one after another, each on what the one before has left. */
const editsInARow = 6;
/** Large examples take most of the time, so that they get a smaller part of the edits. */
const ofEachExample = 300;
const ofEachProblem = 20;
const ofEachLayout = Math.ceil((10_000 - ofEachExample * examples.length) / layouts.length);

/** The machine as it is read from the edited text, and as it was varied without one. */
interface Both {
  readonly read: Machine;
  readonly varied: Machine;
}

/** Makes one edit and checks all that holds of it; gives nothing when there was no edit. */
function step(at: Both, edit: Edit, told: string): Both | undefined {
  const result = splice(at.read, edit);
  if (result.kind === 'choice') {
    expect(edit.at, told).toBe(undefined);
    expect(result.shared, told).not.toContain(result.source);
    return undefined;
  }
  const varied = vary(at.varied, edit.path, edit.value, edit.at ? { at: edit.at } : {});
  if (result.kind === 'refused') {
    expect(result.message, told).not.toMatch(/laid out/);
    expect(varied, told).toBe(undefined);
    return undefined;
  }
  const before = at.read.parsed.source.text;
  const { from, to, insert, text } = result;
  if (text !== before.slice(0, from) + insert + before.slice(to))
    expect.fail(`${told}: bytes changed outside the range`);
  if (text.slice(0, from) + before.slice(from, to) + text.slice(from + insert.length) !== before)
    expect.fail(`${told}: undoing does not give the first text back`);
  if (before.includes('\r\n') && /(^|[^\r])\n/.test(text)) expect.fail(`${told}: a line break of another kind`);
  const after = read(text, { previous: at.read });
  if (varied === undefined) expect.fail(`${told}: vary gives nothing`);
  if (saidBy(after) !== saidBy(varied)) expect(saidBy(varied), `${told}\n${text}`).toEqual(saidBy(after));
  return { read: after, varied };
}

/** Draws edits until so many were made; a file of which nothing can be edited is left after ten times as many. */
function walk(text: string, wanted: number): { edits: number; quick: number } {
  const start: Both = { read: read(text), varied: read(text) };
  let edits = 0;
  let quick = 0;
  let made: readonly object[] = [];
  let now = start;
  for (let seed = 1; edits < wanted && seed <= 10 * wanted; seed++) {
    const edit = drawEdit(now.read, seeded(seed));
    const row = [...made, edit];
    const next = step(now, edit, `seed ${seed}: ${row.map((each) => JSON.stringify(each)).join(', then ')}`);
    if (next === undefined) continue;
    edits++;
    if (next.varied.reading === now.varied.reading) quick++;
    made = edits % editsInARow === 0 ? [] : row;
    now = edits % editsInARow === 0 ? start : next;
  }
  return { edits, quick };
}

describe('edits drawn at random keep every byte outside their range, and read as the varied machine', () => {
  it.each(examples)('%s', (_name, text) => {
    const { edits, quick } = walk(text, ofEachExample);
    expect(edits).toBe(ofEachExample);
    // Some values are read again alone, unless a line of set stands in the file; the rest is read as a whole.
    expect(quick > 0 || /^set:/m.test(text)).toBe(true);
    expect(quick).toBeLessThan(edits);
  });

  it.each(layouts)('%s', (_name, text) => {
    expect(walk(text, ofEachLayout).edits).toBe(ofEachLayout);
  });

  it('files with problems', () => {
    const made = withProblems.map(([, text]) => walk(text, ofEachProblem).edits);
    // Some files cannot be edited at all before they are mended.
    expect(made.filter((edits) => edits === ofEachProblem).length).toBeGreaterThan(made.length / 2);
  });
});
