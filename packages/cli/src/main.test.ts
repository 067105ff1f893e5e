// The bundled command as a process: standard input, files, exit status, and a reader that leaves early.
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { starter } from '@layshaft/catalogue';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../../tools/build.mjs';
import { bench } from './fake-io.ts';

let folder: string;
beforeAll(async () => {
  await build();
  folder = mkdtempSync(join(tmpdir(), 'layshaft-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs the command in the folder. `leaves` closes the reading end of its output before anything is written. */
function layshaft(args: readonly string[], { stdin = '', leaves = false } = {}) {
  const child = spawn(process.execPath, [join(process.cwd(), 'packages/cli/bin/layshaft.js'), ...args], {
    cwd: folder,
  });
  let out = '';
  let err = '';
  if (leaves) child.stdout.destroy();
  child.stdout.on('data', (chunk) => {
    out += chunk;
  });
  child.stderr.on('data', (chunk) => {
    err += chunk;
  });
  child.stdin.end(stdin);
  return new Promise<{ status: number | null; out: string; err: string }>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, out, err }));
  });
}

describe('the command', () => {
  it('reads standard input', async () => {
    const { status, out } = await layshaft(['check', '-'], { stdin: bench('40 µs') });
    expect([status, out.split('\n')[0]]).toEqual([1, 'Bench, standard input']);
  });

  it('writes a starter that it then checks, and never over a file', async () => {
    expect((await layshaft(['new'])).status).toBe(0);
    expect(readFileSync(join(folder, 'machine.yaml'), 'utf8')).toBe(starter);
    expect((await layshaft(['check', '.'])).status).toBe(0);
    writeFileSync(join(folder, 'mine.yaml'), 'mine');
    expect(await layshaft(['new', 'mine.yaml'])).toEqual({
      status: 2,
      out: '',
      err: 'mine.yaml is there already and stays as it is. Give another name: layshaft new another.yaml\n',
    });
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe('mine');
    expect((await layshaft(['new', 'nowhere/m.yaml'])).err).toContain('There is no folder nowhere.');
  });

  it('says what it cannot read', async () => {
    expect(await layshaft(['check', 'none.yaml'])).toMatchObject({
      status: 2,
      err: expect.stringContaining('none.yaml'),
    });
  });

  it('keeps its exit status and its peace when the reader of its output leaves early', async () => {
    for (const [cycle, status] of [
      ['100 µs', 0],
      ['40 µs', 1],
      ['open', 3],
    ] as const) {
      const outcome = await layshaft(['check', '-', '--json'], { stdin: bench(cycle), leaves: true });
      expect(outcome).toEqual({ status, out: '', err: '' });
    }
  });
});
