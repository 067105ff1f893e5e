// layshaft new: the starter checks without a problem, and no file is ever written over.
import { starter } from '@layshaft/catalogue';
import { read } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { layshaft } from './fake-io.ts';

describe('the starter', () => {
  it('has no problem and nothing to remark, and every check holds', async () => {
    expect([read(starter).problems, read(starter).remarks]).toEqual([[], []]);
    const { status, out } = await layshaft('check m.yaml --fail-on thin', { files: { 'm.yaml': starter } });
    expect([status, out]).toEqual([0, expect.stringMatching(/\n\d+ hold; 1 assumed value\.\n$/)]);
  });

  it('has a comment for what a newcomer has to change, within a line of an editor', () => {
    for (const key of ['reserves', 'catalogue', 'controller', 'axes'])
      expect(starter).toMatch(new RegExp(`^# .*\\n${key}:`, 'm'));
    for (const line of starter.split('\n')) expect(line.length, line).toBeLessThanOrEqual(120);
  });

  it('names commands that work', async () => {
    const taught = [...new Set([...starter.matchAll(/layshaft (parts [a-z]+)/g)].map(([, line]) => line!))];
    expect(taught.length).toBeGreaterThan(0);
    for (const line of taught) expect((await layshaft(line)).status, line).toBe(0);
  });
});

describe('layshaft new', () => {
  it('writes it and says what to do next', async () => {
    expect(await layshaft('new press.yaml')).toEqual({
      status: 0,
      err: '',
      out: `press.yaml is written. Next: layshaft check press.yaml
Change it in any editor; layshaft schema helps an editor to complete keys.
`,
      written: { 'press.yaml': starter },
    });
  });

  it('calls it machine.yaml where no name is given', async () => {
    expect((await layshaft('new')).written).toEqual({ 'machine.yaml': starter });
  });

  it('prints it', async () => {
    expect(await layshaft('new -')).toEqual({ status: 0, err: '', out: starter, written: {} });
  });

  it.each([
    [
      'a file that is there',
      { 'm.yaml': 'mine' },
      'm.yaml is there already and stays as it is. Give another name: layshaft new another.yaml\n',
    ],
    [
      'a folder',
      { 'm.yaml': { code: 'EISDIR' } },
      'm.yaml is there already and stays as it is. Give another name: layshaft new another.yaml\n',
    ],
  ])('never writes over %s', async (_what, files, err) => {
    expect(await layshaft('new m.yaml', { files })).toEqual({ status: 2, out: '', err, written: {} });
  });

  it.each([
    ['ENOENT', 'There is no folder f. Make it first, or give another name.\n'],
    ['EACCES', 'f/m.yaml cannot be written (EACCES). Give another name.\n'],
    ['EROFS', 'f/m.yaml cannot be written (EROFS). Give another name.\n'],
  ])('says why it cannot write: %s', async (code, err) => {
    expect(await layshaft('new f/m.yaml', { unwritable: code })).toEqual({ status: 2, out: '', err, written: {} });
  });
});
