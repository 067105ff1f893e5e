// layshaft open: what it prints, what it refuses, and the bundled command as a process that serves, saves and ends.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../../tools/build.mjs';
import { layshaft } from './fake-io.ts';
import { openSheet } from './open.ts';

let folder: string;
beforeAll(async () => {
  await build();
  folder = mkdtempSync(join(tmpdir(), 'layshaft-open-'));
  mkdirSync(join(folder, 'sub'));
  for (const name of ['machine.yaml', 'sub/line 1.yml', 'notes.txt'])
    writeFileSync(join(folder, name), 'layshaft: 1\n');
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true }));

describe('layshaft open', () => {
  it('prints the address, how to end it and where saves are kept', async () => {
    const { status, out, err } = await layshaft(`open ${folder} --port 0`);
    expect([status, err]).toEqual([0, '']);
    expect(out.replace(/:\d+/, ':PORT')).toBe(`Layshaft is open at http://127.0.0.1:PORT/
Open that address in a browser. Ctrl+C here ends it; every save is kept in ${join(folder, '.layshaft', 'history')}.
`);
  });

  it('opens a file in its folder', async () => {
    const { out } = await layshaft(`open ${folder}/machine.yaml --port 0`);
    expect(out).toMatch(/^Layshaft is open at http:\/\/127\.0\.0\.1:\d+\/#\/machine\.yaml\n/);
    expect(out).toContain(join(folder, '.layshaft'));
    const written: string[] = [];
    const output = { write: (text: string) => written.push(text) };
    const io = { stdout: output, stderr: output, untilInterrupted: async () => undefined };
    expect(await openSheet(join(folder, 'sub/line 1.yml'), { port: 0 }, io)).toBe(0);
    expect(written.join('')).toMatch(/:\d+\/#\/line%201\.yml\n/);
  });

  it('says what others can do when it lets them in', async () => {
    const { out } = await layshaft(`open ${folder} --port 0 --host 0.0.0.0`);
    expect(out).toMatch(/^Layshaft is open at http:\/\/\S+:\d+\/\?token=[\w-]{32}\n/);
    expect(out).toMatch(/\nOther computers reach it by that address, and whoever has it can change the files; .*\.\n$/);
  });

  it.each([
    [
      'open /none/folder',
      'There is no folder /none/folder. Name the folder in which your machine files are, or one of them.\n',
    ],
    [
      'open FOLDER/notes.txt',
      'FOLDER/notes.txt is no machine file: its name ends neither in .yaml nor in .yml. Rename it.\n',
    ],
    [
      'open FOLDER --host 192.0.2.1',
      '192.0.2.1 is no address of this computer. Leave --host out to serve this computer alone.\n',
    ],
    [
      'open FOLDER --port 65536',
      "Option '--port <number>' argument '65536' is invalid. Write a whole number from 0 to 65535; 0 is any that is free.\nlayshaft open --help shows how it is used.\n",
    ],
  ])('ends with 2 and says how to go on: %s', async (line, message) => {
    const { status, out, err } = await layshaft(line.replace('FOLDER', folder));
    expect([status, out, err.replaceAll(folder, 'FOLDER')]).toEqual([2, '', message]);
  });

  it('says when the port is taken', async () => {
    const blocker = createServer().listen(0, '127.0.0.1');
    await once(blocker, 'listening');
    const { port } = blocker.address() as { port: number };
    const { status, err } = await layshaft(`open ${folder} --port ${port}`);
    blocker.close();
    expect([status, err]).toEqual([
      2,
      `Port ${port} is taken by another program. Choose another with --port, or leave it out.\n`,
    ]);
  });

  it('says how to build the sheet when it is not there', async () => {
    const output = { write: () => true };
    const io = { stdout: output, stderr: output, untilInterrupted: async () => undefined };
    await expect(openSheet(folder, { port: 0 }, io, '/none/dist')).rejects.toThrow(
      'The sheet is not built yet: run npm run build once in the folder of Layshaft.',
    );
  });
});

describe('the bundled command', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('serves the built sheet, saves, and ends with 0 at %s', async (signal) => {
    const command = join(process.cwd(), 'packages/cli/bin/layshaft.js');
    const child = spawn(process.execPath, [command, 'open', '--port', '0'], { cwd: folder });
    const [first] = (await once(createInterface({ input: child.stdout }), 'line')) as [string];
    const url = /http:\S+/.exec(first)?.[0] ?? '';
    const page = await fetch(url);
    expect(page.headers.get('content-security-policy')).toContain("default-src 'none'");
    const script = /src="(\/assets\/[^"]+\.js)"/.exec(await page.text())?.[1];
    const { headers, status } = await fetch(new URL(script ?? '/none', url));
    expect([status, headers.get('cache-control')]).toEqual([200, 'private, max-age=31536000, immutable']);
    const saved = await fetch(new URL('/api/file', url), {
      method: 'PUT',
      headers: { 'content-type': 'application/json', origin: new URL(url).origin },
      body: JSON.stringify({ path: `${signal.toLowerCase()}.yaml`, text: signal, base: null }),
    });
    expect(saved.status).toBe(200);
    child.kill(signal);
    expect(await once(child, 'exit')).toEqual([0, null]);
    expect(readFileSync(join(folder, `${signal.toLowerCase()}.yaml`), 'utf8')).toBe(signal);
  });
});
