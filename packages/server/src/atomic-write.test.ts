// Writing whole or not at all: permissions stay, a refusal or a failure leaves the old file, killed runs leave nothing.
import { chmodSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { removeLeftovers, writeAtomically } from './atomic-write.ts';
import { temporaryFolder } from './temporary.support.ts';

const octets = Buffer.from('new');

describe('an atomic write', () => {
  it('makes a file and replaces one', async () => {
    const folder = temporaryFolder();
    const place = join(folder, 'a.yaml');
    expect(await writeAtomically(place, Buffer.from('old'))).toBe(true);
    expect(await writeAtomically(place, octets)).toBe(true);
    expect(readFileSync(place, 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['a.yaml']);
  });

  it.each([0o600, 0o640, 0o664, 0o777])('keeps the permissions %o', async (mode) => {
    const place = join(temporaryFolder({ 'a.yaml': 'old' }), 'a.yaml');
    chmodSync(place, mode);
    await writeAtomically(place, octets, { like: await stat(place) });
    expect(statSync(place).mode & 0o777).toBe(mode);
    expect(readFileSync(place, 'utf8')).toBe('new');
  });

  it('does nothing when the last question is answered no', async () => {
    const folder = temporaryFolder({ 'a.yaml': 'old' });
    const place = join(folder, 'a.yaml');
    expect(await writeAtomically(place, octets, { ready: () => false })).toBe(false);
    expect(readFileSync(place, 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['a.yaml']);
  });

  it('leaves nothing behind when it fails', async () => {
    const folder = temporaryFolder();
    const place = join(folder, 'a.yaml');
    mkdirSync(place);
    await expect(writeAtomically(place, octets)).rejects.toMatchObject({ code: 'EISDIR' });
    await expect(writeAtomically(join(folder, 'b', 'c.yaml'), octets)).rejects.toMatchObject({ code: 'ENOENT' });
    const failing = () => {
      throw new Error('no answer');
    };
    await expect(writeAtomically(join(folder, 'd.yaml'), octets, { ready: failing })).rejects.toThrow('no answer');
    expect(readdirSync(folder)).toEqual(['a.yaml']);
  });
});

describe('leftovers', () => {
  it('of dead processes are removed, and nothing else', async () => {
    // Numbers of processes end below 2^22 on the largest systems (from memory), so nobody has this one.
    const dead = '.layshaft-99999999-0123456789ab.tmp';
    const running = `.layshaft-${process.ppid}-0123456789ab.tmp`;
    const own = `.layshaft-${process.pid}-0123456789ab.tmp`;
    const others = ['.layshaft-99999999-0123456789ab.tmp.yaml', '.layshaft-x-0123456789ab.tmp', 'a.tmp', 'a.yaml'];
    const folder = temporaryFolder();
    for (const name of [dead, running, own, ...others]) writeFileSync(join(folder, name), '');
    await removeLeftovers(folder);
    expect(readdirSync(folder).sort()).toEqual([running, ...others].sort());
  });
});
