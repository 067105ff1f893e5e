// How far long work is, in the terminal.
import type { Io } from './io.ts';

/** A line of the terminal that is written over; nothing where nobody watches. */
export function progressLine({ stderr, env }: Pick<Io, 'stderr' | 'env'>): { show(text: string): void; clear(): void } {
  const isWatched = stderr.isTTY === true && env.TERM !== 'dumb';
  let shown = '';
  return {
    show: (text) => {
      const isNew = isWatched && text !== shown;
      shown = text;
      if (isNew) stderr.write(`\r\x1b[K${text}`);
    },
    clear: () => {
      if (isWatched && shown !== '') stderr.write('\r\x1b[K');
      shown = '';
    },
  };
}
