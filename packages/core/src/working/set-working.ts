// The formula of one step of a working set as mathematics, with its symbols and with their values.
import { parseExpression } from './expression.ts';
import { printMathml } from './mathml.ts';
import type { Working } from './working.ts';

export interface SetWorking {
  /** MathML: the formula with its symbols. */
  readonly formula: string;
  /** MathML: the same with what stands for them in the line of values. */
  readonly substituted: string;
}

/** Nothing for a leaf, and for a method, whose text is a sentence. */
export function setWorking({ step }: Pick<Working, 'step'>): SetWorking | undefined {
  if (step === undefined || step.substituted === '') return undefined;
  const tree = parseExpression(asNotation(step.text));
  const standing = step.standing.values();
  return {
    formula: printMathml(tree, (symbol) => symbol),
    substituted: printMathml(tree, (symbol) => standing.next().value ?? symbol),
  };
}

/** A printed formula in the notation that is read: the signs for people are the signs of the notation again. */
const asNotation = (text: string): string => [...text].map((sign) => notation[sign] ?? sign).join('');

const notation: Readonly<Record<string, string>> = {
  '·': '*',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '=': '==',
  π: 'pi',
};
