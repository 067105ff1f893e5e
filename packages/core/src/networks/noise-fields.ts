// What a file says of the noise on a network, and of the error counters that were read on it.
import type { Read } from '../reading/field.ts';
import { group, list, optional, row, section } from '../reading/groups.ts';
import { count, name, quantity, share, word } from '../reading/values.ts';
import { missedRules, patterns } from './noise-patterns.ts';

const end = (which: string) =>
  name({ about: `The station at one end of the run, ${which}.`, due: 'a station', example: 'hub' });
const ends = { from: end('either of the two'), to: end('the other one') };
const onlyOn = list(row(ends, { about: 'A run, by its two ends.', example: '[hub, rack_o]' }), {
  about: 'The runs that it couples into; all of them where nothing is said.',
});

const burstField = section(
  {
    pattern: word(patterns, {
      about:
        'What makes the pulses; it gives the times that are not said. fast_transient: the test generator of IEC 61000-4-4, for switched coils. contactor: bouncing contacts. welder: a spot welder on the mains. drive_switching: the edges of a power stage, without an end. dropout: one gap of some milliseconds. recorded: times that somebody wrote down.',
    }),
    pulse: quantity('s', { about: 'How long one pulse lasts.', above: 0, example: '50 ns' }),
    pulse_every: quantity('s', {
      about: 'From the begin of one pulse to that of the next.',
      above: 0,
      example: '200 µs',
    }),
    pulses: count({
      about: 'How many pulses a burst has; where it is not said how long it lasts.',
      least: 1,
      example: '75',
    }),
    burst: quantity('s', { about: 'How long a burst of pulses lasts.', above: 0, example: '15 ms' }),
    period: quantity('s', {
      about: 'From the begin of one burst to that of the next; of a recording, how long it is.',
      above: 0,
      example: '300 ms',
    }),
    at: list(
      quantity('s', {
        about: 'When a pulse began, counted from the start of the recording.',
        least: 0,
        example: '2 s',
      }),
      { about: 'Of a recording: when each pulse began.' },
    ),
    hits: onlyOn,
  },
  { about: 'A source of pulses. A frame with a pulse on it is lost; the gap between frames takes no harm.' },
);

const twoStateField = section(
  {
    to_bad: share({ about: 'Chance that a good line is bad one step later.', example: '0.001 %' }),
    to_good: share({ about: 'Chance that a bad line is good one step later.', example: '5 %' }),
    step: quantity('s', {
      about: 'The time that one step takes; a cycle of the network where nothing is said.',
      above: 0,
      example: '1 ms',
    }),
    lost_in_good: share({ about: 'Share of the updates that a good line loses.', example: '0 %' }),
    lost_in_bad: share({ about: 'Share of the updates that a bad line loses.', example: '50 %' }),
    hits: onlyOn,
  },
  { about: 'A line that is good or bad for a while, so that losses come in bunches.' },
);

/** When a station gives up, and what it does until then; on the network for all stations, on a station for itself. */
export const lossRules = {
  trip_after: count({
    about: 'The so manieth lost update in a row trips the station; one fewer is bridged.',
    least: 1,
    most: 32,
    example: '3',
  }),
  missed: word(missedRules, {
    about:
      'What the station does while an update is missing: hold the set position that it has, or extrapolate, which goes on at the speed that it had.',
  }),
};

const bitErrors = {
  about: 'The share of bits that chance spoils on a run.',
  least: 0,
  most: 1,
  example: '1e-10',
} as const;

export const noiseField = optional(
  section(
    {
      bit_errors: quantity('1', bitErrors),
      counts: quantity('bit', {
        about:
          'What the share counts, in bits of the frame: 1 bit, or 0.8 bit where it counts the code bits of a line that sends 5 for 4.',
        above: 0,
        example: '1 bit',
      }),
      runs: list(
        row(
          { ...ends, bit_errors: quantity('1', bitErrors) },
          { about: 'A run, by its two ends, and its own share of spoilt bits.', example: '[hub, rack_o, 1e-8]' },
        ),
        { about: 'Runs that are worse or better than the others.' },
      ),
      two_state: optional(twoStateField),
      bursts: group(burstField, { about: 'What sends pulses into the cables, by name.' }),
      ...lossRules,
      trip_free: optional(
        quantity('s', {
          about: 'How long a station is to run between two trips by random losses, in the mean.',
          above: 0,
          example: '8760 h',
        }),
      ),
    },
    { about: 'Noise on the network. Without this section nothing is asked about losses.' },
  ),
);

export const countersField = optional(
  section(
    {
      over: optional(quantity('s', { about: 'How long the frames were counted.', above: 0, example: '8 h' })),
      confidence: optional(share({ about: 'How sure the answer shall be.', above: 0, example: '95 %' })),
      ports: list(
        row(
          {
            from: end('where the frames come from'),
            to: end('where the port is that counts them'),
            frames: count({ about: 'Frames that came in at the port.', least: 1, example: '57600000' }),
            errors: count({ about: 'Those of them that were spoilt.', least: 0, example: '41' }),
          },
          { about: 'A port, by its run: from, to, frames, errors.', example: '[hub, rack_o, 57600000, 41]' },
        ),
        { about: 'The counters of the ports. The port is at the end that is named second.' },
      ),
      intervals: list(
        row(
          {
            ...ends,
            errors: list(count({ about: 'Spoilt frames in one interval.', least: 0, example: '4' }), {
              about: 'Spoilt frames in each of several intervals of one length.',
            }),
          },
          { about: 'A port, by its run: from, to, errors in each interval.', example: '[hub, rack_o, [0, 0, 39, 2]]' },
        ),
        { about: 'The same counters read again and again, which tells bursts from chance.' },
      ),
    },
    { about: 'Error counters that were read at the ports.' },
  ),
);

export type NoiseSection = Exclude<Read<typeof noiseField>, undefined>;
export type BurstSection = NoiseSection['bursts'][number];
export type TwoStateSection = Exclude<NoiseSection['two_state'], undefined>;
export type CountersSection = Exclude<Read<typeof countersField>, undefined>;
