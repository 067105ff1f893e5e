// Parts of a catalogue in plain numbers, in the surroundings and at the mains of the machine.
import type { Part } from '../reading/parts.ts';
import { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import type { ChoiceGear, ChoiceMotor } from './calc/choosing.ts';
import { shareLeft } from './calc/derating.ts';

/** A part that can be taken, or what the file itself says of one. */
export type Offered = Pick<Part, 'name' | 'values'> & Partial<Pick<Part, 'cost'>>;

/** Gives a part what the file says beside the place that is open: that goes before the part's own. */
export function withOwn(own: object | undefined): (part: Offered) => Offered {
  const said = Object.fromEntries(Object.entries(own ?? {}).filter(([, value]) => value instanceof Quantity));
  return Object.keys(said).length === 0 ? (part) => part : (part) => ({ ...part, values: { ...part.values, ...said } });
}

export const numberOf = (value: unknown): number | undefined => (value instanceof Quantity ? value.value : undefined);
export const numberIn = (part: Offered | undefined, key: string): number | undefined => numberOf(part?.values[key]);
export const costOf = (part: Offered | undefined): number => numberOf(part?.cost) ?? 0;
export const hasRatio = (gear: Offered): boolean => numberIn(gear, 'ratio') !== undefined;
export const canBeWeighed = (motor: Offered): boolean =>
  ['inertia', 'torque', 'torque_peak', 'speed'].every((key) => numberIn(motor, key) !== undefined);

export const gearOf = (gear: Offered): ChoiceGear => {
  const driving = numberIn(gear, 'efficiency') ?? 1;
  return {
    ratio: numberIn(gear, 'ratio')!,
    driving,
    driven: numberIn(gear, 'efficiency_back') ?? driving,
    inertia_kg_m2: numberIn(gear, 'inertia') ?? 0,
  };
};

/** What the surroundings leave of its figures. */
export function leftBy(part: Offered, { ambient, altitude }: Axis['site']): number {
  const share = (value: number | undefined, from: string, none: string): number => {
    const [full, nothing] = [numberIn(part, from), numberIn(part, none)];
    if (value === undefined || full === undefined || nothing === undefined) return 1;
    return shareLeft(value, full, nothing);
  };
  return share(numberOf(ambient), 'ambient', 'ambient_none') * share(numberOf(altitude), 'altitude', 'altitude_none');
}

export function motorAt(motor: Offered, { site }: Axis): ChoiceMotor {
  const mains = numberIn(motor, 'mains');
  const low = numberOf(site.low);
  const voltage = mains === undefined || low === undefined ? 1 : low / mains;
  const [torque_Nm, highest] = [numberIn(motor, 'torque')!, numberIn(motor, 'speed')!];
  const rated = numberIn(motor, 'torque_rated');
  return {
    inertia_kg_m2: numberIn(motor, 'inertia')!,
    area: {
      torque_Nm,
      ratedTorque_Nm: rated ?? torque_Nm,
      // Without the rated point the torque is taken to stay, as the checks take it.
      ratedSpeed_rad_per_s: numberIn(motor, 'speed_rated') ?? Infinity,
      peak_Nm: numberIn(motor, 'torque_peak')!,
      peakUpTo_rad_per_s: ((rated && numberIn(motor, 'speed_peak_torque')) ?? highest) * voltage,
      highest_rad_per_s: highest * voltage,
    },
    left: leftBy(motor, site),
    coolingAtRest: numberIn(motor, 'cooling_at_rest') ?? 1,
  };
}

export const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);
