// The files of the built sheet, which the browser loads: a fixed list, so that no request can name anything else.
import { randomBytes } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { contentSecurityPolicy } from './guard.ts';

export interface SheetFile {
  readonly octets: Uint8Array<ArrayBuffer>;
  readonly headers: Readonly<Record<string, string>>;
}

/**
 * Gives the file for the path of a URL, undefined when the sheet has none. The list is that of the folder `web` when
 * index.html was last asked for, so a sheet built anew is served whole from the next visit on.
 */
export async function openSheet(web: string): Promise<(path: string) => Promise<SheetFile | undefined>> {
  let names = await namesIn(web);
  return async (path) => {
    if (path === '/' || path === '/index.html') {
      names = await namesIn(web);
      return indexPage(await readFile(join(web, 'index.html'), 'utf8'));
    }
    const name = names.get(path);
    if (name === undefined) return undefined;
    return {
      octets: new Uint8Array(await readFile(join(web, name))),
      headers: {
        'Content-Type': contentTypes[extname(name).toLowerCase()] ?? 'application/octet-stream',
        'Cache-Control': isHashed(path) ? 'private, max-age=31536000, immutable' : 'no-cache',
      },
    };
  };
}

/**
 * The page with a nonce of its own, for the style elements that its scripts make. A page from a cache keeps page and
 * policy together; it has no ETag, since an answer 304 would join an old page to a new policy.
 */
function indexPage(html: string): SheetFile {
  const nonce = randomBytes(16).toString('base64');
  const meta = `<meta name="csp-nonce" content="${nonce}">`;
  const own = /<meta\s[^>]*name="csp-nonce"[^>]*>/i;
  const page = own.test(html) ? html.replace(own, meta) : html.replace(/<head(\s[^>]*)?>/i, (head) => `${head}${meta}`);
  return {
    octets: new TextEncoder().encode(page),
    headers: {
      'Content-Type': 'text/html; charset=utf-8',
      'Cache-Control': 'no-cache',
      'Content-Security-Policy': contentSecurityPolicy(nonce),
    },
  };
}

/** By path of the URL, the name below the folder. */
async function namesIn(web: string): Promise<Map<string, string>> {
  const entries = await readdir(web, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  const names = files.map((entry) => join(entry.parentPath, entry.name).slice(join(web, sep).length));
  return new Map(names.map((name) => [`/${name.split(sep).map(encodeURIComponent).join('/')}`, name]));
}

/** A bundler names what it puts into assets after the content, so it never changes. */
const isHashed = (path: string): boolean => /^\/assets\/.+-[\w-]{8,}\.\w+$/.test(path);

const contentTypes: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};
