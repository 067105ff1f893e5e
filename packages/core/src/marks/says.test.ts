// The sentence of a mark says whether it keeps to its tolerance.
import { expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
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
