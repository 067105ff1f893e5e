// Points of a table among those of the file: one group, with origins and places in the table, which edits do not reach.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meanings } from '../points/columns.ts';
import { entriesRead, pointLines, pointsSheet } from '../points/print.ts';
import { readPointsTable } from '../points/table.ts';
import { where } from '../problems/problem.ts';
import type { Origin } from '../working/origin.ts';
import type { Quantity } from '../working/quantity.ts';
import { type Machine, read, withTables } from './machine.ts';
import { tablesNamed } from './point-tables.ts';
import { saidBy } from './said.support.ts';
import { machineSchema } from './schema.ts';
import { splice, spliceEach } from './splice.ts';
import { tellOrigin } from './tell-origin.ts';
import { vary } from './vary.ts';
import { writePlanned } from './write-planned.ts';

const csv = 'Tag,Kind,Current [A],Wire\nY-1,DO,0.5,7 m\nlid_[1..2],DI,,3 m\n';
const tables = new Map([['points.csv', readPointsTable('plant/points.csv', csv)]]);
const reading = (more: string): Machine => read(`layshaft: 1\npoints_from: [points.csv]\n${more}`, { tables });
const told = ({ problems }: Machine) =>
  problems.map(({ code, place, notes }) => [code, where(place), notes.map((note) => where(note.place))]);

const own = 'points:\n  eye: { kind: capture }\n  again: { like: y_1, wire: 9 m }\n';

describe('points of a table', () => {
  it('are one group with those of the file, whichever has them', () => {
    const machine = reading(own);
    expect(told(machine)).toEqual([]);
    expect(machine.points.map(({ name }) => name)).toEqual(['eye', 'again', 'y_1', 'lid_1', 'lid_2']);
    expect(reading('').points.map(({ name }) => name)).toEqual(['y_1', 'lid_1', 'lid_2']);
  });

  it('read as the same written in the file, with the same origins', () => {
    const machine = reading('');
    const names = machine.points.map(({ name }) => name);
    const written = pointLines(readPointsTable('', csv).entries).map(({ name, value }) => `  ${name}: ${value}\n`);
    const same = read(`layshaft: 1\npoints:\n${written.join('')}`);
    const without = ({ points }: Machine) => saidBy({ ...read(''), points });
    expect(names).toHaveLength(3);
    expect(without(machine)).toBe(without(same));
    expect(entriesRead(names, machine.reading).map(({ key }) => key)).toEqual(names);
  });

  it('have their places in the table', () => {
    const machine = reading(own);
    expect(where(machine.where('points.y_1')!)).toBe('plant/points.csv:2:1');
    expect(machine.where('points.y_1.current')).toMatchObject({ line: 2, column: 8, length: 3 });
    expect(where(reading('').where('points')!)).toBe('machine.yaml:2:1');
    expect(where(machine.where('points')!)).toBe('machine.yaml:3:1');
    expect(where(machine.where('points.again.wire')!)).toBe('machine.yaml:5:23');
    const { by } = machine.points.find(({ name }) => name === 'again')!.current as Quantity<'A'>;
    expect(tellOrigin(by as Origin, { machine, catalogues: [], builtIn: '' })).toBe(
      'given at plant/points.csv:2:8, by like y_1',
    );
  });

  it('are reached by set and planned', () => {
    const machine = reading(
      'set: [{ path: points.*.filter, value: 2 ms }, { path: points.y_1.wire, value: 8 m }]\nplanned: { points.y_1.channel: main.3.1 }\n',
    );
    expect(told(machine)).toEqual([]);
    const [first, lid] = machine.points;
    expect([first!.filter, lid!.filter]).toMatchObject([{ value: 0.002 }, { value: 0.002 }]);
    expect(first!.wire).toMatchObject({ value: 7 });
    expect(first!.channel).toMatchObject({ location: 'main', place: 3, channel: 1 });
    const [remark] = machine.remarks.filter(({ code }) => code === 'set-not-taken');
    expect(remark?.place).toMatchObject({ file: 'plant/points.csv', line: 2, column: 12 });
  });

  it('whose name stands already are a problem at the second, with the first beside it', () => {
    expect(told(reading('points: { y_1: { kind: relay } }\n'))).toEqual([
      ['key-twice', 'plant/points.csv:2:1', ['machine.yaml:3:11']],
    ]);
    expect(told(reading('points: { "lid_[2..4]": { kind: relay } }\n'))).toEqual([
      ['key-twice', 'plant/points.csv:3:1', ['machine.yaml:3:11']],
    ]);
    const both = new Map([...tables, ['more.csv', readPointsTable('more.csv', 'name,kind\ny_1,DI\n')]]);
    expect(told(read('layshaft: 1\npoints_from: [points.csv, more.csv]\n', { tables: both }))).toEqual([
      ['key-twice', 'more.csv:2:1', ['plant/points.csv:2:1']],
    ]);
  });

  it('of a table that is named twice are read once', () => {
    const machine = read('layshaft: 1\npoints_from: [points.csv, points.csv]\n', { tables });
    expect(told(machine)).toEqual([['key-twice', 'machine.yaml:2:27', ['machine.yaml:2:15']]]);
    expect(machine.points).toHaveLength(3);
  });

  it('that could not be had are one problem where the table is named, and nothing else misses them', () => {
    const text = 'layshaft: 1\npoints_from: [points.csv]\nchains: { a: { from: y_1, through: [], to: y_1 } }\n';
    const without = read(text);
    expect(told(without)).toEqual([['table-unknown', 'machine.yaml:2:15', []]]);
    expect(tablesNamed(without)).toEqual(['points.csv']);
    expect(told(withTables(without, tables))).toEqual([]);
  });

  it('keep what is wrong with them at their cells', () => {
    const table = readPointsTable('points.csv', 'name,kind,wire,range\na,DI,far,4 mA\n');
    const machine = read('layshaft: 1\npoints_from: [points.csv]\n', { tables: new Map([['points.csv', table]]) });
    expect(machine.problems.map(({ code, place, path }) => [code, where(place), place.length, path])).toEqual([
      ['number-expected', 'points.csv:2:6', 3, 'points.a.wire'],
      ['list-expected', 'points.csv:2:10', 4, 'points.a.range'],
    ]);
  });
});

