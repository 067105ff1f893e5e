// The train of an axis as a contribution to a mark: its torques by hand and sampled, its span played through step by step.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { seeded } from '../../../../tests/support/seeded.ts';
import { demandOf } from '../axes/demand.ts';
import { lostInCycle } from '../axes/lost-motion.ts';
import { traceOf } from '../axes/trace.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import type { KnownLostMotion } from '../physics/lost-motion.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { replay } from '../working/working.ts';
import { assess } from './assess.ts';
import { explain } from './numbers.ts';
import { show } from './show.ts';

const noRotor = 'motor: { torque: 500 N·m, torque_peak: 900 N·m, speed: 6000 rpm }';
const rotor = 'motor: { inertia: 4 kg·cm², torque: 500 N·m, torque_peak: 900 N·m, speed: 6000 rpm }';
const arcmin = Math.PI / 180 / 60;

const of = (axis: string, mark = 'tolerance: 1 mm') =>
  assessText(
    `layshaft: 1\nmasters: { line: { speed: 2 m/s, repeat: 500 mm } }\naxes: { a: { ${axis} } }\nmarks: { m: { axis: a, speed: 2 m/s, spacing: 500 mm, ${mark} } }\n`,
    'm.yaml',
  );
const knownOf = (assessment: ReturnType<typeof of>): KnownLostMotion => {
  const { known } = lostInCycle(assessment.axes[0]!);
  if (known === undefined || known instanceof Missing) throw new Error(JSON.stringify(known));
  return known;
};
const marked = (assessment: ReturnType<typeof of>) => assessment.marks[0]!;
const partsOf = (assessment: ReturnType<typeof of>) => {
  const { known } = marked(assessment);
  return known instanceof Missing ? known.lacks.map(({ path }) => path) : known.parts.map(({ name }) => name);
};
const tables = (assessment: ReturnType<typeof of>) => show(assessment, 'marks.m')[0]!.tables;
const told = (assessment: ReturnType<typeof of>, row: string): unknown =>
  tables(assessment)
    .find(({ name }) => name === 'train')!
    .rows.find(([what]) => what === row)![1];

const screwed = (gear: string) =>
  `{ slide: { mass: 60 kg } }, { friction: { force: 90 N } }, { screw: { lead: 20 mm, inertia: 1e-9 kg·m² } }, { gear: { ratio: 5, ${gear} } }`;
const moves = 'cycle: 4 s, steps: [{ move: 0.4 m, ramp: 0.5 s, in: 2 s }, { dwell: rest }]';

