// The log: lines come back as they were written, torn ones do not count, and the limit drops the oldest but never the newest.
import { appendFileSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { appendLine, type LogLine, linesOf, linesWithin, printLine } from './history-log.ts';
import { temporaryFolder } from './temporary.support.ts';

const line = (path: string, number: number, bytes = 100): LogLine => ({
  path,
  at: new Date(Date.UTC(2026, 0, 1) + number).toISOString(),
  version: number.toString(16).padStart(64, '0'),
  bytes,
  by: 'sheet',
});

describe('the log', () => {
  it('gives back what was appended, with the octets that it took', async () => {
    const place = join(temporaryFolder(), 'log.jsonl');
    const lines = [
      line('a.yaml', 1),
      line('Größe "2".yaml', 2),
      { ...line('b\u2028.yaml', 3), by: 'elsewhere' as const },
    ];
    let octets = 0;
    for (const each of lines) octets += await appendLine(place, each);
    expect(linesOf(readFileSync(place, 'utf8'))).toEqual(lines);
    expect(octets).toBe(statSync(place).size);
  });

  it('goes on after every torn line', async () => {
    const place = join(temporaryFolder(), 'log.jsonl');
    const torn = printLine(line('a.yaml', 2)).trimEnd();
    await appendLine(place, line('a.yaml', 1));
    for (let length = 1; length < torn.length; length += 1) {
      appendFileSync(place, torn.slice(0, length));
      await appendLine(place, line('a.yaml', 3));
    }
    const lines = linesOf(readFileSync(place, 'utf8'));
    expect(lines).toHaveLength(torn.length);
    expect(lines.slice(1).every((each) => each.version === line('a.yaml', 3).version)).toBe(true);
  });

  it.each([
    ['no JSON', '{"path":'],
    ['nothing', 'null'],
    ['a number', '1'],
    ['a version that is a path', JSON.stringify({ ...line('a.yaml', 1), version: '../../secret' })],
    ['no time', JSON.stringify({ ...line('a.yaml', 1), at: 'soon' })],
    ['no size', JSON.stringify({ ...line('a.yaml', 1), bytes: '9' })],
    ['no path', JSON.stringify({ ...line('a.yaml', 1), path: 1 })],
    ['a hand that nobody has', JSON.stringify({ ...line('a.yaml', 1), by: 'me' })],
  ])('has no line where there is %s', (_what, text) => {
    expect(linesOf(`${printLine(line('a.yaml', 1))}${text}\n${printLine(line('a.yaml', 2))}`)).toHaveLength(2);
  });

  it('is not appended to through a symbolic link', async () => {
    const folder = temporaryFolder({ 'secret.yaml': '' });
    symlinkSync('secret.yaml', join(folder, 'log.jsonl'));
    await expect(appendLine(join(folder, 'log.jsonl'), line('a.yaml', 1))).rejects.toMatchObject({ code: 'ELOOP' });
    expect(readFileSync(join(folder, 'secret.yaml'), 'utf8')).toBe('');
  });

  it('is read whatever stands in it', () => {
    const property = fc.property(fc.string({ unit: 'binary' }), (text) => {
      expect(linesOf(text)).toEqual([]);
    });
    fc.assert(property, { seed: 7, numRuns: 500 });
  });
});

describe('the limit', () => {
  const logs = fc
    .array(
      fc.record({ path: fc.constantFrom('a.yaml', 'b.yaml', 'c.yaml'), text: fc.nat(30), bytes: fc.constant(500) }),
      {
        minLength: 10,
        maxLength: 60,
      },
    )
    .map((all) =>
      all.map(({ path, text, bytes }, at) => ({ ...line(path, at, bytes), version: line(path, text).version })),
    );
  const sizeOf = (lines: readonly LogLine[]): number => {
    const texts = new Map(lines.map(({ version, bytes }) => [version, bytes]));
    const log = lines.reduce((sum, each) => sum + Buffer.byteLength(printLine(each)), 0);
    return [...texts.values()].reduce((sum, bytes) => sum + bytes, log);
  };

  it('seeded: drops the oldest, keeps the newest of each file, and fits unless those alone do not', () => {
    let dropping = 0;
    const property = fc.property(
      logs,
      fc.integer({ min: 0, max: 20_000 }),
      fc.integer({ min: 1, max: 8 }),
      (all, octets, newest) => {
        const kept = linesWithin(all, { octets, newest });
        if (sizeOf(all) <= octets) {
          expect(kept).toEqual(all);
          return;
        }
        dropping += 1;
        const isNewest = (each: LogLine, index: number): boolean =>
          all.slice(index + 1).filter(({ path }) => path === each.path).length < newest;
        const must = all.filter(isNewest);
        const others = all.filter((each, index) => !isNewest(each, index));
        const stay = others.filter((each) => kept.includes(each));
        expect(kept).toEqual(all.filter((each) => must.includes(each) || stay.includes(each)));
        expect(stay).toEqual(others.slice(others.length - stay.length));
        if (stay.length > 0) expect(sizeOf(kept)).toBeLessThanOrEqual(octets);
      },
    );
    fc.assert(property, { seed: 11, numRuns: 1000 });
    expect(dropping).toBeGreaterThan(300);
  });
});
