// Commands, options and exit status as a user meets them; help that teaches, and machines and catalogues in it that hold.
import { readFileSync } from 'node:fs';
import { readCatalogue } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { bench, layshaft, type World } from './fake-io.ts';
import { exampleCatalogue, exampleMachine } from './help.ts';

const on = (text: string, line: string, world: World = {}) => layshaft(line, { files: { 'm.yaml': text }, ...world });
const commands = ['check', 'explain', 'show', 'open', 'parts', 'points', 'new', 'schema', 'trials'];
const withoutPlugs = (text: string): string => text.replace('plugs: 2', 'plugs: unknown');

describe('exit status', () => {
  it.each([
    ['0 when all holds', bench('100 µs'), 'check m.yaml', 0],
    ['1 when something fails', bench('40 µs'), 'check m.yaml', 1],
    ['1 when something fails and something is unknown', withoutPlugs(bench('40 µs')), 'check m.yaml', 1],
    ['0 when something is thin', bench('50 µs'), 'check m.yaml', 0],
    ['1 when something is thin and that is asked for', bench('50 µs'), 'check m.yaml --fail-on thin', 1],
    ['1 when something fails and thin is asked for', bench('40 µs'), 'check m.yaml --fail-on thin', 1],
    ['0 when all holds and thin is asked for', bench('100 µs'), 'check m.yaml --fail-on thin', 0],
    ['3 when something is unknown', bench('open'), 'check m.yaml', 3],
    ['3 when something is unknown and something thin', withoutPlugs(bench('50 µs')), 'check m.yaml', 3],
    ['1 when that thin is asked for', withoutPlugs(bench('50 µs')), 'check m.yaml --fail-on thin', 1],
    ['3 when something is unknown and thin is asked for', bench('open'), 'check m.yaml --fail-on thin', 3],
    ['2 for a problem, whatever fails', bench('40 µs').replace('plugs: 2', 'plugs: 0.5'), 'check m.yaml', 2],
    ['2 for a problem, as data', bench('0 µs'), 'check m.yaml --json', 2],
    ['2 for a problem in explain', bench('0 µs'), 'explain m.yaml networks.line', 2],
    ['2 for a problem in show', bench('0 µs'), 'show m.yaml networks.line', 2],
    ['0 for an unknown in explain, which is answered', bench('open'), 'explain m.yaml networks.line.cycle', 0],
    ['2 for an address that means nothing', bench('100 µs'), 'explain m.yaml networks.lime', 2],
    ['2 for a file that is not there', bench('100 µs'), 'check n.yaml', 2],
    ['0 for help', bench('100 µs'), '--help', 0],
    ['0 for help of a command', bench('100 µs'), 'check --help', 0],
    ['0 for the version', bench('100 µs'), '--version', 0],
  ] as const)('is %s', async (_what, text, line, status) => {
    const outcome = await on(text, line);
    expect(outcome.status, outcome.out + outcome.err).toBe(status);
  });

  it('is 2 with all findings printed where the file has a problem', async () => {
    const { out } = await on(bench('40 µs').replace('plugs: 2', 'plugs: 0.5'), 'check m.yaml');
    expect(out).toContain('networks.cycle@line');
    expect(out).toMatch(/\n1 problem; 1 fails, .*hold\.\n$/);
  });
});

describe('what is not understood', () => {
  it.each([
    ['', 'Usage: layshaft [options] [command]'],
    ['check', "Missing required argument 'FILE'\nlayshaft check --help shows how it is used.\n"],
    ['explain m.yaml', "Missing required argument 'ADDRESS'\nlayshaft explain --help shows how it is used.\n"],
    ['chek m.yaml', "Unknown command 'chek'\n(Did you mean check?)\nlayshaft --help shows how it is used.\n"],
    [
      'check m.yaml --jsn',
      "Unknown option '--jsn'\n(Did you mean --json?)\nlayshaft check --help shows how it is used.\n",
    ],
    [
      'check m.yaml --fail-on often',
      "Option '--fail-on <verdict>' argument 'often' is invalid. Allowed choices are fails, thin.",
    ],
    [
      'check m.yaml --width wide',
      "Option '--width <columns>' argument 'wide' is invalid. Write a whole number of at least 48.",
    ],
    ['check m.yaml --width 47', 'Write a whole number of at least 48.'],
    ['check m.yaml n.yaml', "Too many arguments for 'check'. Expected 1 argument but got 2."],
    ['schema m.yaml', "Too many arguments for 'schema'. Expected 0 arguments but got 1."],
  ])('ends with 2 and says how to go on: layshaft %s', async (line, message) => {
    const { status, out, err } = await on(bench('100 µs'), line);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(message);
    expect(err).toMatch(/layshaft( check| explain| schema)? --help shows how|layshaft check machine\.yaml/);
  });
});

