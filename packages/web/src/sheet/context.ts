// The sheet that all parts of the page act on.
import { createContext, useContext } from 'react';
import type { Sheet } from '../document/sheet.ts';

export const SheetContext = createContext<Sheet | undefined>(undefined);

/** Throws when a part stands outside the page: a slip of the author. */
export function useSheet(): Sheet {
  const sheet = useContext(SheetContext);
  if (sheet === undefined) throw new Error('this part of the page stands outside the sheet');
  return sheet;
}
