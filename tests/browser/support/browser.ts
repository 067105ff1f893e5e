// A real browser for the tests: the Chromium that comes as a package, and a page on a server of its own.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import chromium from '@sparticuz/chromium';
import { type Browser, type BrowserContextOptions, chromium as driver, type Page } from 'playwright-core';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** Flags of our own: those of the package switch off protections that the page relies on. */
const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'];

export async function startBrowser(): Promise<Browser> {
  const executablePath = await chromium.executablePath();
  try {
    return await driver.launch({ executablePath, args: flags, headless: true });
  } catch (error) {
    const lacks = /error while loading shared libraries: (\S+):/.exec(String(error))?.[1];
    if (lacks === undefined) throw error;
    throw new Error(
      `Chromium needs the system library ${lacks}. On Debian: apt-get install libnss3 libnspr4 (.ci/run does it).`,
    );
  }
}

/** A folder with copies of examples, served by the command in a process of its own. */
export interface ServedFolder {
  readonly path: string;
  readonly url: string;
  read(file: string): string;
  write(file: string, text: string): void;
  /** Ends the server as a power failure would. */
  kill(): Promise<void>;
  /** Starts it again at the same port. */
  restart(): Promise<void>;
  remove(): Promise<void>;
}

export async function serveExamples(...names: readonly string[]): Promise<ServedFolder> {
  const path = mkdtempSync(join(tmpdir(), 'layshaft-sheet-'));
  for (const name of names) {
    const own = join(root, 'tests/browser/support', `${name}.yaml`);
    cpSync(existsSync(own) ? own : join(root, 'examples', name, 'machine.yaml'), join(path, `${name}.yaml`));
  }
  let { server, url } = await startServer(path, '0');
  const { port } = new URL(url);
  const kill = async (): Promise<void> => {
    if (server.exitCode !== null || server.signalCode !== null) return;
    server.kill('SIGKILL');
    await once(server, 'exit');
  };
  return {
    path,
    url,
    read: (file) => readFileSync(join(path, file), 'utf8'),
    write: (file, text) => writeFileSync(join(path, file), text),
    kill,
    restart: async () => {
      ({ server, url } = await startServer(path, port));
    },
    remove: async () => {
      await kill();
      rmSync(path, { recursive: true });
    },
  };
}

async function startServer(folder: string, port: string): Promise<{ server: ChildProcess; url: string }> {
  const command = join(root, 'packages/cli/bin/layshaft.js');
  const server = spawn(process.execPath, [command, 'open', folder, '--port', port], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  return new Promise((resolve, reject) => {
    const listen = (chunk: Buffer): void => {
      said += chunk.toString();
      const url = /http:\/\/\S+/.exec(said)?.[0];
      if (url !== undefined) resolve({ server, url: url.replace(/[/.]*$/, '') });
    };
    server.stdout!.on('data', listen);
    server.stderr!.on('data', listen);
    server.once('exit', () => reject(new Error(`layshaft open ended: ${said}`)));
  });
}

/** Opens a machine file and waits until the sheet shows it. Errors of the page fail the test that asks for them. */
export async function openPage(
  browser: Browser,
  { url }: Pick<ServedFolder, 'url'>,
  file: string,
  more: BrowserContextOptions = {},
): Promise<{ readonly page: Page; readonly errors: string[] }> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, colorScheme: 'light', ...more });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error' && !/Failed to load resource|ERR_CONNECTION/.test(message.text()))
      errors.push(message.text());
  });
  await page.goto(`${url}/#/${file}`);
  await page.locator('.line').first().waitFor();
  return { page, errors };
}
