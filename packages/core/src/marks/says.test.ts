// The sentence of a mark says whether it keeps to its tolerance; the gist of all of them leaves none out.
import { expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { chapters } from '../assess/chapters.ts';
import { show } from '../assess/show.ts';
import { cellJson } from '../checks/view.ts';

const says = (tolerance: string): string =>
  show(
    assessText(
      `layshaft: 1\nmarks: { seam: { speed: 2 m/s, tolerance: ±${tolerance}, eye: { jitter: 5 µs }, capture: { polled: 1 ms } } }\n`,
      'm.yaml',
    ),
    'marks.seam',
  )[0]!
    .says.map((cell) => cellJson(cell).text)
    .join('');

it.each([
  ['5 mm', /^The mark keeps to ±5 mm with a Cpk of \d/],
  ['0.5 mm', /^The mark does not keep to ±0\.5 mm: its Cpk is -?\d/],
])('of a mark with ±%s', (tolerance, sentence) => {
  expect(says(tolerance)).toMatch(sentence);
});

it.each([
  ['a', /^Cpk \d[\d.]*$/],
  ['a b', /^Cpk \d[\d.]* at the least$/],
  ['a askew', /^1 of 2 told by trials alone; Cpk \d[\d.]*$/],
  ['askew', /^how exact they are is told by their trials$/],
  ['a b askew open', /^1 of 4 not known yet; 1 of 4 told by trials alone; Cpk \d[\d.]* at the least$/],
])('of the marks %s', (names, gist) => {
  const spreads: Readonly<Record<string, string>> = {
    a: 'spread: { x: 1 µm }',
    b: 'spread: { x: 2 µm }',
    askew: 'skew: { over: 2 m, angle: 0°, spread: 0.3° }, spread: { x: 1 µm }',
    open: 'spread: { x: unknown }',
  };
  const marks = names.split(' ').map((name) => `${name}: { tolerance: ±1 mm, ${spreads[name]} }`);
  const [chapter] = chapters(assessText(`layshaft: 1\nmarks: { ${marks.join(', ')} }\n`, 'm.yaml'));
  expect(chapter!.gist.map((cell) => cellJson(cell).text).join('')).toMatch(gist);
});
