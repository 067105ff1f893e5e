// Lists of points as they come out of spreadsheets: columns in the usual words and any order, kinds, units, slips.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Machine, read } from '../machine/machine.ts';
import { printProblem } from '../problems/problem.ts';
import { previewOf } from './preview.ts';
import { pointLines } from './print.ts';
import { readPointsTable } from './table.ts';

const machineOf = (text: string, more = ''): Machine =>
  read(`layshaft: 1\npoints_from: [points.csv]\n${more}`, {
    tables: new Map([['points.csv', readPointsTable('points.csv', text)]]),
  });

/** The points as lines of a machine file, when nothing is wrong with them. */
const lines = (text: string): readonly string[] => {
  expect(machineOf(text).problems.map(printProblem)).toEqual([]);
  return pointLines(readPointsTable('points.csv', text).entries).map(({ name, value }) => `${name}: ${value}`);
};
const problems = (text: string): readonly (readonly unknown[])[] =>
  machineOf(text).problems.map(({ code, place }) => [code, place.line, place.column]);
const remarks = (text: string): readonly string[] =>
  readPointsTable('points.csv', text).remarks.map((each) => each.message);

describe('a column', () => {
  it.each([
    ['Tag,I/O Type', 'kind'],
    ['Signal name,Signal type', 'kind'],
    ['NAME,KIND', 'kind'],
    ['point_name,io-type', 'kind'],
    ['Symbol,Type', 'kind'],
  ])('may be called by usual words: %s', (head, key) => {
    expect(lines(`${head}\na,DI\n`)).toEqual([`a: { ${key}: digital_in }`]);
  });

  it.each([
    ['Cable length [m]', '12', 'wire: 12 m'],
    ['wire (mm)', '1500', 'wire: 1500 mm'],
    ['Length in m', '12', 'wire: 12 m'],
    ['wire, m', '12', 'wire: 12 m'],
    ['wire/m', '12.5', 'wire: 12.5 m'],
    ['wire', '12 m', 'wire: 12 m'],
    ['wire [m]', '40 mm', 'wire: 40 mm'],
    ['Load current (A)', '0.5', 'current: 0.5 A'],
    ['Input type', 'Type 3', 'type: 3'],
    ['Type', '3', 'type: 3'],
    ['Location (rack)', 'Rack O', 'at: rack_o'],
    ['Fail safe', 'Last value', 'fails_to: hold'],
    ['Sensor', 'type K', 'sensor: k'],
    ['Range', '4-20 mA', 'range: [4 mA, 20 mA]'],
    ['Range [mA]', '4..20', 'range: [4 mA, 20 mA]'],
    ['Range', '±10 V', 'range: [-10 V, 10 V]'],
    ['Range', '0 V to 10 V', 'range: [0 V, 10 V]'],
    ['Range', '-10 … +10 V', 'range: [-10 V, +10 V]'],
    ['Description', 'open', "title: 'open'"],
    ['Channel', 'main.3.7', 'channel: main.3.7'],
    ['Address', '3/07', 'channel: main.3.7'],
    [
      'delay',
      '{ measured: 2 ms, date: 2026-11-03, count: 40 }',
      'delay: { measured: 2 ms, date: 2026-11-03, count: 40 }',
    ],
  ])('%s with %s', (head, cell, said) => {
    expect(lines(`name;kind;${head}\na;DI;${cell}\n`)).toEqual([`a: { kind: digital_in, ${said} }`]);
  });

  it('of places and one of numbers name a channel, one of ends and another a range', () => {
    expect(lines('name,kind,rack,slot,channel\na,DI,rack_o,3,ch 7\n')).toEqual([
      'a: { kind: digital_in, at: rack_o, channel: rack_o.3.7 }',
    ]);
    expect(lines('name,kind,range from [mA],range to [mA]\na,AI,4,20\n')).toEqual([
      'a: { kind: analogue_in, range: [4 mA, 20 mA] }',
    ]);
  });

  it('that says the same as a more usual one, or nothing of ours, or something else, is left out and told', () => {
    expect(remarks('Symbol,Tag,Page,Cable,,kind,Comment\nb,a,3,W 7,x,DI,y\n')).toEqual([
      "the column 'Symbol' is left out, with 1 filled cell: 'Tag' says the same",
      "the column 'Page' is left out, with 1 filled cell: no word of ours is in its head",
      "the column 'Cable' is left out, with 1 filled cell: none of its cells is a quantity that fits",
      'column 5, which has no head, is left out, with 1 filled cell: no word of ours is in its head',
    ]);
  });

  it('of numbers without any unit is one problem, and its values are unknown', () => {
    const text = 'name,kind,wire\na,DI,12\nb,DI,\nc,DI,7\n';
    expect(problems(text)).toEqual([['unit-missing', 1, 11]]);
    const [a, b] = machineOf(text).points;
    expect(a!.wire).toMatchObject({ lacks: [{ why: 'unknown', path: 'points.a.wire' }] });
    expect(b!.wire).toBeUndefined();
  });
});

