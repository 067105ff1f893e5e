// Comma-separated values: numbers in SI beside their unit, quoting by RFC 4180.
import { describe, expect, it } from 'vitest';
import { bench, layshaft } from './fake-io.ts';
import { csvOf, csvOfAll } from './print-csv.ts';

const show = async (line: string) =>
  (await layshaft(`show m.yaml ${line}`, { files: { 'm.yaml': bench('100 µs', 'turnaround: 2.5 µs') } })).out;

/** Reads what was written, by the grammar of RFC 4180. */
function readCsv(text: string): readonly (readonly string[])[] {
  const records: string[][] = [[]];
  for (const [, quoted, plain = '', end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/g)) {
    records.at(-1)!.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end === '\r\n') records.push([]);
  }
  return records.slice(0, -1);
}

describe('layshaft show --csv', () => {
  it('prints one table, every record as long as the first', async () => {
    const records = readCsv(await show('networks.line --table split --csv'));
    expect(records[0]).toEqual(['part', 'time', 'time, unit', 'share', 'share, unit']);
    for (const record of records) expect(record).toHaveLength(5);
    const free = records.find(([part]) => part === 'free')!;
    // A cycle needs 6.72 + 15.54 + 15.54 + 6.72 = 44.52 µs with a turnaround of 2 µs; half a microsecond more, twice.
    expect(free).toEqual(['free', '0.00005448', 's', '0.5448', '1']);
  });

  it('prints all tables, each under its name', async () => {
    const records = readCsv(await show('networks.line --csv'));
    const names = records.filter((record) => record.length === 1).map(([name]) => name);
    expect(names).toContain('Room in the cycle (room)');
    expect(names.at(-1)).not.toBe('');
  });

  it('quotes what would be read wrong', () => {
    const table = {
      name: 't',
      title: 'A, b',
      columns: ['say "what"', 'n'],
      rows: [
        ['two\nlines', ''],
        ['plain', 'x,y'],
      ],
    };
    expect(csvOf(table)).toBe('"say ""what""",n\r\n"two\nlines",\r\nplain,"x,y"\r\n');
    expect(readCsv(csvOfAll([table, table]))).toEqual([
      ['A, b (t)'],
      ['say "what"', 'n'],
      ['two\nlines', ''],
      ['plain', 'x,y'],
      [''],
      ['A, b (t)'],
      ['say "what"', 'n'],
      ['two\nlines', ''],
      ['plain', 'x,y'],
    ]);
  });

  it('leaves the unit of words among numbers empty', async () => {
    const text = await layshaft('show m.yaml networks.line --table split --csv', {
      files: { 'm.yaml': bench('100 µs', 'turnaround: unknown') },
    });
    const records = readCsv(text.out);
    const unknown = records.find(([part]) => part === 'free')!;
    expect(unknown[1]).toMatch(/^unknown: axes\.one\.drive\.turnaround is unknown/);
    expect(unknown[2]).toBe('');
  });
});
