// Names of the file: each end of each run of every example, and each `like`, is among the names for its place.
import { readdirSync, readFileSync } from 'node:fs';
import { EditorState } from '@codemirror/state';
import { machineSchema } from '@layshaft/core';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { namesInFile } from './names-in-file.ts';
import type { Path } from './schema-at.ts';
import { yamlText } from './yaml-text.ts';

const schema = machineSchema();
const names = (text: string, path: Path) =>
  namesInFile(EditorState.create({ doc: text, extensions: yamlText() }), schema, path);

const textOf = (name: string) => readFileSync(`examples/${name}/machine.yaml`, 'utf8');
const withRuns = readdirSync('examples').filter((name) => name !== 'problems' && textOf(name).includes('\nnetworks:'));

it.each(withRuns)('those of %s', (name) => {
  const text = textOf(name);
  const { axes, networks } = parse(text) as {
    axes?: Record<string, { like?: string }>;
    networks: Record<string, { runs: [string, string, ...unknown[]][] }>;
  };
  let held = 0;
  for (const [network, { runs }] of Object.entries(networks)) {
    for (const [index, [from, to]] of runs.entries()) {
      expect(names(text, ['networks', network, 'runs', index, 0])).toContain(from);
      expect(names(text, ['networks', network, 'runs', index, 1])).toContain(to);
      held++;
    }
  }
  for (const [axis, { like }] of Object.entries(axes ?? {})) {
    if (like === undefined) continue;
    expect(names(text, ['axes', axis, 'like'])).toContain(like);
    expect(names(text, ['axes', axis, 'like'])).not.toContain(axis);
  }
  expect(held).toBeGreaterThan(5);
});

it('a range stands for each of its names; where no name is due there are none', () => {
  const text = 'axes:\n  a_[2..4]x: {}\n  b: { like: c }\n  d_[3..1]: {}\n';
  expect(names(text, ['axes', 'b', 'like'])).toEqual(['a_2x', 'a_3x', 'a_4x']);
  expect(names(text, ['axes', 'b', 'drive'])).toEqual([]);
  expect(names(text, ['networks', 'n', 'runs', 0, 2])).toEqual([]);
});
