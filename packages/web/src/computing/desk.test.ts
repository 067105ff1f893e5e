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