describe('two columns of names', () => {
  it('are name and title, where there is no title', () => {
    expect(lines('Name,Tag,Kind\nLid 1 closed,LS-1,DI\n')).toEqual(['ls_1: { kind: digital_in, title: Lid 1 closed }']);
    expect(lines('Name,Tag,Kind,Comment\nLid,LS-1,DI,x\n')).toEqual(['ls_1: { kind: digital_in, title: x }']);
  });
});

describe('a kind', () => {
  it.each([
    ['DI', 'digital_in'],
    ['Digital Input', 'digital_in'],
    ['24V input', 'digital_in'],
    ['24 VDC Input', 'digital_in'],
    ['digital_in', 'digital_in'],
    ['DO', 'digital_out'],
    ['DQ', 'digital_out'],
    ['AI', 'analogue_in'],
    ['analog output', 'analogue_out'],
    ['RTD', 'resistance'],
    ['Pt100', 'resistance, sensor: pt100'],
    ['RTD Pt 1000', 'resistance, sensor: pt1000'],
    ['TC', 'thermocouple'],
    ['TC type K', 'thermocouple, sensor: k'],
    ['Thermocouple (J)', 'thermocouple, sensor: j'],
    ['AI 4-20mA', 'analogue_in, range: [4 mA, 20 mA]'],
    ['Relay output', 'relay'],
    ['RS-485', 'serial'],
    ['Encoder', 'encoder'],
    ['fast input', 'fast_in'],
  ])('%s is %s', (word, kind) => {
    expect(lines(`name;kind\na;${word}\n`)).toEqual([`a: { kind: ${kind} }`]);
  });

  it('is never left out: where none is understood, each is told; a column of which one is goes before one without', () => {
    expect(problems('Tag,Type\na,Siren\n')).toEqual([['word-unknown', 2, 3]]);
    expect(lines('Tag,Signal type,Type\na,wired,DI\n')).toEqual(['a: { kind: digital_in }']);
  });

  it('that is not understood is told at its cell, with all that stands beside it', () => {
    const { problems: found } = machineOf('name,kind\na,DI\nb,Siren\n');
    expect(found.map(({ code, place, path }) => [code, place.file, place.line, place.column, path])).toEqual([
      ['word-unknown', 'points.csv', 3, 3, 'points.b.kind'],
    ]);
    expect(found[0]!.message).toContain("'Siren' is not one of digital_in");
  });
});

describe('a name', () => {
  it.each([
    ['LS-101', 'ls_101'],
    ['  Lid 1 (left) ', 'lid_1_left'],
    ['Y4+', 'y4_plus'],
    ['Y4-', 'y4_minus'],
    ['=A1+K2-B3', 'a1_k2_b3'],
    ['[LS 1]', 'ls_1'],
    ['1B7', 'p_1b7'],
    ['Größe', 'grosse'],
    ['lid_[1..3]', 'lid_[1..3]'],
  ])('%s becomes %s', (written, name) => {
    expect(lines(`tag\tkind\n${written}\tDI\n`)).toEqual([`${name}: { kind: digital_in }`]);
  });

  it('that is changed is told once for its column, and one that stands twice at the second place', () => {
    const text = 'name,kind\nLS-1,DI\nLS-2,DI\nLS 1,DI\n,DI\nLS-2,DO\n';
    expect(remarks(text)).toEqual(["4 names under 'name' are written in our form: 'LS-1' is ls_1"]);
    const { problems: found, points } = machineOf(text);
    expect(found.map(({ message, place }) => [place.line, message])).toEqual([
      [4, "'LS 1' is ls_1, as 'LS-1' is"],
      [5, 'this row has no name'],
      [6, "'LS-2' stands twice"],
    ]);
    expect(points.map(({ name }) => name)).toEqual(['ls_1', 'ls_2']);
  });

  it('without a letter of ours is a problem', () => {
    expect(problems('name,kind\n点,DI\n')).toEqual([['name-form', 2, 1]]);
  });
});

