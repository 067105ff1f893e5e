// The files of a folder: nothing that somebody else wrote is ever written over, and every text can be had again.
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { type FileStore, openStore } from './file-store.ts';
import { History, versionOf } from './history.ts';
import { temporaryFolder } from './temporary.support.ts';

const version = (text: string): string => versionOf(Buffer.from(text));

async function opened(files: Readonly<Record<string, string>> = { 'a.yaml': 'one' }) {
  const root = temporaryFolder(files);
  const errors: unknown[] = [];
  const store = await openStore(root, { onError: (error) => errors.push(error) });
  onTestFinished(async () => {
    await store.close();
    expect(errors).toEqual([]);
  });
  return { root, store, onDisk: (path = 'a.yaml') => fs.readFileSync(join(root, path), 'utf8') };
}
const textsOf = async (store: FileStore, path: string): Promise<string[]> =>
  Promise.all((await store.history(path)).map(({ id }) => store.historyText(path, id)));

describe('reading', () => {
  it('lists the files, and says how far it has looked', async () => {
    const { store } = await opened({ 'a.yaml': 'one', 'sub/b.yml': 'µ' });
    expect(await store.list()).toEqual({
      files: [
        { path: 'a.yaml', bytes: 3 },
        { path: 'sub/b.yml', bytes: 2 },
      ],
      complete: true,
      limits: { files: 1000, folders: 1000, depth: 8 },
    });
  });

  it('gives the text and the SHA-256 of its octets', async () => {
    const { store } = await opened({ 'a.yaml': 'abc' });
    // FIPS 180-2, appendix B.1: the digest of "abc".
    expect(await store.read('a.yaml')).toEqual({
      path: 'a.yaml',
      text: 'abc',
      version: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    });
  });

  it('gives a table that a machine file names, tells when it changes, and neither lists nor writes it', async () => {
    const { root, store } = await opened({ 'a.yaml': 'one', 'points.csv': 'name' });
    expect((await store.read('points.csv')).text).toBe('name');
    const told: unknown[] = [];
    store.follow((change) => told.push(change));
    fs.writeFileSync(join(root, 'points.csv'), 'name,kind');
    await expect
      .poll(() => told, { timeout: 5000, interval: 10 })
      .toContainEqual({ path: 'points.csv', version: version('name,kind') });
    expect((await store.list()).files.map(({ path }) => path)).toEqual(['a.yaml']);
    const save = store.save({ path: 'points.csv', text: 'x', base: version('name,kind') });
    await expect(save).rejects.toMatchObject({ status: 403, says: 'points.csv is no machine file.' });
  });

  it.each([
    ['none.yaml', 404, 'There is no none.yaml.'],
    ['none/a.yaml', 404, 'There is no none/a.yaml.'],
    ['folder.yaml', 403, 'folder.yaml is a folder.'],
    [`${'long'.repeat(100)}.yaml`, 400, 'The path is too long for this computer.'],
    ['large.yaml', 413, 'large.yaml is larger than 2 MB.'],
  ])('says what it cannot read: %.12s', async (path, status, says) => {
    const { store } = await opened({ 'folder.yaml/x': '', 'large.yaml': '#'.repeat(2_000_001) });
    await expect(store.read(path)).rejects.toMatchObject({ status, says });
  });

  it('opens no folder that is not there', async () => {
    const open = openStore(join(temporaryFolder(), 'gone'), { onError: () => undefined });
    await expect(open).rejects.toMatchObject({ code: 'ENOENT' });
  });
});

