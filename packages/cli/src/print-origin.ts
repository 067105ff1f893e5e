// Where a number comes from, told of a design that was opened with the demonstration parts at hand.
import { demonstrationName } from '@layshaft/catalogue';
import { type Origin, tellOrigin } from '@layshaft/core';
import type { OpenedDesign } from './open-design.ts';

export const printOrigin = (origin: Origin, design: OpenedDesign): string =>
  tellOrigin(origin, { ...design, builtIn: demonstrationName });
