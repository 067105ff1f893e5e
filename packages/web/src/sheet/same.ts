// Parts of the page whose data are plain are drawn anew only when their data differ, however often they are made anew.
import { type ComponentType, memo } from 'react';

/** The component, drawn anew only when what it is given says something else. */
export const drawnWhenDifferent = <P extends object>(component: ComponentType<P>): ComponentType<P> =>
  memo(component, saysTheSame) as unknown as ComponentType<P>;

export const saysTheSame = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [old, now] = [Object.entries(a), b as Readonly<Record<string, unknown>>];
  return old.length === Object.keys(now).length && old.every(([key, value]) => saysTheSame(value, now[key]));
};
