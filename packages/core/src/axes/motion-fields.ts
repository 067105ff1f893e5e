// What the file says of masters and motions. A motion is one of several kinds; the key that stands in it says which.
import { choice } from '../reading/choice.ts';
import type { Read } from '../reading/field.ts';
import { group, list, optional, row, section } from '../reading/groups.ts';
import { count, name, quantity, quantityIn, quantityOr, share, word } from '../reading/values.ts';
import { lawNames } from './calc/motion-law.ts';

const law = word(lawNames, { about: 'The motion law.' });
const way = ['m', 'rad'] as const;
const along = ['m/s', 'rad/s'] as const;
const quickening = ['m/s²', 'rad/s²'] as const;

/** Of IEC 60204-1: power off at once, power off once it stands, power kept. */
export const stopCategories = ['0', '1', '2'] as const;

const categoryAbout = { about: 'The stop category of IEC 60204-1; with 0 the drives are off at once.' };
/** Words that look like numbers, and are numbers to other readers of YAML. */
const stopCategory = {
  ...word(stopCategories, categoryAbout),
  schema: () => ({
    anyOf: [{ type: 'string' as const }, { type: 'number' as const }],
    description: categoryAbout.about,
    examples: ['1'],
  }),
};

const stopsField = group(
  section(
    {
      within: quantity('s', { about: 'Time from full speed to standstill.', above: 0, example: '1.2 s' }),
      reaction: optional(
        quantity('s', { about: 'Time from the command until it slows down.', least: 0, example: '60 ms' }),
      ),
      way_at_most: optional(
        quantityIn(['m', 'rad'], { about: 'The longest way of the master that is allowed.', above: 0, example: '4 m' }),
      ),
      category: optional(stopCategory),
    },
    { about: 'A stop.' },
  ),
  { about: 'How the master comes to a stop, by name.' },
);

const encoderField = section(
  {
    lines: count({ about: 'Lines of the encoder, in one turn.', least: 1, example: '2500' }),
    counted: count({
      about: 'Counts for each line: 4 where both edges of both tracks count.',
      least: 1,
      most: 4,
      example: '4',
    }),
    way: quantityIn(way, { about: 'Way of the master in one turn of the encoder.', above: 0, example: '200 mm' }),
    sample: quantity('s', { about: 'Time between two samples of the count.', above: 0, example: '1 ms' }),
    filter: optional(
      quantity('s', { about: 'Time constant of the filter behind it; none unless said.', least: 0, example: '10 ms' }),
    ),
    lead: optional(
      word(['none', 'speed'], {
        about:
          'Whether the controller carries the position on, at the speed last seen, to where it is when followers act on it; none unless said.',
      }),
    ),
    frequency_at_most: quantity('Hz', {
      about: 'The highest frequency of one track that the input counts.',
      above: 0,
      example: '250 kHz',
    }),
    cable: optional(quantity('m', { about: 'Length of the cable to the input.', least: 0, example: '15 m' })),
    receiver: optional(word(['differential', 'single_ended'], { about: 'How the input receives the signal.' })),
    cable_at_most: optional(
      quantity('m', { about: 'The longest cable that the data of the input allow.', above: 0, example: '30 m' }),
    ),
  },
  { about: 'An encoder outside the drives that gives the position of the master, on an input that counts.' },
);

export const mastersField = group(
  section(
    {
      speed: quantityIn(along, { about: 'Speed at production.', above: 0, example: '150 m/min' }),
      repeat: optional(
        quantity('m', {
          about: 'Way of the master for one product. A master that turns makes one product in a turn.',
          above: 0,
          example: '250 mm',
        }),
      ),
      axis: optional(
        name({ about: 'The axis that is the master, instead of a speed.', due: 'an axis', example: 'main' }),
      ),
      encoder: optional(encoderField),
      ramp_up: optional(quantity('s', { about: 'Time from standstill to full speed.', above: 0, example: '6 s' })),
      ramp_down: optional(
        quantity('s', { about: 'Time of the usual way from full speed to standstill.', above: 0, example: '4 s' }),
      ),
      stops: stopsField,
    },
    { about: 'What axes follow: a speed that the controller makes, an axis, or what an encoder counts.' },
  ),
  { about: 'What the axes follow, by name.' },
);

