// The server on a real port: what a browser does, what a hostile client sends, how it ends, and who can reach it.
import { once } from 'node:events';
import { readFileSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect, createServer } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { describe, expect, it, onTestFinished } from 'vitest';
import { versionOf } from './history.ts';
import { type ServeOptions, serve, usualPort } from './serve.ts';
import { secret, serviceWorker, temporaryFolder, temporarySheet } from './temporary.support.ts';

const version = (text: string): string => versionOf(Buffer.from(text));

async function served(options: Partial<ServeOptions> = {}) {
  const folder = temporaryFolder({ 'a.yaml': 'one' });
  const web = temporarySheet();
  const errors: unknown[] = [];
  const server = await serve({ folder, web, port: 0, onError: (error) => errors.push(error), ...options });
  let ended: Promise<void> | undefined;
  const close = (): Promise<void> => {
    ended ??= server.close();
    return ended;
  };
  onTestFinished(async () => {
    await close();
    expect(errors).toEqual([]);
  });
  return { ...server, close, folder, errors, port: Number(new URL(server.url).port) };
}

const put = (url: string, body: unknown): Promise<Response> =>
  fetch(`${url}api/file`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json', origin: new URL(url).origin },
    body: JSON.stringify(body),
  });

/** What the server answers to octets of all kinds. */
async function raw(port: number, octets: string): Promise<string> {
  const socket = connect(port, '127.0.0.1');
  await once(socket, 'connect');
  socket.write(octets);
  return text(socket);
}

describe('the server', () => {
  it('serves the sheet and keeps the files', async () => {
    const { url, isShared, folder } = await served();
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(isShared).toBe(false);
    expect(await (await fetch(url)).text()).toContain('<title>Sheet</title>');
    expect(await (await fetch(`${url}sw.js`)).text()).toBe(serviceWorker);
    expect((await put(url, { path: 'a.yaml', text: 'two', base: version('one') })).status).toBe(200);
    expect(readFileSync(join(folder, 'a.yaml'), 'utf8')).toBe('two');
  });

  it('is not reached by another address of this computer', async () => {
    const { port } = await served();
    const others = Object.values(networkInterfaces())
      .flatMap((each) => each ?? [])
      .filter((each) => !each.internal);
    for (const address of [
      '127.0.0.2',
      ...others.filter(({ family }) => family === 'IPv4').map((each) => each.address),
    ])
      await expect(once(connect(port, address), 'connect')).rejects.toMatchObject({ code: 'ECONNREFUSED' });
  });

  it('tells changes while they happen, and forgets a listener that is gone', async () => {
    const { url, folder } = await served();
    const leaving = new AbortController();
    const answer = await fetch(`${url}api/changes`, { signal: leaving.signal });
    const reader = answer.body!.getReader();
    const next = async () => new TextDecoder().decode((await reader.read()).value);
    expect(await next()).toContain(version('one'));
    writeFileSync(join(folder, 'a.yaml'), 'two');
    expect(await next()).toContain(version('two'));
    leaving.abort();
    await expect(reader.read()).rejects.toThrow();
  });

  it.each([
    ['GET /../secret.txt HTTP/1.1', 404],
    ['GET /assets/../../secret.txt HTTP/1.1', 404],
    ['GET /%2e%2e/secret.txt HTTP/1.1', 404],
    ['GET /..%2fsecret.txt HTTP/1.1', 404],
    ['GET /..\\secret.txt HTTP/1.1', 400],
    ['GET /api/file?path=../../etc/passwd.yaml HTTP/1.1', 403],
    ['GET /api/file?path=/etc/passwd.yaml HTTP/1.1', 403],
    ['GET http://evil.example/api/files HTTP/1.1', 200],
    ['GET * HTTP/1.1', 400],
    ['TRACE / HTTP/1.1', 405],
    ['NONSENSE / HTTP/1.1', 400],
  ])('answers %j with %i', async (line, status) => {
    const { port } = await served();
    const answer = await raw(port, `${line}\r\nHost: 127.0.0.1:${port}\r\nConnection: close\r\n\r\n`);
    expect(answer).toMatch(new RegExp(`^HTTP/1.1 ${status} `));
    expect(answer).not.toContain(secret);
    expect(answer).not.toContain('root:');
  });

  it.each(['evil.example', 'two words', '[', 'a@127.0.0.1', '127.0.0.1/..'])(
    'does not answer to the name %j',
    async (host) => {
      const { port } = await served();
      const answer = await raw(port, `GET /api/files HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`);
      expect(answer).toMatch(/^HTTP\/1.1 (400|403) /);
      expect(answer).not.toContain('a.yaml');
    },
  );

  it('ends with a page open, after the save under way', async () => {
    const { url, folder, close } = await served();
    const changes = await fetch(`${url}api/changes`);
    const saves = Array.from({ length: 5 }, (_, number) =>
      put(url, { path: `${number}.yaml`, text: 'new', base: null }),
    );
    await saves[0];
    await close();
    const answers = await Promise.allSettled(saves);
    for (const [number, answer] of answers.entries())
      if (answer.status === 'fulfilled') expect(readFileSync(join(folder, `${number}.yaml`), 'utf8')).toBe('new');
    expect(answers[0]?.status).toBe('fulfilled');
    await expect(changes.text()).rejects.toThrow();
    await expect(fetch(url)).rejects.toThrow();
  });
});

