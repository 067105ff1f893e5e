// What a cycle asks of a motor, from its pieces one after another: effective torque, mean speed, peaks.
// A piece's torque is constant, or it is already the effective one of that piece; lists have one entry for each piece.
// Standing still is a piece like others. No piece, or no duration, gives no number.
import { formula } from '../../working/formula.ts';
import { sumOver } from '../../working/total.ts';

const durations = 'duration of each piece';

export const rmsTorque = formula({
  id: 'axes.cycle.rms_torque',
  title: 'effective torque of a cycle',
  text: 'sqrt(sum(T.^2 .* t)/sum(t))',
  gives: 'N·m',
  symbols: { T: 'N·m[]', t: 's[]' },
  means: { T: 'torque of each piece', t: durations },
  try: { T: [-100, 100], t: [0.01, 10] },
  source: 'dubey',
  at: 'ex. 4.2',
  proof: 'R1',
  of: (T: readonly number[], t: readonly number[]) =>
    Math.sqrt(sumOver(t, (each, at) => T[at]! ** 2 * each) / sumOver(t, (each) => each)),
});

/** A motor cooled by its own fan: while it stands, only a part of each second counts (one third is usual, says Kosow). */
export const rmsTorqueByCooling = formula({
  id: 'axes.cycle.rms_torque_by_cooling',
  title: 'effective torque of a cycle where the cooling changes',
  text: 'sqrt(sum(T.^2 .* t)/sum(k .* t))',
  gives: 'N·m',
  symbols: { T: 'N·m[]', t: 's[]', k: '1[]' },
  means: { T: 'torque of each piece', t: durations, k: 'cooling in each piece: 1 while running' },
  try: { T: [-100, 100], t: [0.01, 10], k: [0.2, 1] },
  source: 'kosow',
  at: 'ex. 13.7',
  proof: 'R2',
  of: (T: readonly number[], t: readonly number[], k: readonly number[]) =>
    Math.sqrt(sumOver(t, (each, at) => T[at]! ** 2 * each) / sumOver(t, (each, at) => k[at]! * each)),
});

export const meanSpeed = formula({
  id: 'axes.cycle.mean_speed',
  title: 'mean speed of a cycle',
  text: 'sum(ω .* t)/sum(t)',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { ω: 'rad/s[]', t: 's[]' },
  means: { ω: 'mean speed of each piece, without its sign', t: durations },
  try: { ω: [0, 600], t: [0.01, 10] },
  source: 'definition',
  proof: 'the mean speed turns as far as the cycle in its time',
  of: (omega: readonly number[], t: readonly number[]) =>
    sumOver(t, (each, at) => omega[at]! * each) / sumOver(t, (each) => each),
});

export const peakTorque = formula({
  id: 'axes.cycle.peak_torque',
  title: 'greatest torque of a cycle, either way',
  text: 'max(max(T), -min(T))',
  gives: 'N·m',
  symbols: { T: 'N·m[]' },
  means: { T: 'torque of each piece' },
  try: { T: [-100, 100] },
  source: 'definition',
  proof: 'R1',
  of: (T: readonly number[]) => Math.max(Math.max(...T), -Math.min(...T)),
});

/** A triangle of speed has constant torque up and the same down: the torque is a rectangle, not a triangle. */
export const rmsTorqueOfTriangle = formula({
  id: 'axes.cycle.rms_torque_of_triangle',
  title: 'effective torque of a triangular move of a mere inertia and a dwell',
  text: 'T*sqrt(t/c)',
  gives: 'N·m',
  symbols: { T: 'N·m', t: 's', c: 's' },
  means: { T: 'torque for acceleration', t: 'duration of the move', c: 'duration of the cycle' },
  try: { T: [0.01, 100], t: [0.05, 1], c: [1, 10] },
  source: 'definition',
  proof: 'S10',
  of: (T: number, t: number, c: number) => T * Math.sqrt(t / c),
});
