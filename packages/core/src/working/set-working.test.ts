// The steps of real workings set as mathematics: the same symbols and values as in their printed lines.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { numbersOf } from '../assess/numbers.ts';
import { examples } from '../machine/edits.support.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { readXml, textIn } from '../pictures/xml-reader.support.ts';
import { isLeaf } from './quantity.ts';
import { setWorking } from './set-working.ts';
import { workingOf } from './working.ts';

const texts = new Map(examples);
const numbers = (text: string) => numbersOf(assess(resolve(read(text), [demonstration()])));

/** Letters, digits and signs as they follow one another, without what is a sign or a line only in one of the two. */
const bare = (text: string): string =>
  text
    .replace(/(\d)e(?=[-−]?\d)/g, '$1·10')
    .replace(/-/g, '−')
    .replace(/sum/g, '∑')
    .replace(/sqrt|cbrt|abs/g, '')
    .replace(/floor/g, '⌊')
    .replace(/ceil/g, '⌈')
    .replace(/[\s()/\u2061⌋⌉_∅^|]/g, '');

/** The 3 of a cubic root is a word in the printed line. */
const withoutIndex = (math: string): string => math.replaceAll('<mn>3</mn></mroot>', '</mroot>');

describe('a working set as mathematics', () => {
  it.each(examples)('has the symbols and the values of its printed lines, in every step of %s', (_, text) => {
    let steps = 0;
    for (const quantity of numbers(text).values()) {
      const working = workingOf(quantity);
      const set = setWorking(working);
      if (isLeaf(quantity) || working.step!.substituted === '') {
        expect(set, working.address).toBe(undefined);
        continue;
      }
      expect(bare(textIn(readXml(withoutIndex(set!.formula)))), working.address).toBe(bare(working.step!.text));
      expect(bare(textIn(readXml(withoutIndex(set!.substituted)))), working.address).toBe(
        bare(working.step!.substituted),
      );
      steps++;
    }
    expect(steps).toBeGreaterThan(50);
  });

  it('sets a finding as it is printed', () => {
    const { formula, substituted } = setWorking(
      workingOf(numbers(texts.get('labeller')!).get('networks.cycle@drives')!),
    )!;
    const rows = (text: string) => text.replace(/^<math [^>]*>|<\/math>$|<\/?mrow>/g, '');
    expect(rows(formula)).toBe('<mfrac><mi>C</mi><mo>−</mo><mi>D</mi><mi>C</mi></mfrac>');
    expect(rows(substituted)).toBe(
      '<mfrac><mn>500</mn><mtext>\u00a0µs</mtext><mo>−</mo><mn>205.6</mn><mtext>\u00a0µs</mtext><mn>500</mn><mtext>\u00a0µs</mtext></mfrac>',
    );
  });
});
