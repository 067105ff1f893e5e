// The commands as a user meets them: what is printed, and the exit status.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { read } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { layshaft } from './fake-io.ts';
import { exampleMachine } from './help.ts';
import { starter } from './new.ts';

const machine = (cycle = '1 ms', more = ''): string => `layshaft: 1
machine: { name: Bench }
controller: controller_m
axes:
  one: { drive: drive_5 }
${more}networks:
  line:
    port: 1
    profile: polled_100
    cycle: ${cycle}
    repeats: 1
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, solid]]
`;

const on = (text: string, line: string) => layshaft(line, { files: { 'm.yaml': text } });

describe('exit status', () => {
  it.each([
    ['0 when all holds', machine(), 'check m.yaml', 0],
    ['1 when something fails', machine('250 µs').replace('repeats: 1', 'repeats: 20'), 'check m.yaml', 1],
    ['0 when something is thin', `${machine()}reserves: { networks.cycle: 99 % }\n`, 'check m.yaml', 0],
    [
      '1 when something is thin and that is asked for',
      `${machine()}reserves: { networks.cycle: 99 % }\n`,
      'check m.yaml --fail-on thin',
      1,
    ],
    ['3 when something is unknown', machine('open'), 'check m.yaml', 3],
    ['2 for a problem, findings all the same', machine('1 mm'), 'check m.yaml', 2],
    ['2 for a problem, also in explain', machine('1 mm'), 'explain m.yaml networks.line', 2],
    ['2 for a file that is not there', machine(), 'check n.yaml', 2],
    ['2 for an option that does not exist', machine(), 'check m.yaml --nonsense', 2],
    ['2 for a command that does not exist', machine(), 'chek m.yaml', 2],
    ['2 for an address that means nothing', machine(), 'explain m.yaml networks.lime', 2],
    ['2 for a missing argument', machine(), 'explain m.yaml', 2],
    ['0 for help', machine(), '--help', 0],
  ] as const)('is %s', async (_what, text, line, status) => {
    const outcome = await on(text, line);
    expect(outcome.status, outcome.out + outcome.err).toBe(status);
    expect(outcome.out + outcome.err).not.toMatch(/\bat .*\.ts:\d+/);
  });
});

describe('check', () => {
  it('prints problems, findings, assumptions and one closing sentence', async () => {
    const { out } = await on(machine('1 mm'), 'check m.yaml');
    expect(out).toContain("m.yaml:10:14  'mm' is a length; a time is due here  [unit-wrong]");
    expect(out).toContain('networks.cycle@line');
    expect(out.trimEnd().split('\n').at(-1)).toMatch(/^1 problem; .*unknown/);
  });

  it('says of findings that say the same only once', async () => {
    const two = machine('1 ms')
      .replace('one: { drive: drive_5 }', 'one: { drive: drive_5, cycle_at_most: 1 ms }\n  two: { like: one }')
      .replace('solid]]', 'solid], [one, two, 1 m, solid]]');
    const { out } = await on(two, 'check m.yaml');
    expect(out).toContain('The same of two.');
    expect(out.match(/served every 1 ms/g)).toHaveLength(1);
  });

  it('prints the report as data', async () => {
    const { out } = await on(machine(), 'check m.yaml --json');
    const report = JSON.parse(out);
    expect(report).toMatchObject({ layshaft_report: 1, machine: 'Bench', problems: [] });
    expect(report.findings.map((finding: { address: string }) => finding.address)).toContain('networks.cycle@line');
  });

  it('reads standard input and folders, and refuses what is no text', async () => {
    expect((await layshaft('check -', { stdin: machine() })).status).toBe(0);
    const folder = { 'f/machine.yaml': machine(), f: { code: 'EISDIR' } };
    expect((await layshaft('check f', { files: folder })).status).toBe(0);
    const rubbish = await layshaft('check m.yaml', { files: { 'm.yaml': new Uint8Array([0xff, 0xfe, 0x6c, 0x00]) } });
    expect(rubbish).toMatchObject({ status: 2 });
    expect(rubbish.out).toContain('[text-not-plain]');
  });

  it('tells a remark without failing for it', async () => {
    const text = machine('1 ms', 'set: [{ path: networks.*.repeats, value: 3 }]\n');
    const { status, out } = await on(text, 'check m.yaml');
    expect(status).toBe(0);
    expect(out).toContain("'1' stands here and goes before 3 of set[0]");
  });
});

describe('explain', () => {
  it('goes down to what is given, with places, parts and sources', async () => {
    const { out } = await on(machine(), 'explain m.yaml networks.cycle@line');
    for (const piece of [
      '(C − D) / C',
      'given at m.yaml:10:5',
      'part drive_5: demonstration data',
      'Wilamowski and Irwin',
    ])
      expect(out.replace(/\s+/g, ' ')).toContain(piece);
  });

  it('offers addresses that are near', async () => {
    const { err } = await on(machine(), 'explain m.yaml networks.cycle@lime');
    expect(err).toContain('networks.cycle@line');
  });

  it('shows how a value came there', async () => {
    const text = machine().replace(
      'one: { drive: drive_5 }',
      'zero: { drive: { part: drive_5, turnaround: 4 µs } }\n  one: { like: zero }',
    );
    const { out } = await on(text, 'explain m.yaml axes.one.drive.turnaround');
    expect(out.replace(/\s+/g, ' ')).toContain('like zero');
    expect(out).toContain('m.yaml:5:');
  });

  it('prints each number once as data', async () => {
    const { out } = await on(machine(), 'explain m.yaml networks.cycle@line --json');
    const addresses = JSON.parse(out).working.map((each: { address: string }) => each.address);
    expect(new Set(addresses).size).toBe(addresses.length);
    expect(addresses[0]).toBe('margin@networks.cycle@line');
  });
});

