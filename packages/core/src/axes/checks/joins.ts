// axes.joins: does the motion go on without a jump, from phase to phase and from cycle to cycle?
import type { Answer } from '../../checks/check.ts';
import { question } from '../../checks/finding.ts';
import { printQuantity } from '../../units/print-quantity.ts';
import { given, Missing } from '../../working/missing.ts';
import type { Axis } from '../axis.ts';
import { brokenJoins, largestOf } from '../calc/join.ts';
import { chain, type Motion, type Piece, stateOf } from '../calc/segment.ts';
import type { AxisDemand } from '../demand.ts';
import { motionOf, type PhasedMotion } from '../phase.ts';
import { wayOf } from '../steps.ts';

export const joins = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.joins',
  title: 'Joins of the motion',
  asks: 'Does the motion go on without a jump, from phase to phase and from cycle to cycle?',
  page: `Asked of every motion that is not constant speed alone. Position and speed must go on where one piece ends and the
next begins, also from the end of the cycle to its start; a cam must fit a whole number of times into its products. A jump of the acceleration is allowed and told: each is a knock
that excites the machine. A cam that ends elsewhere than it began goes on from there each time, which is told too. Of a motion that \`runs\`, what comes before and behind is not looked at.`,
  advice: 'points that meet at the ends, ends: periodic or rest',
  subjects: (axes) =>
    axes.filter(({ motion }) => !(motion instanceof Missing) && !motion.phases.every(({ even }) => isSteady(even))),
  name: ({ axis }) => axis.name,
  path: ({ axis }) => `${axis.path}.motion`,
  answer: ({ motion, axis }) =>
    given(
      { motion },
      (known) =>
        misfit(axis, known.motion) ??
        withWay(axis, known.motion, answerOf(known.motion, axis.motion.runs === undefined)),
    ),
});

/** A table may end further on than it begins, as that of an index drive does; of a slide that is seldom what is meant. */
function withWay({ motion }: Axis, { unit, phases }: PhasedMotion, answer: Answer): Answer {
  const way = phases.reduce((sum, phase) => sum + wayOf(motionOf(phase)) - beginOf(motionOf(phase)), 0);
  const whole = largestOf(oneBehindTheOther(phases.map(motionOf), false), 'position');
  if (motion.cam === undefined || !answer.yes || Math.abs(way) <= 1e-9 * whole) return answer;
  return {
    ...answer,
    because: `${answer.because}; each time the cam ends ${printQuantity(Math.abs(way), unit)} from where it began, and goes on from there`,
  };
}

/** A cam that takes longer or shorter than what it is made for; where that is not known, it is its own cycle. */
function misfit({ motion, master }: Axis, { cycle }: PhasedMotion): Answer | undefined {
  const product = master instanceof Missing ? undefined : master?.product;
  if (motion.cam === undefined || product === undefined || product instanceof Missing) return undefined;
  const products_s = product.value * (motion.every instanceof Missing ? 1 : (motion.every?.value ?? 1));
  const times = products_s / cycle.value;
  if (Math.round(times) >= 1 && Math.abs(times - Math.round(times)) < 1e-6) return undefined;
  return {
    yes: false,
    because: `the cam takes ${printQuantity(cycle.value, 's')}, its products ${printQuantity(products_s, 's')}`,
  };
}

const isSteady = (even: PhasedMotion['phases'][number]['even']): boolean =>
  even !== undefined && even.acceleration === undefined;

function answerOf({ unit, phases }: PhasedMotion, repeats: boolean): Answer {
  const motion = oneBehindTheOther(phases.map(motionOf), repeats);
  const broken = brokenJoins(motion, 'velocity');
  if (broken.length > 0) {
    const [{ at_s, jump }] = broken as [(typeof broken)[number]];
    const position = Math.abs(jump.position) > 1e-9 * Math.max(1e-9, largestOf(motion, 'position'));
    const size = position
      ? `its position jumps by ${printQuantity(Math.abs(jump.position), unit)}`
      : `its speed jumps by ${printQuantity(Math.abs(jump.velocity), `${unit}/s`)}`;
    return { yes: false, because: `${printQuantity(at_s, 's')} after the start of the cycle ${size}` };
  }
  const knocks = brokenJoins(motion, 'acceleration');
  if (knocks.length === 0) return { yes: true, because: 'position, speed and acceleration go on everywhere' };
  const most = Math.max(...knocks.map(({ jump }) => Math.abs(jump.acceleration)));
  const count = knocks.length === 1 ? 'one place' : `${knocks.length} places`;
  return {
    yes: true,
    because: `position and speed go on everywhere, the acceleration jumps at ${count}, by up to ${printQuantity(most, `${unit}/s²`)}`,
  };
}

/** All phases as one motion, with the first piece once more at the end of a cycle that repeats. */
function oneBehindTheOther(phases: readonly Motion[], repeats: boolean): Motion {
  let from = 0;
  const pieces = phases.flatMap((phase) => {
    const begin = beginOf(phase);
    const moved = phase.map((piece) => further(piece, from - begin));
    from += wayOf(phase) - begin;
    return moved;
  });
  const [first] = pieces;
  return chain(first !== undefined && repeats ? [...pieces, further(first, from)] : pieces);
}

const beginOf = (phase: Motion): number => (phase.length === 0 ? 0 : stateOf(phase[0]!, 0).position);

const further = (piece: Piece, by: number): Piece => ({
  ...piece,
  polynomial: [(piece.polynomial[0] ?? 0) + by, ...piece.polynomial.slice(1)],
});
