// Why a part is not chosen, in words: what is over and by how much, or which two things ask for ratios that exclude each other.
import { printQuantity } from '../units/print-quantity.ts';
import { type ChoiceMotor, type LossyLoad, squareOf } from './calc/choosing.ts';
import type { CheckName, Reserves } from './choose-weigh.ts';

const words: Readonly<Record<CheckName, string>> = {
  torque_peak: 'peak torque',
  torque_at_speed: 'torque at speed',
  torque_rms: 'effective torque',
  speed: 'speed',
  inertia_ratio: 'inertia',
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
  gear_radial: 'gear, radial load',
};

interface Over {
  readonly check: CheckName;
  readonly over: number;
}

/** What a brake holds is over nothing wherever there is one. */
export const isWithoutBrake = ({ check, over }: Over): boolean => check === 'holding' && over === Infinity;

/** 'effective torque 8 % over'. */
export const overBy = ({ check, over }: Over): string =>
  isWithoutBrake({ check, over })
    ? 'has no brake'
    : Number.isFinite(over)
      ? `${words[check]} ${printQuantity(over, '1', { as: '%', digits: 2 })} over`
      : `${words[check]}: nothing is left`;

export interface MotorAsked {
  readonly motor: ChoiceMotor;
  readonly brake_Nm: number | undefined;
  readonly inertiaRatioAtMost: number;
  readonly held_Nm: number;
  readonly reserve: Reserves;
}

/**
 * 'inertia needs ratio 7, speed allows 5': which ratios a motor could have with a gear that neither loses nor weighs
 * anything. Nothing where one would do; what a real gear adds is then in the nearest try.
 */
export function contradictionOf(load: LossyLoad, { motor, brake_Nm, ...asked }: MotorAsked): string | undefined {
  const { inertiaRatioAtMost, held_Nm, reserve } = asked;
  const { inertia_kg_m2: own, area, left } = motor;
  const kept = (check: CheckName): number => 1 - reserve(check);
  const needs: [CheckName, number][] = [
    ['inertia_ratio', Math.sqrt(load.load.inertia_kg_m2 / (inertiaRatioAtMost * kept('inertia_ratio') * own))],
  ];
  if (brake_Nm !== undefined) needs.push(['holding', held_Nm / (brake_Nm * kept('holding'))]);
  const allows: [CheckName, number][] = [
    ['speed', (area.highest_rad_per_s * kept('speed')) / load.load.highest_rad_per_s],
  ];
  const torque = left * Math.max(area.torque_Nm, area.ratedTorque_Nm) * kept('torque_rms');
  for (const squares of load.lasting) {
    // own/y + mixed·J + inertial·J²·y is the square of the torque by time, y being that of the ratio.
    const [a, b, c] = [
      squares.inertial * own ** 2,
      squares.mixed * own - torque ** 2 * (squares.of.lasts_s - squares.of.rest_s * (1 - motor.coolingAtRest)),
      squares.own,
    ];
    const within = b * b - 4 * a * c;
    if (b >= 0 || within < 0) {
      if (a === 0 || c === 0) continue;
      const best = (c / a) ** (1 / 4);
      const least = squareOf({ ratio: best, atOutput_kg_m2: own * best ** 2 }, squares);
      const over = Math.sqrt(least / (squares.mixed * own - b)) - 1;
      return `${overBy({ check: 'torque_rms', over })} at any ratio`;
    }
    const far = (-b + Math.sqrt(within)) / 2;
    needs.push(['torque_rms', Math.sqrt(c / far)]);
    if (a > 0) allows.push(['torque_rms', Math.sqrt(far / a)]);
  }
  const need = needs.reduce((most, each) => (each[1] > most[1] ? each : most));
  const allow = allows.reduce((least, each) => (each[1] < least[1] ? each : least));
  if (!(need[1] > allow[1] * (1 + 1e-9)) || !Number.isFinite(need[1])) return undefined;
  const digits = [2, 3, 4].find((many) => ratio(need[1], many) !== ratio(allow[1], many)) ?? 6;
  return `${words[need[0]]} needs ratio ${ratio(need[1], digits)}, ${words[allow[0]]} allows ${ratio(allow[1], digits)}`;
}

const ratio = (value: number, digits = 2): string => printQuantity(value, '1', { digits });
