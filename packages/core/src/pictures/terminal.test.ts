// The terminal printer: no line too long, nothing lost, and the same marks at the same places as on a screen.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Mark, Picture, Row } from './picture.ts';
import { randomPicture } from './random-picture.support.ts';
import { printLines } from './terminal.ts';

const shown = (text: string) => ({ address: `a@${text}`, value: 1, unit: 's', text });
const picture = (rows: readonly Row[], marks: readonly Mark[], to = 60): Picture => ({
  name: 'p',
  title: 'A picture',
  caption: '',
  scale: { from: 0, to, unit: 's' },
  rows,
  marks,
  legend: [
    { fill: 'solid', tone: 'traffic', means: 'command' },
    { fill: 'hatched', tone: 'traffic', means: 'repeat' },
  ],
  text: [],
});
const bar = (from: number, to: number, more: object = {}): Mark =>
  ({ kind: 'bar', row: 0, from, to, fill: 'solid', tone: 'traffic', ...more }) as Mark;

describe('printLines', () => {
  it('keeps within its columns whatever the picture holds', () => {
    fc.assert(
      fc.property(randomPicture, fc.integer({ min: 20, max: 140 }), (any, columns) => {
        const lines = printLines(any, columns);
        expect(printLines(any, columns)).toEqual(lines);
        for (const line of lines) expect([...line].length).toBeLessThanOrEqual(columns);
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it('draws bars, rails, notches and what they mean', () => {
    const lines = printLines(
      picture(
        [
          { height: 1, label: ['lane'] },
          { height: 1.7, ticks: true },
        ],
        [
          bar(0, 10),
          bar(20, 20.1),
          bar(30, 40, { fill: 'hatched' }),
          { kind: 'notch', row: 0, x: 50 },
          {
            kind: 'line',
            points: [
              { x: 60, row: 0, y: 1 },
              { x: 60, row: 0, y: 0 },
            ],
            weight: 'rail',
            tone: 'plain',
          },
        ],
      ),
      66,
    );
    expect(lines).toEqual([
      'lane ██████████          █         ▒▒▒▒▒▒▒▒▒▒          ▼         ┃',
      '     ┬─────────┬─────────┬─────────┬─────────┬─────────┬─────────┬',
      '     0        10        20        30        40        50      60 s',
      '█ command · ▒ repeat',
    ]);
  });

  it('writes a number between the ends of its measure, or else below', () => {
    const measure = (from: number, to: number, text: string): Mark => ({
      kind: 'measure',
      row: 0,
      from,
      to,
      forms: [['part ', shown(text)], [shown(text)]],
    });
    expect(
      printLines(
        picture([{ height: 1 }], [measure(0, 20, '20 s'), measure(20, 28, '8 s'), measure(28, 31, '3 s')]),
        61,
      ),
    ).toEqual(['├─────part 20 s────┤├──8 s─┤├──┤', '                          part 3 s']);
  });

  it('draws curves in rows with a scale of their own', () => {
    const row: Row = { height: 5, scale: { from: 0, to: 10, unit: 'm' } };
    const points = [0, 30, 60].map((x, index) => ({ x, row: 0, y: [0, 9.9, 0][index]! }));
    const lines = printLines(picture([row], [{ kind: 'line', points, weight: 'edge', tone: 'traffic' }]), 61);
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/^ {24}\*{12}$/);
    expect(lines[4]).toMatch(/^\*+ +\*+$/);
  });
});
