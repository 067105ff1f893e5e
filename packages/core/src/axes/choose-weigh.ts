// One combination of motor, gear and drive held against every limit that the checks ask about.
import { printQuantity } from '../units/print-quantity.ts';
import { firstStrainsOf, type GearedLoad, linesOf, peaksOf, squaresOf, warmthOf } from './calc/choosing.ts';
import { type CurrentPiece, longestOverload } from './calc/drive-current.ts';
import { settledRise } from './calc/heat.ts';
import { antiresonance_Hz } from './calc/stiffness.ts';
import type { OfferedDrive, OfferedGear, OfferedMotor } from './choose-parts.ts';
import { aThird } from './stiffness-of.ts';

/** The share of the capacity that a check shall leave free, by its name within the axes. */
export type Reserves = (check: string) => number;

/** Demand for each part of the capacity, by the name of the check. */
export type Shares = readonly (readonly [check: string, share: number])[];

export interface Weighing {
  readonly turned: GearedLoad;
  /** What the gear is asked for by itself, and the loops by the stiffness that it has. */
  readonly ofGear: Shares;
  readonly motor: OfferedMotor;
  /** The cheapest first; nothing where no drive is asked about. */
  readonly drives: readonly OfferedDrive[] | undefined;
  readonly inertiaRatioAtMost: number;
  readonly held_Nm: number;
  readonly reserve: Reserves;
}

export type Weighed =
  | {
      readonly kind: 'holds';
      readonly drive: OfferedDrive | undefined;
      readonly tightest: string;
      readonly margin: number;
    }
  | Lost;

export interface Lost {
  readonly kind: 'lost';
  readonly over: number;
  readonly check: string;
}

/** What takes longer to find is asked of those alone that what is found at once has let through, unless `whole`. */
export function weigh(weighing: Weighing, whole = false): Weighed {
  const { turned, ofGear, motor, drives, inertiaRatioAtMost, held_Nm, reserve } = weighing;
  const { there, brake_Nm, heating, torqueConstant_Nm_per_A: k } = motor;
  const first = firstStrainsOf(turned, there, inertiaRatioAtMost);
  const shares: (readonly [string, number])[] = [
    ['speed', first.speed],
    ['inertia_ratio', first.inertia_ratio],
    ...ofGear,
  ];
  if (brake_Nm !== undefined) shares.push(['holding', held_Nm / turned.gear.ratio / brake_Nm]);
  const lost = (): Lost | undefined => {
    const worst = worstOf(shares, reserve);
    return worst.over > tolerance ? { kind: 'lost', ...worst } : undefined;
  };
  const early = whole ? undefined : lost();
  if (early !== undefined) return early;
  const { rms_Nm, torque_rms, warmest } = warmthOf(turned, there);
  shares.push(['torque_rms', torque_rms]);
  const warm = whole ? undefined : lost();
  if (warm !== undefined) return warm;
  const { peak_Nm, torque_peak, torque_at_speed } = peaksOf(turned, there);
  shares.push(['torque_peak', torque_peak], ['torque_at_speed', torque_at_speed]);
  const late = lost();
  if (late !== undefined) return late;
  if (heating !== undefined) shares.push(['winding', highestRise(turned, motor, heating) / heating.riseLeft_K]);
  const hot = lost();
  if (hot !== undefined) return hot;
  if (drives === undefined || k === undefined)
    return { kind: 'holds', drive: undefined, ...tightestOf(shares, reserve) };
  const currents = { rms_A: rms_Nm / k, peak_A: peak_Nm / k, course: once(() => currentsOf(weighing, warmest, k)) };
  let nearest: Lost = { kind: 'lost', over: Infinity, check: 'drive_current' };
  for (const drive of drives) {
    const own = driveShares(drive, currents, reserve);
    const worst = worstOf(own, reserve);
    if (worst.over <= tolerance) return { kind: 'holds', drive, ...tightestOf([...shares, ...own], reserve) };
    if (worst.over < nearest.over) nearest = { kind: 'lost', ...worst };
  }
  return nearest;
}

interface Currents {
  readonly rms_A: number;
  readonly peak_A: number;
  /** Of the case that warms most. */
  readonly course: () => readonly CurrentPiece[];
}

