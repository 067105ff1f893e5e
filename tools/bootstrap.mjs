// Makes sure that Node is new enough and that node_modules fits package-lock.json; the other tools call it first.
// It runs before anything is installed, so it imports nothing but Node itself.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the repository. */
export const root = fileURLToPath(new URL('..', import.meta.url));

/** Installs the packages when they are missing or stale. Throws an Error with a plain message when that fails. */
export function bootstrap(folder = root) {
  const needed = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')).engines.node;
  if (isOlder(process.versions.node, needed)) {
    throw new Error(`Layshaft needs Node ${needed}; this is Node ${process.versions.node}. Install a newer one first.`);
  }
  const state = installation(folder);
  if (state === 'fresh') return;
  const command = existsSync(join(folder, 'package-lock.json')) ? 'ci' : 'install';
  console.log(`node_modules is ${state}: running npm ${command}; it may take a minute.`);
  npm(command, folder);
  writeStamp(folder);
}

/**
 * Whether node_modules belongs to the present package.json files and lock.
 * @returns {'fresh' | 'stale' | 'missing'}
 */
export function installation(folder = root) {
  if (!existsSync(join(folder, 'node_modules'))) return 'missing';
  const stamp = stampFile(folder);
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === fingerprint(folder) ? 'fresh' : 'stale';
}

/** Notes that node_modules was installed from the present package.json files and lock. */
export function writeStamp(folder = root) {
  writeFileSync(stampFile(folder), fingerprint(folder));
}

/**
 * Whether a version such as 20.9.0 is older than a range such as >=20.19.0 allows.
 * @param {string} version
 * @param {string} range
 */
export function isOlder(version, range) {
  const [have, need] = [version, range].map((text) => text.replace(/^\D*/, '').split('.').map(Number));
  const differing = need?.findIndex((part, place) => part !== have?.[place]) ?? -1;
  return differing >= 0 && (have?.[differing] ?? 0) < (need?.[differing] ?? 0);
}

/**
 * Runs a tool's action when its file was started itself, not imported; an Error becomes its message and exit code 1.
 * @param {string} url the tool's import.meta.url
 * @param {() => void | Promise<void>} action
 */
export async function whenStarted(url, action) {
  const [, started] = process.argv;
  if (started === undefined || realpathSync(started) !== fileURLToPath(url)) return;
  try {
    await action();
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}

/**
 * Starts a program of node_modules with this Node and waits for it.
 * @param {string} script path from the root
 * @param {readonly string[]} args
 * @returns the exit code; 1 when a signal ended it
 */
export function runNode(script, args) {
  const { status } = spawnSync(process.execPath, [join(root, script), ...args], { cwd: root, stdio: 'inherit' });
  return status ?? 1;
}

/** @param {string} folder */
function stampFile(folder) {
  return join(folder, 'node_modules', '.layshaft-stamp');
}

/**
 * A hash of all that decides what npm installs: the lock, and the package.json files without their scripts.
 * @param {string} folder
 */
function fingerprint(folder) {
  const packages = join(folder, 'packages');
  const folders = existsSync(packages) ? readdirSync(packages).sort() : [];
  const hash = createHash('sha256');
  for (const file of ['package.json', ...folders.map((name) => join('packages', name, 'package.json'))]) {
    if (!existsSync(join(folder, file))) continue;
    const { scripts: _, ...manifest } = JSON.parse(readFileSync(join(folder, file), 'utf8'));
    hash.update(`${file}\n${JSON.stringify(manifest)}\n`);
  }
  const lock = join(folder, 'package-lock.json');
  return hash.update(existsSync(lock) ? readFileSync(lock) : '').digest('hex');
}

/**
 * @param {string} command
 * @param {string} folder
 */
function npm(command, folder) {
  const result = spawnSync('npm', [command], { cwd: folder, encoding: 'utf8', shell: process.platform === 'win32' });
  if (result.status === 0) return;
  const output = result.error?.message ?? `${result.stdout}${result.stderr}`;
  throw new Error(
    [
      ...output.trimEnd().split('\n').slice(-15),
      '',
      `npm ${command} failed; the end of its output stands above. Packages come from the network: check the connection`,
      'or the proxy, then run the same command again. If it fails on a file, delete the folder node_modules first.',
    ].join('\n'),
  );
}
