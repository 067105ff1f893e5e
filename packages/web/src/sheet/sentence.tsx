// A sentence of words and numbers; every number opens its working.
import type { CellJson } from '../computing/protocol.ts';
import { Num } from './num.tsx';

export const Sentence = ({ cells }: { readonly cells: readonly CellJson[] }) => (
  <>
    {cells.map((cell, at) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: the parts of a sentence have no other identity than their order
      <Num key={at} cell={cell} />
    ))}
  </>
);

export const plain = (cells: readonly CellJson[]): string => cells.map(({ text }) => text).join('');