function driveShares(
  { current_A, peak_A: most_A, peakTime_s }: OfferedDrive,
  { rms_A, peak_A, course }: Currents,
  reserve: Reserves,
): Shares {
  const shares = [['drive_current', rms_A / current_A] as const, ['drive_peak', peak_A / most_A] as const];
  // A drive that gives too little for any length of time is not asked how long it gives more.
  if (peakTime_s === undefined || rms_A >= current_A || worstOf(shares, reserve).over > tolerance) return shares;
  if (peak_A <= current_A) return [...shares, ['drive_overload', 0]];
  const limits = { continuous_A: current_A, peak_A: Math.max(most_A, current_A * (1 + 1e-9)) };
  return [...shares, ['drive_overload', longestOverload(course(), limits) / peakTime_s]];
}

const currentsOf = ({ turned, motor }: Weighing, warmest: number, k: number): readonly CurrentPiece[] =>
  linesOf(turned, motor.there, warmest).map(({ lasts_s, start_Nm, end_Nm }) => ({
    lasts_s,
    start_A: start_Nm / k,
    end_A: end_Nm / k,
  }));

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

function highestRise(
  { lasting, gear }: GearedLoad,
  { there }: OfferedMotor,
  heating: OfferedMotor['heating'] & object,
) {
  const own = there.inertia_kg_m2 + gear.inertia_kg_m2;
  const { torque_Nm } = heating;
  const rises = lasting.map(({ phases }) => {
    const duty = phases.map((phase) => ({
      lasts_s: phase.lasts_s,
      torque: Math.sqrt(squaresOf(phase, own) / phase.lasts_s) / torque_Nm,
    }));
    return settledRise(heating, duty).highest_K;
  });
  return Math.max(...rises);
}

/** What a gear carries, over all cases. */
export interface Carried {
  readonly peak_Nm: number;
  readonly stop_Nm: number;
  readonly mean_Nm: number;
  readonly speed_rad_per_s: number;
  readonly meanSpeed_rad_per_s: number;
}

export function gearShares({ limits, gear: { ratio } }: OfferedGear, carried: Carried): Shares {
  const against = (check: string, demand: number, capacity: number | undefined): Shares =>
    capacity === undefined ? [] : [[check, demand / capacity]];
  return [
    ...against('gear_peak', carried.peak_Nm, limits.torque_peak),
    ...against('gear_stop', carried.stop_Nm, limits.torque_stop),
    ...against('gear_mean', carried.mean_Nm, limits.torque),
    ...against('gear_speed_peak', carried.speed_rad_per_s * ratio, limits.speed_peak),
    ...against('gear_speed', carried.meanSpeed_rad_per_s * ratio, limits.speed),
  ];
}

export interface Springs {
  readonly wanted_Hz: number;
  /** Of the train at the shaft that the gear or the motor sits on; infinite where it says none. */
  readonly train_Nm_per_rad: number;
  readonly inertia_kg_m2: number;
}

/** Nothing where neither the train nor the gear says a stiffness. */
export function bandwidthShare(
  { wanted_Hz, train_Nm_per_rad, inertia_kg_m2 }: Springs,
  {
    gear: { ratio, inertia_kg_m2: own },
    stiffness_Nm_per_rad: ofGear = Infinity,
  }: Pick<OfferedGear, 'gear' | 'stiffness_Nm_per_rad'>,
): Shares {
  const compliance = 1 / train_Nm_per_rad + 1 / ofGear;
  if (compliance === 0) return [];
  const there = antiresonance_Hz(1 / compliance / ratio ** 2, inertia_kg_m2 / ratio ** 2 + own);
  return [['bandwidth', wanted_Hz / (aThird.value * there)]];
}

/** 'effective torque 8 % over'. */
export const whyOf = ({ check, over }: Lost): string =>
  over === Infinity
    ? 'no drive says its currents'
    : `${words[check] ?? check} ${printQuantity(over, '1', { as: '%', digits: 2 })} over`;

const tolerance = 1e-9;

/** By how much what is asked for exceeds what the reserve leaves, of the check with the most. */
export function worstOf(shares: Shares, reserve: Reserves): { readonly over: number; readonly check: string } {
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
  bandwidth: 'bandwidth',
  drive_current: 'drive current',
  drive_peak: 'drive peak current',
  drive_overload: 'drive overload',
  gear_peak: 'gear, peak torque',
  gear_stop: 'gear, stop',
  gear_mean: 'gear, mean torque',
  gear_speed: 'gear, mean speed',
  gear_speed_peak: 'gear, highest speed',
};
