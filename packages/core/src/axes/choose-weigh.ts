// One combination of motor, gear and drive held against every limit that the checks ask about.
import type { Part } from '../reading/parts.ts';
import { printQuantity } from '../units/print-quantity.ts';
import type { Axis } from './axis.ts';
import { type ChoiceMotor, firstStrainsOf, type GearedLoad, strainsOf } from './calc/choosing.ts';
import { settledRise } from './calc/heat.ts';
import { compare, costOf, leftBy, numberIn, numberOf } from './choose-parts.ts';

/** The share of the capacity that a check shall leave free, by its name within the axes. */
export type Reserves = (check: string) => number;

/** Demand for each part of the capacity, by the name of the check. */
type Shares = readonly (readonly [check: string, share: number])[];

export interface Weighing {
  readonly axis: Axis;
  readonly turned: GearedLoad;
  readonly motor: Part;
  /** The motor at the mains and in the surroundings of the machine. */
  readonly there: ChoiceMotor;
  readonly most: number;
  readonly held_Nm: number;
  readonly ofGear: Shares;
  /** Nothing where no drive is open. */
  readonly drives: readonly OfferedDrive[] | undefined;
  readonly reserve: Reserves;
}

export type Weighed =
  | { readonly kind: 'holds'; readonly drive: Part | undefined; readonly tightest: string; readonly margin: number }
  | { readonly kind: 'lost'; readonly over: number; readonly check: string };

export function weigh(
  { axis, turned, motor, there, most, held_Nm, ofGear, drives, reserve }: Weighing,
  whole = false,
): Weighed {
  const first = firstStrainsOf(turned, there, most);
  const brake = numberIn(motor, 'brake');
  const cheap: Shares = [
    ['speed', first.speed],
    ['inertia_ratio', first.inertia_ratio],
    ...(brake === undefined ? [] : [['holding', held_Nm / turned.gear.ratio / brake] as const]),
    ...ofGear,
  ];
  // Only what this lets through is worth a walk along the cycle, and only what that lets through the time that heat takes.
  const early = worstOf(cheap, reserve);
  if (!whole && early.over > tolerance) return { kind: 'lost', ...early };
  const strains = strainsOf(turned, there);
  const fixed: Shares = [
    ['torque_peak', strains.torque_peak],
    ['torque_at_speed', strains.torque_at_speed],
    ['torque_rms', strains.torque_rms],
    ...cheap,
  ];
  const worst = worstOf(fixed, reserve);
  if (worst.over > tolerance) return { kind: 'lost', ...worst };
  const warm = windingShare(turned, motor, there, axis);
  const own: Shares = warm === undefined ? fixed : [...fixed, ['winding', warm]];
  const warmed = warm === undefined ? worst : worstOf(own, reserve);
  if (warmed.over > tolerance) return { kind: 'lost', ...warmed };
  const k = numberIn(motor, 'torque_constant');
  if (drives === undefined || k === undefined) return { kind: 'holds', drive: undefined, ...tightestOf(own, reserve) };
  const { rms_Nm, peak_Nm } = strains;
  const sharesOf = ({ current_A, peak_A }: OfferedDrive): Shares => [
    ['drive_current', rms_Nm / k / current_A],
    ['drive_peak', peak_Nm / k / peak_A],
  ];
  const least = drives.find(
    ({ current_A, peak_A }) =>
      rms_Nm / k <= current_A * (1 - reserve('drive_current')) * (1 + tolerance) &&
      peak_Nm / k <= peak_A * (1 - reserve('drive_peak')) * (1 + tolerance),
  );
  if (least !== undefined)
    return { kind: 'holds', drive: least.part, ...tightestOf([...own, ...sharesOf(least)], reserve) };
  const largest = drives.at(-1);
  return largest === undefined
    ? { kind: 'lost', over: Infinity, check: 'drive_current' }
    : { kind: 'lost', ...worstOf(sharesOf(largest), reserve) };
}

/** A drive in the surroundings of the machine. */
export interface OfferedDrive {
  readonly part: Part;
  readonly current_A: number;
  readonly peak_A: number;
}

