// layshaft open: serves the sheet and the machine files of a folder to a browser on this computer.
import { stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { exit, type Io, UserError } from './io.ts';
import { codeOf } from './read-file.ts';

export interface OpenOptions {
  readonly port?: number;
  readonly host?: string;
}

/** Where the sheet is built, seen from the bundle and from the source alike. */
const builtSheet = fileURLToPath(new URL('../../web/dist', import.meta.url));

/** Serves until it is interrupted and gives the exit status. Throws a UserError when folder, sheet or port cannot be had. */
export async function openSheet(
  named: string,
  options: OpenOptions,
  io: Pick<Io, 'stdout' | 'stderr' | 'untilInterrupted'>,
  web = builtSheet,
): Promise<number> {
  const isFile = await isThere(named);
  if (isFile && !/\.ya?ml$/i.test(named))
    throw new UserError(`${named} is no machine file: its name ends neither in .yaml nor in .yml. Rename it.`);
  const folder = isFile ? dirname(named) : named;
  if (!(await isThere(join(web, 'index.html'))))
    throw new UserError('The sheet is not built yet: run npm run build once in the folder of Layshaft.');
  // Loaded only here: the other commands start without a server.
  const { serve } = await import('@layshaft/server');
  const onError = (error: unknown): void => void io.stderr.write(`${error instanceof Error ? error.stack : error}\n`);
  const served = await serve({ folder, web, ...options, onError }).catch((error: unknown) => {
    throw new UserError(told(error, named, options));
  });
  const file = isFile ? `#/${encodeURIComponent(basename(named))}` : '';
  const shared =
    'Other computers reach it by that address, and whoever has it can change the files; nothing is encrypted.';
  io.stdout.write(`Layshaft is open at ${served.url}${file}
Open that address in a browser. Ctrl+C here ends it; every save is kept in ${join(folder, '.layshaft', 'history')}.
${served.isShared ? `${shared}\n` : ''}`);
  await io.untilInterrupted();
  await served.close();
  return exit.fine;
}

async function isThere(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isFile();
  } catch (error) {
    if (codeOf(error) === undefined) throw error;
    return false;
  }
}

/** An error that is none of the system's stays as it is. */
function told(error: unknown, named: string, { host, port }: OpenOptions): string {
  switch (codeOf(error)) {
    case 'ENOENT':
    case 'ENOTDIR':
      return `There is no folder ${named}. Name the folder in which your machine files are, or one of them.`;
    case 'EADDRINUSE':
      return `Port ${port} is taken by another program. Choose another with --port, or leave it out.`;
    case 'EACCES':
      return `The folder ${named}, or a port below 1024, may not be used by you. Choose another.`;
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `${host} is no address of this computer. Leave --host out to serve this computer alone.`;
    default:
      throw error;
  }
}
