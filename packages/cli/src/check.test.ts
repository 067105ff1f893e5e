// What layshaft check prints, letter by letter, and what it says as data.
import { describe, expect, it } from 'vitest';
import { bench, layshaft } from './fake-io.ts';

const check = (text: string, options = '') => layshaft(`check m.yaml${options}`, { files: { 'm.yaml': text } });
/** The lines from the first one that begins so, up to the next empty line. */
const paragraph = (out: string, start: string): string => {
  const lines = out.split('\n');
  const from = lines.findIndex((line) => line.startsWith(start));
  return lines.slice(from, lines.indexOf('', from)).join('\n');
};

describe('the report', () => {
  it('ranks findings, tightest first, each with its bar, margin, sentence and address', async () => {
    expect(await check(bench('100 µs'))).toEqual({
      status: 0,
      err: '',
      written: {},
      out: `Bench, m.yaml

Cycle            line        ├────────░░░░░░▼░░░░░┃      55.5 %  holds
    44.52 µs of 100 µs are spoken for                networks.cycle@line
Motion kernel    controller  ├──░░░░░░░░░░░░░▼░░░░┃      81.3 %  holds
    the kernel takes 15 % of the time; it may take 80 %
                                              networks.kernel@controller
Attenuation      line        ├─░░░░░░░░░░░░░░░░░░░┃      89.6 %  holds
    the link from controller to one takes 2.5 dB, 24 dB are allowed
                                               networks.attenuation@line
Longest link     line        ├─░░░░░░░░░░░░░░░░░░░┃        90 %  holds
    the link from controller to one is 10 m long, 100 m are allowed
                                                   networks.spacing@line
Stations         line        ├─░░░░░░░░░░░░░░░░░░░┃        90 %  holds
    1 of 10 stations is taken                     networks.stations@line
Largest payload  line        ├░░░░░░░░░░░░░░░░░░░░┃      98.4 %  holds
    the largest payload is 24 octets, a frame carries 1490 octets
                                                     networks.frame@line
Hops             line        ├░░░░░░░░░░░░░░░░░░░░┃       100 %  holds
    the farthest station is behind 0 devices, 10 are allowed
                                                      networks.hops@line
Addresses        line                             ┃              holds
    1 station, 9 addresses                       networks.addresses@line
Cycle offered    line                             ┃              holds
    the controller offers 100 µs                   networks.offered@line
Plugs            line                             ┃              holds
    every run has its plug                           networks.plugs@line
Port             port_1                           ┃              holds
    line has port 1 for itself                      networks.port@port_1
Topology         line                             ┃              holds
    a line is allowed                             networks.topology@line

12 hold.
`,
    });
  });

  it.each([
    ['thin', bench('50 µs'), '├──────────────▼▒▒███┃        11 %  thin', '44.52 µs of 50 µs', '1 thin, 11 hold.'],
    ['fails', bench('40 µs'), '├──────────────▼─────╂─►   -11.3 %  fails', '44.52 µs of 40 µs', '1 fails, 11 hold.'],
  ])('says what is %s', async (_verdict, text, bar, says, summary) => {
    const { out } = await check(text);
    expect(paragraph(out, 'Cycle  ')).toContain(bar);
    expect(paragraph(out, 'Cycle  ')).toContain(says);
    expect(out.trimEnd().split('\n').at(-1)).toBe(summary);
  });

  it('says in one line what helps where something fails or is thin, and nowhere else', async () => {
    expect(paragraph((await check(bench('50 µs'))).out, 'Cycle  ')).toContain(`\
    44.52 µs of 50 µs are spoken for                 networks.cycle@line
    What helps: a longer cycle, smaller payloads, slow stations on a multiple.
Motion kernel`);
    expect((await check(bench('50 µs'))).out.match(/What helps/g)).toHaveLength(1);
    expect((await check(bench('100 µs'))).out).not.toContain('What helps');
  });

  it('says of an open cycle what it needs and the shortest that will do', async () => {
    const { out } = await check(bench('open'));
    expect(paragraph(out, 'Cycle  ').replace(/\s+/g, ' ')).toContain(
      // 44.52 µs of 75 % of the cycle.
      'a cycle needs 44.52 µs, the shortest that reserve and profile allow is 59.36 µs, the next that the controller offers is 100 µs; networks.line.cycle is open: a time',
    );
    const profile = bench('open').replace('cycle_at_least: 10 µs', 'cycle_at_least: 80 µs');
    expect((await check(profile)).out.replace(/\s+/g, ' ')).toContain('reserve and profile allow is 80 µs,');
    const without = bench('open').replace(' cycle_at_least: 10 µs,', '');
    expect((await check(without)).out.replace(/\s+/g, ' ')).toContain('reserve and profile allow is 59.36 µs,');
  });

  it('says why a limit that is met exactly holds', async () => {
    const { out } = await check(bench('100 µs').replace('plugs: 2 } }', 'plugs: 2 }, cycle_at_most: 100 µs }'));
    expect(paragraph(out, 'Update period').replace(/\s+/g, ' ')).toContain(
      'the file serves it every 100 µs, the axis states 100 µs at most; met exactly, and no reserve is wanted on what is stated',
    );
  });

  it('asks for what is missing and gives every answer that does not need it', async () => {
    const { out, status } = await check(bench('open', 'turnaround: unknown'));
    expect(status).toBe(3);
    expect(paragraph(out, 'Cycle  ')).toContain(`\
Cycle            line        ├╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌┃           ?  unknown
    axes.one.drive.turnaround is unknown: a time, such as 2.4 µs;
    networks.line.cycle is open: a time, such as 500 µs
                                                     networks.cycle@line
`);
    expect(out.trimEnd().split('\n').at(-1)).toBe('3 unknown, 9 hold.');
  });

  it('prints a problem with its line, its findings all the same, and ends with the count', async () => {
    const { out, status } = await check(bench('0 µs'));
    expect(status).toBe(2);
    expect(paragraph(out, 'm.yaml:16')).toBe(`\
m.yaml:16:12  0 µs cannot be: cycle is larger than nothing  [out-of-range]
   16 |     cycle: 0 µs
      |            ^^^^
    Write a time such as 500 µs.`);
    expect(out).toContain('networks.attenuation@line');
    expect(out.trimEnd().split('\n').at(-1)).toBe('1 problem; 3 unknown, 9 hold.');
  });

  it('lists what it assumed', async () => {
    const { out } = await check(bench('100 µs').replace(/reserves: .*\n/, ''));
    expect(paragraph(out, 'Assumed')).toBe(`\
Assumed, because the file does not say:
  reserves.networks.cycle   20 %  our judgement: room for a station or two that
                                  is added later
  reserves.networks.kernel  15 %  our judgement: room for an axis or two that is
                                  added later`);
    expect(out).toContain('\n12 hold; 2 assumed values.\n');
  });

  it('prints what is worth a look after all that, without failing for it', async () => {
    const { out, status } = await check(
      `${bench('100 µs')}set: [{ path: networks.*.repeats, value: 1 }, { path: networks.*.cycle, value: 1 ms }]
planned: { networks.line.repeats: 2 }
`,
    );
    expect(status).toBe(0);
    expect(out.slice(out.indexOf('Worth a look:'))).toBe(`\
Worth a look:
m.yaml:16:12  '100 µs' stands here and goes before 1 ms of set[1]  [set-not-taken]
   16 |     cycle: 100 µs
      |            ^^^^^^
    Remove this value if the setting is meant to hold here too.
m.yaml:21:12  nothing is open at this path, so the planned value is not used  [planned-in-vain]
   21 | planned: { networks.line.repeats: 2 }
      |            ^^^^^^^^^^^^^^^^^^^^^
    Remove the line, or write open at its path.

12 hold.
`);
  });

  it('says of findings that say the same only once', async () => {
    const two = bench('100 µs')
      .replace('plugs: 2 } }', 'plugs: 2 }, cycle_at_most: 1 ms }\n  two: { like: one }')
      .replace('0.25 dB/m }]', '0.25 dB/m }], [one, two, 1 m, { delay: 5 ns/m, attenuation: 0.25 dB/m }]');
    const { out } = await check(two);
    expect(paragraph(out, 'Update period')).toContain('networks.update@one\n    The same of two.');
    expect(out.match(/^Update period/gm)).toHaveLength(1);
  });

  it('has nothing to say of an empty machine', async () => {
    expect(await check('layshaft: 1\n')).toMatchObject({
      status: 0,
      out: 'm.yaml\n\nnothing was checked: there is nothing yet that a check asks about.\n',
    });
  });
});

