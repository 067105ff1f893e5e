// Wrapping, columns and paragraphs.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atBothEnds, inColumns, indent, paragraphs, wrap } from './layout.ts';

describe('wrap', () => {
  it('breaks between words, and keeps a number with its unit', () => {
    expect(wrap('a command takes 2.4 µs there and 6.72 µs back', 18)).toEqual([
      'a command takes',
      '2.4 µs there and',
      '6.72 µs back',
    ]);
    expect(wrap('(64 octets + 8 octets) / 100 Mbit/s', 12)).toEqual(['(64 octets +', '8 octets) /', '100 Mbit/s']);
  });

  it('gives a long word a line of its own', () => {
    expect(wrap('see networks.drives.nodes.rack_o for it', 10)).toEqual([
      'see',
      'networks.drives.nodes.rack_o',
      'for it',
    ]);
    expect(wrap('', 10)).toEqual(['']);
  });

  it('loses no word and keeps to the width where words allow it', () => {
    const words = fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1 });
    fc.assert(
      fc.property(words, fc.integer({ min: 9, max: 40 }), (given, columns) => {
        const lines = wrap(given.join(' '), columns);
        expect(lines.join(' ')).toBe(given.join(' '));
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
      }),
    );
  });
});

describe('indent', () => {
  it('counts the indentation into the width', () => {
    expect(indent('one two three', 4, 12)).toEqual(['    one two', '    three']);
  });
});

describe('inColumns', () => {
  it('makes columns as wide as their widest cell and wraps the last one', () => {
    expect(
      inColumns(
        [
          ['a', '100 µs', 'capacity'],
          ['', '', 'is what is there to be used up'],
          ['bb', '', ''],
        ],
        2,
        40,
      ),
    ).toEqual(['  a   100 µs  capacity', '              is what is there to be', '              used up', '  bb']);
  });

  it('takes no rows', () => expect(inColumns([], 2, 40)).toEqual([]));
});

describe('atBothEnds', () => {
  const paint = { left: (text: string) => `<${text}>`, right: (text: string) => `[${text}]` };

  it('fills up to the width, colour not counted', () => {
    expect(atBothEnds('left', 'right', 11, paint)).toEqual(['<left>  [right]']);
  });

  it('takes a second line where both do not fit', () => {
    expect(atBothEnds('left', 'right', 10, paint)).toEqual(['<left>', '     [right]']);
    expect(atBothEnds('left', 'right', 3, paint)).toEqual(['<left>', '[right]']);
  });
});

it('puts an empty line between blocks that have lines', () => {
  expect(paragraphs([[], ['a', 'b'], [], ['c']])).toEqual(['a', 'b', '', 'c']);
});
