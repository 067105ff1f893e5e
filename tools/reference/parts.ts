// The reference page of the demonstration parts.
import { demonstration } from '@layshaft/catalogue';
import { figuresOf } from '../../packages/core/src/reading/figures-of.ts';
import type { Part } from '../../packages/core/src/reading/parts.ts';
import { Missing } from '../../packages/core/src/working/missing.ts';
import { isLeaf, Quantity } from '../../packages/core/src/working/quantity.ts';
import { print } from '../../packages/core/src/working/working.ts';
import { page, table } from './markdown.ts';

export function partsPage(): string {
  const parts = [...demonstration().parts.values()];
  const kinds = [...new Set(parts.map((part) => part.kind))];
  return page(
    'Demonstration parts',
    'All parts are invented, and no maker sells them. Checks use the stated limit, never the usual value. Without another source, a figure is demonstration data.',
    ...kinds.map(
      (kind) =>
        `## ${kind}\n\n${parts
          .filter((part) => part.kind === kind)
          .map(section)
          .join('\n\n')}`,
    ),
  );
}

function section(part: Part): string {
  const title = part.title instanceof Missing ? part.name : part.title;
  const cost = part.cost instanceof Quantity ? ` Cost ${print(part.cost)}.` : '';
  const condition = part.condition === undefined ? '' : ` Figures hold for: ${part.condition}.`;
  const rows = figuresOf(part).map((figure) => [
    figure.key,
    figure.typical ?? '',
    `${limitOf(part.values[figure.key])}${figure.text}`,
    figure.condition === part.condition ? '' : (figure.condition ?? ''),
    figure.source === part.source ? '' : (figure.source ?? ''),
  ]);
  return `### ${part.name}\n\n${title}.${cost}${condition}\n\n${table(['figure', 'usually', 'counts with', 'condition', 'source'], rows)}`;
}

/** 'at most ' or 'at least ', for a figure that is stated as a limit. */
const limitOf = (value: unknown): string =>
  value instanceof Quantity && isLeaf(value)
    ? (/\.at_(most|least)$/.exec(value.by.writtenAt)?.[0].slice(1).replace('_', ' ').concat(' ') ?? '')
    : '';
