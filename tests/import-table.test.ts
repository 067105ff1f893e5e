// Who may import whom: every import of every package is held against the table in import-table.json.
import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import table from './import-table.json' with { type: 'json' };
import { isCode, isTest, type Rule, repositoryFiles, type SourceFile } from './support/files.ts';
import { isNode, nodesOf, placeOf } from './support/syntax.ts';

const importsFollowTheTable: Rule = (files) =>
  sources(files).flatMap((source) => {
    const row = rowsOf(source.package).find(({ files }) => pattern(files).test(source.name));
    if (row === undefined) return [`${source.path}:1: no row of tests/import-table.json is for this file`];
    return importsOf(source)
      .filter(({ name }) => !allows(row, source.name, name))
      .map(({ name, start }) => `${placeOf(source, start)}: ${row.files} may not import ${name}`);
  });

const foldersOfCoreHaveNoCycle: Rule = (files) => {
  const leadsTo = new Map<string, Set<string>>();
  for (const source of sources(files)) {
    if (source.package !== 'core' || isTest(source)) continue;
    const folder = topFolder(source.name);
    const targets = importsOf(source).flatMap(({ name }) => (name.startsWith('./') ? [topFolder(name)] : []));
    leadsTo.set(folder, new Set([...(leadsTo.get(folder) ?? []), ...targets.filter((target) => target !== folder)]));
  }
  return [...leadsTo.keys()].filter((folder) => {
    const reached = new Set(leadsTo.get(folder));
    for (const next of reached) for (const further of leadsTo.get(next) ?? []) reached.add(further);
    return reached.has(folder);
  });
};

interface Row {
  readonly files: string;
  readonly may: readonly string[];
  readonly 'but not'?: readonly string[];
}

interface Source extends SourceFile {
  readonly package: string;
  /** Path from the package's src folder, as the table writes it: `./units/metre.ts`. */
  readonly name: string;
}

function rowsOf(packageName: string): readonly Row[] {
  return (table as unknown as Record<string, readonly Row[]>)[packageName] ?? [];
}

function sources(files: readonly SourceFile[]): Source[] {
  return files.filter(isCode).flatMap((file) => {
    const [, packageName, path] = /^packages\/([^/]+)\/src\/(.+)$/.exec(file.path) ?? [];
    return packageName && path ? [{ ...file, package: packageName, name: `./${path}` }] : [];
  });
}

/** Everything a file imports: by its name in the table, or by its path from the root when it lies outside the package. */
function importsOf(source: Source): { name: string; start: number }[] {
  const folder = posix.dirname(source.path);
  const home = `packages/${source.package}/src/`;
  return nodesOf(source).flatMap(({ node }) => {
    const from = node.type === 'CallExpression' && isRequire(node.callee) ? firstOf(node.arguments) : node.source;
    if (!isNode(from)) return [];
    if (typeof from.value !== 'string') return [{ name: 'what only the run knows', start: node.start }];
    const path = from.value.startsWith('.') ? posix.join(folder, from.value) : from.value;
    return [{ name: path.startsWith(home) ? `./${path.slice(home.length)}` : path, start: node.start }];
  });
}

const isRequire = (callee: unknown): boolean => isNode(callee) && callee.name === 'require';
const firstOf = (list: unknown): unknown => (Array.isArray(list) ? list[0] : undefined);
const topFolder = (name: string): string => name.split('/')[1] ?? '';

function allows(row: Row, importer: string, imported: string): boolean {
  const isAny = (entries: readonly string[] = []) => entries.some((entry) => pattern(entry).test(imported));
  const own = row.files.endsWith('/**') && pattern(`${row.files.slice(0, -2)}`, 'start').exec(importer)?.[0];
  return (Boolean(own) && imported.startsWith(own || '')) || (isAny(row.may) && !isAny(row['but not']));
}

function pattern(entry: string, whole: 'whole' | 'start' = 'whole'): RegExp {
  const source = entry
    .replace(/[.+@]/g, '\\$&')
    .replace(/\{([^}]+)\}/g, (_, names: string) => `(?:${names.replaceAll(',', '|')})`)
    .replace(/\*\*\/|\*\*|\*/g, (stars) => ({ '**/': '(?:.*/)?', '**': '.*' })[stars] ?? '[^/]*');
  return new RegExp(`^${source}${whole === 'whole' ? '$' : ''}`);
}

