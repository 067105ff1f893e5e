// The solver as it is shipped: the files beside the command, copied to where no package is near, in a thread of Node.
import { execFile } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { broken, type Solve } from '@layshaft/core/linear-model';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '../../../tests/support/seeded.ts';
import { solveHere } from './here.ts';
import { drawnInstance, endlessModel, rackModel } from './instances.support.ts';
import { solverInNode } from './node.ts';

let folder: string;
let solve: Solve;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layshaft-solver-'));
  for (const file of ['solver.js', 'highs.wasm']) cpSync(join('packages/cli/dist', file), join(folder, file));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  solve = solverInNode({ script: pathToFileURL(join(folder, 'solver.js')) });
});
afterAll(() => rmSync(folder, { recursive: true }));

const easy = rackModel(drawnInstance(seeded(3), { kinds: 4, modules: 6, racks: 3, points: 40 }));
const endless = endlessModel(seeded(5));

describe('the solver in a thread', () => {
  it('gives what a solve in the same thread gives, one question after the other', async () => {
    const here = await solveHere(easy);
    expect(here.status).toBe('optimal');
    expect(await Promise.all([solve(easy), solve(easy)])).toEqual([here, here]);
  });

  it('says what stands in the way where there is no solution', async () => {
    const [least] = easy.constraints;
    const never = { ...least!, name: 'never', least: 1e6, most: Infinity, need: 'never' };
    expect(await solve({ ...easy, constraints: [...easy.constraints, never] })).toEqual({
      status: 'infeasible',
      needs: ['never'],
      irreducible: true,
    });
  });

  it('tells its progress while the program is awake, and ends at once when it is cancelled; the next question is answered', async () => {
    const stop = new AbortController();
    let told = 0;
    // Beats only while the program is awake.
    const heart = setInterval(() => told >= 2 && stop.abort(new Error('that will do')), 20);
    const onProgress = (): void => void told++;
    await expect(solve(endless, { signal: stop.signal, onProgress })).rejects.toThrow('that will do');
    clearInterval(heart);
    await expect(solve(easy, { signal: stop.signal })).rejects.toThrow('that will do');
    expect(await solve(easy)).toMatchObject({ status: 'optimal' });
  });

  it('gives the best so far when somebody says that it is enough, and nothing where there is none yet', async () => {
    const enough = new AbortController();
    let known: number | undefined;
    const onProgress = (best: number | undefined, bound: number | undefined): void => {
      known = bound ?? known;
      if (best !== undefined) enough.abort();
    };
    const found = await solve(endless, { enough: enough.signal, onProgress });
    if (found.status !== 'stopped') throw new Error(found.status);
    expect(broken(endless, found.values)).toEqual([]);
    expect(found.cost).toBe(endless.variables.reduce((sum, { cost }, at) => sum + cost * found.values[at]!, 0));
    expect(found.bound).toBeLessThanOrEqual(found.cost);
    expect(found.bound).toBe(known ?? -Infinity);
    expect(await solve(easy, { enough: enough.signal })).toEqual({ status: 'nothing found' });
    const soon = new AbortController();
    const asked = solve(endless, { enough: soon.signal });
    soon.abort();
    expect(await asked).toEqual({ status: 'nothing found' });
    expect(await solve(easy)).toMatchObject({ status: 'optimal' });
  });

  it('keeps to a time limit', async () => {
    const start = performance.now();
    const { status } = await solve(endless, { most_s: 0.5 });
    expect(status).toBe('stopped');
    expect(performance.now() - start).toBeLessThan(15_000);
  });

  it('hands over what is wrong with a model, and goes on', async () => {
    const model = { ...easy, variables: easy.variables.slice(1) };
    await expect(solve(model)).rejects.toThrow(RangeError);
    await expect(solve(model)).rejects.toThrow('speaks of variable');
    expect(await solve(easy)).toMatchObject({ status: 'optimal' });
  });

  it('says so when a thread cannot start, lacks its library, or dies', async () => {
    const nowhere = solverInNode({ script: pathToFileURL(join(folder, 'no-such-solver.js')) });
    await expect(nowhere(easy)).rejects.toThrow('no-such-solver.js');
    const bare = join(folder, 'bare');
    cpSync(join(folder, 'solver.js'), join(bare, 'solver.js'));
    writeFileSync(join(bare, 'package.json'), '{ "type": "module" }');
    await expect(solverInNode({ script: pathToFileURL(join(bare, 'solver.js')) })(easy)).rejects.toThrow('highs.wasm');
    writeFileSync(
      join(folder, 'dies.mjs'),
      `import { parentPort } from 'node:worker_threads';\nparentPort.on('message', () => process.exit(3));`,
    );
    const dying = solverInNode({ script: pathToFileURL(join(folder, 'dies.mjs')) });
    for (let time = 0; time < 2; time++) await expect(dying(easy)).rejects.toThrow('ended with 3');
  });

  it('keeps no program from ending', async () => {
    const entry = join(folder, 'asks.ts');
    writeFileSync(
      entry,
      `import { solverInNode } from ${JSON.stringify(join(process.cwd(), 'packages/solver/src/node.ts'))};
       const solve = solverInNode({ script: new URL('./solver.js', import.meta.url) });
       console.log((await solve(JSON.parse(process.argv[2]))).status);`,
    );
    const outfile = join(folder, 'asks.mjs');
    await build({ entryPoints: [entry], outfile, bundle: true, format: 'esm', platform: 'node', logLevel: 'silent' });
    const model = { variables: [{ name: 'a', least: 0, most: 1, whole: true, cost: 1 }], constraints: [] };
    const { stdout } = await promisify(execFile)(process.execPath, [outfile, JSON.stringify(model)], {
      timeout: 20_000,
    });
    expect(stdout).toBe('optimal\n');
  });
});
