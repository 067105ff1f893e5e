// Catalogues of one's own as real files beside a machine file: found, merged, replaced, missed, broken, and what they require.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { layshaft } from './fake-io.ts';

let folder: string;
const write = (path: string, text: string): void => {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
};
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'layshaft-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const machine = (catalogue: string, drive = 'our_drive', controller = 'controller_m'): string => `layshaft: 1
catalogue: ${catalogue}
controller: ${controller}
axes:
  one: { drive: ${drive} }
networks:
  line:
    port: 1
    profile: polled_100
    cycle: 1 ms
    repeats: 1
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, solid]]
`;
const drive = (turnaround: string, more = ''): string =>
  `{ kind: drive, turnaround: { at_most: ${turnaround} }, forwarding: 300 ns, waits: 0 octets, command: 24 octets, answer: 28 octets, plugs: 2${more} }`;
const catalogue = (...parts: readonly string[]): string =>
  `layshaft_catalogue: 1\nsource: our data sheets\nparts:\n${parts.map((part) => `  ${part}\n`).join('')}`;

const run = (line: string) => layshaft(line, { folder });
const turnaround = async (): Promise<string> =>
  (await run('explain plant/machine.yaml axes.one.drive.turnaround')).out.replace(/\s+/g, ' ');

describe('a catalogue beside the machine file', () => {
  it('adds to the demonstration', async () => {
    write('plant/machine.yaml', machine('[demonstration, our_parts.yaml]'));
    write('plant/our_parts.yaml', catalogue(`our_drive: ${drive('5 µs')}`));
    expect((await run('check plant/machine.yaml')).status).toBe(0);
    expect((await run('check plant')).status).toBe(0);
    expect(await turnaround()).toContain('= 5 µs part our_drive of our_parts.yaml: our data sheets');
  });

  it.each([
    [
      'later goes before earlier',
      '[demonstration, our_parts.yaml]',
      '= 5 µs part drive_5 of our_parts.yaml: our data sheets',
    ],
    ['also the demonstration', '[our_parts.yaml, demonstration]', '= 3.2 µs part drive_5: demonstration data'],
    [
      'also among one’s own',
      '[demonstration, our_parts.yaml, newer.yaml]',
      '= 4 µs part drive_5 of newer.yaml: our data sheets',
    ],
  ])('replaces parts of the same name: %s', async (_what, list, origin) => {
    write('plant/machine.yaml', machine(list, 'drive_5'));
    write('plant/our_parts.yaml', catalogue(`drive_5: ${drive('5 µs')}`));
    write('plant/newer.yaml', catalogue(`drive_5: ${drive('4 µs')}`));
    expect(await turnaround()).toContain(origin);
  });

  it('stands alone when the demonstration is not listed', async () => {
    write('plant/machine.yaml', machine('[our_parts.yaml]'));
    write('plant/our_parts.yaml', catalogue(`our_drive: ${drive('5 µs')}`));
    const { status, out } = await run('check plant/machine.yaml');
    expect(status).toBe(2);
    expect(out).toContain(
      "plant/machine.yaml:3:13  no catalogue in use has a part called 'controller_m'  [part-unknown]",
    );
    expect(out).not.toContain("a part called 'our_drive'");
  });

  it('may lie elsewhere', async () => {
    write('store/our_parts.yaml', catalogue(`our_drive: ${drive('5 µs')}`));
    write('plant/machine.yaml', machine('[demonstration, ../store/our_parts.yaml]'));
    expect((await run('check plant/machine.yaml')).status).toBe(0);
    write('plant/machine.yaml', machine(`[demonstration, ${join(folder, 'store/our_parts.yaml')}]`));
    const absolute = await layshaft(`check ${join(folder, 'plant/machine.yaml')}`, { folder: '/' });
    expect(absolute.status, absolute.out).toBe(0);
  });
});

describe('what is wrong with a catalogue', () => {
  it.each([
    ['is not there', 'owm.yaml'],
    ['is a folder', 'sub'],
  ])('is told where it is named: it %s', async (_what, name) => {
    write('plant/machine.yaml', machine(`[demonstration, ${name}]`, 'drive_5'));
    write('plant/sub/note.txt', 'a folder');
    const { status, out } = await run('check plant/machine.yaml');
    expect(status).toBe(2);
    expect(out).toContain(`plant/machine.yaml:2:28  no catalogue '${name}' can be read  [catalogue-unknown]`);
    expect(out).toContain('networks.cycle@line');
    expect(out).toMatch(/\n1 problem; /);
  });

  it.each([
    [
      'a key',
      drive('5 µs').replace('answer', 'anwser'),
      /^plant\/our_parts\.yaml:4:\d+ {2}the key 'anwser' is not known here {2}\[key-unknown\]$/m,
    ],
    [
      'a value',
      drive('5 µs').replace('plugs: 2', 'plugs: 0'),
      /^plant\/our_parts\.yaml:4:\d+ {2}0 cannot be: .*\[out-of-range\]$/m,
    ],
    [
      'a kind',
      drive('5 µs').replace('kind: drive', 'kind: drvie'),
      /^plant\/our_parts\.yaml:4:\d+ {2}'drvie' is not one of .*\[word-unknown\]$/m,
    ],
    [
      'no kind',
      drive('5 µs').replace('kind: drive, ', ''),
      /^plant\/our_parts\.yaml:4:\d+ {2}'kind' is missing here {2}\[key-missing\]$/m,
    ],
    ['the text', `${drive('5 µs')}\n  other: { kind: drive`, /^plant\/our_parts\.yaml:\d+:\d+ {2}.*\[yaml\]$/m],
  ])('is told under the name of its file: %s', async (_what, part, problem) => {
    write('plant/machine.yaml', machine('[demonstration, our_parts.yaml]'));
    write('plant/our_parts.yaml', catalogue(`our_drive: ${part}`));
    const { status, out } = await run('check plant/machine.yaml');
    expect(status).toBe(2);
    expect(out).toMatch(problem);
  });

  it('is told of an older form', async () => {
    write('plant/machine.yaml', machine('[demonstration, our_parts.yaml]', 'drive_5'));
    write(
      'plant/our_parts.yaml',
      catalogue(`our_drive: ${drive('5 µs')}`).replace('layshaft_catalogue: 1', 'layshaft_catalogue: 0'),
    );
    expect((await run('check plant/machine.yaml')).out).toMatch(/^plant\/our_parts\.yaml:1:21 .*\[version-unknown\]$/m);
  });
});

describe('what a part requires beside it', () => {
  const requiring = async (requires: string, controller = 'controller_m') => {
    write('plant/machine.yaml', machine('[demonstration, our_parts.yaml]', 'our_drive', controller));
    write('plant/our_parts.yaml', catalogue(`our_drive: ${drive('5 µs', `, requires: [${requires}]`)}`));
    const { status, out } = await run('check plant/machine.yaml --json');
    const finding = JSON.parse(out).findings.find(
      ({ address }: { address: string }) => address === 'catalogue.requires@our_drive',
    );
    return { status, verdict: finding.verdict, says: finding.says, margin: finding.margin };
  };

  it('fails when it is not there, and says what to add', async () => {
    expect(await requiring('{ part: rack_small }')).toEqual({
      status: 1,
      verdict: 'fails',
      says: 'our_drive requires rack_small, which the machine does not use',
      margin: undefined,
    });
  });

  it('fails when it is too old, and says which version is due and where the old one is', async () => {
    expect(await requiring('{ part: controller_m, version: 2.2 }')).toEqual({
      status: 1,
      verdict: 'fails',
      says: 'our_drive requires controller_m of version 2.2 or later, while controller has version 2.1',
      margin: undefined,
    });
  });

  it('fails for everything that is not there or too old, and names all of it', async () => {
    const all = '{ part: rack_small }, { part: solid }, { part: hub_6 }, { part: controller_m, version: 2.2 }';
    expect(await requiring(`${all}, { part: our_drive, version: 1 }`)).toMatchObject({
      verdict: 'fails',
      says:
        'our_drive requires rack_small, which the machine does not use; and hub_6, which the machine does not use; ' +
        'and controller_m of version 2.2 or later, while controller has version 2.1',
    });
  });

  it('holds when all of it is there', async () => {
    expect(await requiring('{ part: controller_m, version: 2.1 }, { part: solid }')).toMatchObject({
      status: 0,
      verdict: 'holds',
      says: 'controller_m of version 2.1 or later and solid are there',
    });
  });

  it('is unknown while the version in use is', async () => {
    const controller = '{ part: controller_m, version: unknown }';
    expect(await requiring('{ part: controller_m, version: 2.1 }', controller)).toMatchObject({
      status: 3,
      verdict: 'unknown',
      says: expect.stringMatching(/^controller\.version is unknown/),
    });
    expect(await requiring('{ part: solid, version: 1 }')).toMatchObject({
      status: 3,
      verdict: 'unknown',
      says: expect.stringMatching(/^networks\.line\.runs\.controller_one\.cable\.version is not given/),
    });
  });

  it.each([
    ['2.9', '2.10', 'fails'],
    ['2.10', '2.9', 'holds'],
    ['2.1', '2.1.0', 'holds'],
    ['2', '2.0.1', 'fails'],
    ['10.0', '9.9.9', 'holds'],
    ['2.1.3', '2.1', 'holds'],
  ])('compares versions number by number: %s where %s is due %s', async (inUse, due, verdict) => {
    const controller = `{ part: controller_m, version: ${inUse} }`;
    expect((await requiring(`{ part: controller_m, version: ${due} }`, controller)).verdict).toBe(verdict);
  });

  it('stands on top of the report and is explained by the part that requires it', async () => {
    write('plant/machine.yaml', machine('[demonstration, our_parts.yaml]'));
    write('plant/our_parts.yaml', catalogue(`our_drive: ${drive('5 µs', ', requires: [{ part: rack_small }]')}`));
    expect((await run('check plant/machine.yaml')).out.split('\n').slice(2, 5).join('\n')).toBe(`\
Required beside it  our_drive                       ─╂►             fails
    our_drive requires rack_small, which the machine does not use
                                               catalogue.requires@our_drive`);
    expect((await run('explain plant/machine.yaml catalogue.requires@our_drive')).status).toBe(0);
  });
});
