// One combination of motor, gear and drive held against every limit that the checks ask about.
import type { Axis } from './axis.ts';
import {
  type CaseLoad,
  type ChoiceGear,
  type ChoiceMotor,
  type carriedOf,
  type Driven,
  drivenBy,
  type LossyLoad,
  overloadOf_s,
  peakOf_Nm,
  squareOf,
  strainAtSpeed,
  warmestOf,
} from './calc/choosing.ts';
import { settledRiser } from './calc/heat.ts';
import { continuousAt, peakAt } from './calc/motor-area.ts';
import { compare, costOf, leftBy, motorAt, numberIn, numberOf, type Offered } from './choose-parts.ts';

const checks = [
  'torque_peak',
  'torque_at_speed',
  'torque_rms',
  'speed',
  'inertia_ratio',
  'holding',
  'bandwidth',
  'gear_peak',
  'gear_stop',
  'gear_mean',
  'gear_speed_peak',
  'gear_speed',
  'gear_radial',
  'winding',
  'drive_current',
  'drive_peak',
  'drive_overload',
] as const;
/** By its name within the axes. */
export type CheckName = (typeof checks)[number];

/** The share of the capacity that a check shall leave free. */
export type Reserves = (check: CheckName) => number;

/** Demand for each part of the capacity. */
export type Shares = readonly (readonly [check: CheckName, share: number])[];

/** A motor at the mains and in the surroundings of the machine. */
export interface MotorTried {
  readonly part: Offered;
  readonly there: ChoiceMotor;
  readonly brake_Nm: number | undefined;
  readonly constant_Nm_per_A: number | undefined;
  /** The share of what its winding may warm up that it does in a case; nothing where it does not say. */
  readonly warmth: ((driven: Driven, squares: LossyLoad['lasting'][number]) => number) | undefined;
}

/** A gear before its load. */
export interface GearTried {
  readonly part: Offered | undefined;
  readonly gear: ChoiceGear;
  readonly behind: LossyLoad;
  /** What no motor changes. */
  readonly shares: Shares;
}

/** A drive in the surroundings of the machine. */
export interface DriveTried {
  readonly part: Offered;
  readonly current_A: number;
  readonly peak_A: number;
  readonly peakTime_s: number | undefined;
}

export interface Weighing {
  readonly gear: GearTried;
  readonly motor: MotorTried;
  /** The cheapest first; nothing where drives are not asked about. */
  readonly drives: readonly DriveTried[] | undefined;
}

export type Weighed =
  | {
      readonly kind: 'holds';
      readonly drive: DriveTried | undefined;
      readonly tightest: CheckName;
      readonly margin: number;
    }
  | { readonly kind: 'lost'; readonly over: number; readonly check: CheckName };

const tolerance = 1e-9;

/** What is asked of every combination of an axis; `whole` looks at all checks where the first that fails would do. */
export function weigher(
  reserve: Reserves,
  inertiaRatioAtMost: number,
  { held_Nm, brakeNeeded }: { readonly held_Nm: number; readonly brakeNeeded: boolean },
) {
  const kept = Object.fromEntries(checks.map((check) => [check, 1 - reserve(check)])) as Record<CheckName, number>;
  let [over, most, left, tightest, margin] = [-Infinity, checks[0] as CheckName, Infinity, checks[0] as CheckName, 0];
  const put = (check: CheckName, demanded: number): void => {
    // Nothing of nothing is not enough either.
    const share = Number.isNaN(demanded) ? Infinity : demanded;
    const excess = share / kept[check] - 1;
    const spare = kept[check] - share;
    if (excess > over) [over, most] = [excess, check];
    if (spare < left) [left, tightest, margin] = [spare, check, 1 - share];
  };
  /** Whether a share that is no larger could fail, or be the tightest. */
  const matters = (check: CheckName, atMost: number): boolean =>
    !(atMost / kept[check] - 1 <= 0 && kept[check] - atMost >= left);
  const lost = (): Weighed => ({ kind: 'lost', over, check: most });

  return ({ gear: { gear, behind, shares }, motor, drives }: Weighing, whole = false): Weighed => {
    over = -Infinity;
    left = Infinity;
    const { there, brake_Nm, constant_Nm_per_A: k, warmth } = motor;
    const { area } = there;
    const { highest_rad_per_s, inertia_kg_m2 } = behind.load;
    put('speed', (highest_rad_per_s * gear.ratio) / area.highest_rad_per_s);
    put(
      'inertia_ratio',
      (inertia_kg_m2 / gear.ratio ** 2 + gear.inertia_kg_m2) / there.inertia_kg_m2 / inertiaRatioAtMost,
    );
    if (brake_Nm !== undefined) put('holding', held_Nm / gear.ratio / brake_Nm);
    else if (brakeNeeded) put('holding', Infinity);
    for (const [check, share] of shares) put(check, share);
    if (!whole && over > tolerance) return lost();
    const driven = drivenBy(behind, gear, there);
    const peak_Nm = peakOf_Nm(driven);
    put('torque_peak', peak_Nm / area.peak_Nm);
    const warmest = warmestOf(driven, there.coolingAtRest);
    const meanSpeed = (warmest?.squares.meanSpeed_rad_per_s ?? 0) * gear.ratio;
    const rms_Nm = warmest?.rms_Nm ?? 0;
    put('torque_rms', rms_Nm / (there.left * continuousTorque(there, meanSpeed)));
    if (!whole && over > tolerance) return lost();
    const end = Math.min(highest_rad_per_s * gear.ratio, area.highest_rad_per_s);
    if (whole || matters('torque_at_speed', peak_Nm / peakAt(area, end)))
      put('torque_at_speed', strainAtSpeed(driven, area));
    if (warmth !== undefined && warmest !== undefined) put('winding', warmth(driven, warmest.squares));
    if (over > tolerance) return lost();
    if (drives === undefined || k === undefined) return { kind: 'holds', drive: undefined, tightest, margin };
    const [ownOver, ownMost, ownLeft, ownTightest, ownMargin] = [over, most, left, tightest, margin];
    let nearest: Weighed = { kind: 'lost', over: Infinity, check: 'drive_current' };
    for (const drive of drives) {
      over = ownOver;
      most = ownMost;
      left = ownLeft;
      tightest = ownTightest;
      margin = ownMargin;
      put('drive_current', rms_Nm / k / drive.current_A);
      put('drive_peak', peak_Nm / k / drive.peak_A);
      if (over <= tolerance && warmest !== undefined)
        putOverload(drive, k, driven, warmest.squares.of, peak_Nm, rms_Nm);
      if (over <= tolerance) return { kind: 'holds', drive, tightest, margin };
      if (over < nearest.over) nearest = { kind: 'lost', over, check: most };
    }
    return nearest;
  };

  function putOverload(drive: DriveTried, k: number, driven: Driven, each: CaseLoad, peak_Nm: number, rms_Nm: number) {
    const { current_A: continuous_A, peak_A, peakTime_s } = drive;
    if (peakTime_s === undefined || rms_Nm / k >= continuous_A) return;
    const highest_A = peak_Nm / k;
    const room = peak_A ** 2 - continuous_A ** 2;
    const atMost_s = room > 0 ? (Math.max(0, highest_A ** 2 - continuous_A ** 2) / room) * each.lasts_s : Infinity;
    if (matters('drive_overload', atMost_s / peakTime_s))
      put('drive_overload', overloadOf_s(driven, each, { continuous_A, peak_A, constant_Nm_per_A: k }) / peakTime_s);
  }
}

