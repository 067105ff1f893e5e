// Core is a pure function of its texts: it reads no file, clock, environment or network and uses no unseeded randomness.
// It is shown three ways: by what its sources name, by a bundle for a browser, and by a run with no world around it.
import { builtinModules } from 'node:module';
import { createContext, Script } from 'node:vm';
import { type BuildOptions, build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import corePackage from '../packages/core/package.json' with { type: 'json' };
import { isCode, isTest, isTestSupport, type Rule, repositoryFiles, type SourceFile } from './support/files.ts';
import { nodesOf, placeOf, type Visit } from './support/syntax.ts';

/** What a computer has and a calculation does not: clock, chance, network, process, screen, language settings. */
const worldly = [
  ...['Date', 'performance', 'crypto', 'fetch', 'process', 'globalThis'],
  ...['setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask', 'require', 'Buffer', 'console', 'Intl'],
];
/** Methods that answer differently with the language settings of the machine, and the generator without a seed. */
const worldlyMethods = ['toLocaleString', 'toLocaleUpperCase', 'toLocaleLowerCase', 'localeCompare'];

const namesNothingWorldly: Rule = (files) =>
  files.filter(isCoreSource).flatMap((file) =>
    nodesOf(file).flatMap((visit) => {
      const name = worldlyName(visit);
      return name === undefined ? [] : [`${placeOf(file, visit.node.start)}: core must not use ${name}`];
    }),
  );

const isCoreSource = (file: SourceFile): boolean =>
  isCode(file) && !isTest(file) && !isTestSupport(file) && file.path.startsWith('packages/core/src/');

function worldlyName({ node, parent, field }: Visit): string | undefined {
  if (node.type === 'Literal' && field === 'source') {
    const name = String(node.value);
    return name.startsWith('node:') || builtinModules.includes(name) ? name : undefined;
  }
  if (node.type === 'MetaProperty') return 'import.meta';
  if (node.type !== 'Identifier') return undefined;
  const name = String(node.name);
  if (parent?.type === 'MemberExpression' && field === 'property' && !parent.computed) {
    if (name === 'random' && (parent.object as { name?: string }).name === 'Math') return 'Math.random';
    return worldlyMethods.includes(name) ? name : undefined;
  }
  const isFieldName = field === 'key' && !parent?.computed;
  return !isFieldName && worldly.includes(name) ? name : undefined;
}

/** Bundles an entry as for a browser; throws when anything in it asks for a Node built-in. */
async function bundleForBrowser(entry: BuildOptions): Promise<{ script: string; files: string[] }> {
  const { outputFiles, metafile } = await build({
    ...entry,
    bundle: true,
    write: false,
    metafile: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'layshaft',
    loader: { '.yaml': 'text' },
    logLevel: 'silent',
  });
  return { script: outputFiles?.[0]?.text ?? '', files: Object.keys(metafile?.inputs ?? {}) };
}

/** The JSON of a pipeline's report, made where the world is missing, and what of the world it asked for none the less. */
function runWithoutWorld(script: string, { path, text }: SourceFile): { report: string; askedFor: string[] } {
  const askedFor: string[] = [];
  const refuse = (name: string) => (): never => {
    askedFor.push(name);
    throw new Error(`${name} is not there`);
  };
  const context = createContext({ text, path, refuseChance: refuse('Math.random') });
  new Script('Math.random = refuseChance; delete globalThis.refuseChance;').runInContext(context);
  for (const name of [...worldly.filter((name) => name !== 'globalThis'), 'fs']) {
    Object.defineProperty(context, name, { get: refuse(name) });
  }
  const report = new Script(`${script}; JSON.stringify(layshaft.pipeline(text, path))`).runInContext(context);
  return { report: String(report), askedFor };
}

describe('purity of core', () => {
  const tree = repositoryFiles();

  it('names nothing of the world around it', () => {
    expect(tree.filter(isCoreSource).length).toBeGreaterThan(0);
    expect(namesNothingWorldly(tree)).toEqual([]);
  });

  it.each([
    'const now = Date.now();',
    'type When = Date;',
    'const t = performance.now();',
    'const x = Math.random();',
    'const { process } = holder;',
    'const home = globalThis.home;',
    'setTimeout(f, 1);',
    `import { readFileSync } from 'node:fs';`,
    `export * from 'os';`,
    `const path = await import('path');`,
    'const here = import.meta.url;',
    'names.sort((a, b) => a.localeCompare(b));',
  ])('refuses %s', (text) => {
    expect(namesNothingWorldly([{ path: 'packages/core/src/planted.ts', text }])).toHaveLength(1);
  });

  it('may speak of such things, and name fields after them', () => {
    const text = `// The Date of process.\nconst record = { process: 'Math.random()', performance: 1 };\nuse(record.process);`;
    expect(namesNothingWorldly([{ path: 'packages/core/src/planted.ts', text }])).toEqual([]);
  });

  it.each(Object.entries(corePackage.exports))('bundles the door %s for a browser', async (door, path) => {
    const { files } = await bundleForBrowser({ entryPoints: [`packages/core/${path}`] });
    expect(files).toContain(`packages/core/${path.slice(2)}`);
    if (door === './kernels') expect(files.filter((file) => /yaml|reading/.test(file))).toEqual([]);
  });

  it('fails to bundle a module that reads a file', async () => {
    const contents = `import { readFileSync } from 'node:fs'; export const text = readFileSync('a', 'utf8');`;
    await expect(bundleForBrowser({ stdin: { contents } })).rejects.toThrow('node:fs');
  });

  it('reads, resolves and assesses every example without a world, twice to the same octets', async () => {
    const examples = tree.filter(({ path }) => /^examples\/[^/]+\/machine\.yaml$/.test(path));
    expect(examples.length).toBeGreaterThan(0);
    const { script } = await bundleForBrowser({ entryPoints: ['tests/pipeline.ts'] });
    for (const example of examples) {
      const { report, askedFor } = runWithoutWorld(script, example);
      expect(askedFor, example.path).toEqual([]);
      expect(Object.keys(JSON.parse(report)), example.path).not.toEqual([]);
      expect(runWithoutWorld(script, example).report, example.path).toBe(report);
    }
  });

  it.each(['new Date()', 'Math.random()', 'typeof process', 'fetch("/")', 'performance.now()', 'console.log(text)'])(
    'notices a pipeline that uses %s, even where it hides the error',
    async (use) => {
      const contents = `export function pipeline(text) { try { return [text, ${use}]; } catch { return [text]; } }`;
      const { script } = await bundleForBrowser({ stdin: { contents } });
      expect(runWithoutWorld(script, { path: 'machine.yaml', text: 'a' }).askedFor).toHaveLength(1);
    },
  );
});
