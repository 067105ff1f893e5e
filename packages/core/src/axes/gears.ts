// What each gear of a train carries, over all cases: the figures that its data are held against.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isUnsaid, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { type GearDuty, gearDuty } from './calc/course.ts';
import { highestTorque, highestTurningSpeed } from './calc/cycle-demand.ts';
import { gearSpeed } from './calc/transform.ts';
import { gearMean, gearMeanSpeed, gearPeak, gearPeakSpeed } from './case-methods.ts';
import { courseOf } from './course.ts';
import type { AxisDemand, Case } from './demand.ts';
import type { ElementSection } from './section.ts';

export interface GearOfTrain {
  readonly demand: AxisDemand;
  readonly section: NonNullable<ElementSection['gear']>;
  /** `axis.3_gear`. */
  readonly about: string;
  readonly carried: Value<Carried>;
}

/** Torques at the output, speeds at the side of the motor. */
export interface Carried {
  readonly peak: Quantity<'N·m'>;
  /** In the stops of the master; nothing where it has none. */
  readonly stop: Quantity<'N·m'> | undefined;
  readonly mean: Quantity<'N·m'>;
  readonly speed: Quantity<'rad/s'>;
  readonly meanSpeed: Quantity<'rad/s'>;
}

/** The gears that say what they bear. */
export function gearsOf(demand: AxisDemand): readonly GearOfTrain[] {
  const { axis } = demand;
  if (axis.train instanceof Missing) return [];
  return axis.train.flatMap(({ gear }, index) => {
    if (gear === undefined || limits.every((key) => isUnsaid(gear[key]))) return [];
    const about = `${axis.name}.${index + 1}_gear`;
    return [{ demand, section: gear, about, carried: carriedBy(demand, gear, about) }];
  });
}

const limits = ['torque', 'torque_peak', 'torque_stop', 'speed', 'speed_peak'] as const;

function carriedBy(
  { cases, line }: AxisDemand,
  { torque_exponent, ratio, path }: GearOfTrain['section'],
  about: string,
): Value<Carried> {
  const p = torque_exponent ?? cubic(`${path}.torque_exponent`);
  return given({ cases, line, p, i: ratio as Value<Quantity<'1'>> }, (known) => {
    const { p: exponent, i } = known;
    const stage = known.line.stages.findIndex(({ transform }) => transform?.about === about);
    const all = known.cases as readonly Case[];
    const stops = all.filter(({ name }) => name.includes('stop_'));
    const others = all.filter((each) => !stops.includes(each));
    const read = (each: Case) => dutyOf(each, stage, exponent, about);
    const speeds = others.map((each) => read(each).peakSpeed());
    const lasting = others.filter((each) => each.lasting);
    const quickly = (ω: Quantity<'rad/s'>, name: string) =>
      gearSpeed({ ω, i }, `${about}.${name}`) as Quantity<'rad/s'>;
    return {
      peak: highestTorque({ x: others.map((each) => read(each).peak()) }, `${about}.peak`),
      stop:
        stops.length === 0 ? undefined : highestTorque({ x: stops.map((each) => read(each).peak()) }, `${about}.stop`),
      mean: highestTorque({ x: lasting.map((each) => read(each).mean()) }, `${about}.mean`),
      speed: quickly(highestTurningSpeed({ x: speeds }, `${about}.output`), 'input'),
      meanSpeed: quickly(
        highestTurningSpeed({ x: lasting.map((each) => read(each).meanSpeed()) }, `${about}.mean_output`),
        'mean_input',
      ),
    };
  });
}

function dutyOf(each: Case, stage: number, exponent: Quantity<'1'>, gear: string) {
  const form = courseOf(each);
  const found = gearDuty(form.now, stage, exponent.value);
  const call = (take: (duty: GearDuty) => number) => ({
    inputs: { ...form.inputs, p: exponent },
    means: { ...form.means, p: 'power by which torque wears the gear' },
    of: (...values: readonly (number | readonly number[])[]) =>
      take(gearDuty(form.build(values.slice(0, -1)), stage, values.at(-1) as number)),
    value: take(found),
  });
  const about = `${gear}.${each.name}`;
  return {
    peak: () =>
      gearPeak(
        call(({ peak_Nm }) => peak_Nm),
        about,
      ),
    mean: () =>
      gearMean(
        call(({ mean_Nm }) => mean_Nm),
        about,
      ),
    peakSpeed: () =>
      gearPeakSpeed(
        call(({ peak_rad_per_s }) => peak_rad_per_s),
        about,
      ),
    meanSpeed: () =>
      gearMeanSpeed(
        call(({ mean_rad_per_s }) => mean_rad_per_s),
        about,
      ),
  };
}

const cubic = (path: string): Quantity<'1'> =>
  assumed(path, 3, '1', { source: 'mott', because: 'ball bearings wear by the third power of their load' });
