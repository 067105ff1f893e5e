// The picture of register control: its simulated run scatters as the budget says.
import { expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { markView } from './views.ts';

const settlingOf = (correct: string) => {
  const text = `layshaft: 1\nmarks: { a: { spacing: 1 m, tolerance: 1 mm, spread: { x: 0.1 mm }, correct: { dead_time: 3 repeats, splice: 3 mm, ${correct} } } }\n`;
  const mark = assess(resolve(read(text), [])).marks[0]!;
  const { picture } = markView(mark).pictures.find((each) => each.picture.name === 'settling')!;
  if (mark.known instanceof Missing) throw new Error('not known');
  return { picture, known: mark.known };
};

it('dots of a run that has settled scatter by the combined standard uncertainty, with what the correction adds', () => {
  const { picture, known } = settlingOf('share: 40 %');
  expect(known.u.value / known.before.value).toBeGreaterThan(1.7);
  const smooth = picture.marks.flatMap((mark) => (mark.kind === 'line' && mark.weight === 'edge' ? mark.points : []));
  const dots = picture.marks.flatMap((mark) => (mark.kind === 'dots' ? mark.points : []));
  expect(dots.length).toBeGreaterThan(60);
  const off = dots.map(([repeat, y]) => y - (smooth[repeat]! as { y: number }).y);
  const late = off.slice(20);
  const spread = Math.sqrt(late.reduce((sum, each) => sum + each ** 2, 0) / late.length);
  // Some hundred dots that swing together tell a deviation to a fifth.
  expect(Math.abs(spread / known.u.value - 1)).toBeLessThan(0.3);
});

it('what settles beyond the picture is not told as settled within it', () => {
  const told = (share: string): string => {
    const { picture } = settlingOf(`share: ${share}`);
    const measure = picture.marks.find((mark) => mark.kind === 'measure')!;
    return measure.kind === 'measure'
      ? measure.forms[0]!.map((each) => (typeof each === 'string' ? each : '#')).join('')
      : '';
  };
  expect(told('40 %')).toBe('settled after # repeats, # of web');
  expect(told('44.4 %')).toBe('not within it before # repeats, # of web, beyond this picture');
});
