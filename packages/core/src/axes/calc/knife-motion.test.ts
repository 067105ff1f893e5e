// The cut of a rotary knife: seeded random knives, sums over the recovery, and a search for the critical length.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { integral } from './integral.ts';
import { brokenJoins } from './join.ts';
import { criticalLength, type Knife, knifeMotion } from './knife-motion.ts';
import { lawAt, lawNames, motionLaws } from './motion-law.ts';
import { chain, type Motion, span_s, stateAt, stateOf } from './segment.ts';

const seed = 31;

function draw(random: () => number) {
  const blades = 1 + Math.floor(6 * random());
  const pitch_rad = (2 * Math.PI) / blades;
  const recover = lawNames[Math.floor(lawNames.length * random())]!;
  const knife: Knife = {
    circumference: 0.05 + 2 * random(),
    blades,
    working_rad: pitch_rad * (0.02 + 0.9 * random()),
    recover,
  };
  const turning = (2 * Math.PI) / knife.circumference;
  const zone = knife.working_rad / turning;
  const cutLength = zone + (knife.circumference / blades - zone) * 10 ** (-1 + 2 * random());
  return { knife, cutLength, pitch_rad, turning, zone };
}

/** The least and the largest velocity at both ends of each piece and at places within. */
function speeds(motion: Motion) {
  const all = motion.flatMap((each) =>
    Array.from({ length: 41 }, (_, at) => stateOf(each, (each.duration_s * at) / 40).velocity),
  );
  return { least: Math.min(...all), largest: Math.max(...all) };
}

/** The least velocity of a recovery by the law over any length, searched: no knife waits here, below 0 it turns back. */
function searchedLeast({ circumference, blades, working_rad, recover }: Knife, cutLength: number): number {
  const length = cutLength - (working_rad * circumference) / (2 * Math.PI);
  const straight = (2 * Math.PI) / circumference;
  const stroke = (2 * Math.PI) / blades - working_rad - straight * length;
  const at = (x: number) => straight + (stroke * lawAt(recover, x).velocity) / length;
  return Math.min(...Array.from({ length: 201 }, (_, index) => at(index / 200)));
}

