// How an explanation is to look, and the design that it speaks of.
import type { OpenedDesign } from './open-design.ts';
import type { Look } from './terminal.ts';

export interface Style {
  readonly look: Look;
  readonly design: OpenedDesign;
  readonly lists: 'short' | 'whole';
}