const stepField = choice(
  {
    in: optional(quantity('s', { about: 'Time for the step.', above: 0, example: '180 ms' })),
    over: optional(quantityIn(way, { about: 'Way of the master for the step.', above: 0, example: '90°' })),
    law: optional(law),
    ramp: optional(
      quantity('s', { about: 'Time of speeding up, and as long of slowing down.', above: 0, example: '100 ms' }),
    ),
    ramp_up: optional(quantity('s', { about: 'Time of speeding up.', above: 0, example: '100 ms' })),
    ramp_down: optional(quantity('s', { about: 'Time of slowing down.', above: 0, example: '100 ms' })),
    speed: optional(quantityIn(along, { about: 'The highest speed.', above: 0, example: '0.5 m/s' })),
    acceleration: optional(quantityIn(quickening, { about: 'The highest acceleration.', above: 0, example: '5 m/s²' })),
    deceleration: optional(
      quantityIn(quickening, { about: 'The highest deceleration, where it is another.', above: 0, example: '5 m/s²' }),
    ),
    jerk: optional(quantityIn(['m/s³', 'rad/s³'], { about: 'The highest jerk.', above: 0, example: '200 m/s³' })),
    speed_after: optional(
      quantityIn(along, { about: 'Speed at the end of the step, where it is not rest.', example: '0.5 m/s' }),
    ),
    acceleration_after: optional(
      quantityIn(quickening, { about: 'Acceleration at the end of the step; nothing unless said.', example: '2 m/s²' }),
    ),
  },
  {
    move: quantity('m', { about: 'The way of the step, below 0 backwards.', example: '300 mm' }),
    turn: quantity('rad', { about: 'The angle of the step, below 0 backwards.', example: '60°' }),
    dwell: quantityOr('s', 'rest', {
      about: 'Standing still for a time; rest for what is left of the cycle.',
      least: 0,
      example: '0.6 s',
    }),
    stay: quantity('s', {
      about: 'Going on at the speed that the step before ended with.',
      above: 0,
      example: '0.5 s',
    }),
  },
  { about: 'One step of a motion.', due: 'a step', example: '{ turn: 60°, in: 180 ms, law: modified_sine }' },
);

const windField = section(
  {
    core: quantity('m', { about: 'Diameter of the core.', above: 0, example: '76 mm' }),
    full: quantity('m', { about: 'Diameter of the full roll.', above: 0, example: '800 mm' }),
    width: quantity('m', { about: 'Width of the web.', above: 0, example: '400 mm' }),
    thickness: quantity('m', { about: 'Thickness of the web.', above: 0, example: '90 µm' }),
    density: quantity('kg/m³', { about: 'Density of the web.', above: 0, example: '900 kg/m³' }),
    tension: quantity('N', { about: 'Tension of the web, at the core where it tapers.', least: 0, example: '90 N' }),
    taper: optional(share({ about: 'How much of the tension is taken back towards a full roll.', example: '40 %' })),
    diameters: list(quantity('m', { about: 'A diameter.', above: 0, example: '400 mm' }), {
      about: 'Diameters to look at between core and full roll.',
    }),
  },
  { about: 'A roll of web on its core.' },
);

