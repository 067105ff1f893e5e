// Mean loads of a gear against the life that samples take one by one, and against integrals in closed form.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { acrossForPull, lifeExponents, pullAcross, wear } from './gear-load.ts';

const about = 'test';
const random = seeded(21);
/** Durations are whole numbers of 10 ms, so that samples miss nothing. */
const cycle = Array.from({ length: 9 }, (_, at) => ({
  load: 200 * random(),
  speed: at === 4 ? 0 : 60 * random(),
  hundredths: 1 + Math.floor(60 * random()),
}));
function torque(pieces: typeof cycle, p: number): number {
  const worn = wear(p);
  for (const { load, speed, hundredths } of pieces) worn.add(load, (speed * hundredths) / 100);
  return worn.mean();
}

describe('a cycle of a gear', () => {
  it.each([1, lifeExponents.ball, lifeExponents.roller])(
    'the mean load of a gear takes as much life as its samples: power %f',
    (p) => {
      const life = { N: 60, turns: 1e6 };
      const used = (load: number, angle: number) => angle / (2 * Math.PI) / (life.turns * (life.N / load) ** p);
      let [taken, angle] = [0, 0];
      for (const { load, speed, hundredths } of cycle)
        for (let at = 0; at < hundredths; at++) {
          taken += used(load, speed * 0.01);
          angle += speed * 0.01;
        }
      expect(used(torque(cycle, p), angle) / taken).toBeCloseTo(1, 9);
    },
  );

  it('does not see pauses, nor the order, and lies between mean and peak', () => {
    const p = lifeExponents.ball;
    const whole = torque(cycle, p);
    expect(torque(cycle.toReversed(), p)).toBeCloseTo(whole, 9);
    expect(torque([...cycle, { load: 500, speed: 0, hundredths: 400 }], p)).toBe(whole);
    expect(whole).toBeGreaterThan(torque(cycle, 1));
    expect(whole).toBeLessThan(torque(cycle, lifeExponents.roller));
    expect(torque(cycle, lifeExponents.roller)).toBeLessThan(Math.max(...cycle.map(({ load }) => load)));
  });

  it('in many small pieces comes to the integral of a torque that rises in a straight line', () => {
    const [from, to] = [20, 110];
    for (const p of Object.values(lifeExponents)) {
      const pieces = Array.from({ length: 2000 }, (_, at) => ({
        load: from + ((to - from) * (at + 0.5)) / 2000,
        speed: 30,
        hundredths: 1,
      }));
      const integral = (to ** (p + 1) - from ** (p + 1)) / ((p + 1) * (to - from));
      expect(torque(pieces, p) / integral ** (1 / p)).toBeCloseTo(1, 6);
    }
  });

  it('without a turn wears nothing', () => {
    expect(torque([{ load: 5, speed: 0, hundredths: 3 }], 3)).toBe(0);
    expect(torque([], 3)).toBe(0);
  });
});

describe('a wheel on a shaft', () => {
  it('a pull across a shaft is the sum of what meets at its wheel', () => {
    const [torque_Nm, diameter_m] = [36, 0.09];
    const pull = torque_Nm / (diameter_m / 2);
    const across = (of: keyof typeof acrossForPull): number =>
      pullAcross({ s: q(acrossForPull[of].share, '1'), T: q(torque_Nm, 'N·m'), D: q(diameter_m, 'm') }, about).value;
    // Of two strands the loose one keeps a quarter of the pull that the other has more.
    expect(across('belt')).toBeCloseTo(pull / 4 + (pull + pull / 4), 9);
    // Teeth push along their normal: tangentially the pull, and towards the shaft its part by the pressure angle.
    expect(across('rack')).toBeCloseTo(Math.hypot(pull, pull * Math.tan((20 * Math.PI) / 180)), 9);
    expect(across('drum')).toBeCloseTo(pull, 12);
  });
});
