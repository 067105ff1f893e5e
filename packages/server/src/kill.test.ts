// The real server, killed a hundred times in the middle of saving: the file on disk is always one of the texts that were
// sent, whole, at least the last one that was acknowledged, and the history has every acknowledged one. A kill is not a
// power cut: what the system has taken it keeps, so this says nothing about the disk.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as wait } from 'node:timers/promises';
import { build } from 'esbuild';
import { expect, it, onTestFinished } from 'vitest';
import { seeded } from '../../../tests/support/seeded.ts';
import { History, versionOf } from './history.ts';
import { temporaryFolder, temporarySheet } from './temporary.support.ts';

const kills = 100;
const runners = 2;
/** A server is killed during one of its first saves; a machine that is busy makes it later, not rarer. */
const spared = 4;
const path = 'line/machine.yaml';

it(`leaves the last saved file whole, ${kills} times`, { timeout: 300_000 }, async () => {
  const web = temporarySheet();
  const script = join(temporaryFolder(), 'child.mjs');
  await build({
    entryPoints: ['packages/server/src/serve.child.ts'],
    outfile: script,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'silent',
  });
  const counts = await Promise.all(
    Array.from({ length: runners }, async (_, runner) => {
      const folder = temporaryFolder({ [path]: textOf(0, runner) });
      const random = seeded(20_261_125 + runner);
      const sent = [textOf(0, runner)];
      const kept = new Set<string>();
      let last = 0;
      let save_ms = 20;
      for (let kill = 0; kill < kills / runners; kill += 1) {
        const { child, url } = await started(script, folder, web);
        const before = Math.floor(random() * spared);
        let dying: Promise<unknown> = Promise.resolve();
        const acknowledged: string[] = [];
        for (let base = versionOf(Buffer.from(sent[last]!)); ; ) {
          if (acknowledged.length === before) dying = wait(2 * random() * save_ms).then(() => child.kill('SIGKILL'));
          sent.push(textOf(sent.length, random()));
          const began_ms = performance.now();
          const answer = await saved(url, sent.at(-1)!, base);
          if (answer === undefined) break;
          save_ms = (save_ms + performance.now() - began_ms) / 2;
          acknowledged.push(answer);
          base = answer;
          last = sent.length - 1;
        }
        await dying;
        if (child.signalCode === null && child.exitCode === null) await once(child, 'exit');
        expect(child.signalCode).toBe('SIGKILL');

        const onDisk = sent.indexOf(readFileSync(join(folder, path), 'utf8'));
        expect(onDisk, 'one of the texts that were sent, whole').not.toBe(-1);
        expect(onDisk).toBeGreaterThanOrEqual(last);
        last = onDisk;
        await expectKept(folder, acknowledged);
        for (const version of acknowledged) kept.add(version);
      }
      const { child } = await started(script, folder, web);
      child.kill('SIGKILL');
      await once(child, 'exit');
      expect(readdirSync(join(folder, 'line'))).toEqual(['machine.yaml']);
      await expectKept(folder, [...kept]);
      return kept.size;
    }),
  );
  for (const acknowledged of counts) expect(acknowledged).toBeGreaterThan(kills / runners);
});

/** Distinct texts of some 20 kB to 200 kB. */
const textOf = (number: number, random: number): string =>
  `layshaft: 1 # ${number}\n${`# ${number} ${random}\n`.repeat(1000 + 9000 * random)}# end of ${number}\n`;

async function started(script: string, folder: string, web: string): Promise<{ child: ChildProcess; url: string }> {
  const child = spawn(process.execPath, [script, folder, web], { stdio: ['ignore', 'pipe', 'inherit'] });
  onTestFinished(() => void child.kill('SIGKILL'));
  const died = once(child, 'exit').then(([code]) => expect.fail(`the server ended by itself with ${code}`));
  const [url] = await Promise.race([once(createInterface({ input: child.stdout! }), 'line'), died]);
  died.catch(() => undefined);
  return { child, url };
}

/** The version that the server acknowledges; undefined when it died before. */
async function saved(url: string, text: string, base: string): Promise<string | undefined> {
  const sending = fetch(`${url}api/file`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json', origin: new URL(url).origin },
    body: JSON.stringify({ path, text, base }),
  });
  const answer = await sending.then(
    async (response) => ({ status: response.status, body: (await response.json()) as { version: string } }),
    () => undefined,
  );
  if (answer === undefined) return undefined;
  expect(answer).toEqual({ status: 200, body: { version: versionOf(Buffer.from(text)) } });
  return answer.body.version;
}

async function expectKept(folder: string, versions: readonly string[]): Promise<void> {
  const history = new History(folder);
  const saves = (await history.saves(path)).filter(({ id }) => versions.some((each) => id.endsWith(each.slice(0, 16))));
  const kept = new Set<string>();
  for (const { id } of saves) kept.add(versionOf((await history.text(path, id)) ?? new Uint8Array()));
  expect(versions.filter((version) => !kept.has(version))).toEqual([]);
}
