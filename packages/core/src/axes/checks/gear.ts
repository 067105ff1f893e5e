// axes.gear_*: does each gear bear what it carries? axes.screw_speed: does a screw turn below the speed at which it whirls?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { assumed } from '../../working/assumed.ts';
import { given, isUnsaid, Missing, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import {
  criticalScrewSpeed,
  type EndFixing,
  endFixings,
  usableScrewShare,
  usableScrewSpeed,
} from '../calc/screw-speed.ts';
import { screwSpeed } from '../calc/transform.ts';
import type { AxisDemand } from '../demand.ts';
import { type GearOfTrain, gearsOf } from '../gears.ts';
import { densityOf } from '../material.ts';
import { type AcrossShaft, acrossShaft, forceAcross } from '../radial-force.ts';
import type { ElementSection } from '../section.ts';

type Limit = 'torque' | 'torque_peak' | 'torque_stop' | 'speed' | 'speed_peak' | 'radial_load';

const saying = (limit: Limit) => ({
  subjects: (axes: readonly AxisDemand[]): readonly GearOfTrain[] =>
    axes.flatMap(gearsOf).filter(({ section }) => !isUnsaid(section[limit])),
  name: ({ about }: GearOfTrain): string => about,
  path: ({ section }: GearOfTrain): string => section.path,
  capacity: ({ section }: GearOfTrain): Value<Quantity> => section[limit] as Value<Quantity>,
});

const peakOf = ({ carried, demand: { untold } }: GearOfTrain): Value<Quantity<'N·m'>> =>
  given({ carried, ramps: untold.ramps }, (known) => known.carried.peak);

export const gearPeak = question<readonly AxisDemand[], GearOfTrain>({
  ...saying('torque_peak'),
  id: 'axes.gear_peak',
  title: 'Gear, peak torque',
  asks: 'Does the gear bear the highest torque of the cycle and its ramps?',
  page: `Asked of every gear that says it. Demand: the highest torque at its output, over the product cycle and the ramps of
the master, stops left to \`axes.gear_stop\`; moving off counts with the friction at rest. Capacity: the torque that it
bears while speeding up.`,
  advice: 'a smoother motion, a larger gear',
  reserve: { share: 0.1, source: 'judgement', because: 'masses are seldom known better' },
  demand: (gear) => peakOf(gear),
  says: (demand, capacity) => `${demand} at its output at the highest, it bears ${capacity}`,
});

export const gearStop = question<readonly AxisDemand[], GearOfTrain>({
  ...saying('torque_stop'),
  id: 'axes.gear_stop',
  title: 'Gear, stop',
  asks: 'Does the gear bear the stops of the master?',
  page: `Asked of every gear that says it, of an axis whose master has stops in which the drives work. Demand: the highest
torque at its output in any of them. Capacity: the torque that it bears a limited number of times.

Caution: a gear that breaks in a stop lets its load go. What protects people then is for the risk assessment of the
machine, local codes and licensed practice.`,
  advice: 'a longer stop, a larger gear',
  subjects: (axes) =>
    saying('torque_stop')
      .subjects(axes)
      .filter(
        ({ carried, demand: { untold } }) =>
          carried instanceof Missing || carried.stop !== undefined || untold.stops.length > 0,
      ),
  reserve: { share: 0.1, source: 'judgement', because: 'masses are seldom known better' },
  demand: ({ carried, demand: { untold } }) => given({ carried, stops: untold.stops }, (known) => known.carried.stop!),
  says: (demand, capacity) =>
    `${demand} at its output in a stop, it bears ${capacity} a few times; what protects people is for the risk assessment and local codes`,
});

export const gearMean = question<readonly AxisDemand[], GearOfTrain>({
  ...saying('torque'),
  id: 'axes.gear_mean',
  title: 'Gear, mean torque',
  asks: 'Does the gear live as long as it is meant to?',
  page: `Asked of every gear that says it. Demand: the mean torque at its output over the cycle, each instant by the power
with which torque wears the gear and by how far it turns then. Capacity: the torque that it bears for its life.`,
  advice: 'a smoother motion, a larger gear',
  reserve: { share: 0.1, source: 'judgement', because: 'shocks that nobody has reckoned with' },
  demand: ({ carried }) => given({ carried }, (known) => known.carried.mean),
  says: (demand, capacity) => `${demand} at its output in the mean, it bears ${capacity} for its life`,
});

export const gearSpeedPeak = question<readonly AxisDemand[], GearOfTrain>({
  ...saying('speed_peak'),
  id: 'axes.gear_speed_peak',
  title: 'Gear, highest speed',
  asks: 'Does the gear bear the highest speed at its input?',
  page: `Asked of every gear that says it. Demand: the highest speed at its side of the motor. Capacity: the highest it
bears.`,
  advice: 'a smaller ratio, a gear for higher speeds',
  reserve: { share: 0.05, source: 'judgement', because: 'correcting moves come on top of the motion' },
  demand: ({ carried }) => given({ carried }, (known) => known.carried.speed),
  says: (demand, capacity) => `${demand} at its input at the highest, it bears ${capacity}`,
});

export const gearSpeedMean = question<readonly AxisDemand[], GearOfTrain>({
  ...saying('speed'),
  id: 'axes.gear_speed',
  title: 'Gear, mean speed',
  asks: 'Does the gear stay cool enough at its mean speed?',
  page: `Asked of every gear that says it. Demand: the mean speed at its side of the motor over the cycle, standstill
counted. Capacity: the mean speed that it bears.`,
  advice: 'a smaller ratio, a gear for higher speeds',
  reserve: { share: 0.1, source: 'judgement', because: 'warm surroundings' },
  demand: ({ carried }) => given({ carried }, (known) => known.carried.meanSpeed),
  says: (demand, capacity) => `${demand} at its input in the mean, it bears ${capacity}`,
});

interface Strained {
  readonly gear: GearOfTrain;
  readonly across: AcrossShaft;
}

export const gearRadial = question<readonly AxisDemand[], Strained>({
  id: 'axes.gear_radial',
  title: 'Gear, radial load',
  asks: 'Does the output shaft bear the force across it?',
  page: `Asked of every gear that says it, unless a coupling stands between it and what it turns: that keeps the force away.
Demand: \`radial_force\` of the gear where the file says it. Otherwise the pull of the belt, rack or rope whose wheel sits
on its output, from its highest torque over the product cycle and the ramps of the master: a belt pulls across with 1.5
times what it transmits, for its tension at rest; a pinion with 1/cos 20°, for the pressure of its teeth; a rope with what
it pulls. These factors are common practice, from memory. Capacity: the force that the gear bears across its shaft.

Left out of what is computed: weights, forces along the shaft, the tilting of what sits far out, and stops. Whether a
roll, disc or arm has bearings of its own the file does not tell: there \`radial_force\` is asked for, 0 N where it has.`,
  advice: 'bearings beside the wheel, a larger wheel, a larger gear',
  subjects: (axes) =>
    saying('radial_load')
      .subjects(axes)
      .flatMap((gear) => {
        const across = acrossShaft(gear.demand.axis, gear.index);
        return across === undefined ? [] : [{ gear, across }];
      }),
  name: ({ gear }) => gear.about,
  path: ({ gear }) => gear.section.path,
  reserve: { share: 0.1, source: 'judgement', because: 'tension is seldom set as reckoned' },
  demand: ({ gear, across }) => forceAcross(across, peakOf(gear), gear.about),
  capacity: ({ gear }) => gear.section.radial_load!,
  says: (demand, capacity) => `${demand} across its output shaft, it bears ${capacity}`,
});

interface Screw {
  readonly demand: AxisDemand;
  readonly section: NonNullable<ElementSection['screw']>;
  readonly about: string;
}

export const screwCritical = question<readonly AxisDemand[], Screw>({
  id: 'axes.screw_speed',
  title: 'Screw speed',
  asks: 'Does the screw turn slowly enough not to whirl?',
  page: `Asked of every screw that says its free length. Demand: its highest speed. Capacity: 80 % of the speed at which one
turn takes as long as one swing of the screw as a bending beam, held as \`ends\` says, of steel unless its material is said.`,
  advice: 'ends that are held firmer, a thicker screw, a larger lead',
  subjects: (axes) =>
    axes.flatMap((demand) =>
      demand.axis.train instanceof Missing
        ? []
        : demand.axis.train.flatMap(({ screw }, index) =>
            screw?.free_length === undefined
              ? []
              : [{ demand, section: screw, about: `${demand.axis.name}.${index + 1}_screw` }],
          ),
    ),
  name: ({ about }) => about,
  path: ({ section }) => section.path,
  reserve: { share: 0, source: 'judgement', because: 'the 80 % are a reserve already' },
  demand: ({ demand: { toolSpeed }, section, about }) =>
    given({ v: toolSpeed, p: section.lead }, ({ v, p }) => screwSpeed({ v: v as Quantity<'m/s'>, p }, about)),
  capacity: ({ section, about }) => {
    const { core, free_length, ends, material, density, path } = section;
    const known = material instanceof Missing ? undefined : material;
    return given(
      {
        d: core ?? missing(`${path}.core`, 'absent', 'a length', '17 mm'),
        l: free_length!,
        ends: ends ?? missing(`${path}.ends`, 'absent', Object.keys(endFixings).join(', '), 'fixed_supported'),
        ρ:
          density ??
          assumed(`${path}.density`, densityOf[known ?? 'steel'].density_kg_per_m3, 'kg/m³', {
            source: 'common-practice',
            because: `${known ?? 'steel'}, from memory`,
          }),
      },
      ({ ends: held, ...beam }) =>
        usableScrewSpeed(
          {
            s: aShare,
            ω: criticalScrewSpeed(
              {
                ...(beam as { d: Quantity<'m'>; l: Quantity<'m'>; ρ: Quantity<'kg/m³'> }),
                λ: assumed(`${path}.ends`, endFixings[held as EndFixing], '1', {
                  source: 'thomson',
                  because: `appendix D, ${String(held).replace('_', ' and ')}`,
                  digits: 5,
                }),
                E: modulus,
              },
              about,
            ),
          },
          about,
        ),
    );
  },
  says: (demand, capacity) => `the screw turns at ${demand}, it may at ${capacity}`,
});

const aShare = assumed('axes.screw_share', usableScrewShare, '1', {
  source: 'common-practice',
  because: 'so far below the critical speed',
  as: '%',
});
const modulus = assumed('axes.modulus_of_steel', 206e9, 'Pa', {
  source: 'common-practice',
  because: 'steel, from memory',
});
