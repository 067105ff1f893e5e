// Numbers that are counted in the file.
import { leaf, type Quantity } from './quantity.ts';

/** How many entries a section has; `of` tells one count of a section from another. */
export function counted(section: string, count: number, of = 'count'): Quantity<'1'> {
  return leaf(count, '1', {
    kind: 'given',
    path: `${section}.${of}`,
    via: [`counted in ${section}`],
    writtenAt: section,
    written: String(count),
    writtenUnit: '1',
  });
}