describe('as data', () => {
  it('is the report, with a version', async () => {
    const { out, status } = await check(bench('40 µs'), ' --json');
    expect(status).toBe(1);
    const report = JSON.parse(out);
    expect(report).toMatchObject({ layshaft_report: 1, machine: 'Bench', file: 'm.yaml', problems: [] });
    expect(report.findings[0]).toMatchObject({
      address: 'networks.cycle@line',
      verdict: 'fails',
      demand: { address: 'networks.cycle.used@line', unit: 's', text: '44.52 µs' },
      capacity: { address: 'networks.line.cycle', value: 40e-6, unit: 's', text: '40 µs' },
    });
    expect(report.findings[0].demand.value).toBeCloseTo(44.52e-6, 12);
  });

  it('has what helps, what is worth a look, and what would be enough', async () => {
    const report = JSON.parse((await check(bench('40 µs'), ' --json')).out);
    expect(report.findings[0].advice).toBe('a longer cycle, smaller payloads, slow stations on a multiple');
    expect(report.findings.slice(1).filter((each: object) => 'advice' in each)).toEqual([]);
    expect(report.remarks).toEqual([]);
    const remarked = `${bench('100 µs')}planned: { networks.line.repeats: 2 }\n`;
    expect(JSON.parse((await check(remarked, ' --json')).out).remarks).toMatchObject([
      { code: 'planned-in-vain', place: { line: 20 } },
    ]);
    const [open] = JSON.parse((await check(bench('open'), ' --json')).out).findings;
    expect(open.enough).toMatchObject({ address: 'networks.cycle.shortest_allowed@line', text: '59.36 µs' });
  });

  it('has problems with their places', async () => {
    const { out, status } = await check(bench('0 µs'), ' --json');
    expect(status).toBe(2);
    expect(JSON.parse(out).problems).toMatchObject([
      { code: 'out-of-range', place: { file: 'm.yaml', line: 16, column: 12 } },
    ]);
  });
});

