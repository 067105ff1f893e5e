// The cut of a flying shear: seeded random shears, and a smooth start by its closed form.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { flyingShear, type Shear } from './flying-shear.ts';
import { integral } from './integral.ts';
import { brokenJoins } from './join.ts';
import { lawNames, motionLaws } from './motion-law.ts';
import { chain, span_s, stateAt, stateOf } from './segment.ts';

const seed = 41;

describe('the cut of a flying shear', () => {
  it('goes along with the web, and is back at rest when the next cut begins: 5000 random shears', () => {
    const random = seeded(seed);
    const wrong: string[] = [];
    for (let run = 0; run < 5000; run++) {
      const [working, accelerate] = [10 ** (-2 + 2 * random()), 10 ** (-2 + 2 * random())];
      const forwards = working + 2 * accelerate;
      const law = lawNames[Math.floor(lawNames.length * random())]!;
      const shear: Shear = { cutLength: forwards * (1.05 + 5 * random()), working, accelerate, law };
      const { cutLength } = shear;
      const motion = chain(flyingShear(shear));
      const end = stateOf(motion.at(-1)!, motion.at(-1)!.duration_s);
      const along = [0.001, 0.3, 0.999].map((share) => stateAt(motion, accelerate + share * working));
      const states = Array.from({ length: 101 }, (_, at) => ({
        s: (cutLength * at) / 100,
        ...stateAt(motion, (cutLength * at) / 100),
      }));
      const furthest = accelerate + working;
      const slack = 1e-9 * furthest;
      const stepped = motionLaws[law].peakJerk === Infinity;
      const back = cutLength - forwards;
      const fastest = stateAt(motion, cutLength - back / 2).velocity;
      const said: readonly (readonly [string, boolean])[] = [
        ['length', Math.abs(span_s(motion) / cutLength - 1) < 1e-12],
        ['begin', Math.abs(stateAt(motion, 0).position) + Math.abs(stateAt(motion, 0).velocity) < 1e-12],
        ['end', Math.abs(end.position) < slack && Math.abs(end.velocity) < 1e-9 * (1 - fastest)],
        ['joins', brokenJoins(motion, 'velocity').length === 0],
        ['smooth', stepped || brokenJoins(motion, 'acceleration').length === 0],
        ['along', along.every((each) => each.velocity === 1 && each.acceleration === 0)],
        ['no overshoot', states.every((each) => each.velocity < 1 + 1e-9)],
        ['within its way', states.every((each) => each.position > -slack && each.position < furthest + slack)],
        [
          'to and fro',
          states.every((each) => (each.s < forwards ? each.velocity > -1e-9 : each.velocity < 1e-9 * (1 - fastest))),
        ],
        ['return', Math.abs(fastest / ((-motionLaws[law].peakVelocity * furthest) / back) - 1) < 1e-9],
        ['sum', Math.abs(integral(motion.slice(0, 3), (state) => state.velocity) / furthest - 1) < 1e-11],
      ];
      for (const [what, holds] of said)
        if (!holds) wrong.push(`seed ${seed}, run ${run}, ${what}: ${JSON.stringify(shear)}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it('gets to speed by 3x² − 2x³ of it, and to rest as it came', () => {
    const motion = chain(flyingShear({ cutLength: 2, working: 0.2, accelerate: 0.3, law: 'modified_sine' }));
    for (const x of [0, 0.1, 0.35, 0.5, 0.8, 1]) {
      const state = stateAt(motion, 0.3 * x);
      expect(state.position).toBeCloseTo(0.3 * (x ** 3 - x ** 4 / 2), 14);
      expect(state.velocity).toBeCloseTo(3 * x ** 2 - 2 * x ** 3, 13);
      expect(stateAt(motion, 0.8 - 0.3 * x).velocity).toBeCloseTo(state.velocity, 12);
    }
    expect(stateAt(motion, 0.15).acceleration).toBeCloseTo(1.5 / 0.3, 12);
    expect(stateAt(motion, 0.8).position).toBeCloseTo(0.5, 13);
  });

  it('is refused where it cannot be, in a sentence', () => {
    const shear = { cutLength: 2, working: 0.2, accelerate: 0.3, law: 'cycloidal' } as const;
    for (const key of ['cutLength', 'working', 'accelerate'] as const)
      for (const wrong of [0, -1, Number.NaN, Infinity])
        expect(() => flyingShear({ ...shear, [key]: wrong })).toThrow(RangeError);
    expect(() => flyingShear({ ...shear, working: 0 })).toThrow('the working zone must be over 0');
    expect(() => flyingShear({ ...shear, cutLength: 0.5 })).toThrow('no web left to return over in cuts of 500 mm');
    expect(() => flyingShear({ cutLength: 2, working: 1, accelerate: 0.5, law: 'cycloidal' })).toThrow(RangeError);
  });
});
