// The address that is looked at; parts that show it say so.
import { useSyncExternalStore } from 'react';
import { useSheet } from './context.ts';

export function useAddress(): string | undefined {
  const sheet = useSheet();
  return useSyncExternalStore(sheet.subscribe, () => sheet.state().address);
}
