// Changes on disk by whatever hand are told, once each, with the version that is there; also where the system gives no notice.
import * as fs from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { writeAtomically } from './atomic-write.ts';
import { versionOf } from './history.ts';
import { temporaryFolder } from './temporary.support.ts';
import { type Change, Watch, type WatchOptions } from './watch.ts';

vi.mock('node:fs', async (original) => {
  const real = await original<typeof fs>();
  return { ...real, watch: vi.fn(real.watch) };
});
afterEach(() => vi.mocked(fs.watch).mockRestore());

const version = (text: string): string => versionOf(Buffer.from(text));

/** A watch that only notices can hasten: without one it looks again after a minute. */
async function watched(root: string, options: Partial<WatchOptions> = { look_ms: 60_000, settle_ms: 20 }) {
  const told: Change[] = [];
  const errors: unknown[] = [];
  const watch = new Watch(root, {
    onChange: (change) => told.push(change),
    onError: (error) => errors.push(error),
    ...options,
  });
  await watch.start();
  onTestFinished(async () => {
    await watch.close();
    expect(errors).toEqual([]);
  });
  return { watch, told };
}
const soon = (told: readonly Change[]) => expect.poll(() => told, { timeout: 5000, interval: 10 });

describe('a watch', () => {
  it('tells what is there, then what changes', async () => {
    const root = temporaryFolder({ 'a.yaml': 'one', 'sub/b.yaml': 'two', 'notes.txt': '' });
    const { watch, told } = await watched(root);
    expect(told).toEqual([
      { path: 'a.yaml', version: version('one') },
      { path: 'sub/b.yaml', version: version('two') },
    ]);
    expect(watch.current()).toEqual(told);
    told.length = 0;

    fs.writeFileSync(join(root, 'a.yaml'), 'three');
    await soon(told).toEqual([{ path: 'a.yaml', version: version('three') }]);
    await writeAtomically(join(root, 'sub', 'b.yaml'), Buffer.from('four'));
    await soon(told).toContainEqual({ path: 'sub/b.yaml', version: version('four') });
    fs.rmSync(join(root, 'a.yaml'));
    await soon(told).toContainEqual({ path: 'a.yaml', version: null });
    fs.renameSync(join(root, 'sub', 'b.yaml'), join(root, 'sub', 'c.yaml'));
    await soon(told).toEqual(
      expect.arrayContaining([
        { path: 'sub/b.yaml', version: null },
        { path: 'sub/c.yaml', version: version('four') },
      ]),
    );
    expect(told).toHaveLength(5);
    expect(watch.current()).toEqual([{ path: 'sub/c.yaml', version: version('four') }]);
  });

  it('follows folders that come later', async () => {
    const root = temporaryFolder({ 'a.yaml': 'one' });
    const { told } = await watched(root);
    fs.mkdirSync(join(root, 'new'));
    await expect.poll(() => vi.mocked(fs.watch).mock.calls.length, { timeout: 5000 }).toBe(2);
    fs.writeFileSync(join(root, 'new', 'b.yaml'), 'two');
    await soon(told).toContainEqual({ path: 'new/b.yaml', version: version('two') });
  });

  it('tells nothing when a file is written again as it was', async () => {
    const root = temporaryFolder({ 'a.yaml': 'one' });
    const { told } = await watched(root);
    fs.writeFileSync(join(root, 'a.yaml'), 'one');
    fs.writeFileSync(join(root, 'b.yaml'), 'two');
    await soon(told).toHaveLength(2);
    expect(told.map(({ path }) => path)).toEqual(['a.yaml', 'b.yaml']);
  });

  it.each(['refuses to watch', 'gives no notice'])('sees every change where the system %s', async (what) => {
    vi.mocked(fs.watch).mockImplementation(() => {
      if (what === 'refuses to watch') throw Object.assign(new Error('No space for watches'), { code: 'ENOSPC' });
      return { on: () => undefined, close: () => undefined } as unknown as fs.FSWatcher;
    });
    const root = temporaryFolder({ 'a.yaml': 'one' });
    const { told } = await watched(root, { look_ms: 30 });
    fs.writeFileSync(join(root, 'a.yaml'), 'two');
    await soon(told).toContainEqual({ path: 'a.yaml', version: version('two') });
    fs.mkdirSync(join(root, 'new'));
    fs.writeFileSync(join(root, 'new', 'b.yaml'), 'three');
    await soon(told).toContainEqual({ path: 'new/b.yaml', version: version('three') });
    fs.rmSync(root, { recursive: true });
    await soon(told).toContainEqual({ path: 'a.yaml', version: null });
    fs.mkdirSync(root);
  });

  it('sees changes that come faster than it looks, and the last one surely', async () => {
    const root = temporaryFolder({ 'a.yaml': '0' });
    const { told } = await watched(root);
    for (let number = 1; number <= 200; number += 1)
      await writeAtomically(join(root, 'a.yaml'), Buffer.from(`${number}`));
    await soon(told).toContainEqual({ path: 'a.yaml', version: version('200') });
    expect(told.at(-1)?.version).toBe(version('200'));
    const texts = new Set(Array.from({ length: 201 }, (_, number) => version(`${number}`)));
    for (const change of told) expect(texts).toContain(change.version);
  });

  it('tells nothing after it is closed', async () => {
    const root = temporaryFolder({ 'a.yaml': 'one' });
    const { watch, told } = await watched(root, { look_ms: 10, settle_ms: 10 });
    await watch.close();
    told.length = 0;
    fs.writeFileSync(join(root, 'a.yaml'), 'two');
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(told).toEqual([]);
  });
});