export const motionField = choice(
  {
    follow: optional(name({ about: 'The master, or the axis, that is followed.', due: 'a master', example: 'line' })),
    every: optional(count({ about: 'The cycle, in products of the master.', least: 1, example: '4' })),
    cycle: optional(quantity('s', { about: 'The cycle of an axis that follows nothing.', above: 0, example: '2 s' })),
  },
  {
    gear: row(
      {
        turns: count({ about: 'Way of the axis.', least: 1, example: '1' }),
        of: count({ about: 'Way of the master in which it is made.', least: 1, example: '1' }),
      },
      { about: 'Electronic gear: way of the axis for a way of the master, in whole numbers.', example: '[1, 1]' },
    ),
    turns: section(
      {
        every: quantity('m', { about: 'Way of the master in which the axis turns once.', above: 0, example: '500 mm' }),
      },
      { about: 'An axis that turns with a master that runs along.' },
    ),
    steps: list(stepField, { about: 'Moves and dwells one behind another.' }),
    runs: section(
      {
        speed: quantityIn(along, { about: 'The constant speed.', above: 0, example: '3 m/s' }),
        for: quantity('s', { about: 'Time at this speed.', above: 0, example: '5 s' }),
        ramp_up: optional(quantity('s', { about: 'Time to get there.', above: 0, example: '2 s' })),
        ramp_down: optional(quantity('s', { about: 'Time to come to rest.', above: 0, example: '2 s' })),
      },
      { about: 'Constant speed, with ramps from rest and to rest.' },
    ),
    cuts: section(
      {
        length: quantity('m', { about: 'Length from cut to cut.', above: 0, example: '215 mm' }),
        circumference: quantity('m', { about: 'Circumference over the blades.', above: 0, example: '500 mm' }),
        blades: count({ about: 'Blades on the circumference.', least: 1, example: '2' }),
        working: quantity('rad', {
          about: 'Angle of the knife at the speed of the web, the cut in its middle.',
          above: 0,
          example: '40°',
        }),
        recover: law,
      },
      { about: 'A rotary knife: at the speed of the web in the cut, made up between the cuts.' },
    ),
    shears: section(
      {
        length: quantity('m', { about: 'Length from cut to cut.', above: 0, example: '2 m' }),
        working: quantity('m', { about: 'Way at the speed of the web.', above: 0, example: '200 mm' }),
        accelerate: quantity('m', {
          about: 'Way of the web in which the carriage gets to its speed, and from it to rest.',
          above: 0,
          example: '300 mm',
        }),
        back: law,
      },
      { about: 'A flying shear: goes along with the web for the cut, then returns.' },
    ),
    feeds: section(
      {
        length: quantity('m', { about: 'Length of a feed.', above: 0, example: '120 mm' }),
        share: share({ about: 'How much of the cycle the feed takes.', above: 0, example: '50 %' }),
        law,
      },
      { about: 'A feed roll that feeds and waits in each cycle.' },
    ),
    traverses: section(
      {
        width: quantity('m', { about: 'Way from turning point to turning point.', above: 0, example: '300 mm' }),
        stroke: quantityIn(way, { about: 'Way of the master for one stroke.', above: 0, example: '4 rev' }),
        reversal: quantityIn(way, {
          about: 'Way of the master for turning round at one end.',
          above: 0,
          example: '90°',
        }),
      },
      { about: 'To and fro at constant speed.' },
    ),
    kicks: section(
      {
        turn: quantity('rad', { about: 'Angle of the gate.', above: 0, example: '35°' }),
        in: quantity('s', { about: 'Time for it, and as long for the way back.', above: 0, example: '40 ms' }),
        hold: quantity('s', { about: 'Time at the end.', least: 0, example: '60 ms' }),
        law,
      },
      { about: 'A gate that swings out for a product and back.' },
    ),
    cam: section(
      {
        points: list(
          row(
            {
              master: quantityIn(way, { about: 'Position of the master.', example: '90°' }),
              tool: quantityIn(way, { about: 'Position of the axis.', example: '12 mm' }),
            },
            { about: 'A point of the cam.', example: '[90°, 12 mm]' },
          ),
          { about: 'Points that a cubic spline is laid through.' },
        ),
        ends: word(['periodic', 'rest', 'natural'], {
          about: 'What holds at the ends: they fit together, they are at rest, or they are without acceleration.',
        }),
      },
      { about: 'A table of a cam.' },
    ),
    winds: windField,
    unwinds: windField,
  },
  { about: 'What the tool of the axis does.', due: 'a motion', example: '{ follow: line, gear: [1, 1] }' },
);

export type MasterSection = Read<typeof mastersField>[number];
export type MotionSection = Read<typeof motionField>;
export type StepSection = Read<typeof stepField>;
