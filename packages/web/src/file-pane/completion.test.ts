// What is offered while one types: on every example, each key is offered where it stands; words, parts and names too.
import { readdirSync, readFileSync } from 'node:fs';
import { EditorState } from '@codemirror/state';
import { demonstration } from '@layshaft/catalogue';
import { machineSchema, read } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { completionsAt, type OfferedPart, type Offering } from './completion.ts';
import { spotAt } from './path-at.ts';
import { keysAt } from './schema-at.ts';
import { yamlText } from './yaml-text.ts';

const parts: Record<string, OfferedPart[]> = {};
for (const [name, { kind }] of demonstration().parts)
  parts[kind] = [...(parts[kind] ?? []), { name, kind, title: `the ${kind} ${name}` }];
const offering: Offering = { schema: machineSchema(), parts };
const stateOf = (doc: string): EditorState => EditorState.create({ doc, extensions: yamlText() });

/** What is offered at the `|` of a text. */
function offered(marked: string): readonly string[] {
  const at = marked.indexOf('|');
  const found = completionsAt(stateOf(marked.replace('|', '')), at, offering);
  return (found?.options ?? []).map(({ label }) => label);
}

const examples = readdirSync('examples')
  .filter((name) => name !== 'problems')
  .map((name) => ({ name, text: readFileSync(`examples/${name}/machine.yaml`, 'utf8') }));

describe('completion', () => {
  it.each(examples)('offers each key of $name where it stands', ({ text }) => {
    const machine = read(text);
    const state = stateOf(text);
    let held = 0;
    for (const [path, { keySpan, section, writtenAt }] of machine.reading.places) {
      const key = path.split('.').at(-1)!;
      if (keySpan === undefined || writtenAt !== path) continue;
      const spot = spotAt(state, section.start + keySpan.from + 1);
      const known = spot && keysAt(offering.schema, spot.path).map((each) => each.key);
      // Names that the user chose are not offered.
      if (spot?.at !== 'key' || known?.includes(key) !== true) continue;
      const found = completionsAt(state, section.start + keySpan.from + 1, offering);
      expect(
        found?.options.map(({ label }) => label),
        path,
      ).toContain(key);
      held++;
    }
    expect(held).toBeGreaterThan(8);
  });

  it.each([
    ['the sections at the top', 'lay|', 'layshaft'],
    ['keys of a network', 'networks:\n  n:\n    re|', 'repeats'],
    ['parts of the kind that is due', 'axes:\n  a: { drive: dr| }', 'drive_5'],
    ['parts of the kind that is due, alone on a line', 'controller: co|', 'controller_m'],
    ['the profile of a network', 'networks:\n  n:\n    profile: po|', 'polled_100'],
  ])('offers %s', (_, marked, label) => {
    expect(offered(marked)).toContain(label);
  });

  it('offers no key twice, and nothing in a comment', () => {
    expect(offered('networks:\n  n:\n    repeats: 2\n    re|')).not.toContain('repeats');
    expect(offered('# lay|')).toEqual([]);
  });
});