describe('width and colour', () => {
  const codes = new RegExp(`${String.fromCharCode(27)}\\[\\d+m`, 'g');
  const widest = async (line: string, world: World = {}) => {
    const { out } = await on(bench('100 µs'), line, world);
    return Math.max(...out.split('\n').map((each) => each.replace(codes, '').length));
  };
  it('fits the width that is asked for, that of the terminal, or 80', async () => {
    expect(await widest('explain m.yaml networks.cycle@line')).toBe(80);
    expect(await widest('explain m.yaml networks.cycle@line', { terminal: 96 })).toBe(96);
    expect(await widest('explain m.yaml networks.cycle@line --width 90', { terminal: 96 })).toBe(90);
    expect(await widest('--width 90 explain m.yaml networks.cycle@line')).toBe(90);
    expect(await widest('check m.yaml', { terminal: 64 })).toBeLessThanOrEqual(64);
  });

  const coloured = async (line: string, world: World = {}) =>
    (await on(bench('40 µs'), line, world)).out.includes('\x1b[');
  it('colours on a terminal, unless the user or the environment says no', async () => {
    expect(await coloured('check m.yaml')).toBe(false);
    expect(await coloured('check m.yaml', { terminal: 80 })).toBe(true);
    expect(await coloured('check m.yaml', { terminal: 80, env: { NO_COLOR: '1' } })).toBe(false);
    expect(await coloured('check m.yaml --no-color', { terminal: 80 })).toBe(false);
    expect(await coloured('check m.yaml --color', { env: { NO_COLOR: '1' } })).toBe(true);
    expect(await coloured('check m.yaml --json', { terminal: 80 })).toBe(false);
  });

  it('says the same without colour', async () => {
    const { out } = await on(bench('40 µs'), 'check m.yaml --color');
    expect(out.replace(codes, '')).toBe((await on(bench('40 µs'), 'check m.yaml')).out);
  });
});

describe('help', () => {
  it('teaches with a machine that holds', async () => {
    expect((await on(exampleMachine, 'check m.yaml --fail-on thin')).status).toBe(0);
    const { out } = await layshaft('--help');
    for (const line of exampleMachine.trimEnd().split('\n')) expect(out).toContain(`  ${line}\n`);
  });

  it('teaches with a catalogue that can be read and is used as it says', async () => {
    expect(readCatalogue('our_parts.yaml', [{ file: 'our_parts.yaml', text: exampleCatalogue }]).problems).toEqual([]);
    const { out } = await layshaft('parts --help');
    for (const line of exampleCatalogue.trimEnd().split('\n')) expect(out).toContain(`  ${line}\n`);
    const naming = out.split('\n').find((line) => line.startsWith('  catalogue: '))!;
    const machine = `${exampleMachine.replaceAll('drive_5', 'our_drive')}${naming.trim()}\n`;
    const files = { 'm.yaml': machine, 'our_parts.yaml': exampleCatalogue };
    const outcome = await layshaft('check m.yaml', { files });
    expect(outcome.status, outcome.out).toBe(0);
    expect(outcome.out).toContain('catalogue.requires@our_drive');
  });

  it('says what a formula is proven by, where the reference lists it', async () => {
    const { out } = await layshaft('explain --help');
    const cases = [...out.matchAll(/\b[A-Z]\d+\b/g)].map(([sign]) => sign);
    expect(cases.length).toBeGreaterThan(1);
    const page = readFileSync(/\S+\.md/.exec(out)?.[0] ?? '', 'utf8');
    for (const sign of cases) expect(page).toMatch(new RegExp(`^\\| ${sign} \\| \\S`, 'm'));
  });

  it('gives commands and addresses that work', async () => {
    const { out } = await layshaft('--help');
    const taught = [...out.matchAll(/^ {2}layshaft (\S+ machine\.yaml.*?) {2,}/gm)].map(([, line]) => line!);
    const { out: addresses } = await layshaft('explain --help');
    taught.push(
      ...[...addresses.matchAll(/^ {2}(networks\S*|axes\S*) {2,}/gm)].map(([, each]) => `explain machine.yaml ${each}`),
    );
    expect(taught).toHaveLength(3 + 4);
    for (const line of taught) {
      const outcome = await layshaft(line, { files: { 'machine.yaml': exampleMachine } });
      expect([line, outcome.status, outcome.err]).toEqual([line, 0, '']);
    }
  });

  it('names every command and fits 80 columns', async () => {
    const { out } = await layshaft('--help');
    for (const command of commands) {
      expect(out).toMatch(new RegExp(`^ {2}${command}\\b`, 'm'));
      const help = (await layshaft(`${command} --help`)).out;
      expect(help).toMatch(/^Usage: layshaft /);
      for (const line of [out, help].join('\n').split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
    }
  });
});

describe('schema', () => {
  it('is printed as JSON', async () => {
    const { status, out } = await layshaft('schema');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: 'Layshaft machine file',
      additionalProperties: false,
    });
    expect(out.endsWith('}\n')).toBe(true);
  });
});
