// What the file says of a train: its elements in order, from the tool to the motor shaft.
import { choice } from '../reading/choice.ts';
import type { Read } from '../reading/field.ts';
import { list, optional, section } from '../reading/groups.ts';
import { partUse } from '../reading/parts.ts';
import { count, quantity, quantityIn, share, word } from '../reading/values.ts';
import { type EndFixing, endFixings } from './calc/screw-speed.ts';
import { materialNames } from './material.ts';
import { gearFields, gearKind, gearLimits } from './parts.ts';

const mass = (about: string) => quantity('kg', { about, least: 0, example: '22 kg' });
const efficiency = optional(
  share({
    about: 'The share of the power that arrives when the motor drives; 100 % unless said.',
    above: 0,
    example: '90 %',
  }),
);
const efficiency_back = optional(
  share({
    about: 'The share of the power that arrives when the load drives; the same as the other way unless said.',
    example: '85 %',
  }),
);
const efficiencies = { efficiency, efficiency_back };

/** A body of revolution: its inertia, or what it follows from. */
const body = {
  inertia: optional(quantity('kg·m²', { about: 'Inertia, where it is known.', least: 0, example: '1.2 kg·cm²' })),
  mass: optional(mass('Mass, where it is known.')),
  length: optional(quantity('m', { about: 'Length along the axis.', above: 0, example: '420 mm' })),
  wall: optional(quantity('m', { about: 'Thickness of the wall, for a tube.', above: 0, example: '8 mm' })),
  bore: optional(quantity('m', { about: 'Bore; none is 0.', least: 0, example: '30 mm' })),
  material: optional(word(materialNames, { about: 'The material, for its density.' })),
  density: optional(quantity('kg/m³', { about: 'Density, instead of a material.', above: 0, example: '7850 kg/m³' })),
  gyration: optional(quantity('m', { about: 'Radius of gyration, for other shapes.', above: 0, example: '350 mm' })),
};
const diameter = (about: string) => quantity('m', { about, above: 0, example: '120 mm' });
const round = section(
  {
    diameter: optional(diameter('Outer diameter.')),
    ...body,
    off_axis: optional(
      quantity('m', {
        about: 'Distance of its axis from the shaft, where it stands beside.',
        above: 0,
        example: '250 mm',
      }),
    ),
    count: optional(count({ about: 'How many of them there are.', least: 1, example: '6' })),
  },
  { about: 'A body that turns with the shaft.' },
);

const window = {
  from: optional(
    quantityIn(['m', 'rad'], {
      about: 'Position of the tool at which it begins; always unless said.',
      example: '10 mm',
    }),
  ),
  to: optional(quantityIn(['m', 'rad'], { about: 'Position of the tool at which it ends.', example: '30 mm' })),
  after: optional(quantity('s', { about: 'Time in the cycle at which it begins.', least: 0, example: '0.2 s' })),
  until: optional(quantity('s', { about: 'Time in the cycle at which it ends.', least: 0, example: '0.3 s' })),
};

const wheel = (about: string) =>
  section(
    {
      diameter: diameter('Diameter at which it drives.'),
      wheels: optional(count({ about: 'How many wheels of this kind turn; 1 unless said.', least: 1, example: '2' })),
      wheel_mass: optional(mass('Mass of each wheel, a solid disc of the diameter.')),
      wheel_inertia: optional(
        quantity('kg·m²', { about: 'Inertia of each wheel, instead of its mass.', least: 0, example: '3 kg·cm²' }),
      ),
      mass: optional(mass('Mass of what goes along: belt, rope or rack.')),
      stiffness: optional(
        quantity('N/m', { about: 'Stiffness along the way, of all strands together.', above: 0, example: '2 N/µm' }),
      ),
      ...efficiencies,
    },
    { about },
  );

