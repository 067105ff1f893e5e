// Lists of points by the command: shown, turned into lines, written into a machine file, and printed as they are read again.
import { describe, expect, it } from 'vitest';
import { read, readPointsTable } from '../../core/src/index.ts';
import { saidBy } from '../../core/src/machine/said.support.ts';
import { layshaft } from './fake-io.ts';
import { exampleTable } from './help.ts';

const machine = `layshaft: 1
machine: { name: Try } # stays
points:
  lid_[1..3]: { kind: digital_in, type: 3, at: main, wire: 12 m, together: lids }
  lid_4:      { like: lid_3, filter: 3 ms, title: 'Lid, "left"; open' }
  eye:        { kind: capture, delay: { measured: 40 µs, date: 2026-11-03, count: 100 } }
  tension:    { kind: analogue_in, range: [4 mA, 20 mA], at: rack_o, channel: rack_o.3.1 }
  valve:      { kind: digital_out, current: 0.5 A, level: source, fails_to: hold, channel: open, wire: unknown }
  oven:       { kind: thermocouple, sensor: k, update: 100 ms, apart: ovens, potential: dc_1, cabinet: box_2 }
set:
  - { path: points.lid_*.pulse, value: 8 ms }
planned:
  points.valve.channel: main.4.1
`;
const files = { 'points.csv': exampleTable, 'machine.yaml': machine };

describe('a list of points', () => {
  it('is shown as it is read, with what was changed', async () => {
    const { status, out } = await layshaft('points points.csv', { files });
    expect(status).toBe(0);
    expect(out).toContain('Columns of points.csv  (columns)\n');
    expect(out).toMatch(/^ {2}Load current \[A\] {2}current +0,5 → 0\.5 A +A +2 +0$/m);
    expect(out).toContain('3 points; semicolons part the cells.');
    expect(out).toContain("3 names under 'Tag' are written in our form: 'LS-101' is ls_101");
    expect((await layshaft('points -', { stdin: exampleTable })).out).toContain('Columns of standard input');
  });

  it('becomes lines of a machine file, or a list with our own columns', async () => {
    expect((await layshaft('points points.csv --lines', { files })).out).toBe(`points:
  ls_101: { kind: digital_in, at: main, wire: 12.5 m, title: Lid 1 closed }
  yv_101: { kind: digital_out, at: main, current: 0.5 A, wire: 7 m, title: Reject valve }
  pt_7: { kind: analogue_in, at: rack_o, range: [4 mA, 20 mA], wire: 30 m, title: Tension }
`);
    expect((await layshaft('points points.csv --csv', { files })).out).toBe(
      [
        'name,kind,at,current,range from,range to,wire,title',
        'ls_101,digital_in,main,,,,12.5 m,Lid 1 closed',
        'yv_101,digital_out,main,0.5 A,,,7 m,Reject valve',
        'pt_7,analogue_in,rack_o,,4 mA,20 mA,30 m,Tension',
        '',
      ].join('\r\n'),
    );
  });

  it('is written behind the points of a machine file, or into a section of its own', async () => {
    const { status, out, written } = await layshaft('points points.csv --write machine.yaml', { files });
    expect([status, out.split('\n').at(-2)]).toEqual([0, '3 points written into machine.yaml, under points.']);
    const text = written['machine.yaml']!;
    expect(text.startsWith(machine.slice(0, machine.indexOf('set:')))).toBe(true);
    expect(text).toContain(
      'cabinet: box_2 }\n  ls_101:     { kind: digital_in, at: main, wire: 12.5 m, title: Lid 1 closed }\n  yv_101: {',
    );
    expect(read(text).points).toHaveLength(11);
    const bare = await layshaft('points points.csv --write bare.yaml', {
      files: { ...files, 'bare.yaml': 'layshaft: 1\n' },
    });
    expect(read(bare.written['bare.yaml']!).points.map(({ name }) => name)).toEqual(['ls_101', 'yv_101', 'pt_7']);
  });

  it.each([
    ['points points.csv --write full.yaml', 'full.yaml has ls_101 already. Remove them there, or in the list.\n'],
    ['points wrong.csv --write machine.yaml', 'the list has 1 problem. Mend it, and ask again.\n'],
    ['points machine.yaml --write full.yaml', 'machine.yaml is a machine file; --write takes the points of a table.\n'],
    ['points points.csv --write -', 'Standard input cannot be written to. Name a file.\n'],
    ['points none.csv', 'There is no file none.csv. Look at its spelling, and at the folder you are in.\n'],
    ['points bare.yaml', 'bare.yaml has no points. Name a table, or a file with points.\n'],
  ])('layshaft %s says why not', async (line, message) => {
    const world = {
      ...files,
      'wrong.csv': 'name,kind\na,Siren\n',
      'full.yaml': 'layshaft: 1\npoints: { ls_101: { kind: relay } }\n',
      'bare.yaml': 'layshaft: 1\n',
    };
    const { status, err, written } = await layshaft(line, { files: world });
    expect([status, err, written]).toEqual([2, message, {}]);
  });
});

describe('the points of a machine', () => {
  it('printed as a list and read again are the same machine', async () => {
    const { status, out } = await layshaft('points machine.yaml --csv', { files });
    expect(status).toBe(0);
    const rest = machine.replace(/^points:\n(?: .*\n)*/m, '').replace(/^set:\n.*\n/m, '');
    const tables = new Map([['points.csv', readPointsTable('points.csv', out)]]);
    const again = read(`${rest}points_from: [points.csv]\n`, { tables });
    expect(again.problems).toEqual([]);
    expect(again.remarks).toEqual([]);
    // How a value came to its point is written out in the list; all else is the same.
    const plain = (from: ReturnType<typeof read>): unknown =>
      JSON.parse(saidBy({ ...read(''), points: from.points }), (key, value) =>
        ['writtenAt', 'via'].includes(key) ? undefined : value,
      );
    expect(plain(again)).toEqual(plain(read(machine)));
    expect((await layshaft('points again.csv --csv', { files: { 'again.csv': out } })).out).toBe(out);
  });

  it('are found in the table that the file names', async () => {
    const named = {
      'plant/machine.yaml': 'layshaft: 1\npoints_from: [points.csv]\n',
      'plant/points.csv': exampleTable,
    };
    expect((await layshaft('points plant/machine.yaml --csv', { files: named })).out).toContain(
      '\nls_101,digital_in,main',
    );
    const { out } = await layshaft('explain plant/machine.yaml points.ls_101.wire', { files: named });
    expect(out).toContain('points.ls_101.wire stands at plant/points.csv:2:18');
  });
});

it('help teaches with a table that can be read', async () => {
  const { out } = await layshaft('points --help');
  for (const line of exampleTable.trimEnd().split('\n')) expect(out).toContain(`  ${line}\n`);
});
