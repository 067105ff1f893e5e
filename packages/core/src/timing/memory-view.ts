// What `show` tells of the memories of the controller.

import { moved } from '../checks/moved-input.ts';
import type { Cell, View } from '../checks/view.ts';
import type { Kept } from './memory.ts';

export function memoryView(kept: readonly Kept[], address: string): View {
  return {
    address,
    title: 'Memory',
    says: ['The program keeps ', ...told(kept), '.'],
    inputs: kept.flatMap(({ path, title, used }) =>
      moved(
        path,
        title.replace(/^./, (first) => first.toUpperCase()),
        used,
      ),
    ),
    pictures: [],
    tables: [
      {
        name: 'memory',
        title: 'What the program keeps, and what the controller holds',
        columns: ['memory', 'taken', 'there'],
        rows: kept.map(({ title, used, there }) => [title, used, there]),
      },
    ],
    later: [],
  };
}

/** The memories in a few words. */
export const told = (kept: readonly Kept[]): readonly Cell[] =>
  kept.flatMap(({ title, used }, at) => [
    ...(at === 0 ? [] : [at === kept.length - 1 ? ' and ' : ', ']),
    used,
    ` of ${title}`,
  ]);
