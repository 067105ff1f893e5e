// A value that one would move to see what follows.

import { Quantity } from '../working/quantity.ts';
import type { Input } from './view.ts';

/** A value with a span from nothing to three times what it is; one that is missing has no span. */
export const moved = (
  path: string,
  title: string,
  value: Input['value'] | undefined,
  step?: number,
): readonly Input[] =>
  value === undefined
    ? []
    : [
        {
          path,
          title,
          value,
          ...(value instanceof Quantity && value.value > 0
            ? {
                span: {
                  least: step ?? value.value / 20,
                  most: 3 * value.value,
                  ...(step === undefined ? {} : { step }),
                },
              }
            : {}),
        },
      ];
