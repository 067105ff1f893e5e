// Findings as bars: one rail for all, the verdict by shape and word.
import { describe, expect, it } from 'vitest';
import { q } from '../working/testing.support.ts';
import { marginsPicture, type Weighty } from './margin-bars.ts';
import { plainText } from './picture.ts';
import { printLines } from './terminal.ts';

const finding = (subject: string, verdict: Weighty['verdict'], demand?: number, reserve?: number): Weighty => ({
  title: 'Cycle',
  subject,
  address: `networks.cycle@${subject}`,
  verdict,
  says: `as it says of ${subject}`,
  demand: demand === undefined ? undefined : q(demand, 's'),
  capacity: demand === undefined ? undefined : q(1, 's'),
  margin: demand === undefined ? undefined : q(Math.round((1 - demand) * 100) / 100, '1', `margin of ${subject}`),
  reserve: reserve === undefined ? undefined : q(reserve, '1'),
  lacks: verdict === 'unknown' ? [{ path: 'networks.n.cycle' }] : [],
});

const { picture, numbers } = marginsPicture([
  finding('a', 'fails', 1.1, 0.25),
  finding('b', 'unknown'),
  finding('c', 'thin', 0.9, 0.25),
  finding('d', 'holds', 0.5, 0.25),
  finding('e', 'holds'),
]);

describe('marginsPicture', () => {
  it('shows every verdict by its own shape', () => {
    const lines = printLines(picture, 60);
    expect(lines.slice(0, 5)).toEqual([
      'Cycle, a ─────────────────────────▼▒▒▒▒▒▒▒▒┃██►   fails -0.1',
      'Cycle, b networks.n.cycle?╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌┃         unknown',
      'Cycle, c ─────────────────────────▼▒▒▒▒▒███┃        thin 0.1',
      'Cycle, d ─────────────────░░░░░░░░▼░░░░░░░░┃       holds 0.5',
      'Cycle, e                                   ┃           holds',
    ]);
  });

  it('says all of it, and knows its numbers', () => {
    expect(picture.text.map(plainText)).toEqual([
      expect.stringMatching(/^Cycle, a: fails, margin -0\.1; as it says of a\.$/),
      'Cycle, b: unknown; as it says of b.',
      expect.stringMatching(/^Cycle, c: thin, margin 0\.1; as it says of c\.$/),
      'Cycle, d: holds, margin 0.5; as it says of d.',
      'Cycle, e: holds; as it says of e.',
    ]);
    expect(numbers).toHaveLength(3);
  });

  it('draws nothing of nothing', () => {
    expect(marginsPicture([]).picture).toMatchObject({ rows: [], marks: [], text: [] });
  });
});
