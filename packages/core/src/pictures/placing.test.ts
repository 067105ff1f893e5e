// Where texts go: a group takes one form, what does not fit is left out, numbers of measures never are.
import { describe, expect, it } from 'vitest';
import { type Label, type Mark, type Picture, plainText, type Words } from './picture.ts';
import { cutTo, placeTexts, type Room } from './placing.ts';

const room: Room = {
  left: 0,
  right: 100,
  at: (x) => x,
  widthOf: (words) => plainText(words).length,
  apart: 1,
  inset: 0,
  ends: 2,
};
const place = (marks: readonly Mark[], rows = 1) =>
  placeTexts({ rows: Array.from({ length: rows }, () => ({ height: 1 })), marks } as unknown as Picture, room);
const label = (x: number, forms: readonly Words[], more: Partial<Label> = {}): Label => ({
  kind: 'label',
  row: 0,
  x,
  align: 'start',
  forms,
  tone: 'plain',
  ...more,
});
const said = (marks: readonly Mark[], rows?: number) => place(marks, rows).texts.map(({ words }) => plainText(words));

describe('placeTexts', () => {
  it('writes all labels of a group in the first form in which all fit', () => {
    const pair = (apart: number) =>
      [0, apart].map((x, index) => label(x, [[`name_${index}`], [`${index}`]], { group: 'g' }));
    expect(said(pair(7))).toEqual(['name_0', 'name_1']);
    expect(said(pair(6))).toEqual(['0', '1']);
    expect(said(pair(1))).toEqual(['0']);
  });

  it('explains a group that was shortened, and only that', () => {
    const key: Mark = {
      kind: 'paragraph',
      row: 1,
      items: [{ words: ['0 is name_0'], group: 'g' }, { words: ['always'] }, { words: ['h'], group: 'h' }],
    };
    const pair = (apart: number) => [0, apart].map((x) => label(x, [['name_n'], ['n']], { group: 'g' }));
    expect(said([...pair(7), key], 2)).toEqual(['name_n', 'name_n', 'always']);
    expect(said([...pair(3), key], 2)).toEqual(['n', 'n', '0 is name_0 · always']);
  });

  it('moves a label into its bounds, and leaves out one that is wider', () => {
    expect(place([label(98, [['abcd']])]).texts[0]!.x).toBe(96);
    expect(place([label(10, [['abcd']], { align: 'end' })]).texts[0]!.x).toBe(6);
    expect(place([label(10, [['abcd']], { align: 'middle', within: [10, 20] })]).texts[0]!.x).toBe(10);
    expect(said([label(10, [['abcd']], { within: [10, 13] })])).toEqual([]);
    expect(said([label(10, [[]])])).toEqual([]);
  });

  it('writes below what has no room between the ends of a measure', () => {
    const measure = (from: number, to: number): Mark => ({
      kind: 'measure',
      row: 0,
      from,
      to,
      forms: [['part 12'], ['12']],
    });
    const { texts, lines } = place([measure(0, 9), measure(9, 13), measure(13, 15), measure(15, 17), measure(0, 9)]);
    expect(texts.map(({ words, line }) => [plainText(words), line])).toEqual([
      ['part 12', 0],
      ['12', 0],
      ['part 12', 1],
      ['part 12', 2],
      ['part 12', 1],
    ]);
    expect(lines).toEqual([3]);
  });

  it('breaks a paragraph between its items, and a long item between words', () => {
    const items = ['a'.repeat(60), 'b'.repeat(30), 'c'.repeat(20), `${'long '.repeat(30)}end`].map((text) => ({
      words: [text],
    }));
    const lines = said([{ kind: 'paragraph', row: 0, items }]);
    expect(lines[0]).toBe(`${'a'.repeat(60)} · ${'b'.repeat(30)}`);
    expect(lines.every((line) => line.length <= 100)).toBe(true);
    expect(lines.join(' ').replaceAll(' · ', ' ')).toBe(items.map(({ words }) => words[0]).join(' '));
  });
});

describe('cutTo', () => {
  it('shows that something is cut off', () => {
    const number = { address: 'a', value: 1, unit: 's', text: '1 s' };
    expect(plainText(cutTo(['abcdef'], 6, room.widthOf))).toBe('abcdef');
    expect(plainText(cutTo(['abcdef'], 5, room.widthOf))).toBe('abcd…');
    expect(plainText(cutTo(['abcdef ', number], 9, room.widthOf))).toBe('abcdef …');
    expect(plainText(cutTo([number], 2, room.widthOf))).toBe('');
  });
});