describe('the cut of a rotary knife', () => {
  it('takes its length and one blade, at the speed of the web in its zone, without a jump: 5000 random knives', () => {
    const random = seeded(seed);
    const wrong: string[] = [];
    const met = { shorter: 0, longer: 0, waiting: 0 };
    for (let run = 0; run < 5000; run++) {
      const { knife, cutLength, pitch_rad, turning, zone } = draw(random);
      const motion = chain(knifeMotion({ ...knife, cutLength }));
      const end = stateOf(motion.at(-1)!, motion.at(-1)!.duration_s);
      const inZone = [0, zone * 0.49, cutLength - zone * 0.49, cutLength].map((s) => stateAt(motion, s));
      const { least, largest } = speeds(motion);
      const waits = cutLength > criticalLength(knife);
      const shorter = cutLength < knife.circumference / knife.blades;
      met[waits ? 'waiting' : shorter ? 'shorter' : 'longer']++;
      const mirrored = cutLength * random();
      const [one, other] = [stateAt(motion, mirrored), stateAt(motion, cutLength - mirrored)];
      const stepped = motionLaws[knife.recover].peakJerk === Infinity;
      const said: readonly (readonly [string, boolean])[] = [
        ['length', Math.abs(span_s(motion) / cutLength - 1) < 1e-12],
        ['begin', motion[0]!.polynomial[0] === 0],
        ['angle', Math.abs(end.position / pitch_rad - 1) < 1e-11],
        ['zone', inZone.every((each) => Math.abs(each.velocity / turning - 1) < 1e-11 && each.acceleration === 0)],
        ['joins', brokenJoins(motion, stepped ? 'velocity' : 'acceleration').length === 0],
        ['direction', least > -1e-9 * turning],
        ['quicker only if shorter', shorter ? least > turning * (1 - 1e-9) : largest < turning * (1 + 1e-9)],
        ['stands still only if waiting', waits === least < 1e-9 * turning],
        ['symmetry', Math.abs(one.position + other.position - pitch_rad) < 1e-10 * pitch_rad],
        ['sum', Math.abs(integral(motion, (state) => state.velocity) / pitch_rad - 1) < 1e-10],
      ];
      for (const [what, holds] of said)
        if (!holds) wrong.push(`seed ${seed}, run ${run}, ${what}: ${JSON.stringify({ ...knife, cutLength })}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
    for (const count of Object.values(met)) expect(count).toBeGreaterThan(500);
  });

  it.each(lawNames)(
    'has the mean speed of angle over length in the recovery, summed in 20 000 parts: %s',
    (recover) => {
      const knife: Knife = { circumference: 0.5, blades: 2, working_rad: 0.7, recover };
      const zone = (0.7 * 0.5) / (2 * Math.PI);
      const parts = 20_000;
      for (const cutLength of [0.15, 0.215, 0.25, 0.3, 1.2 * criticalLength(knife)]) {
        const motion = chain(knifeMotion({ ...knife, cutLength }));
        const length = cutLength - zone;
        let sum = 0;
        for (let at = 0; at < parts; at++) sum += stateAt(motion, zone / 2 + (length * (at + 0.5)) / parts).velocity;
        expect(Math.abs(sum / parts / ((Math.PI - 0.7) / length) - 1)).toBeLessThan(1e-6);
      }
    },
  );

  it.each(lawNames)('is fastest or slowest in the middle, by the peak velocity of the law: %s', (recover) => {
    const knife: Knife = { circumference: 0.5, blades: 1, working_rad: Math.PI / 2, recover };
    const turning = 4 * Math.PI;
    for (const cutLength of [0.3, 0.45, 0.55, criticalLength(knife)]) {
      const length = cutLength - 0.125;
      const middle = stateAt(chain(knifeMotion({ ...knife, cutLength })), cutLength / 2);
      const stroke = (3 * Math.PI) / 2 - turning * length;
      const peak = turning + (stroke * motionLaws[recover].peakVelocity) / length;
      expect(middle.velocity).toBeCloseTo(peak, 10);
      expect(middle.position).toBeCloseTo(Math.PI, 12);
    }
  });

  it.each(lawNames)('at the critical length just does not stand still, as a search for it finds: %s', (recover) => {
    const knife: Knife = { circumference: 0.8, blades: 3, working_rad: 0.6, recover };
    let [low, high] = [0.8 / 3, 10];
    while (high - low > 1e-12) {
      const between = (low + high) / 2;
      if (searchedLeast(knife, between) > 0) low = between;
      else high = between;
    }
    expect(criticalLength(knife)).toBeCloseTo(low, 10);
  });

  it.each(lawNames)('longer than critical waits half-way and is the critical cut otherwise: %s', (recover) => {
    const knife: Knife = { circumference: 0.8, blades: 3, working_rad: 0.6, recover };
    const critical = criticalLength(knife);
    const [just, longer] = [critical, critical + 0.3].map((cutLength) => chain(knifeMotion({ ...knife, cutLength })));
    expect(longer).toHaveLength(just!.length + 1);
    for (const share of [0.05, 0.2, 0.4, 0.6, 0.85, 1]) {
      const s = share * critical;
      const [one, other] = [stateAt(just!, s), stateAt(longer!, share > 0.5 ? s + 0.3 : s)];
      expect(other.position).toBeCloseTo(one.position, 12);
      expect(other.velocity).toBeCloseTo(one.velocity, 9);
    }
    for (const s of [0.01, 0.15, 0.29]) {
      const state = stateAt(longer!, critical / 2 + s);
      expect(state.velocity).toBe(0);
      expect(state.position).toBeCloseTo(Math.PI / 3, 12);
    }
  });

  it.each(lawNames)('at the synchronous length keeps its speed all round: %s', (recover) => {
    const motion = chain(knifeMotion({ circumference: 0.5, blades: 2, working_rad: 0.7, recover, cutLength: 0.25 }));
    for (const { velocity } of motion.flatMap((each) => [stateOf(each, 0), stateOf(each, each.duration_s / 3)]))
      expect(velocity).toBeCloseTo(4 * Math.PI, 12);
  });

  it('is refused where it cannot be, in a sentence', () => {
    const knife = {
      circumference: 0.5,
      blades: 2,
      working_rad: 0.7,
      recover: 'modified_sine',
      cutLength: 0.215,
    } as const;
    for (const key of ['circumference', 'blades', 'working_rad', 'cutLength'] as const)
      for (const wrong of [0, -1, Number.NaN, Infinity])
        expect(() => knifeMotion({ ...knife, [key]: wrong })).toThrow(RangeError);
    expect(() => criticalLength({ ...knife, blades: 0 })).toThrow('the number of blades must be over 0');
    expect(() => knifeMotion({ ...knife, working_rad: Math.PI })).toThrow(
      'leaves nothing of the 180° from blade to blade',
    );
    const zone = (0.7 * 0.5) / (2 * Math.PI);
    expect(() => knifeMotion({ ...knife, cutLength: 0.99 * zone })).toThrow(RangeError);
    expect(() => knifeMotion({ ...knife, cutLength: 0.05 })).toThrow('cuts of 50 mm end within the 55.7 mm of web');
    expect(chain(knifeMotion({ ...knife, cutLength: 1.01 * zone })).length).toBeGreaterThan(2);
  });
});
