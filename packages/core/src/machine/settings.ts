// The sections `set` (one value for many) and `planned` (what the planner chose for what is open).
import type { Field } from '../reading/field.ts';
import { list } from '../reading/groups.ts';
import type { Cursor, Reading } from '../reading/reading.ts';
import { reportInVain, type Setting } from '../reading/share.ts';
import { anything, name } from '../reading/values.ts';
import { child, enter, expectMap, knownKeys } from '../reading/walk.ts';
import { isAbsent, Missing } from '../working/missing.ts';

const pathField = name({
  about: 'The path of the value; * stands for any letters of one name.',
  due: 'a path',
  example: 'axes.print_*.drive',
});
const valueField = anything({ about: 'What holds there, where the file gives nothing else.' });

const settingField: Field<Setting | undefined> = {
  read: (at, path, reading) => {
    if (at === undefined || !expectMap(at, reading, 'path and value')) return undefined;
    knownKeys(at, ['path', 'value'], reading);
    const where = pathField.read(child(at, 'path', reading), `${path}.path`, reading);
    const value = valueField.read(child(at, 'value', reading), `${path}.value`, reading);
    const lacking = value === undefined ? 'value' : isAbsent(where) ? 'path' : undefined;
    if (lacking !== undefined) {
      reading.problem(at, 'value', {
        code: 'key-missing',
        message: `'${lacking}' is missing here`,
        remedy: 'Write - { path: axes.print_*.drive, value: drive_10 }.',
      });
    }
    if (value === undefined || where instanceof Missing) return undefined;
    return { segments: where.name.split('.'), value, pathAt: where.at, label: path.replace(/^set\.(\d+)$/, 'set[$1]') };
  },
  schema: () => ({
    type: 'object',
    description: 'A path and the value that holds there.',
    properties: { path: pathField.schema(), value: valueField.schema() },
    required: ['path', 'value'],
    additionalProperties: false,
  }),
};

const lines = list(settingField, {
  about: 'One value for many; a later line goes before an earlier one, an own value before both.',
});

export const settingsField: Field<readonly Setting[]> = {
  read: (at, path, reading) => {
    if (at === undefined) return [];
    const read = lines.read(at, path, reading);
    return read instanceof Missing ? [] : read.filter((each) => each !== undefined);
  },
  schema: lines.schema,
};

/** Makes planned values known to the reading, before the sections that they belong to are read. */
export function takePlanned(at: Cursor | undefined, reading: Reading): void {
  if (at === undefined || !expectMap(at, reading, 'paths with what was chosen for them') || at.node.kind !== 'map')
    return;
  for (const entry of at.node.entries) reading.plan(entry.key, enter(at, entry, reading));
}

/** Reports settings for sections that the file does not have, and planned values that no open value has taken up. */
export function reportLeftovers(
  settings: readonly Setting[],
  sections: ReadonlyMap<string, Cursor>,
  reading: Reading,
): void {
  for (const setting of settings) {
    const [section] = setting.segments as [string];
    // A section whose name is misspelt is told once, not by every line that is meant for it.
    if (!(sections.has(section) || reading.misspelt.has(section))) reportInVain(setting, reading);
  }
  for (const at of reading.plannedInVain) {
    reading.remark(at, 'key', {
      code: 'planned-in-vain',
      message: 'nothing is open at this path, so the planned value is not used',
      remedy: 'Remove the line, or write open at its path.',
    });
  }
}
