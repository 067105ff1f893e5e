// The speed at which a screw begins to whirl: where one turn takes as long as one swing of it as a bending beam.
// The screw is a round solid rod of its root diameter between its supports; the nut, which holds it too, is left out.
import { formula } from '../../working/formula.ts';

/**
 * First roots of the characteristic equations of a bending beam: cos·cosh = −1 for fixed–free, sin = 0 for
 * supported–supported, tan = tanh for fixed–supported, cos·cosh = 1 for fixed–fixed. Thomson, appendix D, has them.
 */
export const endFixings = {
  fixed_free: 1.875104068711961,
  supported_supported: Math.PI,
  fixed_supported: 3.926602312047919,
  fixed_fixed: 4.730040744862704,
} as const;

export type EndFixing = keyof typeof endFixings;

/** How much of its critical speed a screw may turn at. Common practice, no source. */
export const usableScrewShare = 0.8;

export const criticalScrewSpeed = formula({
  id: 'axes.screw.critical_speed',
  title: 'critical speed of a screw',
  text: 'λ^2*d/(4*l^2)*sqrt(E/ρ)',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { λ: '1', d: 'm', l: 'm', E: 'Pa', ρ: 'kg/m³' },
  means: {
    λ: 'number for the way in which its ends are held',
    d: 'root diameter',
    l: 'length between the supports',
    E: 'modulus of elasticity',
    ρ: 'density',
  },
  try: { λ: [1.8, 4.8], d: [0.005, 0.1], l: [0.2, 4], E: [1e11, 2.2e11], ρ: [7000, 8500] },
  source: 'thomson',
  at: 'appendix D',
  proof: 'a beam that is integrated from end to end swings at the critical speed of a screw',
  of: (lambda: number, d: number, l: number, E: number, rho: number) =>
    ((lambda ** 2 * d) / (4 * l ** 2)) * Math.sqrt(E / rho),
});

export const usableScrewSpeed = formula({
  id: 'axes.screw.usable_speed',
  title: 'speed that a screw may turn at',
  text: 's*ω',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { s: '1', ω: 'rad/s' },
  means: { s: 'share of the critical speed that is used', ω: 'critical speed' },
  try: { s: [0.5, 1], ω: [10, 1000] },
  source: 'common-practice',
  proof: 'a trade table of factors for screws, 80 % counted in',
  of: (s: number, omega: number) => s * omega,
});
