// The SVG printer: well-formed whatever the picture holds, to scale, and no text into another.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlaps, textBoxes } from './drawn-texts.support.ts';
import { type Mark, type Picture, plainText } from './picture.ts';
import { randomPicture } from './random-picture.support.ts';
import { printSvg } from './svg.ts';
import { elementsIn, readXml, textIn } from './xml-reader.support.ts';

const picture = (marks: readonly Mark[], more: Partial<Picture> = {}): Picture => ({
  name: 'p',
  title: 'A picture',
  caption: 'As it is.',
  scale: { from: 0, to: 1e-3, unit: 's' },
  rows: [
    { height: 2, grid: true },
    { height: 1.7, ticks: true },
  ],
  marks,
  legend: [],
  text: [['All that is drawn.']],
  ...more,
});

const bar = (from: number, to: number): Mark => ({ kind: 'bar', row: 0, from, to, fill: 'solid', tone: 'traffic' });

describe('printSvg', () => {
  it('is well-formed, quiet and finite for any picture, at any width', () => {
    fc.assert(
      fc.property(randomPicture, fc.integer({ min: 1, max: 2000 }), fc.boolean(), (any, width_px, standalone) => {
        const svg = printSvg(any, { width_px, id: 'x', standalone });
        expect(printSvg(any, { width_px, id: 'x', standalone })).toBe(svg);
        const root = readXml(svg);
        const width = Number(root.attributes.width);
        const ids = new Set<string>();
        for (const { name, attributes } of elementsIn(root)) {
          expect(['style', 'script', 'foreignObject', 'a', 'image']).not.toContain(name);
          for (const [key, value] of Object.entries(attributes)) {
            expect(key).not.toMatch(/^(style|on|href)/);
            if (!/^(data-.*|id|aria-.*|fill|stroke)$/.test(key))
              expect(value, key).not.toMatch(/NaN|Infinity|undefined|\de[-+]?\d/);
          }
          if (attributes.id !== undefined) {
            expect(ids).not.toContain(attributes.id);
            expect(attributes.id).toMatch(/^x-/);
            ids.add(attributes.id);
          }
          for (const key of ['x', 'cx']) {
            if (attributes[key] === undefined || name === 'text') continue;
            expect(Number(attributes[key])).toBeGreaterThanOrEqual(0);
            expect(Number(attributes[key])).toBeLessThanOrEqual(width);
          }
        }
        for (const [, used] of svg.matchAll(/url\(#([^)]*)\)/g)) expect(ids).toContain(used);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('tells everything it draws to those who do not see it', () => {
    fc.assert(
      fc.property(randomPicture, (any) => {
        const root = readXml(printSvg(any, { width_px: 700, id: 'x' }));
        const [title, text] = [elementsIn(root, 'title')[0]!, elementsIn(root, 'desc')[0]!];
        expect(root.attributes).toMatchObject({ role: 'img', 'aria-labelledby': title.attributes.id });
        expect(root.attributes['aria-describedby']).toBe(text.attributes.id);
        const written = (raw: string) =>
          raw.replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\ufffd');
        expect(textIn(text)).toBe(written(any.text.map(plainText).join('\n')));
        expect(textIn(title)).toBe(written(any.title));
      }),
      { seed: 2, numRuns: 100 },
    );
  });

  it('puts larger values further to the right, and keeps lengths', () => {
    const time = fc.double({ min: 0, max: 1e-3, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(time, { minLength: 2, maxLength: 8 }),
        fc.integer({ min: 300, max: 2000 }),
        (times, width_px) => {
          const sorted = [...times].sort((a, b) => a - b);
          const root = readXml(printSvg(picture(sorted.map((at) => bar(0, at))), { width_px }));
          const widths = elementsIn(root, 'rect').map(({ attributes }) => Number(attributes.width));
          expect(widths).toEqual([...widths].sort((a, b) => a - b));
          const whole = width_px - 12;
          for (const [index, at] of sorted.entries())
            expect(Math.abs(widths[index]! - Math.max(1.5, (at / 1e-3) * whole))).toBeLessThan(0.06);
        },
      ),
      { seed: 3, numRuns: 100 },
    );
  });

  it('gives each number its address, and each bar what it is about', () => {
    const number = { address: 'a.b@c', value: 1e-4, unit: 's', text: '100 µs' };
    const svg = printSvg(
      picture([
        { ...bar(0, 5e-4), about: 'networks.n' } as Mark,
        { kind: 'measure', row: 0, from: 0, to: 1e-3, forms: [['whole ', number]] },
        { kind: 'label', row: 1, x: 0, align: 'start', forms: [['at ', number]], tone: 'quiet', about: 'axes.a' },
      ]),
      { width_px: 600 },
    );
    const root = readXml(svg);
    const numbers = elementsIn(root, 'tspan');
    expect(numbers.map((each) => [textIn(each), each.attributes['data-address']])).toEqual([
      ['100 µs', 'a.b@c'],
      ['100 µs', 'a.b@c'],
    ]);
    expect(elementsIn(root, 'rect')[0]!.attributes['data-about']).toBe('networks.n');
    expect(elementsIn(root, 'text').some((each) => each.attributes['data-about'] === 'axes.a')).toBe(true);
  });

  it('sets the number of a measure above its line, however low its row is', () => {
    const number = { address: 'a.b@c', value: 1e-4, unit: 's', text: '100 µs' };
    const { rows, ...more } = picture([{ kind: 'measure', row: 1, from: 0, to: 1e-3, forms: [['whole ', number]] }]);
    for (const height of [0.5, 1, 2]) {
      const root = readXml(printSvg({ ...more, rows: [rows[0]!, { height }] }, { width_px: 600 }));
      const text = elementsIn(root, 'text').find((each) => textIn(each).startsWith('whole'))!;
      const line = elementsIn(root, 'path').find((each) => /H[\d.]+$/.test(String(each.attributes.d)))!;
      const height_px = Number(/M[\d.]+ ([\d.]+)H[\d.]+$/.exec(String(line.attributes.d))![1]);
      // The letters reach a little below the line that they are written on.
      expect(Number(text.attributes.y) + 3, String(height)).toBeLessThan(height_px);
    }
  });

  it('names its colours for a page, and needs no page as a file of its own', () => {
    const drawn = picture([bar(0, 5e-4)]);
    const inPage = printSvg(drawn, { width_px: 600 });
    expect(inPage).toContain('fill="var(--blue, #174a86)"');
    expect(inPage).not.toContain('xmlns');
    const alone = printSvg(drawn, { width_px: 600, standalone: true });
    expect(alone).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"/);
    expect(alone).not.toContain('var(');
    const texts = elementsIn(readXml(alone), 'text').map(textIn);
    expect(texts).toContain('A picture');
    expect(texts).toContain('As it is.');
    expect(elementsIn(readXml(alone), 'rect')[0]!.attributes).toMatchObject({ fill: '#fcfdfb', width: '600' });
  });

  it('moves no text into another, whatever they say', () => {
    fc.assert(
      fc.property(randomPicture, fc.integer({ min: 300, max: 1500 }), (any, width_px) => {
        // Rows without labels and scales of their own: these have columns of their own, which labels can overfill.
        const rows = any.rows.map(({ height, above = 0, grid }) => ({ height, above, ...(grid && { grid }) }));
        expect(overlaps(textBoxes(printSvg({ ...any, rows }, { width_px })))).toEqual([]);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('shows an arrow however short it is', () => {
    const arrow: Mark = { kind: 'bar', row: 0, from: 9e-4, to: 9e-4, fill: 'solid', tone: 'fails', arrow: true };
    const path = elementsIn(readXml(printSvg(picture([arrow]), { width_px: 600 })), 'path').find(
      ({ attributes }) => attributes.fill === 'var(--fails-fill, #b3301a)',
    );
    expect(path?.attributes.d).toMatch(/Z$/);
  });
});
