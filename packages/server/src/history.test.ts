// The history: every text comes back, by the server and by hand; nothing is kept outside; the limit holds on disk.
import {
  appendFileSync,
  chmodSync,
  existsSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { History, type KeptText, versionOf } from './history.ts';
import { temporaryFolder } from './temporary.support.ts';

const kept = (text: string, at = 0, by: KeptText['by'] = 'sheet'): KeptText => ({
  octets: Buffer.from(text),
  at: new Date(Date.UTC(2026, 0, 1) + at),
  by,
});
const textsOf = async (history: History, path: string): Promise<(string | undefined)[]> => {
  const saves = await history.saves(path);
  const texts = await Promise.all(saves.map(({ id }) => history.text(path, id)));
  return texts.map((octets) => octets && Buffer.from(octets).toString());
};
const textFiles = (root: string): string[] => readdirSync(join(root, '.layshaft', 'history', 'texts'));

describe('the history', () => {
  it('has every text of a file, newest first, also after a new start', async () => {
    const root = temporaryFolder();
    const history = new History(root);
    await history.keep('a.yaml', kept('one', 1, 'elsewhere'));
    await history.keep('a.yaml', kept('two', 2));
    await history.keep('b.yaml', kept('other', 3));
    await history.keep('a.yaml', kept('one', 4));
    for (const each of [history, new History(root)]) {
      expect(await textsOf(each, 'a.yaml')).toEqual(['one', 'two', 'one']);
      expect((await each.saves('a.yaml')).map(({ at, bytes, by }) => [at, bytes, by])).toEqual([
        ['2026-01-01T00:00:00.004Z', 3, 'sheet'],
        ['2026-01-01T00:00:00.002Z', 3, 'sheet'],
        ['2026-01-01T00:00:00.001Z', 3, 'elsewhere'],
      ]);
      expect(await textsOf(each, 'b.yaml')).toEqual(['other']);
      expect(await textsOf(each, 'c.yaml')).toEqual([]);
      expect(new Set((await each.saves('a.yaml')).map(({ id }) => id)).size).toBe(3);
    }
    expect(textFiles(root)).toHaveLength(3);
  });

  it('keeps a text that is the newest only once, also after a new start', async () => {
    const root = temporaryFolder();
    for (const history of [new History(root), new History(root)]) {
      await history.keep('a.yaml', kept('one', 1));
      await history.keep('a.yaml', kept('one', 2));
    }
    expect(await textsOf(new History(root), 'a.yaml')).toEqual(['one']);
  });

  it('can be recovered by hand, and stays out of version control', async () => {
    const root = temporaryFolder();
    await new History(root).keep('a.yaml', kept('one'));
    const home = join(root, '.layshaft', 'history');
    const line = JSON.parse(readFileSync(join(home, 'log.jsonl'), 'utf8'));
    expect(line).toMatchObject({ path: 'a.yaml', bytes: 3 });
    expect(readFileSync(join(home, 'texts', line.version), 'utf8')).toBe('one');
    expect(readFileSync(join(root, '.layshaft', '.gitignore'), 'utf8')).toBe('*\n');
  });

  it('makes nothing before there is something to keep', async () => {
    const root = temporaryFolder();
    expect(await new History(root).saves('a.yaml')).toEqual([]);
    expect(existsSync(join(root, '.layshaft'))).toBe(false);
  });

  it('goes on after a torn line', async () => {
    const root = temporaryFolder();
    await new History(root).keep('a.yaml', kept('one', 1));
    appendFileSync(join(root, '.layshaft', 'history', 'log.jsonl'), '{"path":"a.yaml","at":"2026');
    const history = new History(root);
    await history.keep('a.yaml', kept('two', 2));
    expect(await textsOf(history, 'a.yaml')).toEqual(['two', 'one']);
  });

  it('gives no text that is not the one that was kept', async () => {
    const root = temporaryFolder();
    const history = new History(root);
    await history.keep('a.yaml', kept('one', 1));
    await history.keep('a.yaml', kept('two', 2));
    const [newest = '', older = ''] = (await history.saves('a.yaml')).map(({ id }) => id);
    writeFileSync(join(root, '.layshaft', 'history', 'texts', versionOf(Buffer.from('two'))), 'TWO');
    expect(await history.text('a.yaml', newest)).toBeUndefined();
    expect(await history.text('b.yaml', older)).toBeUndefined();
    expect(await history.text('a.yaml', '../../a.yaml')).toBeUndefined();
    expect(await textsOf(history, 'a.yaml')).toEqual([undefined, 'one']);
  });

  it('lets nobody read a text who may not read the file', async () => {
    const root = temporaryFolder({ 'a.yaml': 'one' });
    chmodSync(join(root, 'a.yaml'), 0o600);
    await new History(root).keep('a.yaml', { ...kept('one'), like: await stat(join(root, 'a.yaml')) });
    const text = join(root, '.layshaft', 'history', 'texts', versionOf(Buffer.from('one')));
    expect(statSync(text).mode & 0o777).toBe(0o600);
  });

  it.each(['.layshaft', '.layshaft/history', '.layshaft/history/texts', '.layshaft/history/log.jsonl'])(
    'refuses to follow a symbolic link at %s',
    async (place) => {
      const outside = temporaryFolder({ 'history/texts/x': '', 'texts/x': '', 'log.jsonl': '' });
      const root = temporaryFolder({ [`${place}/../x`]: '' });
      symlinkSync(place.endsWith('jsonl') ? join(outside, 'log.jsonl') : outside, join(root, place));
      await expect(new History(root).keep('a.yaml', kept('one'))).rejects.toThrow(`${place} is a symbolic link.`);
      expect(readdirSync(outside, { recursive: true }).sort()).toEqual(
        ['history', 'history/texts', 'history/texts/x', 'log.jsonl', 'texts', 'texts/x'].sort(),
      );
      expect(readFileSync(join(outside, 'log.jsonl'), 'utf8')).toBe('');
    },
  );
});

describe('the limit of the history', () => {
  const long = (number: number): string => `${number} `.repeat(1000);

  it('holds on disk, texts and log, and the newest saves of each file stay', async () => {
    const root = temporaryFolder();
    const limits = { octets: 50_000, newest: 3 };
    const history = new History(root, limits);
    for (let number = 100; number < 103; number += 1) await history.keep('quiet.yaml', kept(long(number), number));
    for (let number = 200; number < 260; number += 1) {
      await history.keep('busy.yaml', kept(long(number), number));
      const log = statSync(join(root, '.layshaft', 'history', 'log.jsonl')).size;
      expect(log + 4000 * textFiles(root).length).toBeLessThanOrEqual(limits.octets);
    }
    expect(await textsOf(history, 'quiet.yaml')).toEqual([long(102), long(101), long(100)]);
    const busy = await textsOf(history, 'busy.yaml');
    expect(busy.length).toBeGreaterThan(5);
    expect(busy).toEqual(Array.from(busy, (_, place) => long(259 - place)));
  });

  it('keeps the newest saves even where they alone are larger', async () => {
    const root = temporaryFolder();
    const history = new History(root, { octets: 1000, newest: 3 });
    for (let number = 0; number < 9; number += 1) await history.keep('a.yaml', kept(long(number), number));
    expect(await textsOf(history, 'a.yaml')).toEqual([long(8), long(7), long(6)]);
    expect(textFiles(root)).toHaveLength(3);
  });

  it('counts what a killed run has left, and removes it when it is old', async () => {
    const root = temporaryFolder({ '.layshaft/history/.layshaft-99999999-0123456789ab.tmp': '' });
    await new History(root).keep('a.yaml', kept('one', 1));
    const texts = join(root, '.layshaft', 'history', 'texts');
    for (const name of ['young', 'old']) writeFileSync(join(texts, versionOf(Buffer.from(name))), name);
    utimesSync(join(texts, versionOf(Buffer.from('old'))), 0, 0);
    await new History(root).keep('a.yaml', kept('two', 2));
    expect(textFiles(root).sort()).toEqual(['one', 'two', 'young'].map((text) => versionOf(Buffer.from(text))).sort());
    expect(readdirSync(join(root, '.layshaft', 'history')).sort()).toEqual(['log.jsonl', 'texts']);
  });
});