describe('the train of an axis that acts on a mark', () => {
  it('the torque through a train goes between its ends: by hand, and sampled finely', () => {
    // 0.4 m in 2 s with ramps of 0.5 s: 0.2667 m/s, 0.5333 m/s².
    const a = 0.4 / 1.5 / 0.5;
    const shaft = 0.02 / (2 * Math.PI) / 5;
    for (const motor of [noRotor, rotor]) {
      const found = knownOf(of(`motion: { ${moves} }, train: [${screwed('backlash: 3 arcmin')}], ${motor}`));
      expect(found.highest.value / ((90 + 60 * a) * shaft)).toBeCloseTo(1, 6);
      // At rest nothing acts; it is never held back.
      expect([found.lowest.value, found.reverses]).toEqual([0, false]);
      const heavy = knownOf(
        of(`motion: { ${moves} }, train: [${screwed('backlash: 3 arcmin').replace('60 kg', '600 kg')}], ${motor}`),
      );
      expect(heavy.highest.value / ((90 + 600 * a) * shaft)).toBeCloseTo(1, 6);
      expect(heavy.lowest.value / ((90 - 600 * a) * shaft)).toBeCloseTo(1, 6);
      expect(heavy.reverses).toBe(true);
    }
    const random = seeded(11);
    const between = (least: number, most: number): string => (least + (most - least) * random()).toFixed(4);
    for (let round = 0; round < 12; round++) {
      const laws = ['modified_sine', 'polynomial_345', 'cycloidal', 'simple_harmonic'];
      const motion = `cycle: 3 s, steps: [{ turn: ${between(40, 300)}°, in: ${between(0.3, 1)} s, law: ${laws[round % 4]} }, { dwell: 100 ms }, { turn: -${between(40, 300)}°, in: ${between(0.3, 1)} s, law: ${laws[(round + 1) % 4]} }, { dwell: rest }]`;
      const trainOf = `{ inertia: ${between(0.1, 2)} kg·m² }, { torque: { against: ${between(-5, 5)} N·m } }, { friction: { torque: ${between(0, 6)} N·m } }, { gear: { ratio: ${between(2, 20)}, efficiency: ${between(70, 99)} %, backlash: 3 arcmin } }`;
      const assessment = of(`motion: { ${motion} }, train: [${trainOf}], ${noRotor}`);
      const found = knownOf(assessment);
      const cases = demandOf(assessment.axes[0]!.axis, assessment.design.gravity).cases;
      if (cases instanceof Missing) throw new Error(JSON.stringify(cases.lacks));
      const torques = traceOf(cases[0]!, 401).map(({ torque }) => torque);
      const size = Math.max(...torques.map(Math.abs));
      expect(Math.abs(found.highest.value - Math.max(...torques))).toBeLessThan(0.005 * size);
      expect(Math.abs(found.lowest.value - Math.min(...torques))).toBeLessThan(0.005 * size);
      expect(replay(found.highest)).toBe(found.highest.value);
    }
  });

  it('a knife whose torque turns round cuts anywhere between both ends of its lost motion', () => {
    const assessment = of(
      `motion: { follow: line, cuts: { length: 500 mm, circumference: 800 mm, blades: 2, working: 30°, recover: modified_sine } }, train: [{ inertia: 0.4 kg·m² }, { friction: { torque: 3 N·m } }, { gear: { ratio: 4, backlash: 2 arcmin, stiffness: 20 N·m/arcmin } }], ${noRotor}`,
    );
    const found = knownOf(assessment);
    const cases = demandOf(assessment.axes[0]!.axis, assessment.design.gravity).cases;
    // The load lies at one flank of the play or the other, and the spring gives way by the torque at the output.
    const radius = 0.8 / (2 * Math.PI);
    const places = traceOf((cases as Exclude<typeof cases, Missing>)[0]!, 1001)
      .filter(({ torque }) => torque !== 0)
      .map(({ torque }) => radius * ((torque * 4) / (20 / arcmin) + (Math.sign(torque) * 2 * arcmin) / 2));
    const span = Math.max(...places) - Math.min(...places);
    expect(found.reverses).toBe(true);
    expect(found.span!.value / span).toBeCloseTo(1, 3);
    const { known } = marked(assessment);
    if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
    const part = known.parts.find(({ name }) => name === 'lost_motion')!;
    expect(part.limit.value).toBeCloseTo(found.span!.value / 2, 12);
    expect(part.u.value).toBeCloseTo(found.span!.value / 2 / Math.SQRT2, 12);
    expect(known.parts).toHaveLength(1);
  });

  it('a tool that lags by an angle cuts later by the way of the web for it', () => {
    // 2 arcmin at the knife, of which the web goes 800 mm in a turn.
    const found = knownOf(
      of(
        `motion: { follow: line, cuts: { length: 500 mm, circumference: 800 mm, blades: 2, working: 30°, recover: modified_sine } }, train: [{ inertia: 0.4 kg·m² }, { gear: { ratio: 4, backlash: 2 arcmin } }], ${noRotor}`,
      ),
    );
    expect(found.span!.value).toBeCloseTo((2 / 60 / 360) * 0.8, 12);
    const time_s = (2 * arcmin) / (2 / (0.8 / (2 * Math.PI)));
    expect(found.span!.value).toBeCloseTo(2 * time_s, 12);
  });
});

