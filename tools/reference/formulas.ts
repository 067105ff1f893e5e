// The reference page of the formulas, from what each formula says of itself.
import '../../packages/core/src/index.ts';
import '../../packages/core/src/kernels.ts';
import { parseExpression, printExpression } from '../../packages/core/src/working/expression.ts';
import { allFormulas, allMethods, type FormulaRecord } from '../../packages/core/src/working/formula.ts';
import { cite } from '../../packages/core/src/working/sources.ts';
import { page, table } from './markdown.ts';

export function formulasPage(): string {
  const formulas = [...allFormulas(), ...allMethods()].sort((a, b) => (a.id < b.id ? -1 : 1));
  return page(
    'Formulas',
    'Every number that is shown rests on these. The text of each formula is computed by a general-purpose algebra library in the tests, with units, and compared with the code; *proof* names the published case or the second method that is held against it.',
    ...formulas.map(section),
  );
}

const print = (text: string): string => printExpression(parseExpression(text), (symbol) => symbol);

function section(formula: FormulaRecord): string {
  const texts = formula.cases.map(
    ({ when, text }) => `    ${print(text)}${when === undefined ? '' : `   where ${print(when)}`}`,
  );
  const symbols = Object.entries(formula.symbols).map(([symbol, unit]) => [symbol, unit, formula.means[symbol] ?? '']);
  return [
    `## ${formula.id}`,
    `${formula.title}; gives ${formula.gives}`,
    formula.prose === undefined ? texts.join('\n') : `Method: ${formula.prose}.`,
    table(['symbol', 'unit', 'meaning'], symbols),
    `Source: ${cite(formula.source, formula.at)}. Proof: ${formula.proof}.`,
  ].join('\n\n');
}
