// Binds the server to an address of this computer; beyond this computer only with a token.
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import { type AddressInfo, isIPv6 } from 'node:net';
import { networkInterfaces } from 'node:os';
import { getRequestListener } from '@hono/node-server';
import { createApp } from './app.ts';
import { openStore } from './file-store.ts';
import { codeOf } from './refusal.ts';
import { openSheet } from './sheet-files.ts';

export interface ServeOptions {
  /** Whose machine files are kept. */
  readonly folder: string;
  /** The folder of the built sheet, with index.html. */
  readonly web: string;
  /** An address or a name of this computer; 127.0.0.1 when absent, which no other computer reaches. */
  readonly host?: string | undefined;
  /** 0 for any free one. When absent the usual port, or any free one when that is taken. */
  readonly port?: number | undefined;
  /** Told of errors that have nobody else to be told to. */
  readonly onError: (error: unknown) => void;
}

export interface Served {
  /** Where the sheet is, with the token when there is one. */
  readonly url: string;
  /** Whether other computers can reach it, so that it asks for the token. */
  readonly isShared: boolean;
  /** Ends it; a save under way is finished first. */
  close(): Promise<void>;
}

/** A browser keeps its own things by port, so it is the same each day: LAYS on the keys of a telephone (our judgement). */
export const usualPort = 5297;
/** How long a browser has to take the last answers when the server ends (our judgement). */
const grace_ms = 300;

/**
 * Serves the sheet and one folder. Rejects with the error of the system when folder or sheet is not there (ENOENT,
 * ENOTDIR) or the address cannot be had (EADDRINUSE, EACCES, EADDRNOTAVAIL, ENOTFOUND).
 */
export async function serve({ folder, web, host = '127.0.0.1', port, onError }: ServeOptions): Promise<Served> {
  const sheet = await openSheet(web);
  const store = await openStore(folder, { onError });
  const server = createServer();
  try {
    await listen(server, host, port);
  } catch (error) {
    await store.close();
    throw error;
  }
  const { address, port: bound } = server.address() as AddressInfo;
  const isShared = !isLoopback(address);
  const token = isShared ? randomBytes(24).toString('base64url') : undefined;
  const hosts = () => namesOf(host, address);
  const app = createApp({ store, sheet, hosts, port: bound, token, onError });
  server.on('request', getRequestListener(app.fetch, { overrideGlobalObjects: false, errorHandler: notUnderstood }));
  return {
    url: `http://${hosts()[0]}:${bound}/${token === undefined ? '' : `?token=${token}`}`,
    isShared,
    close: async () => {
      const closed = once(server, 'close');
      server.close();
      await store.close();
      const impatience = setTimeout(() => server.closeAllConnections(), grace_ms);
      await closed;
      clearTimeout(impatience);
    },
  };
}

/** What is no request for an address, such as one with a blank in Host, never reaches the app. */
const notUnderstood = (): Response => new Response('The request is not understood. Use a browser.\n', { status: 400 });

async function listen(server: Server, host: string, port: number | undefined): Promise<void> {
  try {
    server.listen(port ?? usualPort, host);
    await once(server, 'listening');
  } catch (error) {
    if (port !== undefined || codeOf(error) !== 'EADDRINUSE') throw error;
    await listen(server, host, 0);
  }
}

const isLoopback = (address: string): boolean => /^(::ffff:)?127\.|^::1$/.test(address);
const inUrl = (host: string): string => (isIPv6(host) ? `[${host}]` : host.toLowerCase());

/** The names under which the server may be asked; the first one is for its URL. */
function namesOf(host: string, address: string): string[] {
  const here = ['127.0.0.1', 'localhost', '[::1]'];
  if (isLoopback(address)) return [inUrl(host), ...here];
  if (address !== '0.0.0.0' && address !== '::') return [inUrl(host), inUrl(address)];
  const all = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  const beyond = all.filter((each) => !each.internal).sort((a, b) => a.family.localeCompare(b.family));
  return [...beyond.map((each) => inUrl(each.address)), ...here];
}
