// The example machines and what becomes of them by the public doors, for tests and for the tools that keep results.
import { readdirSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { demonstration } from '@layshaft/catalogue';
import { type Assessment, assess, read, resolve } from '@layshaft/core';
import type { Io } from '../../packages/cli/src/io.ts';
import { openDesign } from '../../packages/cli/src/open-design.ts';
import { run } from '../../packages/cli/src/program.ts';

export interface Example {
  /** The folder under examples/. */
  readonly name: string;
  /** Path from the root; the name that problems are reported under. */
  readonly path: string;
  readonly text: string;
}

/** Every `examples/<name>/machine.yaml`, by name. */
export function exampleMachines(): readonly Example[] {
  return readdirSync('examples', { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && readdirSync(`examples/${entry.name}`).includes('machine.yaml'))
    .map(({ name }) => ({ name, path: `examples/${name}/machine.yaml` }))
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .map((example) => ({ ...example, text: readFileSync(example.path, 'utf8') }));
}

/** An example that is only a budget has none. */
export const hasNetworks = ({ text }: Pick<Example, 'text'>): boolean => /^networks:/m.test(text);

const catalogues = [demonstration()];

/** A text against the demonstration parts; `path` is the name that its problems are reported under. */
export const assessText = (text: string, path: string): Assessment =>
  assess(resolve(read(text, { file: path }), catalogues));

/** An example with the catalogues that it names, as the command opens it. */
export const assessExample = async (example: Example): Promise<Assessment> =>
  assess(await openDesign(example.path, worldOf(example)));

/** What `layshaft check` prints of an example, a hundred columns wide and without colour. */
export async function checkOutput(example: Example): Promise<string> {
  let printed = '';
  const write = (text: string): void => {
    printed += text;
  };
  const world = { ...worldOf(example), stdout: { write }, stderr: { write } };
  await run(['check', example.path, '--width', '100', '--no-color'], world);
  return printed;
}

/** The files of the repository; the example itself is its text, so that it may be one that no file holds. */
const worldOf = ({ path, text }: Example): Io => ({
  stdout: { write: () => undefined },
  stderr: { write: () => undefined },
  env: {},
  readFile: async (asked) => (asked === path ? new TextEncoder().encode(text) : readFile(asked)),
  writeNew: async () => undefined,
  writeFile: async () => undefined,
  replaceFile: async () => undefined,
  readStdin: () => Promise.reject(new Error('no example comes from standard input')),
  solve: () => Promise.reject(new Error('no example is chosen for here')),
  runParts: () => Promise.reject(new Error('no example runs long work')),
  untilInterrupted: async () => undefined,
});
