// The section `marks` of a machine file: print marks and product edges that something is registered to, and lengths between
// two edges.
import { choice } from '../reading/choice.ts';
import type { Read } from '../reading/field.ts';
import { group, list, optional, row, section } from '../reading/groups.ts';
import { mustBeOneOf } from '../reading/must-be-one-of.ts';
import { partUse } from '../reading/parts.ts';
import type { Reading } from '../reading/reading.ts';
import { count, name, printRepeats, quantity, share, tolerance, type Value, word } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { eyeKind } from './parts.ts';
import { spreadField } from './spread-field.ts';

const time = (about: string, example: string) => optional(quantity('s', { about, least: 0, example }));
const way = (about: string, example: string) => optional(quantity('m', { about, above: 0, example }));
const jitter = (about: string, example: string) => optional(spreadField(['s'], { about, example }));

const eyeField = partUse(
  [eyeKind],
  {
    delay: time('From the edge until its output is there, the same each time.', '50 µs'),
    jitter: jitter('What the delay scatters by.', '3 µs'),
    rise_fall_difference: optional(
      quantity('s', { about: 'How much later it goes off than on; it moves a length, not a mark.', example: '4 µs' }),
    ),
    hysteresis: optional(
      quantity('m', {
        about: 'How much farther the edge is when it goes off than when it goes on.',
        example: '0.1 mm',
      }),
    ),
  },
  { about: 'The eye; a part states limits, and its jitter counts as anywhere within it.', example: 'eye_fast' },
);

const captureField = choice(
  {
    part: optional(name({ about: 'The input, a part.', due: 'a part of kind capture', example: 'input_stamping' })),
    filter: time('For how long the filter of the input looks before it believes an edge: a delay.', '1 ms'),
    delay: time('Of the input stage, the same each time.', '20 µs'),
    jitter: jitter('What the delay of the input stage scatters by.', '0.5 µs'),
    clock: jitter('What the clocks of stamp and position are apart by.', '0.3 µs'),
    sample: time('Between two samples of the position that a stamp is drawn from.', '1 ms'),
    acceleration: optional(
      quantity('m/s²', {
        about: 'The largest acceleration of the web while marks count; that of the ramps of the line unless said.',
        least: 0,
        example: '0.5 m/s²',
      }),
    ),
    rearm: time('Until it can take the next edge.', '2 ms'),
    at_once: optional(
      count({ about: 'Captures that are armed at once on the axis; 1 unless said.', least: 1, example: '2' }),
    ),
  },
  {
    polled: quantity('s', { about: 'An input that a program looks at, with its period.', above: 0, example: '1 ms' }),
    stamped: quantity('s', {
      about: 'An input that tells the time of the edge, with its step.',
      least: 0,
      example: '1 µs',
    }),
    latched: quantity('m', {
      about: 'The edge latches the position itself, with the way for one count.',
      least: 0,
      example: '5 µm',
    }),
  },
  {
    about: 'How the edge becomes a position.',
    due: 'a capture',
    example: '{ latched: 5 µm }',
    elsewhere: 'part',
  },
);

const rollField = section(
  {
    count: way('Way for one count of the encoder on it.', '20 µm'),
    diameter: way('Its diameter.', '100 mm'),
    diameter_tolerance: way('How far the diameter may be off to either side.', '20 µm'),
    eccentricity: way('How far its centre is from its axle.', '15 µm'),
    scale: optional(
      share({
        about: 'How far its way for one count may be off to either side, where it was found by measuring.',
        example: '0.02 %',
      }),
    ),
    slip: optional(
      share({ about: 'The most that the product slips on it, as a share of the way.', example: '0.05 %' }),
    ),
    expansion: optional(
      quantity('1', { about: 'How much the roll grows in one kelvin, as a share.', least: 0, example: '12 ppm' }),
    ),
    temperature: optional(
      quantity('K', {
        about: 'How far it may be from the temperature it was measured at, to either side.',
        least: 0,
        example: '10 K',
      }),
    ),
  },
  { about: 'The measuring roll that a length is counted on.' },
);

const webField = section(
  {
    between: quantity('m', { about: 'Free web between the eye and the tool.', above: 0, example: '2.4 m' }),
    tension: spreadField(['N'], { about: 'What the tension varies by.', example: '8 N' }),
    width: quantity('m', { about: 'Width of the web.', above: 0, example: '400 mm' }),
    thickness: quantity('m', { about: 'Thickness of the web.', above: 0, example: '90 µm' }),
    modulus: quantity('Pa', { about: "Young's modulus of the web.", above: 0, example: '2000 N/mm²' }),
  },
  { about: 'The web between the eye and the tool, which stretches.' },
);

