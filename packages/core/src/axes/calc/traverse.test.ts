// To and fro: seeded random traverses, and one by hand.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { integral } from './integral.ts';
import { brokenJoins } from './join.ts';
import { chain, span_s, stateAt, stateOf } from './segment.ts';
import { traverse } from './traverse.ts';

const seed = 51;

describe('a traverse', () => {
  it('turns exactly its width apart, at constant speed between: 5000 random traverses', () => {
    const random = seeded(seed);
    const wrong: string[] = [];
    for (let run = 0; run < 5000; run++) {
      const [width, wayPerStroke] = [10 ** (-2 + 3 * random()), 10 ** (-1 + 3 * random())];
      const reversal = wayPerStroke * (run % 50 === 0 ? 1 : 0.001 + 0.998 * random());
      const motion = chain(traverse({ width, wayPerStroke, reversal }));
      const states = motion.flatMap((each) => [0, 0.25, 0.5, 0.75, 1].map((x) => stateOf(each, x * each.duration_s)));
      const positions = states.map(({ position }) => position);
      const speed = width / (wayPerStroke - reversal / 2);
      const at = (way: number) => stateAt(motion, way);
      const s = random() * wayPerStroke;
      const close = (value: number, expected: number, scale: number) => Math.abs(value - expected) < 1e-9 * scale;
      const cruise = [0.001, 0.5, 0.999].map((share) => reversal / 2 + share * (wayPerStroke - reversal));
      const said: readonly (readonly [string, boolean])[] = [
        ['way', close(span_s(motion), 2 * wayPerStroke, wayPerStroke)],
        ['width', close(Math.max(...positions) - Math.min(...positions), width, width)],
        ['begin', at(0).position === 0 && at(0).velocity === 0],
        ['turning point', close(at(wayPerStroke).position, width, width) && close(at(wayPerStroke).velocity, 0, speed)],
        ['end', close(positions.at(-1)!, 0, width) && close(states.at(-1)!.velocity, 0, speed)],
        ['joins', brokenJoins(motion, 'velocity').length === 0],
        ['speed', cruise.every((way) => close(at(way).velocity, speed, speed))],
        ['speed back', cruise.every((way) => close(at(wayPerStroke + way).velocity, -speed, speed))],
        ['turn', close(at(wayPerStroke + reversal / 4).acceleration, (-2 * speed) / reversal, speed / reversal)],
        ['fro is to, mirrored', close(at(s).position + at(wayPerStroke + s).position, width, width)],
        [
          'sum',
          close(
            integral(motion, ({ velocity }) => velocity),
            0,
            width,
          ),
        ],
      ];
      for (const [what, holds] of said)
        if (!holds)
          wrong.push(`seed ${seed}, run ${run}, ${what}: ${JSON.stringify({ width, wayPerStroke, reversal })}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it('by hand: 300 mm in 4 of the master, 1 of it for turning round', () => {
    const motion = chain(traverse({ width: 0.3, wayPerStroke: 4, reversal: 1 }));
    const v = 0.3 / 3.5;
    expect(stateAt(motion, 2).velocity).toBeCloseTo(v, 14);
    expect(stateAt(motion, 0.5).position).toBeCloseTo(v / 4, 14);
    expect(stateAt(motion, 3.5).position).toBeCloseTo(v / 4 + 3 * v, 14);
    expect([3.5, 3.75, 4.25, 4.49].map((way) => stateAt(motion, way).acceleration / v)).toEqual(
      [-2, -2, -2, -2].map((each) => expect.closeTo(each, 12)),
    );
  });

  it('is refused where it cannot be, in a sentence', () => {
    const measures = { width: 0.3, wayPerStroke: 4, reversal: 1 };
    for (const key of ['width', 'wayPerStroke', 'reversal'] as const)
      for (const wrong of [0, -1, Number.NaN, Infinity])
        expect(() => traverse({ ...measures, [key]: wrong })).toThrow(RangeError);
    expect(() => traverse({ ...measures, reversal: 0 })).toThrow('the way for turning round must be over 0');
    expect(() => traverse({ ...measures, reversal: 5 })).toThrow('turning round takes 1.25 of a stroke');
    expect(chain(traverse({ ...measures, reversal: 4 }))).toHaveLength(4);
  });
});