const elements = {
  // at a tool that goes along
  slide: section(
    {
      mass: mass('Mass that is moved.'),
      friction: optional(quantity('1', { about: 'Coefficient of friction.', least: 0, example: '0.1' })),
      breakaway: optional(quantity('1', { about: 'Coefficient of friction at rest.', least: 0, example: '0.15' })),
      preload: optional(
        quantity('N', { about: 'Force across the way beside the weight.', least: 0, example: '100 N' }),
      ),
      inclination: optional(
        quantity('rad', {
          about: 'Inclination of the way; over 0 where the motion goes up, 90° straight up.',
          example: '90°',
        }),
      ),
      counterweight: optional(mass('Counterweight that hangs by a rope.')),
    },
    { about: 'A mass on a guide.' },
  ),
  web: section(
    {
      tension_in: optional(quantity('N', { about: 'Tension of the web before the roll.', least: 0, example: '90 N' })),
      draw: optional(
        section(
          {
            by: share({ about: 'How much quicker this roll runs than the one before it.', example: '0.3 %' }),
            strain: optional(
              share({ about: 'Strain of the web before that roll; none unless said.', example: '0.1 %' }),
            ),
            modulus: quantity('Pa', { about: 'Modulus of elasticity of the web.', above: 0, example: '3 GPa' }),
            width: quantity('m', { about: 'Width of the web.', above: 0, example: '400 mm' }),
            thickness: quantity('m', { about: 'Thickness of the web.', above: 0, example: '50 µm' }),
          },
          { about: 'What stretches the web before the roll, instead of its tension.' },
        ),
      ),
      tension_out: quantity('N', { about: 'Tension of the web after the roll.', least: 0, example: '120 N' }),
    },
    { about: 'A web that a roll pulls.' },
  ),
  force: section(
    {
      against: quantity('N', { about: 'Force against the motion forwards; below 0 along with it.', example: '600 N' }),
      ...window,
    },
    { about: 'A force on the tool.' },
  ),
  // at a shaft, or at a tool that goes along
  friction: section(
    {
      force: optional(quantity('N', { about: 'Coulomb friction along the way.', least: 0, example: '20 N' })),
      torque: optional(quantity('N·m', { about: 'Coulomb friction of the shaft.', least: 0, example: '1.1 N·m' })),
      viscous: optional(
        quantityIn(['N·s/m', 'N·m·s/rad'], {
          about: 'Friction that grows with the speed.',
          least: 0,
          example: '40 N·s/m',
        }),
      ),
      breakaway: optional(quantityIn(['N', 'N·m'], { about: 'Friction at rest.', least: 0, example: '1.5 N·m' })),
    },
    { about: 'Friction.' },
  ),
  // at a shaft
  torque: section(
    {
      against: quantity('N·m', {
        about: 'Torque against the motion forwards; below 0 along with it.',
        example: '12 N·m',
      }),
      ...window,
    },
    { about: 'A torque on the tool’s shaft.' },
  ),
  cutting: section(
    {
      force: quantity('N', { about: 'Force at the blade, against the motion.', least: 0, example: '600 N' }),
      diameter: diameter('Diameter over the blades.'),
      over: quantity('rad', {
        about: 'Angle of the cut, half of it before the middle of the zone.',
        above: 0,
        example: '6°',
      }),
      blades: optional(count({ about: 'Blades on the circumference; 1 unless said.', least: 1, example: '2' })),
    },
    { about: 'The cut of a rotary knife.' },
  ),
  cylinder: round,
  disc: round,
  inertia: quantity('kg·m²', {
    about: 'Anything that turns with the shaft, by its inertia.',
    least: 0,
    example: '1.2 kg·cm²',
  }),
  off_centre: section(
    {
      mass: mass('Mass beside the axis.'),
      radius: quantity('m', { about: 'Distance of its centre from the axis.', above: 0, example: '250 mm' }),
      inertia: optional(quantity('kg·m²', { about: 'Inertia about its own centre.', least: 0, example: '20 kg·cm²' })),
      at: optional(quantity('rad', { about: 'Angle from the lowest point at position 0.', example: '90°' })),
      upright: optional(
        share({
          about: 'How far the plane of turning stands up: 0 % for a level table, 100 % for a wheel on a level axis.',
          example: '100 %',
        }),
      ),
    },
    { about: 'A mass beside the axis, such as a load on a table or a counterweight on a wheel.' },
  ),
  crank: section(
    {
      radius: quantity('m', { about: 'Radius of the crank.', above: 0, example: '60 mm' }),
      rod: quantity('m', { about: 'Length of the connecting rod.', above: 0, example: '240 mm' }),
      mass: mass('Mass of the slider, with its part of the rod.'),
      force: optional(
        quantity('N', { about: 'Force against the slider, both ways like friction.', least: 0, example: '200 N' }),
      ),
    },
    { about: 'A crank that moves a slider; position 0 is the dead point.' },
  ),
  eccentric: section(
    {
      radius: quantity('m', { about: 'Eccentricity.', above: 0, example: '12 mm' }),
      mass: mass('Mass that is moved.'),
      force: optional(
        quantity('N', { about: 'Force against it, both ways like friction.', least: 0, example: '200 N' }),
      ),
    },
    { about: 'An eccentric that moves a yoke; position 0 is the dead point.' },
  ),
  coupling: section(
    {
      inertia: optional(quantity('kg·m²', { about: 'Inertia.', least: 0, example: '0.1 kg·cm²' })),
      stiffness: optional(quantity('N·m/rad', { about: 'Torsional stiffness.', above: 0, example: '4500 N·m/rad' })),
      backlash: optional(quantity('rad', { about: 'Backlash.', least: 0, example: '6 arcmin' })),
    },
    { about: 'A coupling.' },
  ),
  // from one side to the next
  screw: section(
    {
      lead: quantity('m', { about: 'Way in one revolution.', above: 0, example: '20 mm' }),
      diameter: optional(diameter('Diameter of the screw, for its inertia.')),
      stiffness: optional(
        quantity('N/m', {
          about: 'Stiffness along the way, of screw, nut and bearings.',
          above: 0,
          example: '90 N/µm',
        }),
      ),
      core: optional(diameter('Diameter of its core, for its critical speed.')),
      free_length: optional(
        quantity('m', {
          about: 'Length between its bearings, or from a bearing to the nut.',
          above: 0,
          example: '800 mm',
        }),
      ),
      ends: optional(
        word(Object.keys(endFixings) as EndFixing[], {
          about: 'How its ends are held over that length.',
        }),
      ),
      thread: optional(
        section(
          {
            diameter: diameter('Mean diameter of the thread.'),
            friction: quantity('1', { about: 'Coefficient of friction of its flanks.', least: 0, example: '0.15' }),
            flank: optional(
              quantity('rad', {
                about: 'How far its flanks lean; 0° for a square thread, unless said, 15° for a trapezoidal one.',
                least: 0,
                example: '15°',
              }),
            ),
          },
          { about: 'A thread that slides: both of its efficiencies follow from its friction.' },
        ),
      ),
      collar: optional(
        section(
          {
            diameter: diameter('Mean diameter at which it rubs.'),
            friction: quantity('1', { about: 'Coefficient of friction.', least: 0, example: '0.12' }),
          },
          { about: 'A collar that takes the force of a sliding screw, where no bearing does.' },
        ),
      ),
      ...body,
      ...efficiencies,
    },
    { about: 'A screw, along the way on one side and turning on the other.' },
  ),
  belt: wheel('A belt over pulleys, along the way on one side and turning on the other.'),
  conveyor: wheel('A conveyor over its rollers.'),
  rack: wheel('A rack and its pinion.'),
  drum: section(
    { diameter: diameter('Diameter at which the rope runs.'), ...body, ...efficiencies },
    { about: 'A drum with a rope.' },
  ),
  roll: section(
    { diameter: diameter('Diameter at which the web runs.'), ...body, ...efficiencies },
    { about: 'A roll that pulls, prints or feeds a web.' },
  ),
  gear: partUse(
    [gearKind],
    {
      ratio: quantity('1', {
        about: 'Turns at the side of the motor for one at the side of the tool.',
        above: 0,
        example: '5',
      }),
      ...gearFields,
      ...gearLimits,
      efficiency_back,
      radial_force: optional(
        quantity('N', {
          about: 'Force across its output shaft; 0 N where what it turns has bearings of its own.',
          least: 0,
          example: '800 N',
        }),
      ),
    },
    { about: 'A gear.', example: 'gear_60' },
  ),
};

export const trainField = list(
  choice({}, elements, {
    about: 'An element of the train.',
    due: 'an element of a train',
    example: 'gear: { ratio: 5, efficiency: 96 % }',
  }),
  { about: 'The train in order, from the tool to the motor shaft.' },
);

export type ElementSection = Exclude<Read<typeof trainField>, { readonly lacks: unknown }>[number];
