// The pictures of noise: data, words, scale and room.
import { describe, expect, it } from 'vitest';
import { sound, textOf } from '../assess/noise.support.ts';
import { show } from '../assess/show.ts';
import { overlaps, textBoxes } from '../pictures/drawn-texts.support.ts';
import { plainText } from '../pictures/picture.ts';
import { printSvg } from '../pictures/svg.ts';
import { shown } from '../working/working.ts';

describe('the pictures of noise', () => {
  const assessment = sound(
    textOf({
      stations: 3,
      repeats: 2,
      noise: ['trip_after: 3', 'bursts: { a: { pattern: contactor, burst: 1.5 ms } }'],
    }).replace('networks:', 'controller: controller_m\nnetworks:'),
  );
  const pictures = show(assessment, 'networks.n.noise').flatMap((view) => view.pictures);

  it('are how rare a loss gets with repeats, and which burst is bridged at which cycle', () =>
    expect(pictures.map(({ picture }) => picture.name)).toEqual(['repeats', 'bridged']));
  it('are plain data, and say in words what they draw', () => {
    for (const { picture, numbers } of pictures) {
      expect(JSON.parse(JSON.stringify(picture))).toEqual(picture);
      const text = picture.text.map(plainText).join('\n');
      for (const number of numbers) expect(text).toContain(shown(number).text);
    }
  });
  it('draw the cycles whose burst is too short as failing, to scale', () => {
    const { marks } = pictures[1]!.picture;
    const bars = marks.flatMap((mark) => (mark.kind === 'bar' ? [mark] : []));
    expect(bars.length).toBeGreaterThan(3);
    for (const { to, tone } of bars) expect(tone).toBe(to <= 1.5e-3 ? 'fails' : 'holds');
    const rail = marks.find((mark) => mark.kind === 'line');
    expect(rail?.kind === 'line' && rail.points[0]?.x).toBe(1.5e-3);
  });
  it('have no text that runs into another, at any width', () => {
    for (const { picture } of pictures)
      for (const width_px of [320, 640, 900, 1440])
        expect(overlaps(textBoxes(printSvg(picture, { width_px }))), `${picture.name}, ${width_px} px`).toEqual([]);
  });
});
