// Tops of torque and power against fine sampling, where few of the points that are integrated lie near them.
import { describe, expect, it } from 'vitest';
import { goingOf, type PlainLine, type PlainStage, shaftTorque } from './drive-line.ts';
import { type LawName, lawPieces } from './motion-law.ts';
import { phaseDemand } from './phase-torque.ts';
import { chain, type Motion, type Piece, stateOf } from './segment.ts';

const stage: PlainStage = {
  ratio: 1,
  inertia: 1,
  constant: 0,
  coulomb: 0,
  viscous: 0,
  breakaway: 0,
  placed: [],
  pass: 1,
  driving: 1,
  driven: 1,
};
const line = (...stages: readonly Partial<PlainStage>[]): PlainLine => ({
  stages: stages.map((each) => ({ ...stage, ...each })),
  lossOnInertia: true,
});

/** 100,000 points on each piece: a top lies by half the square of a step over them, some 1e-9 of its height. */
function sampled(plain: PlainLine, motion: Motion, rising_per_s: number) {
  let [torque, power] = [0, 0];
  for (const segment of motion) {
    for (let at = 0; at <= 1e5; at++) {
      const state = stateOf(segment, (segment.duration_s * at) / 1e5);
      const acceleration = state.acceleration + rising_per_s * state.velocity;
      const going = goingOf(state.velocity, acceleration);
      const found = shaftTorque(plain, { ...state, acceleration }, 0, going);
      torque = Math.max(torque, Math.abs(found));
      power = Math.max(power, found * state.velocity);
    }
  }
  return { torque, power };
}

function expectTops(plain: PlainLine, pieces: readonly Piece[], rising_per_s: number): void {
  const motion = chain(pieces);
  const { peakTorque_Nm, peakPower_W } = phaseDemand(plain, { motion, from: 0, start_s: 0, rising_per_s });
  const { torque, power } = sampled(plain, motion, rising_per_s);
  expect(Math.abs(peakTorque_Nm) / torque).toBeCloseTo(1, 8);
  expect(peakPower_W / power).toBeCloseTo(1, 8);
}

describe('tops within a piece', () => {
  const laws: readonly LawName[] = ['polynomial_345', 'polynomial_4567', 'modified_sine', 'modified_trapezoid'];
  it.each(laws.flatMap((law) => [0, -0.7, 0.5, -3].map((rising) => [law, rising] as const)))(
    'are those of fine sampling: %s, the master changing its speed by %f of it in a second',
    (law, rising) => expectTops(line({ constant: 20, coulomb: 8, viscous: 3 }), lawPieces(law, 1, 0.4), rising),
  );

  it('of power are found at constant acceleration too, where the master slows down', () =>
    expectTops(line({}), [{ duration_s: 1, polynomial: [0, 0.3, 1] }], -1.5));
});
