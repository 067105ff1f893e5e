// The reference page of the sources that formulas, limits and defaults name.
import '../../packages/core/src/index.ts';
import '../../packages/core/src/kernels.ts';
import { allChecks } from '../../packages/core/src/machine/checks/all.ts';
import { allFormulas } from '../../packages/core/src/working/formula.ts';
import { type SourceId, sources } from '../../packages/core/src/working/sources.ts';
import { page, table } from './markdown.ts';

export function sourcesPage(): string {
  const rows = Object.entries(sources).map(([id, { kind, cite }]) => [id, kind, cite, usesIn(id as SourceId)]);
  return page(
    'Sources',
    'Where formulas, limits and defaults come from. What is *common practice* or *our judgement* has no other source, and says so wherever it is shown; a figure of a part names its source beside it.',
    table(['source', 'kind', 'as it is cited', 'what rests on it'], rows),
  );
}

/** More than anybody looks through are counted; on their own page each names its source. */
const listedAtMost = 60;
const usesIn = (id: SourceId): string => {
  const uses = usesOf(id);
  return uses.length > listedAtMost ? `${uses.length} [formulas](formulas.md) that name it` : uses.join(', ');
};

/** The formulas, and the checks by the reserve that they keep unless the file says otherwise. */
const usesOf = (id: SourceId): readonly string[] => [
  ...allFormulas()
    .filter(({ source }) => source === id)
    .map((formula) => `[${formula.id}](formulas.md#${formula.id.replaceAll('.', '')})`)
    .sort(),
  ...allChecks
    .filter((check) => 'reserve' in check && (check.reserve?.share ?? 0) > 0 && check.reserve?.source === id)
    .map((check) => `reserve of [${check.id}](checks.md#${check.id.replaceAll('.', '')})`),
];