describe('an edit', () => {
  it.each([
    ['points.y_1.wire', "'points.y_1.wire' stands in line 2 of plant/points.csv, which is edited there and not here"],
    [
      'points.y_1.filter',
      "'points.y_1.filter' belongs to a point that stands in line 2 of plant/points.csv, which is edited there and not here",
    ],
    ['points.y_1', "'points.y_1' stands in line 2 of plant/points.csv, which is edited there and not here"],
  ])('of %s is refused, and nothing varies it', (path, message) => {
    const machine = reading(own);
    expect(splice(machine, { path, value: '1 m' })).toEqual({
      kind: 'refused',
      message,
      remedy: 'Change line 2 of plant/points.csv.',
    });
    expect(splice(machine, { path, value: undefined }).kind).toBe('refused');
    expect(vary(machine, path, '1 m')).toBeUndefined();
  });

  it('of what is like a point of the table stands in the file', () => {
    const machine = reading(own);
    expect(splice(machine, { path: 'points.again.current', value: '1 A', at: 'here' })).toMatchObject({
      insert: ', current: 1 A',
    });
    expect(splice(machine, { path: 'points.again.current', value: '1 A', at: 'source' }).kind).toBe('refused');
  });

  it('beside them keeps them: points of the file, planned channels', () => {
    const machine = reading('');
    const added = spliceEach(machine, [{ path: 'points.eye.kind', value: 'capture' }]);
    expect(added).toMatchObject({ kind: 'edits' });
    const planned = writePlanned(machine, [
      { path: 'points.y_1.channel', value: 'main.3.1' },
      { path: 'points.lid_1.channel', value: 'main.4.1' },
      { path: 'points.lid_2.channel', value: 'main.4.2' },
    ]);
    for (const result of [added, planned]) {
      if (result.kind !== 'edits') throw new Error(result.kind);
      expect(result.machine.problems).toEqual([]);
      expect(result.machine.points.map(({ name }) => name)).toEqual(expect.arrayContaining(['y_1', 'lid_1', 'lid_2']));
    }
    expect(vary(machine, 'planned.points.y_1.channel', 'main.3.2')?.points[0]).toMatchObject({ channel: { place: 3 } });
  });
});

it('every key of a point has a column', () => {
  const point = Object.values(machineSchema().properties?.points?.patternProperties ?? {})[0];
  const columns: readonly string[] = meanings.map(({ key }) => key);
  const keys = Object.keys(point?.properties ?? {});
  expect(keys).toContain('kind');
  expect(keys.filter((key) => !columns.includes(key))).toEqual([]);
});

it.each(['labeller', 'print-line'])('the points of %s are the same from a table of them', (name) => {
  const machine = read(readFileSync(`examples/${name}/machine.yaml`, 'utf8'));
  const names = machine.points.map((point) => point.name);
  expect(names.length).toBeGreaterThan(10);
  const { columns, rows } = pointsSheet(entriesRead(names, machine.reading));
  const text = [columns, ...rows].map((row) => row.map((cell) => `"${String(cell).replaceAll('"', '""')}"`).join(','));
  const own = new Map([['points.csv', readPointsTable('points.csv', text.join('\n'))]]);
  const again = read('layshaft: 1\npoints_from: [points.csv]\n', { tables: own });
  expect(again.remarks).toEqual([]);
  const plain = ({ points }: Machine): unknown =>
    JSON.parse(saidBy({ ...read(''), points }), (key, value) =>
      ['writtenAt', 'via', 'channel'].includes(key) ? undefined : value,
    );
  expect(plain(again)).toEqual(plain(machine));
});