describe('import table', () => {
  const tree = repositoryFiles();

  it('is followed by every file', () => {
    expect(sources(tree).length).toBeGreaterThan(0);
    expect(importsFollowTheTable(tree)).toEqual([]);
  });

  it('has no row for a package that does not exist', () => {
    const packages = new Set(sources(tree).map((source) => source.package));
    expect(Object.keys(table).filter((key) => key !== 'how to read this' && !packages.has(key))).toEqual([]);
  });

  it('leaves no cycle between the folders of core', () => {
    expect(foldersOfCoreHaveNoCycle(tree)).toEqual([]);
    const planted = [
      { path: 'packages/core/src/units/a.ts', text: `import type { B } from '../working/b.ts';` },
      { path: 'packages/core/src/working/b.ts', text: `export * from '../problems/c.ts';` },
      { path: 'packages/core/src/problems/c.ts', text: `import '../units/a.ts';` },
    ];
    expect(foldersOfCoreHaveNoCycle(planted)).toEqual(['units', 'working', 'problems']);
    expect(foldersOfCoreHaveNoCycle(planted.slice(0, 2))).toEqual([]);
  });

  it.each([
    ['core/src/units/a.ts', `import { x } from '../working/x.ts';`],
    ['core/src/units/a.ts', `import type { Node } from 'yaml';`],
    ['core/src/working/a.ts', `export { x } from '../reading/x.ts';`],
    ['core/src/working/a.ts', `export type * from '../problems/x.ts';`],
    ['core/src/networks/section.ts', `import '../axes/section.ts';`],
    ['core/src/networks/section.ts', `const m = import('../machine/format.ts');`],
    ['core/src/networks/section.ts', `type N = import('yaml').Node;`],
    ['core/src/networks/checks/a.ts', `const name = '../a.ts'; import(name);`],
    ['core/src/networks/calc/turn.ts', `import { x } from '../section.ts';`],
    ['core/src/networks/calc/turn.ts', `import { x } from '../../axes/calc/x.ts';`],
    ['core/src/machine/resolve.ts', `import { x } from '../networks/calc/turn.ts';`],
    ['core/src/assess/assess.ts', `import { parse } from 'yaml';`],
    ['core/src/assess/assess.ts', `import { x } from '../reading/x.ts';`],
    ['core/src/kernels.ts', `export * from './reading/x.ts';`],
    ['core/src/index.ts', `import fs from 'node:fs';`],
    ['core/src/index.ts', `const fs = require('fs');`],
    ['core/src/index.test.ts', `import { main } from '../../cli/src/main.ts';`],
    ['core/src/novelty/a.ts', `export const a = 1;`],
    ['catalogue/src/index.ts', `import { x } from '../../core/src/units/x.ts';`],
    ['cli/src/main.ts', `import { parse } from 'yaml';`],
    ['unheard-of/src/index.ts', `export const a = 1;`],
  ])('refuses in %s: %s', (path, text) => {
    expect(importsFollowTheTable([{ path: `packages/${path}`, text }])).toHaveLength(1);
  });

  it.each([
    ['core/src/units/a.ts', `import { b } from './b.ts'; import { c } from './deeper/c.ts';`],
    ['core/src/networks/calc/turn.ts', `import { x } from './x.ts'; import { y } from '../../physics/y.ts';`],
    ['core/src/networks/checks/load.ts', `import { turn } from '../calc/turn.ts'; // import '../../axes/section.ts'`],
    ['core/src/machine/format.ts', `import { s } from '../axes/section.ts'; import { p } from '../axes/parts.ts';`],
    ['core/src/assess/assess.ts', `import { x } from '../axes/checks/x.ts';`],
    ['core/src/units/a.test.ts', `import { expect } from 'vitest'; import { x } from '../assess/x.ts';`],
    ['catalogue/src/index.ts', `import text from './drives.yaml'; import { x } from '@layshaft/core';`],
    ['cli/src/main.ts', `import { readFileSync } from 'node:fs'; import { Command } from 'commander';`],
  ])('allows in %s: %s', (path, text) => {
    expect(importsFollowTheTable([{ path: `packages/${path}`, text }])).toEqual([]);
  });
});