const continuousTorque = ({ area }: ChoiceMotor, speed: number): number =>
  continuousAt(area, Math.min(speed, area.highest_rad_per_s));

export function motorTried(part: Offered, axis: Axis): MotorTried {
  const there = motorAt(part, axis);
  const figures = ['temperature_rise', 'rise_in_winding', 'time_winding', 'time_frame', 'winding_at_most'] as const;
  const [rise_K, windingShare, winding_s, frame_s, most_K] = figures.map((key) => numberIn(part, key));
  const ambient_K = numberOf(axis.site.ambient);
  const known = { rise_K: rise_K!, windingShare: windingShare!, winding_s: winding_s!, frame_s: frame_s! };
  const says = [rise_K, windingShare, winding_s, frame_s, most_K, ambient_K].every((each) => each !== undefined);
  /** By the case, which has its own times. */
  const risers = new Map<CaseLoad, { readonly losses: Float64Array; readonly rise: ReturnType<typeof settledRiser> }>();
  const warmth: MotorTried['warmth'] = (driven, { of, phases }) => {
    let riser = risers.get(of);
    if (riser === undefined) {
      const rise = settledRiser(
        known,
        of.phases.map(({ lasts_s }) => lasts_s),
      );
      riser = { losses: new Float64Array(phases.length), rise };
      risers.set(of, riser);
    }
    const { losses, rise } = riser;
    for (let at = 0; at < phases.length; at++)
      losses[at] = squareOf(driven, phases[at]!) / of.phases[at]!.lasts_s / there.area.torque_Nm ** 2;
    return rise(losses) / Math.max(0, most_K! - ambient_K!);
  };
  return {
    part,
    there,
    brake_Nm: numberIn(part, 'brake'),
    constant_Nm_per_A: numberIn(part, 'torque_constant'),
    warmth: says ? warmth : undefined,
  };
}

/** The cheapest first. */
export const drivesOf = (parts: readonly Offered[], site: Axis['site']): readonly DriveTried[] =>
  parts
    .flatMap((part): readonly DriveTried[] => {
      const [current, peak] = [numberIn(part, 'current'), numberIn(part, 'current_peak')];
      if (current === undefined || peak === undefined) return [];
      const left = leftBy(part, site);
      const peakTime_s = numberIn(part, 'current_peak_time');
      return [{ part, current_A: current * left, peak_A: peak * left, peakTime_s }];
    })
    .toSorted((one, other) => costOf(one.part) - costOf(other.part) || compare(one.part.name, other.part.name));

export type GearDemand = ReturnType<typeof carriedOf> & {
  /** Nothing where the train does not tell it. */
  readonly radial_N: number | undefined;
};

export function gearShares(gear: Offered, demand: GearDemand): Shares {
  const ratio = numberIn(gear, 'ratio')!;
  const against = (check: CheckName, key: string, asked: number | undefined): Shares => {
    const capacity = numberIn(gear, key);
    return capacity === undefined || asked === undefined ? [] : [[check, asked / capacity]];
  };
  return [
    ...against('gear_peak', 'torque_peak', demand.peak_Nm),
    ...against('gear_stop', 'torque_stop', demand.stop_Nm),
    ...against('gear_mean', 'torque', demand.mean_Nm),
    ...against('gear_speed_peak', 'speed_peak', demand.peak_rad_per_s * ratio),
    ...against('gear_speed', 'speed', demand.mean_rad_per_s * ratio),
    ...against('gear_radial', 'radial_load', demand.radial_N),
  ];
}
