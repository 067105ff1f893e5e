// Tops of torque and power, and what is integrated, against fine sampling, where few of the points that are met lie near.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { goingOf, type PlainLine, type PlainStage, shaftTorque } from './drive-line.ts';
import { quintic } from './join.ts';
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

describe('joins of any ends, with friction and losses in two stages: 600 of them', () => {
  /** By the middles of 40,000 strips: friction that jumps within one of them is off by some 1e-4. */
  function summed(plain: PlainLine, motion: Motion) {
    const strips = 40_000;
    const piece = motion[0]!;
    const strip_s = piece.duration_s / strips;
    const sum = { squared: 0, turned_rad: 0, given_J: 0, returned_J: 0 };
    for (let at = 0; at < strips; at++) {
      const state = stateOf(piece, (at + 0.5) * strip_s);
      const torque = shaftTorque(plain, state, 0, goingOf(state.velocity, state.acceleration));
      const work_J = torque * state.velocity * strip_s;
      sum.squared += torque * torque * strip_s;
      sum.turned_rad += Math.abs(state.velocity) * strip_s;
      if (work_J > 0) sum.given_J += work_J;
      else sum.returned_J -= work_J;
    }
    return sum;
  }

  it('give and take back, turn and warm what they do, wherever speed and torque change their signs', () => {
    const random = seeded(5);
    const either = (most: number): number => (2 * random() - 1) * most;
    const end = () => ({ position: either(1), velocity: either(2), acceleration: either(10) });
    const some = (): Partial<PlainStage> => ({
      inertia: 3 * random(),
      constant: either(20),
      coulomb: 8 * random(),
      viscous: 5 * random(),
      driving: 0.5 + random() / 2,
      driven: 0.2 + 0.8 * random(),
    });
    for (let run = 0; run < 600; run++) {
      const motion = chain([quintic(0.2 + random(), end(), end())]);
      const plain = { ...line(some(), some()), lossOnInertia: run % 2 === 0 };
      const found = phaseDemand(plain, { motion, from: 0, start_s: 0, rising_per_s: 0 });
      const due = summed(plain, motion);
      const moved_J = due.given_J + due.returned_J;
      expect(Math.abs(found.squared / due.squared - 1), `run ${run}`).toBeLessThan(1e-3);
      expect(Math.abs(found.turned_rad / due.turned_rad - 1), `run ${run}`).toBeLessThan(2e-6);
      expect(Math.abs(found.given_J - due.given_J) / moved_J, `run ${run}`).toBeLessThan(2e-6);
      expect(Math.abs(found.returned_J - due.returned_J) / moved_J, `run ${run}`).toBeLessThan(2e-6);
    }
  });
});
