// The least shift from the start of a cycle to the common sync event: jitter of the start, frames on the wire, the way.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { shiftWithJitter } from './calc/streams.ts';
import type { Planned } from './planned.ts';

export const shiftNeeded = onceForEach(
  ({ network: { name, path, startJitter }, syncShift }: Planned): Value<Quantity<'s'>> => {
    const j =
      startJitter ??
      assumed(`${path}.start_jitter`, 0, 's', {
        source: 'judgement',
        because: 'not said, so that each cycle starts in time',
      });
    return given({ s: syncShift, j }, (known) => shiftWithJitter(known, name));
  },
);
