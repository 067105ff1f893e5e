// What a catalogue states of eyes, and of inputs that capture marks. A limit of what scatters counts as anywhere within it.
import { figure } from '../reading/figure.ts';
import { partKind } from '../reading/parts.ts';
import { count } from '../reading/values.ts';

const time = (about: string, example: string) => figure('s', { about, least: 0, example });

export const eyeKind = partKind(
  'eye',
  {
    delay: time('From the edge until its output is there, the same each time.', '50 µs'),
    jitter: time('What the delay scatters by at most, to either side.', '3 µs'),
    rise_fall_difference: figure('s', { about: 'How much later it goes off than on.', example: '4 µs' }),
    hysteresis: figure('m', {
      about: 'How much farther the edge is when it goes off than when it goes on.',
      example: '0.1 mm',
    }),
  },
  { about: 'An eye that sees edges and marks.' },
);

export const captureKind = partKind(
  'capture',
  {
    stamped: time('Step of the stamp that it gives the time of an edge; for an input that stamps.', '1 µs'),
    delay: time('Of the input stage, the same each time.', '20 µs'),
    filter: time('For how long its filter looks before it believes an edge.', '1 ms'),
    jitter: time('What the delay of the input stage scatters by at most, to either side.', '0.5 µs'),
    clock: time('What the clocks of stamp and position are apart by at most, to either side.', '0.3 µs'),
    rearm: time('Until it can take the next edge.', '2 ms'),
    at_once: count({ about: 'Captures that are armed at once.', least: 1, example: '2' }),
  },
  { about: 'An input that captures marks: one that a program polls, that stamps, or that latches a position.' },
);

export const markKinds = [eyeKind, captureKind] as const;
