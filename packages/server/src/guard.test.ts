// Who is answered: only the server's own page and a person who opens it; and what every answer forbids.
import { describe, expect, it } from 'vitest';
import { openedApp, own } from './app.support.ts';
import { versionOf } from './history.ts';

const base = versionOf(Buffer.from('one'));
const save = { path: 'a.yaml', text: 'two', base };

describe('a request', () => {
  it.each([
    ['127.0.0.1:5297', 200],
    ['localhost:5297', 200],
    ['LOCALHOST:5297', 200],
    ['[::1]:5297', 200],
    ['127.0.0.1', 403],
    ['127.0.0.1:80', 403],
    ['localhost:52970', 403],
    ['evil.example:5297', 403],
    ['localhost.evil.example:5297', 403],
    ['127.0.0.1:5297, evil.example', 403],
    ['', 403],
    [undefined, 403],
  ])('with Host %s is answered with %i', async (host, status) => {
    const { ask } = await openedApp();
    for (const path of ['/', '/api/files']) expect((await ask(path, { headers: { host } })).status).toBe(status);
  });

  it.each([
    ['Origin', { origin: own }, 200],
    ['Origin', { origin: 'http://localhost:5297', host: 'localhost:5297' }, 200],
    ['Origin', { origin: 'http://localhost:5297' }, 403],
    ['Origin', { origin: 'https://127.0.0.1:5297' }, 403],
    ['Origin', { origin: 'http://127.0.0.1:5298' }, 403],
    ['Origin', { origin: 'http://evil.example' }, 403],
    ['Origin', { origin: 'null' }, 403],
    ['Sec-Fetch-Site', { 'sec-fetch-site': 'same-origin' }, 200],
    ['Sec-Fetch-Site', { 'sec-fetch-site': 'none' }, 200],
    ['Sec-Fetch-Site', { 'sec-fetch-site': 'same-site' }, 403],
    ['Sec-Fetch-Site', { 'sec-fetch-site': 'cross-site' }, 403],
  ])('for data with %s: %j is answered with %i', async (_name, headers, status) => {
    const { ask } = await openedApp();
    expect((await ask('/api/files', { headers })).status).toBe(status);
  });

  it('for the page may come by a link of another site', async () => {
    const { ask } = await openedApp();
    expect((await ask('/', { headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(200);
  });

  it.each([
    [{}, 200],
    [{ origin: undefined, 'sec-fetch-site': 'same-origin' }, 200],
    [{ 'content-type': 'application/json; charset=utf-8' }, 200],
    [{ origin: undefined }, 403],
    [{ origin: undefined, 'sec-fetch-site': 'none' }, 403],
    [{ origin: 'http://evil.example' }, 403],
    [{ origin: 'http://evil.example', 'sec-fetch-site': 'same-origin' }, 403],
    [{ 'sec-fetch-site': 'cross-site' }, 403],
    [{ 'content-type': undefined }, 415],
    [{ 'content-type': 'text/plain' }, 415],
    [{ 'content-type': 'application/jsonp' }, 415],
    [{ host: 'evil.example:5297' }, 403],
  ])('to save with %j is answered with %i', async (headers, status) => {
    const { put, store } = await openedApp();
    expect((await put(save, headers)).status).toBe(status);
    expect((await store.read('a.yaml')).text).toBe(status === 200 ? 'two' : 'one');
  });

  it.each([
    ['POST', '/api/file'],
    ['DELETE', '/api/file?path=a.yaml'],
    ['OPTIONS', '/api/file'],
    ['HEAD', '/api/changes'],
    ['POST', '/'],
    ['PUT', '/'],
  ])('by %s %s is refused', async (method, path) => {
    const { ask } = await openedApp();
    const answer = await ask(path, { method, headers: { origin: own, 'content-type': 'application/json' } });
    expect(answer.status).toBe(405);
  });

  it('by HEAD / is answered like GET, without the page', async () => {
    const { ask } = await openedApp();
    const answer = await ask('/', { method: 'HEAD' });
    expect([answer.status, await answer.text()]).toEqual([200, '']);
  });
});

describe('every answer', () => {
  const policy = (style: string): string =>
    `default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src ${style}; img-src 'self' data:; font-src 'self'; ` +
    "connect-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

  it.each(['/', '/assets/index-Bx3_fq-9.js', '/sw.js', '/none', '/api/files', '/api/none', '/api/file?path=../a.yaml'])(
    'forbids what the sheet does not need: %s',
    async (path) => {
      const { ask } = await openedApp();
      const { headers } = await ask(path);
      const nonce = /'nonce-([\w+/=]{24})'/.exec(headers.get('content-security-policy') ?? '')?.[0];
      expect(nonce !== undefined).toBe(path === '/');
      expect(headers.get('content-security-policy')).toBe(policy(nonce ? `'self' ${nonce}` : "'self'"));
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
      expect(headers.get('cross-origin-embedder-policy')).toBe('require-corp');
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
      expect(headers.get('access-control-allow-origin')).toBeNull();
      if (path.startsWith('/api')) expect(headers.get('cache-control')).toBe('no-store');
    },
  );
});

describe('a token', () => {
  const token = 'a-token-of-thirty-two-characters';

  it.each([
    ['nothing', '/', {}, 401],
    ['nothing', '/api/files', {}, 401],
    ['nothing', '/assets/index-Bx3_fq-9.js', {}, 401],
    ['it in the address', `/?token=${token}`, {}, 200],
    ['it in the address of data', `/api/files?token=${token}`, {}, 401],
    ['another one in the address', '/?token=another', {}, 401],
    ['half of it', `/?token=${token.slice(0, 16)}`, {}, 401],
    ['an empty one', '/?token=', {}, 401],
    ['it in a header', '/api/files', { authorization: `Bearer ${token}` }, 200],
    ['another one in a header', '/api/files', { authorization: 'Bearer another' }, 401],
    ['it in the cookie', '/api/files', { cookie: `x=y; layshaft-5297=${token}` }, 200],
    ['another one in the cookie', '/api/files', { cookie: 'layshaft-5297=another' }, 401],
    ['it in the cookie of another server', '/api/files', { cookie: `layshaft-5298=${token}` }, 401],
    ['it, but a foreign name', '/', { host: 'evil.example:5297', authorization: `Bearer ${token}` }, 403],
  ])('is asked for: with %s, %s %j is answered with %4$i', async (_what, path, headers, status) => {
    const { ask } = await openedApp({ token });
    const answer = await ask(path, { headers });
    expect(answer.status).toBe(status);
    if (status === 401) expect(await answer.text()).toContain('Open the whole address');
  });

  it('is asked for before a save', async () => {
    const { put, store } = await openedApp({ token });
    expect((await put(save)).status).toBe(401);
    expect((await store.read('a.yaml')).text).toBe('one');
    expect((await put(save, { cookie: `layshaft-5297=${token}` })).status).toBe(200);
  });

  it('of the first visit becomes a cookie that no script and no other site can use', async () => {
    const { ask } = await openedApp({ token });
    const cookie = (await ask(`/?token=${token}`)).headers.get('set-cookie');
    expect(cookie).toBe(`layshaft-5297=${token}; Path=/; HttpOnly; SameSite=Strict`);
    expect((await ask('/?token=another')).headers.get('set-cookie')).toBeNull();
    expect((await ask('/', { headers: { cookie: cookie!.split(';')[0] } })).status).toBe(200);
  });
});