/** The cheapest first. */
export const drivesOf = (parts: readonly Part[], site: Axis['site']): readonly OfferedDrive[] =>
  parts
    .flatMap((part): readonly OfferedDrive[] => {
      const [current, peak] = [numberIn(part, 'current'), numberIn(part, 'current_peak')];
      if (current === undefined || peak === undefined) return [];
      const left = leftBy(part, site);
      return [{ part, current_A: current * left, peak_A: peak * left }];
    })
    .toSorted((one, other) => costOf(one.part) - costOf(other.part) || compare(one.part.name, other.part.name));

/** 'effective torque 8 % over'. */
export const whyOf = ({ check, over }: Extract<Weighed, { kind: 'lost' }>): string =>
  `${words[check] ?? check} ${printQuantity(over, '1', { as: '%', digits: 2 })} over`;

const tolerance = 1e-9;

/** By how much what is asked for exceeds what the reserve leaves, of the check with the most. */
function worstOf(shares: Shares, reserve: Reserves): { readonly over: number; readonly check: string } {
  let [over, name] = [-Infinity, ''];
  for (const [check, share] of shares) {
    const excess = share / (1 - reserve(check)) - 1;
    if (excess > over) [over, name] = [excess, check];
  }
  return { over, check: name };
}

function tightestOf(shares: Shares, reserve: Reserves): { readonly tightest: string; readonly margin: number } {
  let [left, tightest, margin] = [Infinity, '', 0];
  for (const [check, share] of shares) {
    if (1 - share - reserve(check) < left) [left, tightest, margin] = [1 - share - reserve(check), check, 1 - share];
  }
  return { tightest, margin };
}

const words: Readonly<Record<string, string>> = {
  torque_peak: 'peak torque',
  torque_at_speed: 'torque at speed',
  torque_rms: 'effective torque',
  speed: 'speed',
  inertia_ratio: 'inertia ratio',
  winding: 'winding',
  holding: 'holding brake',
  drive_current: 'drive current',
  drive_peak: 'drive peak current',
  gear_peak: 'gear, peak torque',
  gear_stop: 'gear, stop',
  gear_mean: 'gear, mean torque',
  gear_speed: 'gear, mean speed',
  gear_speed_peak: 'gear, highest speed',
};

function windingShare(turned: GearedLoad, motor: Part, there: ChoiceMotor, { site }: Axis): number | undefined {
  const [rise_K, windingShare, winding_s, frame_s, most_K, torque_Nm] = [
    'temperature_rise',
    'rise_in_winding',
    'time_winding',
    'time_frame',
    'winding_at_most',
    'torque',
  ].map((key) => numberIn(motor, key));
  const ambient_K = numberOf(site.ambient);
  if ([rise_K, windingShare, winding_s, frame_s, most_K, torque_Nm, ambient_K].includes(undefined)) return undefined;
  const own = there.inertia_kg_m2 + turned.gear.inertia_kg_m2;
  const { load, torque_Nm: torques, acceleration_rad_per_s2 } = turned;
  const rises = load.lasting.map(({ phases }) => {
    const heating = { rise_K: rise_K!, windingShare: windingShare!, winding_s: winding_s!, frame_s: frame_s! };
    const duty = phases.map(({ from, to, lasts_s }) => {
      let squares = 0;
      for (let at = from; at < to; at++) {
        const torque = torques[at]! + own * acceleration_rad_per_s2[at]!;
        squares += load.weight_s[at]! * torque * torque;
      }
      return { lasts_s, torque: Math.sqrt(squares / lasts_s) / torque_Nm! };
    });
    return settledRise(heating, duty).highest_K;
  });
  return Math.max(...rises) / Math.max(0, most_K! - ambient_K!);
}

export function gearShares(
  gear: Part,
  duty: {
    readonly peak: number;
    readonly stop: number;
    readonly mean: number;
    readonly speed: number;
    readonly meanSpeed: number;
  },
): Shares {
  const ratio = numberIn(gear, 'ratio')!;
  const against = (check: string, key: string, demand: number): Shares => {
    const capacity = numberIn(gear, key);
    return capacity === undefined ? [] : [[check, demand / capacity]];
  };
  return [
    ...against('gear_peak', 'torque_peak', duty.peak),
    ...against('gear_stop', 'torque_stop', duty.stop),
    ...against('gear_mean', 'torque', duty.mean),
    ...against('gear_speed_peak', 'speed_peak', duty.speed * ratio),
    ...against('gear_speed', 'speed', duty.meanSpeed * ratio),
  ];
}