describe('show', () => {
  it('prints tables, one table, and data', async () => {
    expect((await on(machine(), 'show m.yaml networks.line')).out).toContain('10 more axes like one');
    const split = await on(machine(), 'show m.yaml networks.line --table split');
    expect(split.out.split('\n').filter((line) => line.includes('(')).length).toBe(1);
    const json = JSON.parse((await on(machine(), 'show m.yaml networks.line.nodes.one --json')).out);
    expect(json.views[0].tables[0].rows[0][1]).toMatchObject({ address: 'axes.one.drive.forwarding', text: '400 ns' });
  });
  it('says where something is shown', async () => {
    const { status, err } = await on(machine(), 'show m.yaml networks.lime');
    expect(status).toBe(2);
    expect(err).toContain('Did you mean networks.line?');
  });
});

describe('new, parts, schema', () => {
  it('writes a starter that holds, and never over a file', async () => {
    const fresh = await layshaft('new m.yaml');
    expect(fresh.written['m.yaml']).toBe(starter);
    expect(read(starter).problems).toEqual([]);
    expect((await on(starter, 'check m.yaml')).status).toBe(0);
    const again = await on(starter, 'new m.yaml');
    expect(again).toMatchObject({ status: 2, written: {} });
    expect(again.err).toContain('stays as it is');
  });
  it('lists kinds, a kind and a part, and offers near names', async () => {
    expect((await layshaft('parts')).out).toContain('drive_5, drive_10');
    expect((await layshaft('parts drive')).out).toContain('turnaround 3.2 µs');
    expect((await layshaft('parts drive_5')).out).toContain('usually 2.1 µs');
    expect(await layshaft('parts drive_6')).toMatchObject({
      status: 2,
      err: expect.stringContaining('Did you mean drive_5 or '),
    });
  });
  it('prints a schema', async () => {
    expect(JSON.parse((await layshaft('schema')).out)).toMatchObject({ title: 'Layshaft machine file' });
  });
  it('teaches with a machine that holds', async () => {
    expect((await on(exampleMachine, 'check m.yaml')).status).toBe(0);
    expect((await layshaft('--help')).out).toContain('Exit status of every command');
  });
});

describe('a catalogue of one’s own, beside the machine file', () => {
  const own = `layshaft_catalogue: 1
source: our data sheets
parts:
  drive_5: { kind: drive, title: Ours, cost: 1, turnaround: { at_most: 9 µs }, forwarding: 400 ns, waits: 0 octets, command: 24 octets, answer: 28 octets, plugs: 2, requires: [{ part: controller_m, version: 9.1 }] }
`;
  const files = (text: string, catalogue: string = own) => ({ files: { 'a/m.yaml': text, 'a/own.yaml': catalogue } });

  it('goes before the demonstration, and its figures are named', async () => {
    const { out } = await layshaft(
      'explain a/m.yaml axes.one.drive.turnaround',
      files(`${machine()}catalogue: [demonstration, own.yaml]\n`),
    );
    expect(out.replace(/\s+/g, ' ')).toContain('9 µs');
    expect(out.replace(/\s+/g, ' ')).toContain('our data sheets');
  });
  it('replaces the demonstration when that is not listed', async () => {
    const { status, out } = await layshaft('check a/m.yaml', files(`${machine()}catalogue: [own.yaml]\n`));
    expect(status).toBe(2);
    expect(out).toContain("no catalogue in use has a part called 'controller_m'");
  });
  it('is missed at its place', async () => {
    const { status, out } = await layshaft('check a/m.yaml', {
      files: { 'a/m.yaml': `${machine()}catalogue: [demonstration, owm.yaml]\n` },
    });
    expect(status).toBe(2);
    expect(out).toContain('[catalogue-unknown]');
    expect(out).toContain('a/m.yaml:14:');
  });
  it('has its own problems told under its own name', async () => {
    const { status, out } = await layshaft(
      'check a/m.yaml',
      files(`${machine()}catalogue: [demonstration, own.yaml]\n`, own.replace('cost: 1', 'cots: 1')),
    );
    expect(status).toBe(2);
    expect(out).toMatch(/own\.yaml:4:\d+ {2}'cots' is not read here/);
  });
  it('states requirements; a broken one fails and says what to change', async () => {
    const { status, out } = await layshaft(
      'check a/m.yaml',
      files(`${machine()}catalogue: [demonstration, own.yaml]\n`),
    );
    expect(status).toBe(1);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'drive_5 requires controller_m of version 9.1 or later; controller has version 2.1',
    );
    const newer = machine().replace('controller: controller_m', 'controller: { part: controller_m, version: 9.10 }');
    expect((await layshaft('check a/m.yaml', files(`${newer}catalogue: [demonstration, own.yaml]\n`))).status).toBe(0);
  });
});

describe('the real world', () => {
  it('writes a file once', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'layshaft-'));
    const path = join(folder, 'm.yaml');
    writeFileSync(path, 'mine', { flag: 'wx' });
    expect(() => writeFileSync(path, starter, { flag: 'wx' })).toThrow(/EEXIST/);
    expect(readFileSync(path, 'utf8')).toBe('mine');
    rmSync(folder, { recursive: true });
  });
});