describe('saving', () => {
  it('replaces the text that it was made from', async () => {
    const { store, onDisk } = await opened();
    expect(await store.save({ path: 'a.yaml', text: 'two', base: version('one') })).toEqual({
      saved: true,
      version: version('two'),
    });
    expect(onDisk()).toBe('two');
  });

  it('makes a new file', async () => {
    const { store, onDisk } = await opened({ 'sub/a.yaml': '' });
    expect(await store.save({ path: 'sub/b.yaml', text: 'new', base: null })).toMatchObject({ saved: true });
    expect(onDisk('sub/b.yaml')).toBe('new');
  });

  it.each([
    ['another text is there', 'mine', version('old')],
    ['a file is there already', 'mine', null],
  ])('gives what is on disk when %s', async (_what, text, base) => {
    const { store, onDisk } = await opened();
    const answer = await store.save({ path: 'a.yaml', text, base });
    expect(answer).toEqual({ saved: false, version: version('one'), text: 'one' });
    expect(onDisk()).toBe('one');
  });

  it('says when the file is gone', async () => {
    const { root, store } = await opened();
    fs.rmSync(join(root, 'a.yaml'));
    const answer = await store.save({ path: 'a.yaml', text: 'mine', base: version('one') });
    expect(answer).toEqual({ saved: false, version: null, text: null });
    expect(fs.existsSync(join(root, 'a.yaml'))).toBe(false);
  });

  it('takes a text that is there already as saved, whatever it was made from: the answer to the first may be lost', async () => {
    const { store } = await opened();
    const save = { path: 'a.yaml', text: 'two', base: version('one') };
    const answer = { saved: true, version: version('two') };
    expect([await store.save(save), await store.save(save)]).toEqual([answer, answer]);
    expect(await textsOf(store, 'a.yaml')).toEqual(['two', 'one']);
  });

  it('lets one of two at the same moment through', async () => {
    const { store, onDisk } = await opened();
    const answers = await Promise.all(
      ['two', 'three', 'four'].map((text) => store.save({ path: 'a.yaml', text, base: version('one') })),
    );
    expect(answers.map(({ saved }) => saved)).toEqual([true, false, false]);
    expect(onDisk()).toBe('two');
  });

  it('sees what another program writes while the history is kept', async () => {
    const { root, store, onDisk } = await opened();
    const keep = vi.spyOn(History.prototype, 'keep').mockImplementation(async () => {
      fs.writeFileSync(join(root, 'a.yaml'), 'theirs');
    });
    const answer = await store.save({ path: 'a.yaml', text: 'two', base: version('one') });
    keep.mockRestore();
    expect(answer).toEqual({ saved: false, version: version('theirs'), text: 'theirs' });
    expect(onDisk()).toBe('theirs');
    expect(fs.readdirSync(root)).toEqual(['a.yaml']);
  });

  it('goes on after one that was refused', async () => {
    const { store, onDisk } = await opened();
    const refused = store.save({ path: '../a.yaml', text: 'two', base: null });
    const next = store.save({ path: 'a.yaml', text: 'two', base: version('one') });
    await expect(refused).rejects.toMatchObject({ status: 403 });
    expect(await next).toMatchObject({ saved: true });
    expect(onDisk()).toBe('two');
  });

  it.each([
    ['none/a.yaml', 'new', 404, 'There is no folder for none/a.yaml.'],
    ['a.yaml', 'µ'.repeat(1_000_001), 413, 'a.yaml is larger than 2 MB.'],
    ['a.yaml', 'half \ud83d of it', 400, 'The text has half a character in it.'],
    ['read-only.yaml', 'new', 403, 'read-only.yaml is read-only.'],
  ])('is refused: %s', async (path, text, status, says) => {
    const { root, store, onDisk } = await opened({ 'a.yaml': 'one', 'read-only.yaml': 'one' });
    fs.chmodSync(join(root, 'read-only.yaml'), 0o444);
    const base = path.startsWith('none') ? null : version('one');
    await expect(store.save({ path, text, base })).rejects.toMatchObject({ status, says });
    expect([onDisk('a.yaml'), onDisk('read-only.yaml')]).toEqual(['one', 'one']);
    expect(fs.existsSync(join(root, '.layshaft'))).toBe(false);
  });

  it('takes the largest text', async () => {
    const { store, onDisk } = await opened();
    const text = 'µ'.repeat(1_000_000);
    expect(await store.save({ path: 'a.yaml', text, base: version('one') })).toMatchObject({ saved: true });
    expect(onDisk()).toBe(text);
  });
});

describe('history', () => {
  it('has what was replaced and what was written, and what another program wrote between', async () => {
    const { root, store } = await opened();
    await store.save({ path: 'a.yaml', text: 'two', base: version('one') });
    fs.writeFileSync(join(root, 'a.yaml'), 'theirs');
    expect(await store.save({ path: 'a.yaml', text: 'three', base: version('two') })).toMatchObject({ saved: false });
    await store.save({ path: 'a.yaml', text: 'three', base: version('theirs') });
    expect(await textsOf(store, 'a.yaml')).toEqual(['three', 'theirs', 'two', 'one']);
    const hands = (await store.history('a.yaml')).map(({ by }) => by);
    expect(hands).toEqual(['sheet', 'elsewhere', 'sheet', 'elsewhere']);
  });

  it('says when there is no such save', async () => {
    const { store } = await opened();
    await expect(store.historyText('a.yaml', '0-0')).rejects.toMatchObject({ status: 404 });
    await expect(store.history('../a.yaml')).rejects.toMatchObject({ status: 403 });
  });
});

describe('following', () => {
  it('tells what is there, then each change, until it is stopped', async () => {
    const { root, store } = await opened();
    const told: unknown[] = [];
    const stop = store.follow((change) => told.push(change));
    expect(told).toEqual([{ path: 'a.yaml', version: version('one') }]);
    await store.save({ path: 'a.yaml', text: 'two', base: version('one') });
    await expect.poll(() => told, { timeout: 5000 }).toContainEqual({ path: 'a.yaml', version: version('two') });
    stop();
    const others: unknown[] = [];
    store.follow((change) => others.push(change));
    fs.writeFileSync(join(root, 'a.yaml'), 'three');
    await expect.poll(() => others, { timeout: 5000 }).toContainEqual({ path: 'a.yaml', version: version('three') });
    expect(told).toHaveLength(2);
  });
});

describe('opening', () => {
  it('removes what a killed run has left in any folder', async () => {
    const left = '.layshaft-99999999-0123456789ab.tmp';
    const { root } = await opened({ [left]: '', [`sub/${left}`]: '', 'sub/a.yaml': '' });
    expect(fs.readdirSync(root, { recursive: true }).sort()).toEqual(['sub', 'sub/a.yaml']);
  });
});
