// What each gear of a train carries, over all cases: the figures that its data are held against.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { resultsOf } from '../working/formula.ts';
import { given, isUnsaid, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { gearDuty } from './calc/course.ts';
import { highestTorque, highestTurningSpeed } from './calc/cycle-demand.ts';
import { lifeExponents } from './calc/gear-load.ts';
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
  /** Its place in the train. */
  readonly index: number;
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

/** The gears that say what they bear: made once for each demand, so that all checks speak of the same numbers. */
export const gearsOf = onceForEach((demand: AxisDemand): readonly GearOfTrain[] => {
  const { axis } = demand;
  if (axis.train instanceof Missing) return [];
  return axis.train.flatMap(({ gear }, index) => {
    if (gear === undefined || limits.every((key) => isUnsaid(gear[key]))) return [];
    const about = `${axis.name}.${index + 1}_gear`;
    return [{ demand, section: gear, about, index, carried: carriedBy(demand, gear, about) }];
  });
});

const limits = ['torque', 'torque_peak', 'torque_stop', 'speed', 'speed_peak', 'radial_load'] as const;

function carriedBy(
  { cases, line }: AxisDemand,
  { torque_exponent, ratio, path }: GearOfTrain['section'],
  about: string,
): Value<Carried> {
  const p = torque_exponent ?? cubic(`${path}.torque_exponent`);
  return given({ cases, line, p, i: ratio as Value<Quantity<'1'>> }, (known) => {
    const { p: exponent, i } = known;
    const stage = known.line.stages.findIndex(({ transform }) => transform?.about === about);
    const duties = (known.cases as readonly Case[]).map((each) => dutyOf(each, stage, exponent, about));
    const stops = duties.filter(({ kind }) => kind === 'stop');
    const others = duties.filter(({ kind }) => kind !== 'stop');
    const lasting = duties.filter(({ kind }) => kind === 'cycle');
    const quickly = (ω: readonly Quantity<'rad/s'>[], output: string, input: string) =>
      gearSpeed(
        { ω: highestTurningSpeed({ x: ω }, `${about}.${output}`), i },
        `${about}.${input}`,
      ) as Quantity<'rad/s'>;
    return {
      peak: highestTorque({ x: others.map(({ peak }) => peak()) }, `${about}.peak`),
      stop: stops.length === 0 ? undefined : highestTorque({ x: stops.map(({ peak }) => peak()) }, `${about}.stop`),
      mean: highestTorque({ x: lasting.map(({ mean }) => mean()) }, `${about}.mean`),
      speed: quickly(
        others.map(({ speed }) => speed()),
        'output',
        'input',
      ),
      meanSpeed: quickly(
        lasting.map(({ meanSpeed }) => meanSpeed()),
        'mean_output',
        'mean_input',
      ),
    };
  });
}

function dutyOf(each: Case, stage: number, exponent: Quantity<'1'>, gear: string) {
  const form = courseOf(each);
  const { call } = resultsOf(
    {
      inputs: { ...form.inputs, p: exponent },
      means: { ...form.means, p: 'power by which torque wears the gear' },
    },
    (values) => gearDuty(form.build(values.slice(0, -1)), stage, values.at(-1) as number),
  );
  const about = `${gear}.${each.name}`;
  const peak = call(({ peak_Nm }) => peak_Nm);
  const mean = call(({ mean_Nm }) => mean_Nm);
  const speed = call(({ peak_rad_per_s }) => peak_rad_per_s);
  const meanSpeed = call(({ mean_rad_per_s }) => mean_rad_per_s);
  return {
    kind: each.kind,
    peak: () => gearPeak(peak, about),
    mean: () => gearMean(mean, about),
    speed: () => gearPeakSpeed(speed, about),
    meanSpeed: () => gearMeanSpeed(meanSpeed, about),
  };
}

const cubic = (path: string): Quantity<'1'> =>
  assumed(path, lifeExponents.ball, '1', {
    source: 'mott',
    because: 'ball bearings wear by the third power of their load',
  });
