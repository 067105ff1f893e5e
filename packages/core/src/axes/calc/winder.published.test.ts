// Webs and rolls against published examples. 'Derived' says that a row is arithmetic on known formulas.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { cylinderMass } from './inertia.ts';
import { accelerationTorque } from './load.ts';
import { wheelSpeed, wheelTorque } from './transform.ts';
import { rollDiameter, rollInertia, rollLength, rollTurns, strainAfterDraw, taperTension } from './winder.ts';

const about = 'test';
const inches = (count: number) => q(0.0254 * count, 'm');
const metres = (count: number) => q(count, 'm');

it('W1 (read): a converting column on draw control: 0.5 % and a draw from 100 to 101 make 1.505 %, linear 1.5 %', () => {
  const drawn = strainAfterDraw({ ε: q(0.005, '1'), δ: q(101 / 100 - 1, '1') }, about).value;
  expect(100 * drawn).toBeCloseTo(1.505, 3);
  expect(100 * (0.005 + 101 / 100 - 1)).toBeCloseTo(1.5, 9);
});

it('W2 (read): a page on the length of rolls: 5 in on a core of 2 in, 0.011 in thick, is 1499.4 in long', () => {
  expect(rollLength({ D: inches(5), d: inches(2), h: inches(0.011) }, about).value / 0.0254).toBeCloseTo(1499.4, 1);
});

it('W3 (read): Downey, Modeling and Simulation in Python, ch. 24 and 25: 47 m wind in 199.5 turns and 4.178 s', () => {
  const D = metres(2 * 0.055);
  const d = metres(2 * 0.02);
  const h = metres((Math.PI * (0.055 ** 2 - 0.02 ** 2)) / 47);
  expect(rollLength({ D, d, h }, about).value).toBeCloseTo(47, 9);
  expect(rollDiameter({ d, h, l: metres(47) }, about).value).toBeCloseTo(D.value, 12);
  const turns = rollTurns({ D, d, h }, about).value;
  expect(turns).toBeCloseTo(199.5, 1);
  expect((turns * 2 * Math.PI) / 300).toBeCloseTo(4.178, 3);
});

describe('W4 (derived): a roll of 1 m × 50 µm, 1380 kg/m³, on a core of 0.1 m to 0.8 m, 200 N, 5 m/s', () => {
  const d = metres(0.1);
  const D = metres(0.8);
  const w = metres(1);
  const ρ = q(1380, 'kg/m³');
  const F = q(200, 'N');
  const v = q(5, 'm/s');
  const J = rollInertia({ ρ, w, D, d }, about);
  it('9896 m, 682.8 kg, 55.48 kg·m²', () => {
    expect(rollLength({ D, d, h: metres(50e-6) }, about).value).toBeCloseTo(9896, 0);
    expect(cylinderMass({ ρ, l: w, D, d }, about).value).toBeCloseTo(682.8, 1);
    expect(J.value).toBeCloseTo(55.48, 2);
  });
  it('10 and 80 N·m, 100 and 12.5 rad/s, 69.35 N·m to stop the full roll in 10 s', () => {
    expect([d, D].map((at) => wheelTorque({ F, D: at }, about).value)).toEqual([10, 80]);
    expect([d, D].map((at) => wheelSpeed({ v, D: at }, about).value)).toEqual([100, 12.5]);
    expect(accelerationTorque({ J, α: q(12.5 / 10, 'rad/s²') }, about).value).toBeCloseTo(69.35, 2);
  });
});

it('W5 (inputs read): an article on rewinders: 100 N with a taper of 0.4 are 68 N at 0.5 m, and 5 N·m become 17', () => {
  const d = metres(0.1);
  const tension = (at: number) => taperTension({ F: q(100, 'N'), K: q(0.4, '1'), d, D: metres(at) }, about);
  expect(tension(0.5).value).toBeCloseTo(68, 9);
  expect([0.1, 0.5].map((at) => wheelTorque({ F: tension(at), D: metres(at) }, about).value)).toEqual([
    expect.closeTo(5, 9),
    expect.closeTo(17, 9),
  ]);
});