describe('separators and numbers', () => {
  it.each([',', ';', '\t'])('are guessed: %j', (separator) => {
    const text = [
      ['name', 'kind', 'wire [m]', 'title'],
      ['a', 'DI', '7', '"x, y; z"'],
    ];
    expect(lines(text.map((row) => row.join(separator)).join('\r\n'))).toEqual([
      "a: { kind: digital_in, wire: 7 m, title: 'x, y; z' }",
    ]);
  });

  it('takes a comma for a decimal sign between semicolons, and tells; elsewhere, and where it may be a thousand, it asks', () => {
    expect(lines('name;kind;wire [m]\na;DI;12,5\nb;DI;0,125\n')).toEqual([
      'a: { kind: digital_in, wire: 12.5 m }',
      'b: { kind: digital_in, wire: 0.125 m }',
    ]);
    expect(remarks('name;kind;wire [m]\na;DI;12,5\nb;DI;0,125\n')).toEqual([
      "the comma in 2 cells is read as a decimal sign: '12,5' is 12.5",
    ]);
    expect(problems('name;kind;wire [m]\na;DI;1,500\n')).toEqual([['decimal-comma', 2, 6]]);
    expect(problems('name,kind,wire [m]\na,DI,"12,5"\nb,DI,3\n')).toEqual([['decimal-comma', 2, 7]]);
  });

  it('pass over empty lines, and tell what stands above the heads', () => {
    const text = '\ufeffSleever;;\r\n;;\r\nTag;Kind;\r\n\r\na;DI;\r\n;;\r\n';
    expect(lines(text)).toEqual(['a: { kind: digital_in }']);
    expect(remarks(text)).toEqual(["'Sleever' stands above the heads of the columns and is left out"]);
  });

  it('leave a cell with nothing, a dash or n/a unsaid, and a ? unknown', () => {
    expect(lines('name,kind,wire,title\na,DI,-,-\nb,DI,n/a,\nc,DI,?,\nd,DI,open,\n')).toEqual([
      "a: { kind: digital_in, title: '-' }",
      'b: { kind: digital_in }',
      'c: { kind: digital_in, wire: unknown }',
      'd: { kind: digital_in, wire: open }',
    ]);
  });
});

describe('what is no table', () => {
  it.each([
    ['nothing', '', 'table-form'],
    ['prose', 'This is a letter.\nIt goes on.\n', 'table-form'],
    ['no names', 'kind,wire\nDI,3 m\n', 'table-form'],
    ['a workbook', 'PK\u0003\u0004\ufffd', 'text-not-plain'],
    ['a quote without its end', 'name,kind\n"a,DI\n', 'table-form'],
    ['more columns than any list', `name${',wire'.repeat(300_000)}\na${',1'.repeat(300_000)}\n`, 'text-too-large'],
    ['quotes upon quotes', `name,kind\n${'"'.repeat(1_000_001)}`, 'table-form'],
    ['a head without an end', `name${' ('.repeat(500_000)}\n`, 'table-form'],
    ['a name without an end', `name,kind\na${' '.repeat(500_000)}-b,DI\n`, 'name-form'],
    ['a kind without an end', `name,kind\na,${'DI '.repeat(500_000)}x\n`, 'word-unknown'],
    [
      'ranges upon ranges',
      `name,kind\n${Array.from({ length: 9000 }, (_, at) => `a${at}_[1..2000],DI\n`).join('')}`,
      'text-too-large',
    ],
    ['more points than any machine', `name\n${'a\n'.repeat(10_001)}`, 'text-too-large'],
  ])('%s', (_what, text, code) => {
    expect(machineOf(text).problems.map((each) => each.code)).toContain(code);
  });
});