const skewField = section(
  {
    over: quantity('m', { about: 'The length that runs askew.', above: 0, example: '2 m' }),
    angle: quantity('rad', { about: 'The angle on average.', example: '0.2°' }),
    spread: quantity('rad', { about: 'The standard deviation of the angle.', least: 0, example: '0.1°' }),
  },
  { about: 'A web that runs askew: what it is longer than it seems. An effect of second order.' },
);

const windowField = section(
  {
    width: quantity('m', {
      about: 'Where the eye is listened to, around the expected place.',
      above: 0,
      example: '6 mm',
    }),
    clear: way('From the mark to the next print on either side.', '12 mm'),
    opened_every: time('The cycle in which a program opens and closes it; 0 where a latch does.', '1 ms'),
  },
  { about: 'The window around the expected place of the mark; outside it nothing is taken for a mark.' },
);

const lostField = section(
  {
    after: count({ about: 'Marks lost in a row that raise the alarm.', least: 1, example: '2' }),
    looked_every: quantity('s', { about: 'How often a program looks, at least.', least: 0, example: '4 ms' }),
    stop: optional(name({ about: 'The stop of the line that follows.', due: 'a stop of the line', example: 'quick' })),
    reaction: time('From the alarm until the web slows down.', '20 ms'),
    braking: optional(
      quantity('m/s²', {
        about: 'How the web slows down, where no stop of the line says it.',
        above: 0,
        example: '5 m/s²',
      }),
    ),
    allowed: way('The most web that may run from the last good mark on.', '1.5 m'),
  },
  { about: 'What follows when marks are lost.' },
);

const seenField = section(
  {
    moved: quantity('m', { about: 'How much later it is seen at the higher speed, as a way.', example: '0.5 mm' }),
    lower: quantity('m/s', { about: 'The lower speed of the web.', least: 0, example: '10 m/min' }),
    higher: quantity('m/s', { about: 'The higher speed.', above: 0, example: '100 m/min' }),
  },
  { about: 'Where the mark was seen at two speeds: the delay behind it follows from that.' },
);

const correctField = section(
  {
    share: share({ about: 'The share of an error that is corrected in each repeat.', above: 0, example: '30 %' }),
    dead_time: optional(
      printRepeats({
        about: 'Repeats that pass before the correction of an error is seen, the very next one not counted.',
        least: 0,
        example: '3 repeats',
      }),
    ),
    behind: optional(
      quantity('m', { about: 'Web from where the correction acts to the eye.', least: 0, example: '1.8 m' }),
    ),
    delay: time('From the eye until the correction acts.', '40 ms'),
    filter: optional(
      count({ about: 'Repeats over which the mean is corrected; 1 unless said.', least: 1, example: '3' }),
    ),
    missed: optional(
      share({ about: 'The share of marks that are missed; their repeats are not corrected.', example: '1 %' }),
    ),
    splice: way('The error that a splice brings.', '3 mm'),
    settles_within: optional(
      printRepeats({
        about: 'The most repeats until a splice is within the tolerance again.',
        least: 0,
        example: '40 repeats',
      }),
    ),
  },
  { about: 'Register control: a share of what the eye sees is corrected, repeat by repeat.' },
);

const correlationField = row(
  {
    one: name({ about: 'A contribution.', due: 'a contribution', example: 'plate_repeat' }),
    other: name({ about: 'Another one.', due: 'a contribution', example: 'roll_out_of_round' }),
    correlation: quantity('1', { about: 'Their correlation, from -1 to 1.', least: -1, most: 1, example: '0.5' }),
  },
  { about: 'Two contributions and their correlation.', example: '[plate_repeat, roll_out_of_round, 0.5]' },
);

const productField = row(
  {
    one: name({ about: 'A contribution.', due: 'a contribution', example: 'edge_tilt' }),
    other: name({ about: 'Another one, or the same for its square.', due: 'a contribution', example: 'web_wander' }),
    over: quantity('m', { about: 'The length that makes a length of their product.', example: '20 mm' }),
  },
  {
    about: 'Two contributions whose product moves the result, over a length: both as they are, before sensitivity.',
    example: '[edge_tilt, web_wander, 20 mm]',
  },
);

/** Names that contributions from elsewhere in the mark have in its budget. */
export const ownNames = [
  'eye_jitter',
  'input_jitter',
  'clock_offset',
  'poll_window',
  'stamp_step',
  'latch_count',
  'interpolation',
  'web_stretch',
  'lost_motion',
  'roll_count',
  'roll_scale',
  'roll_diameter',
  'roll_eccentricity',
  'roll_slip',
  'roll_expansion',
  'speed_spread',
  'skew',
  'correction',
] as const;

