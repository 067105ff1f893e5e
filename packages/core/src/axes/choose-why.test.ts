// Ratios that exclude each other, against trying a thousand of them.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { type ChoiceLoad, type ChoiceMotor, direct, drivenBy, warmestOf, withLosses } from './calc/choosing.ts';
import { contradictionOf } from './choose-why.ts';

/** To and fro by straight ramps, against a friction of its own. */
function loadOf(random: () => number): ChoiceLoad {
  const inertia_kg_m2 = 10 ** (-3 + 3 * random());
  const acceleration = 1 + 400 * random();
  const friction = random() < 0.3 ? 0 : 30 * random();
  const points = 20;
  const each = (of: (at: number) => number): Float64Array => Float64Array.from({ length: points }, (_, at) => of(at));
  const sign = (at: number): number => (at < points / 2 ? 1 : -1);
  const lasts_s = 1 + random();
  const whole = { from: 0, to: points, lasts_s, stands: false };
  return {
    load_Nm: each(() => friction),
    inertial_Nm: each((at) => sign(at) * acceleration * inertia_kg_m2),
    acceleration_rad_per_s2: each((at) => sign(at) * acceleration),
    speed_rad_per_s: each((at) => (acceleration * lasts_s * Math.min(at, points - 1 - at)) / points),
    going: each(() => 1),
    weight_s: each(() => lasts_s / points),
    cases: [{ kind: 'cycle', phases: [whole], steps: [], lasts_s, rest_s: 0 }],
    highest_rad_per_s: (acceleration * lasts_s * (points / 2 - 1)) / points,
    inertia_kg_m2,
    lossOnInertia: true,
  };
}

const reserve = (check: string): number => (check === 'inertia_ratio' ? 0 : 0.1);

describe('a motor that no ratio suits', () => {
  it('is one for which none of a thousand ratios does', () => {
    const random = seeded(8);
    const told = { any: 0, contradiction: 0, none: 0 };
    for (let round = 0; round < 400; round++) {
      const load = withLosses(loadOf(random), direct);
      const torque = 10 ** (-1 + 2.5 * random());
      const highest = 100 + 500 * random();
      const motor: ChoiceMotor = {
        inertia_kg_m2: 10 ** (-5 + 2 * random()),
        area: {
          torque_Nm: torque,
          ratedTorque_Nm: torque,
          ratedSpeed_rad_per_s: highest,
          peak_Nm: 3 * torque,
          peakUpTo_rad_per_s: highest,
          highest_rad_per_s: highest,
        },
        left: 1,
        coolingAtRest: 1,
      };
      const holds = (ratio: number): boolean => {
        const driven = drivenBy(load, { ...direct, ratio }, motor);
        return (
          load.load.highest_rad_per_s * ratio <= 0.9 * highest &&
          load.load.inertia_kg_m2 / ratio ** 2 / motor.inertia_kg_m2 <= 10 &&
          warmestOf(driven, 1)!.rms_Nm <= 0.9 * torque
        );
      };
      const some = Array.from({ length: 1000 }, (_, at) => 10 ** (-2 + (at * 6) / 999)).some(holds);
      const why = contradictionOf(load, { motor, brake_Nm: undefined, inertiaRatioAtMost: 10, held_Nm: 0, reserve });
      if (some) expect(why).toBeUndefined();
      told[why === undefined ? 'none' : why.includes('needs') ? 'contradiction' : 'any']++;
      if (why?.includes('any')) expect(why).toMatch(/^effective torque [\d.]+ ?% over at any ratio$/);
      const [, need, allow] = /needs ratio ([\d.]+), .* allows ([\d.]+)$/.exec(why ?? '') ?? [];
      if (need !== undefined) expect(Number(need)).toBeGreaterThan(Number(allow));
    }
    expect(told.any).toBeGreaterThan(20);
    expect(told.contradiction).toBeGreaterThan(20);
    expect(told.none).toBeGreaterThan(20);
  });
});
