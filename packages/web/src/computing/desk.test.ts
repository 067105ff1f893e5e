// What the sheet writes: values that belong together are all written, or none.
import { describe, expect, it } from 'vitest';
import { openDesk } from './desk.ts';
import type { Edited, Entry } from './protocol.ts';

const axis = 'axes:\n  table:\n    motor: open\n    drive: open\n';
const looking = { address: undefined, width_px: 720 };
const motor = { path: 'planned.axes.table.motor', value: 'motor_80_2' };
const drive = { path: 'planned.axes.table.drive', value: 'drive_2' };

/** A desk on which a text lies. */
function open(text: string) {
  const desk = openDesk();
  desk.read({ file: 'machine.yaml', text, looking });
  return {
    write: (...entries: readonly Entry[]): Edited => desk.write({ entries, at: undefined, looking }),
    text: () => desk.look({ looking }).text,
  };
}

/** The text after all edits, each made in the text that those before it have made. */
function applied(text: string, edited: Edited): string {
  if (edited.kind !== 'edit') throw new Error(`not an edit but ${edited.kind}`);
  return edited.edits.reduce((now, { from, to, insert }) => now.slice(0, from) + insert + now.slice(to), text);
}

describe('several values at once', () => {
  it.each([
    ['in a section that is made for them', `layshaft: 1\n${axis}`, ''],
    [
      'beside what is planned',
      `layshaft: 1\n${axis}planned:\n  axes.table.motor: motor_80_3 # for now\n`,
      ' # for now',
    ],
    ['in a text without a line break at its end', `layshaft: 1\n${axis}`.trimEnd(), ''],
  ])('stand %s', (_, text, comment) => {
    const desk = open(text);
    const after = applied(text, desk.write(motor, drive));
    expect(after.trimEnd()).toBe(
      `layshaft: 1\n${axis}planned:\n  axes.table.motor: motor_80_2${comment}\n  axes.table.drive: drive_2`,
    );
    expect(desk.text()).toBe(after);
  });

  it('leave the text as it was where one of them is refused', () => {
    const text = `layshaft: 1\n${axis}`;
    const desk = open(text);
    expect(desk.write(motor, { path: 'planned..drive', value: 'drive_2' })).toEqual({
      kind: 'refused',
      says: "'planned..drive' is no path",
      advice: 'Write names with points between them.',
    });
    expect(desk.text()).toBe(text);
    expect(applied(text, desk.write(drive))).not.toContain('motor_80_2');
  });

  it('change nothing where they stand already', () => {
    const desk = open(`layshaft: 1\n${axis}`);
    desk.write(motor, drive);
    expect(desk.write(motor, drive)).toEqual({ kind: 'unchanged' });
    expect(desk.write(motor, { ...drive, value: 'drive_3' })).toMatchObject({ kind: 'edit', edits: { length: 1 } });
  });
});

describe('a table that the file names', () => {
  const file = 'machine.yaml';
  const text = 'layshaft: 1\npoints_from: [points.csv]\n';
  const table = (more: string) => ({ name: 'points.csv', file: 'points.csv', text: `name,kind\na,DI\n${more}` });

  it('is asked for, handed in, kept while the file is edited, and replaced', () => {
    const desk = openDesk();
    expect(desk.read({ file, text, looking })).toMatchObject({
      wanting: ['points.csv'],
      problems: [{ line: 2, message: "no table 'points.csv' can be read" }],
    });
    expect(desk.catalogues({ texts: [table('')], looking })).toMatchObject({ wanting: [], problems: [] });
    const edited = desk.read({ file, text: `${text}points: { b: { kind: relay } }\n`, looking });
    expect(edited).toMatchObject({ wanting: [], problems: [] });
    expect(desk.catalogues({ texts: [table('b,DO\n')], looking }).problems).toMatchObject([
      { line: 3, column: 1, elsewhere: 'points.csv', message: "'b' stands twice" },
    ]);
    expect(desk.read({ file: 'other.yaml', text, looking }).wanting).toEqual(['points.csv']);
  });

  it('is not edited from the sheet, which says where it stands', () => {
    const desk = openDesk();
    desk.read({ file, text, looking });
    desk.catalogues({ texts: [table('')], looking });
    expect(desk.write({ entries: [{ path: 'points.a.wire', value: '3 m' }], at: undefined, looking })).toMatchObject({
      kind: 'refused',
      advice: 'Change line 2 of points.csv.',
    });
  });
});

describe('a pasted list of points', () => {
  const text = 'layshaft: 1\npoints:\n  eye: { kind: capture }\n';

  it('is shown as it is read, and written as one step', () => {
    const desk = openDesk();
    desk.read({ file: 'machine.yaml', text, looking });
    const list = 'Tag\tType\nLS-1\tDI\nY-1\tDO\n';
    const read = desk.list({ text: list });
    expect(read.columns?.rows.map((row) => row.slice(0, 3).map((cell) => cell.text))).toEqual([
      ['Tag', 'name', 'LS-1 → ls_1'],
      ['Type', 'kind', 'DI → digital_in'],
    ]);
    expect(read).toMatchObject({
      text: list,
      count: 2,
      problems: [],
      remarks: [expect.stringContaining("Line 2: 2 names under 'Tag' are written in our form")],
    });
    expect(applied(text, desk.writeList({ text: list, looking }))).toBe(
      `${text}  ls_1: { kind: digital_in }\n  y_1: { kind: digital_out }\n`,
    );
  });

  it.each([
    ['Tag\tType\nLS-1\tSiren\n', 'the list has 1 problem', 'Mend it, and ask again.'],
    ['Tag\tType\neye\tDI\n', 'machine.yaml has eye already', 'Remove them there, or in the list.'],
  ])('that cannot be written leaves the file as it is: %j', (list, says, advice) => {
    const desk = openDesk();
    desk.read({ file: 'machine.yaml', text, looking });
    expect(desk.writeList({ text: list, looking })).toEqual({ kind: 'refused', says, advice });
    expect(desk.look({ looking }).text).toBe(text);
  });
});