export const marksField = group(
  section(
    {
      axis: optional(
        name({ about: 'The axis that acts on the mark, on which it is captured.', due: 'an axis', example: 'knife' }),
      ),
      follow: optional(name({ about: 'The master whose web carries the mark.', due: 'a master', example: 'line' })),
      speed: optional(
        quantity('m/s', {
          about: 'The highest speed of the web, where no master says it.',
          above: 0,
          example: '150 m/min',
        }),
      ),
      spacing: way('From mark to mark; the repeat of the master unless said.', '250 mm'),
      tolerance: tolerance('m', { about: 'How far it may be off, to either side.', example: '±0.20 mm' }),
      offset: optional(quantity('m', { about: 'What it is known to be off by on average.', example: '12 µm' })),
      compensated: optional(
        share({
          about: 'The share of delays, the same each time, that a lead takes out; none unless said.',
          example: '100 %',
        }),
      ),
      eye: optional(eyeField),
      capture: optional(captureField),
      seen: optional(seenField),
      length: way('The length that is measured between two edges.', '250 mm'),
      edges: optional(
        row(
          {
            first: word(['rising', 'falling'], { about: 'Where the length begins.' }),
            last: word(['rising', 'falling'], { about: 'Where it ends.' }),
          },
          { about: 'The two edges of the one eye that a length is between.', example: '[rising, falling]' },
        ),
      ),
      roll: optional(rollField),
      web: optional(webField),
      lost_motion: optional(
        spreadField(['m'], {
          about:
            'What the tool moves by against its motor, wind-up and play of the train, as a length on the web; unless said, it follows from the train of the axis.',
          example: '{ arcsine: 20 µm }',
        }),
      ),
      skew: optional(skewField),
      speed_spread: optional(
        share({
          about: 'The standard deviation of the speed, as a share; it moves what is off by a time.',
          example: '0.2 %',
        }),
      ),
      spread: group(
        spreadField(['m', 's'], {
          about: 'A contribution: a length, or a time that the speed makes a length of.',
          example: '15 µm',
        }),
        {
          about: 'What else the mark scatters by, by name.',
          reserved: Object.fromEntries(ownNames.map((each) => [each, 'another part of the mark brings it'])),
        },
      ),
      correlation: optional(list(correlationField, { about: 'Contributions of spread that go together.' })),
      products: optional(
        list(productField, {
          about: 'Contributions of spread whose products move the result: effects of second order.',
        }),
      ),
      coverage: optional(
        share({ about: 'The share of all results that the expanded uncertainty covers.', above: 0, example: '95 %' }),
      ),
      wanders: way('How far a mark may be from its expected place, to either side.', '2 mm'),
      stray: way(
        'The least way from an edge that is no mark, and that the window does not shut out, to the mark behind it; none is taken unless said.',
        '40 mm',
      ),
      window: optional(windowField),
      lost: optional(lostField),
      correct: optional(correctField),
      proves: optional(
        section(
          {
            cpk: optional(quantity('1', { about: 'The Cpk that is to be proven.', above: 0, example: '1.33' })),
            confidence: optional(share({ about: 'With which confidence.', above: 0, example: '95 %' })),
            pieces: optional(
              count({ about: 'Pieces that are measured; what they prove is told then.', least: 2, example: '50' }),
            ),
          },
          { about: 'What measured pieces shall prove.' },
        ),
      ),
    },
    { about: 'A mark, an edge or a length.' },
  ),
  { about: 'Print marks, product edges and lengths, by name.' },
);

export type MarkSection = Read<typeof marksField>[number];

/** Reports marks on what is no axis, at what is no master, and correlations and products of what is no contribution. */
export function placeMarks(
  marks: readonly MarkSection[],
  axes: readonly { readonly name: string }[],
  masters: readonly { readonly name: string; readonly stops: readonly { readonly name: string }[] }[],
  reading: Reading,
): void {
  for (const { axis, follow, lost, correlation, products, spread } of marks) {
    if (axis !== undefined && !(axis instanceof Missing))
      mustBeOneOf(
        axis,
        axes.map(({ name }) => name),
        'axis',
        'Describe it under axes.',
        reading,
      ); // prettier-ignore
    if (follow !== undefined && !(follow instanceof Missing))
      mustBeOneOf(
        follow,
        masters.map(({ name }) => name),
        'master',
        'Describe it under masters, or say the speed.',
        reading,
      ); // prettier-ignore
    const stop = lost?.stop;
    const stops = masters.flatMap((master) => master.stops.map(({ name }) => name));
    if (stop !== undefined && !(stop instanceof Missing))
      mustBeOneOf(stop, stops, 'stop', 'Describe it under stops of the master, or say reaction and braking.', reading);
    const rowsOf = <T>(rows: Value<readonly T[]> | undefined): readonly T[] =>
      rows === undefined || rows instanceof Missing ? [] : rows;
    for (const tied of [...rowsOf(correlation), ...rowsOf(products)]) {
      if (tied instanceof Missing) continue;
      for (const each of [tied.one, tied.other])
        if (!(each instanceof Missing))
          mustBeOneOf(
            each,
            spread.map(({ name }) => name),
            'contribution',
            'Name one that stands under spread.',
            reading,
          ); // prettier-ignore
    }
  }
}
