// The reference page of the checks, from what each check says of itself.
import { allChecks } from '../../packages/core/src/machine/checks/all.ts';
import { printQuantity } from '../../packages/core/src/units/print-quantity.ts';
import { cite } from '../../packages/core/src/working/sources.ts';
import { page } from './markdown.ts';

type Described = (typeof allChecks)[number];

export function checksPage(): string {
  return page(
    'Checks',
    'Every check asks one question of each of its subjects. A check with a margin compares a demand with a capacity: margin = (capacity − demand) / capacity. It **holds** when the wanted reserve is kept, is **thin** when the capacity is kept and the reserve is not, **fails** when the capacity is not kept, and is **unknown** when a value is missing; the answer names what is missing. A check by yes or no holds or fails.',
    ...allChecks.map(
      (check) =>
        `## ${check.id}\n\n*${check.title}: ${check.asks}*\n\n${check.page}\n\nWhat helps when it fails: ${check.advice}.\n\n${reserveOf(check)}`,
    ),
  );
}

function reserveOf(check: Described): string {
  const reserve = 'reserve' in check ? check.reserve : undefined;
  if (reserve === undefined) return 'Answers by yes or no.';
  if (reserve.share === 0) return `No reserve unless the file asks for one under \`reserves: { ${check.id}: … }\`.`;
  const share = printQuantity(reserve.share, '1', { as: '%' });
  return `Reserve unless the file says otherwise: ${share} (${cite(reserve.source)}: ${reserve.because}).`;
}