describe('a budget', () => {
  const geared = `motion: { ${moves} }, train: [${screwed('backlash: 3 arcmin, stiffness: 6 N·m/arcmin')}], ${rotor}`;
  const reversing = geared.replace('90 N', '1 N');

  it('counts wind-up alone where no torque turns round, and says so', () => {
    const assessment = of(geared, 'tolerance: 1 mm, spread: { x: 1 µm }');
    const found = knownOf(assessment);
    expect(found.reverses).toBe(false);
    expect(found.span!.value).toBeCloseTo(found.windUp!.value, 15);
    expect(partsOf(assessment)).toEqual(['lost_motion', 'x']);
    expect(told(assessment, 'does the torque turn round?')).toBe('no: play does not count');
    const other = of(reversing, 'tolerance: 1 mm, spread: { x: 1 µm }');
    expect(knownOf(other).span!.value).toBeCloseTo(knownOf(other).windUp!.value + knownOf(other).play!.value, 15);
    expect(told(other, 'does the torque turn round?')).toBe('yes: play counts');
  });

  it('takes a typed value before that of the train', () => {
    const assessment = of(reversing, 'tolerance: 1 mm, lost_motion: { rectangular: 30 µm }');
    const { known } = marked(assessment);
    if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
    expect(known.parts.map(({ name, shape }) => [name, shape])).toEqual([['lost_motion', 'rectangular']]);
    expect(known.u.value).toBeCloseTo(30e-6 / Math.sqrt(3), 15);
    expect(tables(assessment).map(({ name }) => name)).not.toContain('train');
  });

  it('names what lacks: the motion, and how much web a turn is', () => {
    expect(partsOf(of(`train: [${screwed('backlash: 3 arcmin')}], ${rotor}`))).toContain('axes.a.motion');
    const turning = of(
      `motion: { cycle: 2 s, steps: [{ turn: 90°, in: 400 ms, law: modified_sine }, { dwell: rest }] }, train: [{ inertia: 0.4 kg·m² }, { gear: { ratio: 4, backlash: 2 arcmin } }], ${rotor}`,
    );
    expect(partsOf(turning)).toEqual(['marks.m.lost_motion']);
  });

  it('counts nothing where the train says nothing, where the torque stays the same, and on a roll of its own', () => {
    const silent = of(`motion: { ${moves} }, train: [${screwed('efficiency: 96 %')}], ${rotor}`, 'spread: { x: 1 µm }');
    expect(partsOf(silent)).toEqual(['x']);
    expect(told(silent, 'none is counted')).toMatch(/neither stiffness nor play/);
    const steady = of(
      `motion: { follow: line, turns: { every: 500 mm } }, train: [{ friction: { torque: 2 N·m } }, { gear: { ratio: 4, backlash: 2 arcmin, stiffness: 9 N·m/arcmin } }], ${rotor}`,
      'spread: { x: 1 µm }',
    );
    expect(partsOf(steady)).toEqual(['x']);
    expect(told(steady, 'from one end to the other')).toBe('none, as the torque');
    const counted = of(reversing, 'length: 300 mm, roll: { count: 50 µm }');
    expect(partsOf(counted)).toEqual(['roll_count']);
  });

  it('counts it for each edge of a length that the axis itself measures', () => {
    const [mark, length] = ['spread: { x: 1 µm }', 'spread: { x: 1 µm }, length: 300 mm'].map((said) => {
      const { known } = marked(of(reversing, said));
      if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
      return known.parts.find(({ name }) => name === 'lost_motion')!;
    });
    expect(length!.u.value / mark!.u.value).toBeCloseTo(Math.SQRT2, 12);
    expect(length!.limit.value / mark!.limit.value).toBeCloseTo(2, 12);
  });

  it('of one finding rests on the same train', () => {
    const text = `layshaft: 1\nmasters: { line: { speed: 2 m/s, repeat: 500 mm } }\naxes: { a: { ${reversing} } }\nmarks: { m: { axis: a, speed: 2 m/s, tolerance: 1 mm } }\n`;
    const design = resolve(read(text, { file: 'm.yaml' }), []);
    const address = 'marks.budget@m';
    const [all, one] = [assess(design), assess(design, { only: address })].map(({ findings }) =>
      findings.find((each) => each.address === address),
    );
    expect(one!.demand!.value).toBe(all!.demand!.value);
  });
});

it('every number of the table of a train is found by its address', () => {
  for (const gear of ['backlash: 3 arcmin', 'backlash: 3 arcmin, stiffness: 6 N·m/arcmin', 'stiffness: 6 N·m/arcmin']) {
    const assessment = of(
      `motion: { follow: line, cuts: { length: 500 mm, circumference: 800 mm, blades: 2, working: 30°, recover: modified_sine } }, train: [{ inertia: 0.4 kg·m² }, { gear: { ratio: 4, ${gear} } }], ${rotor}`,
    );
    const quantities = tables(assessment)
      .find(({ name }) => name === 'train')!
      .rows.flat()
      .filter((cell) => cell instanceof Quantity);
    expect(quantities.length).toBeGreaterThan(3);
    for (const each of quantities) expect(explain(assessment, addressOf(each)), addressOf(each)).toBeDefined();
  }
});