describe('where a machine file is', () => {
  it.each([
    ['standard input', 'check -', { stdin: bench('100 µs') }, 'Bench, standard input'],
    [
      'a folder',
      'check f',
      { files: { f: { code: 'EISDIR' }, 'f/machine.yaml': bench('100 µs') } },
      'Bench, f/machine.yaml',
    ],
  ])('may be %s', async (_what, line, world, first) => {
    const { out, status } = await layshaft(line, world);
    expect([status, out.split('\n')[0]]).toEqual([0, first]);
  });

  it.each([
    ['nothing', {}, 'There is no file f. Look at its spelling, and at the folder you are in.\n'],
    ['a folder without one', { f: { code: 'EISDIR' } }, 'f is a folder without a machine.yaml. Name a file in it.\n'],
    [
      'a folder with a folder of that name',
      { f: { code: 'EISDIR' }, 'f/machine.yaml': { code: 'EISDIR' } },
      'f/machine.yaml cannot be read (EISDIR). Name a file with text.\n',
    ],
    [
      'closed to the user',
      { f: { code: 'EACCES' } },
      'f may not be read by you. Change its permissions, or copy it.\n',
    ],
    ['on a broken disk', { f: { code: 'EIO' } }, 'f cannot be read (EIO). Name a file with text.\n'],
  ])('may not be %s', async (_what, files, err) => {
    expect(await layshaft('check f', { files })).toEqual({ status: 2, out: '', err, written: {} });
  });

  it.each([
    ['UTF-16', [0xff, 0xfe, 0x6c, 0x00]],
    ['an older encoding', [...new TextEncoder().encode('layshaft: 1\n# '), 0xb5, 0x0a]],
    ['a picture', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00]],
  ])('may not be %s', async (_what, octets) => {
    const { status, out } = await layshaft('check m.yaml', { files: { 'm.yaml': new Uint8Array(octets) } });
    expect(status).toBe(2);
    expect(out).toMatch(/^m\.yaml:\d+:\d+ {2}this is no plain UTF-8 text {2}\[text-not-plain\]$/m);
  });

  it('may begin with the mark that some editors write', async () => {
    expect((await check(`\ufeff${bench('100 µs')}`)).status).toBe(0);
  });
});
