// A roll that winds or unwinds at its centre, and the tension of the web between rolls.
// Speed and torque at a diameter are those of a wheel, mass and bore those of a hollow cylinder.
import { formula } from '../../working/formula.ts';

const core = 'diameter of the core';

export const rollLength = formula({
  id: 'axes.winder.length',
  title: 'length of web on a roll',
  text: 'pi*(D^2 - d^2)/(4*h)',
  gives: 'm',
  symbols: { D: 'm', d: 'm', h: 'm' },
  means: { D: 'diameter of the roll', d: core, h: 'thickness of the web' },
  try: { D: [0.2, 1.5], d: [0.05, 0.2], h: [1e-5, 1e-3] },
  source: 'common-practice',
  proof: 'W2',
  of: (D: number, d: number, h: number) => (Math.PI * (D ** 2 - d ** 2)) / (4 * h),
});

export const rollDiameter = formula({
  id: 'axes.winder.diameter',
  title: 'diameter of a roll',
  text: 'sqrt(d^2 + 4*h*l/pi)',
  gives: 'm',
  symbols: { d: 'm', h: 'm', l: 'm' },
  means: { d: core, h: 'thickness of the web', l: 'length of web on the roll' },
  try: { d: [0.05, 0.2], h: [1e-5, 1e-3], l: [1, 10000] },
  source: 'downey',
  at: 'ch. 25',
  proof: 'the differential equation of a roll, integrated',
  of: (d: number, h: number, l: number) => Math.sqrt(d ** 2 + (4 * h * l) / Math.PI),
});

export const rollTurns = formula({
  id: 'axes.winder.turns',
  title: 'turns of web on a roll',
  text: '(D - d)/(2*h)',
  gives: '1',
  symbols: { D: 'm', d: 'm', h: 'm' },
  means: { D: 'diameter of the roll', d: core, h: 'thickness of the web' },
  try: { D: [0.2, 1.5], d: [0.05, 0.2], h: [1e-5, 1e-3] },
  source: 'downey',
  at: 'ch. 25',
  proof: 'W3',
  of: (D: number, d: number, h: number) => (D - d) / (2 * h),
});

/** The web on the core; the core itself is a cylinder of its own. */
export const rollInertia = formula({
  id: 'axes.winder.inertia',
  title: 'inertia of the web on a roll',
  text: 'pi/32*ρ*w*(D^4 - d^4)',
  gives: 'kg·m²',
  symbols: { ρ: 'kg/m³', w: 'm', D: 'm', d: 'm' },
  means: { ρ: 'density of the web', w: 'its width', D: 'diameter of the roll', d: core },
  try: { ρ: [200, 3000], w: [0.05, 3], D: [0.2, 1.5], d: [0.05, 0.2] },
  source: 'definition',
  proof: 'the differential equation of a roll, integrated',
  of: (rho: number, w: number, D: number, d: number) => (Math.PI / 32) * rho * w * (D ** 4 - d ** 4),
});

export const taperTension = formula({
  id: 'axes.winder.taper_tension',
  title: 'tension at a diameter, with taper',
  text: 'F*(1 - K*(1 - d/D))',
  gives: 'N',
  symbols: { F: 'N', K: '1', d: 'm', D: 'm' },
  means: { F: 'tension at the core', K: 'taper', d: core, D: 'diameter of the roll' },
  try: { F: [10, 500], K: [0.05, 0.9], d: [0.05, 0.2], D: [0.2, 1.5] },
  source: 'common-practice',
  proof: 'W5',
  of: (F: number, K: number, d: number, D: number) => F * (1 - K * (1 - d / D)),
});

export const strainAfterDraw = formula({
  id: 'axes.web.strain_after_draw',
  title: 'strain of a web between two rolls, by its draw',
  text: '(1 + ε)*(1 + δ) - 1',
  gives: '1',
  as: '%',
  symbols: { ε: '1', δ: '1' },
  means: { ε: 'strain before the first roll', δ: 'draw: how much quicker the second roll runs' },
  try: { ε: [0, 0.05], δ: [0.001, 0.2] },
  source: 'common-practice',
  proof: 'W1',
  of: (epsilon: number, delta: number) => (1 + epsilon) * (1 + delta) - 1,
});

export const webTension = formula({
  id: 'axes.web.tension',
  title: 'tension of a stretched web',
  text: 'ε*E*w*h',
  gives: 'N',
  symbols: { ε: '1', E: 'Pa', w: 'm', h: 'm' },
  means: { ε: 'strain', E: 'modulus of elasticity', w: 'width', h: 'thickness' },
  try: { ε: [0, 0.05], E: [1e8, 2e11], w: [0.05, 3], h: [1e-5, 2e-5] },
  source: 'definition',
  proof: 'tension is the slope of the energy of stretching',
  of: (epsilon: number, E: number, w: number, h: number) => epsilon * E * w * h,
});
