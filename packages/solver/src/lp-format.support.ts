// Writes a model in the LP format that command-line solvers read: test support, with names of its own (x0, c0).
import type { LinearModel, Term } from '@layshaft/core/linear-model';

/** A constraint with two sides becomes two rows. Both solvers that read it take variables as at least 0 where nothing is said. */
export function lpFormat({ variables, constraints }: LinearModel): string {
  const rows = constraints.flatMap(({ terms, least, most }, place) => {
    const sum = sumOf(terms);
    if (least === most) return [` c${place}: ${sum} = ${least}`];
    return [
      ...(least > -Infinity ? [` c${place}l: ${sum} >= ${least}`] : []),
      ...(most < Infinity ? [` c${place}m: ${sum} <= ${most}`] : []),
    ];
  });
  const bounds = variables.map(({ least, most }, place) => ` ${bound(least)} <= x${place} <= ${bound(most)}`);
  const whole = variables.flatMap(({ whole }, place) => (whole ? [` x${place}`] : []));
  const costs = sumOf(variables.map(({ cost }, variable) => ({ variable, factor: cost })));
  return [
    ...['Minimize', ` cost: ${costs}`, 'Subject To', ...rows, 'Bounds', ...bounds],
    ...(whole.length > 0 ? ['Generals', ...whole] : []),
    ...['End', ''],
  ].join('\n');
}

/** One term a line, since readers limit the length of lines. */
function sumOf(terms: readonly Term[]): string {
  const factors = new Map<number, number>();
  for (const { variable, factor } of terms) factors.set(variable, (factors.get(variable) ?? 0) + factor);
  // A sum without terms is not known to the format.
  if (factors.size === 0) factors.set(0, 0);
  return [...factors]
    .map(([variable, factor]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} x${variable}`)
    .join('\n   ');
}

const bound = (value: number): string => (Math.abs(value) < Infinity ? String(value) : value < 0 ? '-inf' : '+inf');
