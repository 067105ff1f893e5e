// The files of the sheet: what caches may keep, a nonce for each visit, and nothing but what was built.
import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openedApp } from './app.support.ts';
import { openSheet } from './sheet-files.ts';
import { temporaryFolder } from './temporary.support.ts';

describe('the sheet', () => {
  it.each([
    ['/assets/index-Bx3_fq-9.js', 'text/javascript; charset=utf-8', 'private, max-age=31536000, immutable'],
    ['/sw.js', 'text/javascript; charset=utf-8', 'no-cache'],
    ['/', 'text/html; charset=utf-8', 'no-cache'],
    ['/index.html', 'text/html; charset=utf-8', 'no-cache'],
  ])('is served: %s', async (path, type, cache) => {
    const { ask } = await openedApp();
    const { status, headers } = await ask(path);
    expect([status, headers.get('content-type'), headers.get('cache-control')]).toEqual([200, type, cache]);
    expect(headers.get('etag')).toBeNull();
  });

  it.each([
    '/assets',
    '/assets/',
    '/assets/none.js',
    '/none',
    '//index.html',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/..%2findex.html',
    '/..%5csecret.txt',
    '/sw.js%00',
    '/link.txt',
    '/INDEX.HTML',
  ])('has nothing else: %s', async (path) => {
    const { web, ask } = await openedApp();
    symlinkSync('../secret.txt', join(web, 'link.txt'));
    const answer = await ask(path);
    expect([answer.status, await answer.text()]).toEqual([404, expect.stringMatching(/^The sheet has no /)]);
  });

  it.each([
    ['is put into the head', '<html><head lang="en"><title>a</title></head></html>'],
    [
      'fills the one that is there',
      '<html><head lang="en"><meta name="csp-nonce" content="" /><title>a</title></head></html>',
    ],
  ])('has a nonce for each visit, which %s', async (_what, html) => {
    const sheet = await openSheet(temporaryFolder({ 'index.html': html }));
    const nonces = new Set<string>();
    for (let visit = 0; visit < 5; visit += 1) {
      const page = await sheet('/');
      const text = Buffer.from(page!.octets).toString();
      const nonce = /^<html><head lang="en"><meta name="csp-nonce" content="([\w+/=]{24})"><title>a</.exec(text)?.[1];
      expect(page!.headers['Content-Security-Policy']).toContain(`style-src 'self' 'nonce-${nonce}';`);
      nonces.add(nonce!);
    }
    expect(nonces.size).toBe(5);
  });

  it('is that of the last build from the next visit on', async () => {
    const web = temporaryFolder({ 'index.html': '<head></head>', 'assets/a-11111111.js': 'old' });
    const sheet = await openSheet(web);
    rmSync(join(web, 'assets'), { recursive: true });
    mkdirSync(join(web, 'assets'));
    writeFileSync(join(web, 'assets', 'b 2.js'), 'new');
    expect(await sheet('/assets/b%202.js')).toBeUndefined();
    await sheet('/');
    expect(Buffer.from((await sheet('/assets/b%202.js'))!.octets).toString()).toBe('new');
    expect(await sheet('/assets/a-11111111.js')).toBeUndefined();
  });

  it('must be there', async () => {
    await expect(openSheet(join(temporaryFolder(), 'dist'))).rejects.toMatchObject({ code: 'ENOENT' });
  });
});
