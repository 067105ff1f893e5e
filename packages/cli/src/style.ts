// How an explanation is to look, and the design that it speaks of.
import type { Design } from '@layshaft/core';
import type { Look } from './terminal.ts';

export interface Style {
  readonly look: Look;
  readonly design: Design;
  readonly lists: 'short' | 'whole';
}