describe('the port', () => {
  it('is the usual one, or any when that is taken', async () => {
    const blocker = createServer();
    const isFree = await new Promise((resolve) => {
      blocker.once('error', () => resolve(false));
      blocker.listen(usualPort, '127.0.0.1', () => resolve(true));
    });
    const other = await served({ port: undefined });
    expect(other.port).not.toBe(usualPort);
    await new Promise((resolve) => blocker.close(resolve));
    if (isFree) expect((await served({ port: undefined })).port).toBe(usualPort);
  });

  it('that was asked for must be free', async () => {
    const { port } = await served();
    await expect(served({ port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
  });
});

describe('what is not there', () => {
  it.each([
    ['the folder', { folder: '/none/folder' }, 'ENOENT'],
    ['the sheet', { web: '/none/dist' }, 'ENOENT'],
    ['the address', { host: '192.0.2.1' }, 'EADDRNOTAVAIL'],
  ])('is told: %s', async (_what, options, code) => {
    await expect(served(options)).rejects.toMatchObject({ code });
  });
});

describe('an address that other computers reach', () => {
  it('asks for the token of its URL', async () => {
    const { url, isShared, port } = await served({ host: '0.0.0.0' });
    expect(isShared).toBe(true);
    const token = /\?token=([\w-]{32})$/.exec(url)?.[1];
    expect(token).toBeDefined();
    for (const path of ['', 'api/files', 'sw.js'])
      expect((await fetch(`http://127.0.0.1:${port}/${path}`)).status).toBe(401);
    const visit = await fetch(`http://127.0.0.1:${port}/?token=${token}`);
    expect(visit.status).toBe(200);
    const cookie = visit.headers.getSetCookie()[0]!.split(';')[0]!;
    expect((await fetch(`http://127.0.0.1:${port}/api/files`, { headers: { cookie } })).status).toBe(200);
    const second = await served({ host: '0.0.0.0' });
    expect(second.url).not.toContain(token);
  });

  it('answers to its own addresses only', async () => {
    const { url, port } = await served({ host: '0.0.0.0' });
    const ask = async (host: string): Promise<number | undefined> => {
      const asking = request({ port, host: '127.0.0.1', path: `/${new URL(url).search}`, headers: { host } }).end();
      const [response] = await once(asking, 'response');
      response.resume();
      return response.statusCode;
    };
    expect(await ask(new URL(url).host)).toBe(200);
    expect(await ask(`localhost:${port}`)).toBe(200);
    expect(await ask(`evil.example:${port}`)).toBe(403);
    expect(await ask(`192.0.2.1:${port}`)).toBe(403);
  });

  it.each(['localhost', '127.0.0.1', '127.0.0.2'])('is not %s', async (host) => {
    const { url, isShared } = await served({ host });
    expect([isShared, new URL(url).hostname, new URL(url).search]).toEqual([false, host, '']);
    expect((await fetch(url)).status).toBe(200);
  });
});
