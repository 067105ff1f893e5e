// What contributions and shapes are called where people read them.
import type { Part } from './part.ts';

export const titleOf = ({ name }: Pick<Part, 'name'>): string => name.replaceAll('_', ' ');

/** With what a half width means for each shape. */
export const shapeWords: Readonly<Record<Part['shape'], string>> = {
  normal: 'normal',
  rectangular: 'rectangular, anywhere within limits',
  triangular: 'triangular, near the middle of its limits',
  arcsine: 'arcsine, swings as a sine',
  sample: 'measured sample',
  askew: 'cosine of an angle',
  product: 'product of two contributions',
  square: 'square of a contribution',
};
