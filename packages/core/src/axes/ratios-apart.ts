// Why no ratio does for a motor: its inertia asks for a larger one than its speed allows.
import { printQuantity } from '../units/print-quantity.ts';
import type { ChoiceLoad, ChoiceMotor } from './calc/choosing.ts';
import type { Reserves } from './choose-weigh.ts';

/** 'inertia needs ratio 7, speed allows 5', both as far as the reserves go; nothing where a ratio would do for both. */
export function ratiosApart(
  { inertia_kg_m2, speed_rad_per_s }: ChoiceLoad,
  { inertia_kg_m2: rotor, area }: ChoiceMotor,
  inertiaRatioAtMost: number,
  reserve: Reserves,
): string | undefined {
  const highest = speed_rad_per_s.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  const allowed = (area.highest_rad_per_s * (1 - reserve('speed'))) / highest;
  const needed = Math.sqrt(inertia_kg_m2 / (rotor * inertiaRatioAtMost * (1 - reserve('inertia_ratio'))));
  if (!(needed > allowed)) return undefined;
  const said = (ratio: number): string => printQuantity(ratio, '1', { digits: needed < 1.1 * allowed ? 4 : 2 });
  return `inertia needs ratio ${said(needed)}, speed allows ${said(allowed)}`;
}
