// What wears a gear in a cycle: mean torque and mean force across its output shaft, and the mean speed that warms it.
// The mean is the constant load that takes as much of its life in as many turns. Lists have one entry for each piece.
import { formula } from '../../working/formula.ts';
import { sumOver } from '../../working/total.ts';

/** Powers by which load takes life, of ball and of roller bearings: Mott, eq. 14-11. */
export const lifeExponents = { ball: 3, roller: 10 / 3 } as const;

const pieces = {
  n: 'speed at the output in each piece, without its sign',
  t: 'duration of each piece',
} as const;

const mean = {
  source: 'mott',
  at: 'eq. 14-11',
  proof: 'Mott, Machine Elements in Mechanical Design, example 14-6',
  of: (L: readonly number[], n: readonly number[], t: readonly number[], p: number) =>
    (sumOver(t, (each, at) => n[at]! * each * L[at]! ** p) / sumOver(t, (each, at) => n[at]! * each)) ** (1 / p),
} as const;

/** Standing still takes no life; a cycle without a turn gives no number. */
export const meanGearTorque = formula({
  ...mean,
  id: 'axes.gear.mean_torque',
  title: 'mean torque at the output of a gear',
  text: '(sum(n .* t .* T.^p)/sum(n .* t))^(1/p)',
  gives: 'N·m',
  symbols: { T: 'N·m[]', n: 'rad/s[]', t: 's[]', p: '1' },
  means: {
    T: 'torque at the output in each piece, without its sign',
    ...pieces,
    p: 'power by which torque takes life',
  },
  try: { T: [0.1, 300], n: [0.1, 100], t: [0.01, 5], p: [1, 4] },
});

export const meanRadialLoad = formula({
  ...mean,
  id: 'axes.gear.mean_radial_load',
  title: 'mean force across the output shaft of a gear',
  text: '(sum(n .* t .* F.^p)/sum(n .* t))^(1/p)',
  gives: 'N',
  symbols: { F: 'N[]', n: 'rad/s[]', t: 's[]', p: '1' },
  means: { F: 'force across the shaft in each piece', ...pieces, p: 'power by which force takes life' },
  try: { F: [1, 3000], n: [0.1, 100], t: [0.01, 5], p: [1, 4] },
});

export const meanInputSpeed = formula({
  id: 'axes.gear.mean_input_speed',
  title: 'mean speed at the input of a gear',
  text: 'i*sum(n .* t)/sum(t)',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { i: '1', n: 'rad/s[]', t: 's[]' },
  means: { i: 'ratio: turns at the input for one at the output', ...pieces },
  try: { i: [1, 100], n: [0, 100], t: [0.01, 5] },
  source: 'definition',
  proof: 'the mean load of a gear takes as much life as its samples',
  of: (i: number, n: readonly number[], t: readonly number[]) =>
    (i * sumOver(t, (each, at) => n[at]! * each)) / sumOver(t, (each) => each),
});

/** A force across the shaft for each part of the pull at the circumference: common practice, from memory. */
export const acrossForPull = {
  belt: { share: 1.5, because: 'a belt under tension at rest, from memory' },
  rack: { share: 1 / Math.cos(Math.PI / 9), because: 'teeth with a pressure angle of 20°, from memory' },
  drum: { share: 1, because: 'a rope pulls with what it carries' },
} as const;

export const pullAcross = formula({
  id: 'axes.gear.pull_across',
  title: 'force across a shaft by the pull at its wheel',
  text: '2*s*T/D',
  gives: 'N',
  symbols: { s: '1', T: 'N·m', D: 'm' },
  means: { s: 'force across for each part of the pull', T: 'torque at the shaft', D: 'diameter of the wheel' },
  try: { s: [1, 2], T: [0.1, 300], D: [0.02, 0.5] },
  source: 'common-practice',
  proof: 'a pull across a shaft is the sum of what meets at its wheel',
  of: (s: number, T: number, D: number) => (2 * s * T) / D,
});
