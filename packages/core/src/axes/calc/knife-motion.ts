// One cut of a rotary knife as a motion over the web: with the web in the cut, and made up for between the cuts.
// The web is the master and takes the place of time: `duration_s` counts metres of web, as if it ran at 1 m/s, and a
// velocity is in rad per m. That the knife waits in the middle of its way when cuts get long is common practice, no source.
import { printQuantity } from '../../units/print-quantity.ts';
import { type LawName, motionLaws } from './motion-law.ts';
import { mustBeOverZero } from './over-zero.ts';
import { dwell, end_s, type Motion, type Piece, scaled } from './segment.ts';

export interface Knife {
  /** Over the blades, in m. */
  readonly circumference: number;
  readonly blades: number;
  /** Angle at the speed of the web, the cut in its middle. */
  readonly working_rad: number;
  /** The law by which the knife departs from the speed of the web and comes back to it. */
  readonly recover: LawName;
}

/**
 * From one cut to the next, which is `cutLength` of web in m and one blade's angle later: half of the working zone, the
 * recovery, half of the working zone. The recovery is a straight line at the speed of the web and, added to it, a stroke
 * by the law: forwards for a cut shorter than the synchronous length, backwards for a longer one. Beyond the critical
 * length the knife stands still in the middle of its way, for the web that is too much. Throws a RangeError for measures
 * that are not over 0, for a zone as wide as the angle between blades, and for a cut no longer than the web of its zone.
 */
export function knifeMotion({ cutLength, ...knife }: Knife & { readonly cutLength: number }): readonly Piece[] {
  const critical = criticalLength(knife);
  mustBeOverZero({ 'the length of a cut': cutLength });
  const { pitch_rad, recovery_rad, turning, zone } = shapeOf(knife);
  if (cutLength <= zone)
    throw new RangeError(
      `cuts of ${printQuantity(cutLength, 'm')} end within the ${printQuantity(zone, 'm')} of web at whose speed the knife turns`,
    );
  const waiting = Math.max(0, cutLength - critical);
  const length = Math.min(cutLength, critical) - zone;
  const stroke = recovery_rad - turning * length;
  const { working_rad, recover } = knife;
  const synchronous = (from: number): Piece => ({ duration_s: zone / 2, polynomial: [from, turning] });
  const { before, behind } = halves(motionLaws[recover].unit);
  const recovery = onLine(scaled([...before, ...behind], { stroke, time: length, from: working_rad / 2 }), turning);
  return [
    synchronous(0),
    ...recovery.slice(0, before.length),
    ...(waiting > 0 ? [dwell(waiting, pitch_rad / 2)] : []),
    ...recovery.slice(before.length),
    synchronous(pitch_rad - working_rad / 2),
  ];
}

/**
 * The longest cut, in m of web, that a knife makes without standing still: at the law's peak velocity C the stroke
 * backwards just takes away the speed of the web. Throws a RangeError as the motion does.
 */
export function criticalLength(knife: Knife): number {
  const { recovery_rad, turning, zone } = shapeOf(knife);
  const C = motionLaws[knife.recover].peakVelocity;
  return zone + ((recovery_rad / turning) * C) / (C - 1);
}

/** The angle between blades and what the zone leaves of it, the turning in rad per m at the speed of the web, the web of the zone. */
function shapeOf({ circumference, blades, working_rad }: Knife) {
  mustBeOverZero({
    'the circumference': circumference,
    'the number of blades': blades,
    'the working zone': working_rad,
  });
  const pitch_rad = (2 * Math.PI) / blades;
  if (working_rad >= pitch_rad)
    throw new RangeError(
      `a working zone of ${printQuantity(working_rad, 'rad')} leaves nothing of the ${printQuantity(pitch_rad, 'rad')} from blade to blade`,
    );
  const turning = (2 * Math.PI) / circumference;
  return { pitch_rad, recovery_rad: pitch_rad - working_rad, turning, zone: working_rad / turning };
}

/** Pieces one behind the other with a straight line from 0 added. */
function onLine(pieces: readonly Piece[], slope: number): readonly Piece[] {
  let past = 0;
  return pieces.map((piece) => {
    const [position = 0, velocity = 0, ...rest] = piece.polynomial;
    const polynomial = [position + slope * past, velocity + slope, ...rest];
    past += piece.duration_s;
    return { ...piece, polynomial };
  });
}

/** A law of one second before and behind its middle, where the one piece that goes across is cut in two. */
function halves(unit: Motion): { readonly before: readonly Piece[]; readonly behind: readonly Piece[] } {
  const middle = 0.5;
  const before = unit.filter(({ start_s }) => start_s < middle);
  const behind = unit.filter((segment) => end_s(segment) > middle);
  return {
    before: before.map((piece) => ({ ...piece, duration_s: Math.min(piece.duration_s, middle - piece.start_s) })),
    behind: behind.map((piece) => laterBy(Math.max(0, middle - piece.start_s), piece)),
  };
}

/** What is left of a piece when it has gone on for a while: the same curve, its time counted from there. */
function laterBy(t_s: number, { duration_s, polynomial, sine }: Piece): Piece {
  const shifted = [...polynomial];
  for (let lowest = 0; lowest < shifted.length; lowest++)
    for (let power = shifted.length - 2; power >= lowest; power--) shifted[power]! += t_s * shifted[power + 1]!;
  return {
    duration_s: duration_s - t_s,
    polynomial: shifted,
    ...(sine !== undefined && { sine: { ...sine, phase_rad: sine.phase_rad + sine.rate_rad_per_s * t_s } }),
  };
}
