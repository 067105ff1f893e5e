// Rolls against their differential equation, integrated turn by turn of a small angle, and webs against their energy.
import { describe, expect, it } from 'vitest';
import { textGivesTheValue } from '../../../../../tests/support/formula-rules.ts';
import { q } from '../../working/testing.support.ts';
import { inertiaOnWheel } from './inertia.ts';
import { wheelSpeed } from './transform.ts';
import { rollDiameter, rollInertia, rollLength, rollTurns, taperTension, webTension } from './winder.ts';

const about = 'test';
const d = q(0.1, 'm');
const h = q(50e-6, 'm');
const w = q(1, 'm');
const ρ = q(1380, 'kg/m³');
const v = q(5, 'm/s');

interface Roll {
  readonly D: number;
  readonly turns: number;
  readonly J: number;
}

/** What a roll gains in a second at the speed of the web: each turn adds two thicknesses, all mass comes in at the edge. */
function gain({ D }: Roll): Roll {
  const turns_per_s = wheelSpeed({ v, D: q(D, 'm') }, about).value / (2 * Math.PI);
  const mass_kg_per_s = ρ.value * w.value * h.value * v.value;
  return {
    D: 2 * h.value * turns_per_s,
    turns: turns_per_s,
    J: inertiaOnWheel({ m: q(mass_kg_per_s, 'kg'), D: q(D, 'm') }, about).value,
  };
}

const moved = (roll: Roll, by: Roll, time: number): Roll => ({
  D: roll.D + time * by.D,
  turns: roll.turns + time * by.turns,
  J: roll.J + time * by.J,
});

/** Fourth-order Runge and Kutta. */
function wound(time_s: number, steps: number): Roll {
  const step = time_s / steps;
  let roll: Roll = { D: d.value, turns: 0, J: 0 };
  for (let at = 0; at < steps; at++) {
    const k1 = gain(roll);
    const k2 = gain(moved(roll, k1, step / 2));
    const k3 = gain(moved(roll, k2, step / 2));
    const k4 = gain(moved(roll, k3, step));
    roll = moved(moved(moved(moved(roll, k1, step / 6), k2, step / 3), k3, step / 3), k4, step / 6);
  }
  return roll;
}

describe('a roll', () => {
  it.each([1, 60, 1979])('the differential equation of a roll, integrated, gives its size after %i s', (time) => {
    const roll = wound(time, 20_000);
    const D = rollDiameter({ d, h, l: q(v.value * time, 'm') }, about);
    expect(D.value / roll.D).toBeCloseTo(1, 10);
    expect(rollTurns({ D, d, h }, about).value / roll.turns).toBeCloseTo(1, 10);
    expect(rollInertia({ ρ, w, D, d }, about).value / roll.J).toBeCloseTo(1, 9);
    expect(rollLength({ D, d, h }, about).value / (v.value * time)).toBeCloseTo(1, 9);
  });

  it('has an inertia that grows with the fourth power of the diameters', () => {
    const J = (factor: number) => rollInertia({ ρ, w, D: q(0.8 * factor, 'm'), d: q(0.1 * factor, 'm') }, about).value;
    for (const factor of [0.5, 2, 3]) expect(J(factor) / J(1)).toBeCloseTo(factor ** 4, 9);
  });

  it('has its full tension at the core, and with a taper of 1 one torque at every diameter', () => {
    const tension = (K: number, D: number) =>
      taperTension({ F: q(90, 'N'), K: q(K, '1'), d, D: q(D, 'm') }, about).value;
    expect(tension(0.7, 0.1)).toBe(90);
    expect(tension(0, 0.6)).toBe(90);
    for (const D of [0.2, 0.5, 0.8]) expect((tension(1, D) * D) / 2).toBeCloseTo((90 * 0.1) / 2, 12);
  });

  it('cannot have the diameter that was published with a slip: its units do not fit', () => {
    expect(textGivesTheValue({ ...rollDiameter, cases: [{ text: 'sqrt(4*l*h/pi) + d^2' }] })).toEqual([
      expect.stringContaining('Units do not match'),
    ]);
  });
});

it('tension is the slope of the energy of stretching', () => {
  const E = q(3e9, 'Pa');
  const length = 2;
  const energy = (ε: number) => ((E.value * ε ** 2) / 2) * w.value * h.value * length;
  const [ε, step] = [0.004, 1e-5];
  const slope = (energy(ε + step) - energy(ε - step)) / (2 * step * length);
  expect(webTension({ ε: q(ε, '1'), E, w, h }, about).value / slope).toBeCloseTo(1, 9);
});
