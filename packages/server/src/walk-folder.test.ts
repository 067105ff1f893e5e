// Finding machine files: what counts as one, what is passed over, and that limits cut the deepest first.
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from './temporary.support.ts';
import { walkFolder } from './walk-folder.ts';

const files = {
  'machine.yaml': 'a',
  'B.YML': 'bb',
  'notes.txt': '',
  '.hidden.yaml': '',
  'line/one.yaml': '',
  'line/two/three.yaml': '',
  'line/expected/report.yaml': '',
  '.layshaft/history/x.yaml': '',
  'node_modules/p/x.yaml': '',
  'nul.yaml': '',
};
const paths = async (root: string, limits?: Parameters<typeof walkFolder>[1]) => {
  const { files, complete } = await walkFolder(root, limits);
  return [files.map(({ path }) => path), complete];
};

describe('walking a folder', () => {
  it('finds machine files, shallow ones first, and nothing else', async () => {
    const root = temporaryFolder(files);
    symlinkSync(join(root, 'machine.yaml'), join(root, 'link.yaml'));
    symlinkSync('..', join(root, 'line', 'up'));
    expect(await paths(root)).toEqual([['B.YML', 'machine.yaml', 'line/one.yaml', 'line/two/three.yaml'], true]);
    const walk = await walkFolder(root);
    expect(walk.folders).toEqual([root, join(root, 'line'), join(root, 'line', 'two')]);
    expect(walk.files.map(({ stats }) => stats.size)).toEqual([2n, 1n, 0n, 0n]);
  });

  it.each([
    [{ files: 2, folders: 99, depth: 9 }, ['B.YML', 'machine.yaml'], false],
    [{ files: 4, folders: 99, depth: 9 }, ['B.YML', 'machine.yaml', 'line/one.yaml', 'line/two/three.yaml'], true],
    [{ files: 99, folders: 2, depth: 9 }, ['B.YML', 'machine.yaml', 'line/one.yaml'], false],
    [{ files: 99, folders: 99, depth: 1 }, ['B.YML', 'machine.yaml', 'line/one.yaml'], false],
  ])('says when a limit has cut it: %j', async (limits, found, complete) => {
    expect(await paths(temporaryFolder(files), limits)).toEqual([found, complete]);
  });

  it('finds nothing where the folder is gone', async () => {
    expect(await paths(join(temporaryFolder(), 'gone'))).toEqual([[], false]);
  });
});
