// Which requests are answered, and what every answer tells the browser to forbid: the server is for one page, its own.
import { createHash, timingSafeEqual } from 'node:crypto';
import type { Context, MiddlewareHandler } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';
import { Refusal } from './refusal.ts';

export interface GuardOptions {
  /** The names and addresses under which the server may be asked, an IPv6 address in brackets. */
  readonly hosts: () => readonly string[];
  readonly port: number;
  /** Without it, who can reach the server may use it. */
  readonly token?: string | undefined;
}

/**
 * Refuses what does not come from the server's own page or from a person who opens it: a foreign name in Host (which a
 * web site can make lead here), a foreign Origin, a missing token, a write that a foreign form could have sent.
 */
export function guard({ hosts, port, token }: GuardOptions): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host')?.toLowerCase() ?? '';
    const known = hosts().flatMap((name) => [`${name}:${port}`, ...(port === 80 ? [name] : [])]);
    if (!known.includes(host))
      throw new Refusal(403, 'The server is not asked by its own name.', `Open http://${known[0]}/ instead.`);
    if (token !== undefined) admit(c, token, `layshaft-${port}`);

    const isApi = c.req.path.startsWith('/api/');
    const origin = c.req.header('origin');
    const site = c.req.header('sec-fetch-site');
    const isForeign = origin !== undefined && origin.toLowerCase() !== `http://${host}`;
    if (isForeign || (isApi && site !== undefined && site !== 'same-origin' && site !== 'none'))
      throw new Refusal(403, 'Another web site has asked.', 'Use the page of this server itself.');

    const { method } = c.req;
    if (method === 'PUT' && isApi) {
      if (origin === undefined && site !== 'same-origin')
        throw new Refusal(403, 'A save must say where it comes from.', 'Send the header Origin, as browsers do.');
      if (!/^application\/json\s*(;|$)/i.test(c.req.header('content-type') ?? ''))
        throw new Refusal(415, 'A save must be JSON.', 'Send the header Content-Type: application/json.');
    } else if (method !== 'GET' && !(method === 'HEAD' && !isApi)) {
      throw new Refusal(405, `Nothing here answers to ${method}.`, 'Use GET, or PUT for /api/file.');
    }
    await next();
  };
}

/** Tells the browser that only the server's own scripts, styles and data belong to a page, and no frame around it. */
export const securityHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  const { headers } = c.res;
  if (!headers.has('Content-Security-Policy')) headers.set('Content-Security-Policy', contentSecurityPolicy());
  for (const [name, text] of fixedHeaders) headers.set(name, text);
  if (c.req.path.startsWith('/api/') || !headers.has('Cache-Control')) headers.set('Cache-Control', 'no-store');
};

/** The policy of a page; style elements with the nonce count as its own. */
export const contentSecurityPolicy = (nonce?: string): string =>
  [
    "default-src 'none'",
    // The solver is compiled from a file of the sheet's own; text is never made a script.
    "script-src 'self' 'wasm-unsafe-eval'",
    `style-src 'self'${nonce === undefined ? '' : ` 'nonce-${nonce}'`}`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

const fixedHeaders = [
  ['X-Content-Type-Options', 'nosniff'],
  ['Referrer-Policy', 'no-referrer'],
  ['Cross-Origin-Opener-Policy', 'same-origin'],
  ['Cross-Origin-Embedder-Policy', 'require-corp'],
  ['Cross-Origin-Resource-Policy', 'same-origin'],
] as const;

/** The token comes in a header, in the address of the first visit, or in the cookie that this visit is given. */
function admit(c: Context, token: string, cookie: string): void {
  const inHeader = /^Bearer (.+)$/i.exec(c.req.header('authorization') ?? '')?.[1];
  if (isSame(inHeader, token) || isSame(getCookie(c, cookie), token)) return;
  if (!isSame(c.req.query('token'), token) || c.req.path !== '/')
    throw new Refusal(401, 'This server asks for a token.', 'Open the whole address that layshaft open has printed.');
  setCookie(c, cookie, token, { httpOnly: true, sameSite: 'Strict', path: '/' });
}

/** Takes the same time wherever the two differ. */
function isSame(given: string | undefined, token: string): boolean {
  const [a, b] = [given ?? '', token].map((text) => createHash('sha256').update(text).digest());
  return given !== undefined && timingSafeEqual(a!, b!);
}
