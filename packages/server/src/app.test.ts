// What the server answers: the shape of each answer, and every error in plain words.
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { openedApp } from './app.support.ts';
import { versionOf } from './history.ts';

const version = (text: string): string => versionOf(Buffer.from(text));

describe('files', () => {
  it('are listed', async () => {
    const { ask } = await openedApp({ files: { 'a.yaml': 'one', 'sub/b.yaml': '' } });
    const answer = await ask('/api/files');
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({
      files: [
        { path: 'a.yaml', bytes: 3 },
        { path: 'sub/b.yaml', bytes: 0 },
      ],
      complete: true,
      limits: { files: 1000, folders: 1000, depth: 8 },
    });
  });

  it('are given with their version', async () => {
    const { ask } = await openedApp({ files: { 'Größe 1.yaml': 'µ' } });
    const answer = await ask(`/api/file?path=${encodeURIComponent('Größe 1.yaml')}`);
    expect(await answer.json()).toEqual({ path: 'Größe 1.yaml', text: 'µ', version: version('µ') });
    expect(answer.headers.get('etag')).toBe(`"${version('µ')}"`);
  });

  it('are saved', async () => {
    const { root, put } = await openedApp();
    const answer = await put({ path: 'a.yaml', text: 'two', base: version('one') });
    expect([answer.status, await answer.json()]).toEqual([200, { version: version('two') }]);
    expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('two');
  });

  it('are not saved over another text, which is given instead', async () => {
    const { root, put } = await openedApp();
    const other = await put({ path: 'a.yaml', text: 'two', base: null });
    expect([other.status, await other.json()]).toEqual([
      409,
      {
        error: { says: 'The file on disk is another one by now.', advice: expect.any(String) },
        version: version('one'),
        text: 'one',
      },
    ]);
    rmSync(join(root, 'a.yaml'));
    const gone = await put({ path: 'a.yaml', text: 'two', base: version('one') });
    expect([gone.status, await gone.json()]).toMatchObject([
      409,
      { error: { says: 'The file is gone from the disk.' }, version: null, text: null },
    ]);
  });

  it('have a history', async () => {
    const { ask, put } = await openedApp();
    await put({ path: 'a.yaml', text: 'two', base: version('one') });
    const { saves } = (await (await ask('/api/history?path=a.yaml')).json()) as { saves: { id: string }[] };
    expect(saves).toMatchObject([
      { at: expect.stringMatching(/^\d{4}-\d\d-\d\dT.*Z$/), bytes: 3, by: 'sheet' },
      { bytes: 3, by: 'elsewhere' },
    ]);
    const text = await ask(`/api/history/text?path=a.yaml&id=${saves[1]!.id}`);
    expect(await text.json()).toEqual({ text: 'one' });
  });

  it('tell of their changes, first of all that is there', async () => {
    const { root, ask } = await openedApp();
    const answer = await ask('/api/changes');
    expect(answer.headers.get('content-type')).toBe('text/event-stream');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    const reader = answer.body!.getReader();
    const next = async () => new TextDecoder().decode((await reader.read()).value);
    expect(await next()).toBe(`data: ${JSON.stringify({ path: 'a.yaml', version: version('one') })}\n\n`);
    writeFileSync(join(root, 'a.yaml'), 'two');
    expect(await next()).toBe(`data: ${JSON.stringify({ path: 'a.yaml', version: version('two') })}\n\n`);
    rmSync(join(root, 'a.yaml'));
    expect(await next()).toBe(`data: ${JSON.stringify({ path: 'a.yaml', version: null })}\n\n`);
    await reader.cancel();
  });
});

describe('errors', () => {
  it.each([
    ['/api/', 404],
    ['/api/filez', 404],
    ['/api/file', 400],
    ['/api/file?path=none.yaml', 404],
    ['/api/file?path=..%2Fsecret.yaml', 403],
    ['/api/file?path=%00.yaml', 400],
    ['/api/file?path=%ff.yaml', 404],
    ['/api/history', 400],
    ['/api/history/text?path=a.yaml', 400],
    ['/api/history/text?path=a.yaml&id=x', 404],
  ])('are said in plain words: GET %s', async (path, status) => {
    const { ask } = await openedApp();
    const answer = await ask(path);
    expect(answer.status).toBe(status);
    const body = await answer.json();
    expect(body).toEqual({ error: { says: expect.stringMatching(/\.$/), advice: expect.stringMatching(/\.$/) } });
  });

  it.each([
    ['no JSON', '{"path":', 400],
    ['nothing', 'null', 400],
    ['no text', { path: 'a.yaml', base: null }, 400],
    ['no base', { path: 'a.yaml', text: '' }, 400],
    ['a number as its text', { path: 'a.yaml', text: 1, base: null }, 400],
    ['a path that leads out', { path: '../a.yaml', text: '', base: null }, 403],
    ['a path that is no machine file', { path: 'a.js', text: '', base: null }, 403],
    ['too large a text', { path: 'a.yaml', text: '#'.repeat(2_000_001), base: null }, 413],
    ['too large a body', ' '.repeat(12_010_001), 413],
  ])('are said in plain words: a save with %s', async (_what, body, status) => {
    const { root, put } = await openedApp();
    const answer = await put(body);
    expect([answer.status, await answer.json()]).toEqual([
      status,
      { error: { says: expect.stringMatching(/\.$/), advice: expect.any(String) } },
    ]);
    expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('one');
  });

  it('of the server itself are reported, and say so without saying more', async () => {
    const { store, errors, ask } = await openedApp();
    const fault = new TypeError('secret detail');
    vi.spyOn(store, 'list').mockRejectedValue(fault);
    const answer = await ask('/api/files');
    expect([answer.status, await answer.json()]).toEqual([
      500,
      { error: { says: 'This is a defect of layshaft, not of your file.', advice: expect.any(String) } },
    ]);
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(errors.splice(0)).toEqual([fault]);
  });
});