describe('the preview', () => {
  it('tells how each column was read', () => {
    const text = 'Tag;Type;Length [m];Page\nLS-1;DI;12,5;3\nB;Siren;;\n';
    expect(previewOf(readPointsTable('points.csv', text))).toMatchObject({
      note: '2 points; semicolons part the cells',
      columns: ['column', 'used as', 'first', 'unit', 'empty', 'unclear'],
      rows: [
        ['Tag', 'name', 'LS-1 → ls_1', '', '0', '0'],
        ['Type', 'kind', 'DI → digital_in', '', '0', '1'],
        ['Length [m]', 'wire', '12,5 → 12.5 m', 'm', '1', '0'],
        ['Page', 'left out', '3', '', '1', '0'],
      ],
    });
  });
});

const cells: Readonly<Record<string, readonly string[]>> = {
  'Signal type': ['DI', 'DO', 'AI 4-20 mA', 'Siren', 'TC type K', ''],
  Location: ['main', 'Rack O', ''],
  'Current [A]': ['0.5', '1 A', '', '12'],
  Range: ['4-20 mA', '0 V to 10 V', 'wide', ''],
  'Cable length': ['12 m', '7 m', '-'],
  Slot: ['3', '', 'x'],
  Channel: ['1', '2', 'main.3.4', ''],
  Comment: ['Lid, left', 'a "b"', '-', ''],
  Page: ['1', '2'],
};
const anyTable = fc
  .record({
    heads: fc.shuffledSubarray(Object.keys(cells), { minLength: 2 }),
    count: fc.integer({ min: 1, max: 6 }),
    picks: fc.array(fc.nat(), { minLength: 60, maxLength: 60 }),
  })
  .map(({ heads, count, picks }) => [
    ['Tag', ...heads],
    ...Array.from({ length: count }, (_, row) => [
      `T-${row}`,
      ...heads.map((head, at) => cells[head]![picks[row * 10 + at]! % cells[head]!.length]!),
    ]),
  ]);
const print = (rows: readonly (readonly string[])[], separator: string): string =>
  rows.map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(separator)).join('\n');

describe('any list', () => {
  it('says the same in any order of its columns, with any separator', () => {
    fc.assert(
      fc.property(anyTable, fc.infiniteStream(fc.nat()), fc.constantFrom(',', ';', '\t'), (rows, keys, separator) => {
        const order = rows[0]!.map((_, at) => ({ at, key: keys.next().value as number })).sort((a, b) => a.key - b.key);
        const turned = rows.map((row) => order.map(({ at }) => row[at]!));
        const said = (text: string) => {
          const machine = machineOf(text);
          const { entries } = readPointsTable('points.csv', text);
          return [pointLines(entries), machine.problems.map(({ code, path }) => `${path} ${code}`).sort()];
        };
        expect(said(print(turned, separator))).toEqual(said(print(rows, separator)));
      }),
      { seed: 21, numRuns: 80 },
    );
  });

  it('is read or told, never thrown at: lists with anything anywhere', () => {
    const odd = [
      '"',
      ',',
      ';',
      '\t',
      '\n',
      '\r',
      '[',
      '{',
      '}',
      '..',
      '0',
      '1e999',
      '-',
      '\ufffd',
      '__proto__',
      '点',
      ' in m',
      '(A)',
    ];
    const source = 'Tag,Type,Range [mA],Wire,Channel,constructor\nLS-1,AI,4-20,12 m,3.1,x\nlid_[1..9],"DI",,?,open,\n';
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(), fc.nat(9), fc.constantFrom(...odd)), { maxLength: 8 }), (edits) => {
        const text = edits.reduce((now, [place, gone, by]) => {
          const at = place % (now.length + 1);
          return now.slice(0, at) + by + now.slice(at + gone);
        }, source);
        const {
          problems: found,
          remarks: told,
          points,
        } = machineOf(text, 'set: [{ path: points.*.update, value: 4 ms }]\n');
        const { length } = text.split('\n');
        for (const { place } of [...found, ...told].filter(({ place: { file } }) => file === 'points.csv')) {
          expect(place.line).toBeLessThanOrEqual(length);
          expect(place.column).toBeLessThanOrEqual(text.split('\n')[place.line - 1]!.length + 1);
        }
        expect(points.length + found.length, text).toBeGreaterThan(0);
      }),
      { seed: 22, numRuns: 700 },
    );
  });
});
