// Comma-separated values: RFC 4180 and what spreadsheets add; every cell says where it stands.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCsv, type Separator, separators } from './csv.ts';

const texts = (text: string, separator: Separator = ','): readonly (readonly string[])[] =>
  parseCsv(text, separator).records.map((record) => record.map((cell) => cell.text));

describe('records', () => {
  it.each<[string, string, readonly (readonly string[])[]]>([
    [
      'RFC 4180, section 2, rule 1',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 2, no break behind the last',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 5, quotes',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 6, a break in quotes',
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['rule 7, a quote in quotes', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
    ['cells with nothing', ',a,\n,,\n\nb', [['', 'a', ''], ['', '', ''], [''], ['b']]],
    ['the mark of a byte order, and other line ends', '\ufeffa,b\rc\nd', [['a', 'b'], ['c'], ['d']]],
    ['blanks around cells and quotes', ' a , "b" ,\u00a0c', [['a', 'b', 'c']]],
    ['an inch is no quote', '5" pipe,3', [['5" pipe', '3']]],
    ['nothing', '', []],
  ])('%s', (_rule, text, records) => {
    expect(texts(text)).toEqual(records);
    expect(parseCsv(text, ',').defects).toEqual([]);
  });

  it('tell a quote that is not closed, and what stands behind one, at their places', () => {
    expect(parseCsv('a,"b\nc,"d', ',')).toMatchObject({
      defects: [{ what: 'behind-quote', from: 8, to: 9 }],
    });
    expect(parseCsv('a,"b\nc,d', ',')).toMatchObject({
      records: [
        [{ text: 'a' }, { text: '"b' }],
        [{ text: 'c' }, { text: 'd' }],
      ],
      defects: [{ what: 'quote-open', from: 2, to: 3 }],
    });
  });

  it('come back as they were written, whatever stands in them', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'b', '"', ',', ';', '\t', '\n', '\r\n', ' ') });
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        fc.constantFrom(...separators),
        (records, separator) => {
          const text = records
            .map((record) => record.map((each) => `"${each.replaceAll('"', '""')}"`).join(separator))
            .join('\r\n');
          expect(texts(text, separator)).toEqual(records.map((record) => record.map((each) => each.trim())));
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  it('have spans that lead back to their text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('a', '"', ',', '\n', ' ') }), (text) => {
        for (const { from, to, text: cell } of parseCsv(text, ',').records.flat())
          expect(text.slice(from, to).replaceAll('""', '"')).toBe(cell.replaceAll('""', '"'));
      }),
      { seed: 12, numRuns: 1000 },
    );
  });
});
