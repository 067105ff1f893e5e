// The reference page of the formulas, from what each formula says of itself.
import '../../packages/core/src/index.ts';
import '../../packages/core/src/kernels.ts';
import { parseExpression, printExpression } from '../../packages/core/src/working/expression.ts';
import { allFormulas, allMethods, type FormulaRecord } from '../../packages/core/src/working/formula.ts';
import { cite } from '../../packages/core/src/working/sources.ts';
import { repositoryFiles } from '../../tests/support/files.ts';
import { titlesOf } from '../../tests/support/titles.ts';
import { page, table } from './markdown.ts';

export function formulasPage(): string {
  const formulas = [...allFormulas(), ...allMethods()].sort((a, b) => (a.id < b.id ? -1 : 1));
  return page(
    'Formulas',
    'Every number that is shown rests on these. The text of each formula is computed by a general-purpose algebra library in the tests, with units, and compared with the code. *Proof* names what else is held against it: C10, E1, F5 and the like are [published cases](#published-cases), listed at the end; words are the title of a test that finds the same by a second method.',
    ...formulas.map(section),
    publishedCases(formulas),
  );
}

/** The cases that a proof names by a sign, as the titles of their tests tell them. */
function publishedCases(formulas: readonly FormulaRecord[]): string {
  const signs = [...new Set(formulas.map(({ proof }) => proof).filter((proof) => /^[A-Z]\d+$/.test(proof)))];
  const titles = titlesOf(repositoryFiles().filter(({ path }) => path.endsWith('.published.test.ts')));
  const rows = titles.flatMap((title): [string, string][] => {
    const [, sign = '', derived, how, what = ''] =
      /^([A-Z]\d+)(?:, (derived)[^:]*| \((read|inputs read|derived)\))?: (.*)$/.exec(title) ?? [];
    const computed = derived !== undefined || (how !== undefined && how !== 'read');
    const text = what.replaceAll(/%[a-z]/g, '…').replace(/\((type \d+)[^)]*\)$/, '($1 of IEC 61158)');
    return signs.includes(sign) ? [[sign, `${text}${computed ? '; computed from what is published' : ''}`]] : [];
  });
  const order = ([sign, text]: [string, string]): string => `${sign[0]}${sign.slice(1).padStart(4, '0')} ${text}`;
  rows.sort((a, b) => (order(a) < order(b) ? -1 : 1));
  const missing = signs.filter((sign) => !rows.some(([each]) => each === sign));
  if (missing.length > 0) throw new Error(`no published test is called ${missing.join(', ')}`);
  return `## Published cases\n\n${table(['case', 'what the code must give'], rows)}`;
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
