// Whether motions join: those that the file makes do, a cam that does not meet itself at its ends is told.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../../tests/support/examples.ts';

const says = (motion: string): { verdict: string; says: string } => {
  const text = `layshaft: 1
masters: { line: { speed: 90 rpm } }
axes: { tool: { motion: { follow: line, ${motion} }, train: [] } }
`;
  const found = assessText(text, 'm.yaml').findings.find(({ address }) => address === 'axes.joins@tool');
  if (found === undefined) throw new Error('it is not asked');
  return found;
};
const cam = (points: string, ends: string): string => `cam: { points: [${points}], ends: ${ends} }`;
const hump = '[0°, 0°], [90°, 20°], [200°, 25°], [360°, 0°]';

describe('joins of a motion', () => {
  it('go on in everything where a law is smooth', () => {
    expect(says('kicks: { turn: 35°, in: 40 ms, hold: 60 ms, law: cycloidal }')).toMatchObject({
      verdict: 'holds',
      says: 'position, speed and acceleration go on everywhere',
    });
    expect(says(cam(hump, 'periodic')).says).toBe('position, speed and acceleration go on everywhere');
  });

  it('tell the knocks of a law that has some', () => {
    const { verdict, says: sentence } = says('steps: [{ turn: 60°, in: 0.2 s, ramp: 0.1 s }, { dwell: rest }]');
    expect(verdict).toBe('holds');
    // 4·60°/(0.2 s)² from 0, to as much below 0, and back: jumps of one, two and one times 104.7 rad/s².
    expect(sentence).toContain('the acceleration jumps at 3 places, by up to 209.4 rad/s²');
  });

  it('fail where a cam does not meet itself at its ends', () => {
    const { verdict, says: sentence } = says(cam(hump, 'natural'));
    expect(verdict).toBe('fails');
    expect(sentence).toMatch(/^666\.7 ms after the start of the cycle its speed jumps by/);
    expect(says(cam(hump, 'rest')).verdict).toBe('holds');
  });

  it('tell how far a cam is from where it began, each time', () => {
    const creeps = '[0°, 0°], [90°, 20°], [200°, 25°], [360°, 3°]';
    for (const ends of ['rest', 'periodic']) {
      expect(says(cam(creeps, ends)).says).toMatch(/; each time the cam ends 3° from where it began, and goes on/);
      expect(says(cam(hump, ends)).says).not.toContain('each time');
    }
    // Where the table begins counts for nothing.
    expect(says(cam('[0°, 10°], [90°, 30°], [200°, 35°], [360°, 10°]', 'rest')).says).not.toContain('each time');
  });

  it('fail where a cam is longer than its turn, and hold where it comes twice', () => {
    const long = '[0°, 0°], [90°, 20°], [200°, 25°], [400°, 0°]';
    expect(says(cam(long, 'periodic'))).toMatchObject({
      verdict: 'fails',
      says: 'the cam takes 740.7 ms, its products 666.7 ms',
    });
    expect(says(`every: 10, ${cam(long, 'periodic')}`).verdict).toBe('holds');
    expect(says(cam('[0°, 0°], [60°, 20°], [100°, 25°], [180°, 0°]', 'periodic')).verdict).toBe('holds');
  });

  it('are not asked of constant speed', () => {
    expect(() => says('gear: [1, 1]')).toThrow('it is not asked');
  });
});
