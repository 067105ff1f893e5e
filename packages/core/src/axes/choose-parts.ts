// Parts of a catalogue, or what the file says in their place, in plain numbers: in the surroundings and at the mains of the
// machine.
import type { Part } from '../reading/parts.ts';
import { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import type { ChoiceGear, ChoiceMotor } from './calc/choosing.ts';
import { shareLeft } from './calc/derating.ts';
import { lifeExponents } from './calc/gear-load.ts';
import type { Heating } from './calc/heat.ts';

/** Figures by their key, of a part or of what stands in its place. */
export interface Figures {
  readonly values: object;
}

export interface OfferedMotor {
  /** Nothing for the motor that the axis has. */
  readonly name: string | undefined;
  readonly cost: number;
  readonly there: ChoiceMotor;
  readonly brake_Nm: number | undefined;
  readonly torqueConstant_Nm_per_A: number | undefined;
  readonly heating: (Heating & { readonly torque_Nm: number; readonly riseLeft_K: number }) | undefined;
}

export interface OfferedGear {
  readonly name: string;
  readonly cost: number;
  readonly gear: ChoiceGear;
  readonly stiffness_Nm_per_rad: number | undefined;
  readonly torqueExponent: number;
  /** What it bears. */
  readonly limits: GearLimits;
}

export interface GearLimits {
  readonly torque: number | undefined;
  readonly torque_peak: number | undefined;
  readonly torque_stop: number | undefined;
  readonly speed: number | undefined;
  readonly speed_peak: number | undefined;
}

/** A drive in the surroundings of the machine. */
export interface OfferedDrive {
  /** Nothing for the drive that the axis has. */
  readonly name: string | undefined;
  readonly cost: number;
  readonly current_A: number;
  readonly peak_A: number;
  readonly peakTime_s: number | undefined;
}

export const numberOf = (value: unknown): number | undefined => (value instanceof Quantity ? value.value : undefined);
const numberIn = ({ values }: Figures, key: string): number | undefined =>
  numberOf((values as Readonly<Record<string, unknown>>)[key]);

/** What a motor must say to be weighed at all. */
const needed = ['inertia', 'torque', 'torque_peak', 'speed'] as const;
export const lackingIn = (motor: Figures): (typeof needed)[number] | undefined =>
  needed.find((key) => numberIn(motor, key) === undefined);

export const motorsOf = (parts: readonly Part[], site: Axis['site']): readonly OfferedMotor[] =>
  parts.flatMap((part) =>
    lackingIn(part) === undefined ? [{ ...motorAt(part, site), name: part.name, cost: costOf(part) }] : [],
  );

/** A motor that says what is needed. */
export function motorAt(motor: Figures, site: Axis['site']): Omit<OfferedMotor, 'name' | 'cost'> {
  const of = (key: string): number | undefined => numberIn(motor, key);
  const [mains, low] = [of('mains'), numberOf(site.low)];
  const voltage = mains === undefined || low === undefined ? 1 : low / mains;
  const [torque_Nm, highest] = [of('torque')!, of('speed')!];
  const there: ChoiceMotor = {
    inertia_kg_m2: of('inertia')!,
    area: {
      torque_Nm,
      ratedTorque_Nm: of('torque_rated') ?? torque_Nm,
      ratedSpeed_rad_per_s: of('speed_rated') ?? highest,
      peak_Nm: of('torque_peak')!,
      peakUpTo_rad_per_s: (of('speed_peak_torque') ?? highest) * voltage,
      highest_rad_per_s: highest * voltage,
    },
    left: leftBy(motor, site),
    coolingAtRest: of('cooling_at_rest') ?? 1,
  };
  return {
    there,
    brake_Nm: of('brake'),
    torqueConstant_Nm_per_A: of('torque_constant'),
    heating: heatingOf(motor, torque_Nm, site),
  };
}

function heatingOf(motor: Figures, torque_Nm: number, { ambient }: Axis['site']): OfferedMotor['heating'] {
  const [rise_K, windingShare, winding_s, frame_s, most_K] = [
    'temperature_rise',
    'rise_in_winding',
    'time_winding',
    'time_frame',
    'winding_at_most',
  ].map((key) => numberIn(motor, key));
  const ambient_K = numberOf(ambient);
  if (rise_K === undefined || windingShare === undefined || winding_s === undefined || frame_s === undefined)
    return undefined;
  if (most_K === undefined || ambient_K === undefined) return undefined;
  return { rise_K, windingShare, winding_s, frame_s, torque_Nm, riseLeft_K: Math.max(0, most_K - ambient_K) };
}

export const gearsOfParts = (parts: readonly Part[]): readonly OfferedGear[] =>
  parts.flatMap((part) => {
    const of = (key: string): number | undefined => numberIn(part, key);
    const [ratio, driving = 1] = [of('ratio'), of('efficiency')];
    if (ratio === undefined) return [];
    const limits = {
      torque: of('torque'),
      torque_peak: of('torque_peak'),
      torque_stop: of('torque_stop'),
      speed: of('speed'),
      speed_peak: of('speed_peak'),
    };
    return [
      {
        name: part.name,
        cost: costOf(part),
        gear: { ratio, driving, driven: driving, inertia_kg_m2: of('inertia') ?? 0 },
        stiffness_Nm_per_rad: of('stiffness'),
        torqueExponent: of('torque_exponent') ?? lifeExponents.ball,
        limits,
      },
    ];
  });

/** The cheapest first. */
export const drivesOf = (parts: readonly Part[], site: Axis['site']): readonly OfferedDrive[] =>
  parts
    .flatMap((part): readonly (OfferedDrive & { readonly name: string })[] => {
      const drive = driveAt(part, site);
      return drive === undefined ? [] : [{ ...drive, name: part.name, cost: costOf(part) }];
    })
    .toSorted((one, other) => one.cost - other.cost || compare(one.name, other.name));

/** Nothing where it does not say its currents. */
export function driveAt(drive: Figures, site: Axis['site']): Omit<OfferedDrive, 'name' | 'cost'> | undefined {
  const [current, peak] = [numberIn(drive, 'current'), numberIn(drive, 'current_peak')];
  if (current === undefined || peak === undefined) return undefined;
  const left = leftBy(drive, site);
  return { current_A: current * left, peak_A: peak * left, peakTime_s: numberIn(drive, 'current_peak_time') };
}

/** What the surroundings leave of its figures. */
function leftBy(part: Figures, { ambient, altitude }: Axis['site']): number {
  const share = (value: number | undefined, from: string, none: string): number => {
    const [full, nothing] = [numberIn(part, from), numberIn(part, none)];
    if (value === undefined || full === undefined || nothing === undefined) return 1;
    return shareLeft(value, full, nothing);
  };
  return share(numberOf(ambient), 'ambient', 'ambient_none') * share(numberOf(altitude), 'altitude', 'altitude_none');
}

const costOf = (part: Part): number => numberOf(part.cost) ?? 0;
export const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);
