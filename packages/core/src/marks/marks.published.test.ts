// Published budgets and worked captures as machine files, from the text of the file to the numbers that are shown.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { known } from '../working/testing.support.ts';
import type { Known } from './budget-of.ts';
import { neededTolerance } from './calc/capability.ts';
import type { MarkDemand } from './demand.ts';
import { trialsOf } from './trials.ts';

const assessed = (text: string) => {
  const machine = read(`layshaft: 1\n${text}`);
  expect(machine.problems).toEqual([]);
  return assess(resolve(machine, []));
};
const markIn = (text: string): MarkDemand => assessed(text).marks[0]!;
const budgetIn = (text: string): Known => {
  const { known: found } = markIn(text);
  if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
  return found;
};
const cpkOf = ({ capability }: MarkDemand): number =>
  capability instanceof Missing || capability === 'untold' ? Number.NaN : capability.cpk.value;

describe('JCGM 101:2008, 9.2: the sum of four, as a file', () => {
  it('U-3: four normal ones have 2, and ±3.92 for 95 %', () => {
    const budget = budgetIn('marks: { sum: { tolerance: 8 m, spread: { a: 1 m, b: 1 m, c: 1 m, d: 1 m } } }\n');
    expect(budget.u.value).toBe(2);
    expect(budget.expanded!.value).toBeCloseTo(3.92, 2);
    expect(budget.degrees).toBe('infinite');
    const trials = trialsOf(budget, 'sum');
    if (trials instanceof Missing) throw new Error('no trials');
    expect(Math.abs(trials.symmetric!.most.value.value - 3.92)).toBeLessThan(4 * trials.symmetric!.most.error.value);
  });

  it('U-3: four rectangular ones have 2 by first order, and ±3.88 by trials', () => {
    const each = '{ rectangular: 1.7320508075688772 m }';
    const budget = budgetIn(`marks: { sum: { spread: { a: ${each}, b: ${each}, c: ${each}, d: ${each} } } }\n`);
    expect(budget.u.value).toBeCloseTo(2, 12);
    const trials = trialsOf(budget, 'sum');
    if (trials instanceof Missing) throw new Error('no trials');
    const exact = 2 * Math.sqrt(3) * (2 - (3 / 5) ** 0.25);
    for (const [end, sign] of [
      [trials.symmetric!.least, -1],
      [trials.symmetric!.most, 1],
    ] as const) // prettier-ignore
      expect(Math.abs(end.value.value - sign * exact)).toBeLessThan(4 * end.error.value);
    expect(trials.symmetric!.most.value.value).toBeLessThan(3.92);
  });
});

it('U-1 as a file: JCGM 100:2008, H.1, 31.7 nm with 16.7 degrees of freedom', () => {
  const budget = budgetIn(`
marks:
  gauge:
    coverage: 99 %
    spread:
      standard: { normal: 25 nm, degrees: 18 }
      difference: { normal: 9.7 nm, degrees: 25.6 }
      expansion: { rectangular: 5 nm, degrees: 50 }
      temperature: { rectangular: 28.75 nm, degrees: 2 }
`);
  expect(budget.u.value * 1e9).toBeCloseTo(31.7, 1);
  if (typeof budget.degrees === 'string') throw new Error(budget.degrees);
  expect(budget.degrees.value).toBeCloseTo(16.75, 1);
  // The guide takes 16 degrees and 32 nm: 93 nm.
  expect(Math.abs(budget.expanded!.value * 1e9 - 93)).toBeLessThan(2);
});

describe('U-2 as a file: JCGM 100:2008, H.2, the readings as metres, their slopes and correlations said', () => {
  // The guide prints -0.36, 0.86 and -0.65, which would take X to 0.296. Slopes of R = V/I·cos φ and so on at the means 4.999 V, 19.661 mA and 1.044 46 rad.
  it.each([
    ['R', 25.5515, -6496.7, -219.847, 0.071],
    ['X', 43.9782, -11181.9, 127.732, 0.295],
    ['Z', 50.8622, -12932.2, 0, 0.236],
  ])('%s', (_, ofV, ofI, ofφ, standard) => {
    const budget = budgetIn(`
marks:
  impedance:
    spread:
      v: { sample: [5.007 m, 4.994 m, 5.005 m, 4.990 m, 4.999 m], of: mean, sensitivity: ${ofV} }
      i: { sample: [19.663 mm, 19.639 mm, 19.640 mm, 19.685 mm, 19.678 mm], of: mean, sensitivity: ${ofI} }
      phi: { sample: [1.0456 m, 1.0438 m, 1.0468 m, 1.0428 m, 1.0433 m], of: mean, sensitivity: ${ofφ} }
    correlation: [[v, i, -0.3553], [v, phi, 0.8576], [i, phi, -0.6451]]
`);
    expect(Math.abs(budget.u.value - standard)).toBeLessThan(0.001);
    // Few readings that are correlated: the guide knows no effective degrees of freedom for them.
    expect([budget.degrees, budget.expanded]).toEqual(['unknown', undefined]);
  });
});

describe('U-1 as a file: JCGM 100:2008, H.1, with its terms of second order', () => {
  // Of each factor what it makes in length over 50 mm, or in one kelvin: their product over 50 mm is in nanometres.
  const budget = budgetIn(`
marks:
  gauge:
    coverage: 99 %
    spread:
      standard: { normal: 25 nm, degrees: 18 }
      difference: { normal: 9.682 nm, degrees: 25.45 }
      expansion_apart: { rectangular: 1 µm, sensitivity: 5.0000623e-3 }   # 1e-6 for one kelvin, at -0.1 K
      temperature: { normal: 0.41 m, sensitivity: 0 }
      temperature_apart: { rectangular: 0.05 m, sensitivity: 5.75007e-7 } # 0.05 K, at 11.5e-6 for one kelvin
      expansion: { normal: 1.2 µm, sensitivity: 0 }
    products:
      - [expansion_apart, temperature, 19.99975 m]    # over the reciprocal of 50.000 623 mm
      - [expansion, temperature_apart, 19.99975 m]
`);
  it('31.66 nm by first order, 33.8 nm with the second, which is more than first order may be off by', () => {
    expect(budget.orders!.first.value * 1e9).toBeCloseTo(31.66, 2);
    expect(budget.orders!.second.value * 1e9).toBeCloseTo(33.8, 1);
    expect(budget.u).toBe(budget.orders!.second);
    expect([budget.orders!.meaningless, budget.expanded]).toEqual([true, undefined]);
  });
});

describe('U-4 as a file: JCGM 101:2008, 9.3, calibration of a mass', () => {
  // A milligram is a metre here. The densities of weight and reference stand as they are; 1/8000² of both is the slope.
  const budget = budgetIn(`
marks:
  mass:
    offset: 1.234 m
    spread:
      reference: 0.05 m
      trim: 0.02 m
      air: { rectangular: 0.1 m, sensitivity: 0 }
      weight: { rectangular: 1000 m, sensitivity: 0 }
      of_reference: { rectangular: 50 m, sensitivity: 0 }
    products: [[air, weight, -640 m], [air, of_reference, 640 m]]
`);
  it('1.2340, 0.0539 by first order, 0.0750 with the second: no expanded uncertainty, but trials', () => {
    expect(budget.offset.value).toBeCloseTo(1.234, 4);
    expect(budget.orders!.first.value).toBeCloseTo(0.0539, 4);
    expect(budget.orders!.second.value).toBeCloseTo(0.075, 4);
    expect([budget.orders!.meaningless, budget.expanded]).toEqual([true, undefined]);
    const trials = trialsOf(budget, 'mass');
    if (trials instanceof Missing) throw new Error('no trials');
    const { value, error } = trials.deviation;
    // The model itself comes to 0.0755: its terms of fourth order are no products of two.
    expect(Math.abs(value.value - 0.075)).toBeLessThan(0.00005 + 4 * error.value);
    expect(Math.abs(trials.shortest!.least.value.value - 1.083)).toBeLessThan(0.01);
    expect(Math.abs(trials.shortest!.most.value.value - 1.383)).toBeLessThan(0.01);
  });
});

describe('U-5 as a file: JCGM 101:2008, 9.4, the sum of two squares', () => {
  const each = (sensitivity: number) => `{ normal: 0.005 m, sensitivity: ${sensitivity} }`;
  // A square of x about 0.010 is 100e-6, 0.020 of what x is off by, and the square of that.
  it.each([
    ['at 0, not correlated', 0, 0, 50e-6, 0, 50e-6],
    ['at 0, correlated by 0.9', 0, 0.9, 50e-6, 0, 67e-6],
    ['at 0.010, correlated by 0.9', 0.01, 0.9, 150e-6, 100e-6, 121e-6],
  ])('%s', (_, x, r, mean, first, deviation) => {
    const budget = budgetIn(`
marks:
  sum:
    offset: ${x ** 2} m
    spread: { x: ${each(2 * x)}, y: ${each(0)} }
    correlation: [[x, y, ${r}]]
    products: [[x, x, 1 m], [y, y, 1 m]]
`);
    expect(Math.abs(budget.offset.value - mean)).toBeLessThan(0.5e-6);
    expect(budget.orders!.first.value).toBeCloseTo(first, 12);
    expect(Math.abs(budget.u.value - deviation)).toBeLessThan(0.5e-6);
    expect([budget.orders!.meaningless, budget.expanded]).toEqual([true, undefined]);
    expect(budget.parts.reduce((sum, { share }) => sum + share.value, 0)).toBeCloseTo(1, 12);
    const trials = trialsOf(budget, 'sum');
    if (trials instanceof Missing) throw new Error('no trials');
    expect(Math.abs(trials.mean.value.value - mean)).toBeLessThan(0.5e-6 + 4 * trials.mean.error.value);
    expect(Math.abs(trials.deviation.value.value - deviation)).toBeLessThan(0.5e-6 + 4 * trials.deviation.error.value);
    if (x === 0) expect(trials.shortest!.least.value.value).toBeLessThan(2e-6);
  });
});

describe('where the first order is meaningless, no more trials are outside what is needed than of three deviations', () => {
  it.each([
    ['a square', 'spread: { x: { normal: 4 mm, sensitivity: 0 } }, products: [[x, x, -375 mm]]'],
    [
      'a product',
      'spread: { x: 1 µm, y: { normal: 0.5 mm, sensitivity: 0 }, z: { normal: 1 mm, sensitivity: 0 } }, products: [[y, z, 10 mm]]',
    ],
    [
      'the sum of two squares that go together',
      'spread: { x: { normal: 5 mm, sensitivity: 0 }, y: { normal: 5 mm, sensitivity: 0 } }, correlation: [[x, y, 0.9]], products: [[x, x, 1 m], [y, y, 1 m]]',
    ],
    ['a web askew about nothing', 'skew: { over: 2 m, angle: 0°, spread: 0.3° }, spread: { x: 1 µm }'],
    ['a web askew about more', 'skew: { over: 2 m, angle: 0.2°, spread: 0.3° }, spread: { x: 1 µm }'],
  ])('%s', (_, mark) => {
    const { known: budget, capability } = markIn(`marks: { a: { tolerance: 1 m, ${mark} } }\n`);
    if (budget instanceof Missing) throw new Error('not known');
    expect([budget.orders!.meaningless, capability]).toEqual([true, 'untold']);
    const trials = trialsOf(budget, 'a', { tolerance: budget.needed });
    if (trials instanceof Missing) throw new Error('no trials');
    const { value, error } = trials.outside!;
    expect(value.value).toBeLessThan(0.0027 + 4 * error.value);
    // Three standard deviations would leave more outside than a normal distribution has there.
    const three = neededTolerance({ b: budget.offset, u: budget.u }, 'a');
    const normal = trialsOf(budget, 'a', { tolerance: three });
    if (normal instanceof Missing) throw new Error('no trials');
    expect(normal.outside!.value.value).toBeGreaterThan(0.0027);
  });

  it('says so, and the margin is that of the worst', () => {
    const { findings } = assessed(
      'marks: { a: { tolerance: 0.5 mm, spread: { x: { normal: 4 mm, sensitivity: 0 } }, products: [[x, x, -375 mm]] } }\n',
    );
    const [found] = findings;
    // Eight variances and one more on average, over 375 mm.
    expect(found!.demand!.value).toBeCloseTo((9 * 16e-6) / 0.375, 12);
    expect(found!.verdict).toBe('thin');
    expect(found!.says).toMatch(
      /^the mark needs 384 µm to either side at its worst, since its first order is meaningless, 0.5 mm are allowed$/,
    );
  });
});

describe('captures as files', () => {
  const captured = (more: string) => `
marks:
  print: { speed: 300 m/min, spacing: 0.5 m, tolerance: ±0.1 mm, ${more} }
`;

  it('±0.1 mm at 300 m/min with a stamp: 16 µm, Cpk 2.06 (derived)', () => {
    const mark = markIn(
      captured(
        'eye: { jitter: 3 µs }, capture: { stamped: 1 µs, jitter: 0.5 µs, clock: 0.3 µs, rearm: 2 ms }, spread: { encoder: 5 µm }',
      ),
    );
    expect(cpkOf(mark)).toBeCloseTo(2.06, 2);
    expect(known(mark.known instanceof Missing ? mark.known : mark.known.u) * 1e6).toBeCloseTo(16, 0);
  });

  it('polled every millisecond it is anywhere in 5 mm, seen 2.5 mm late on average', () => {
    const { u, offset, worst } = budgetIn(captured('capture: { polled: 1 ms, rearm: 2 ms }'));
    expect(u.value).toBeCloseTo(5e-3 / Math.sqrt(12), 12);
    expect(offset.value).toBeCloseTo(2.5e-3, 12);
    expect(worst.value).toBeCloseTo(2.5e-3, 12);
    const led = budgetIn(captured('compensated: 100 %, capture: { polled: 1 ms, rearm: 2 ms }'));
    expect(led.offset.value).toBe(0);
  });

  it('a mark that moves by 0.472 mm between 100 and 400 mm/min is seen 94 ms late', () => {
    const offsetAt = (speed: string) =>
      budgetIn(`marks: { a: { speed: ${speed}, eye: { delay: 94.4 ms }, spread: { any: 1 µm } } }\n`).offset.value;
    expect((offsetAt('400 mm/min') - offsetAt('100 mm/min')) * 1e3).toBeCloseTo(0.472, 6);
  });

  it('a mark that was seen to move by 0.472 mm between both is told to be 94 ms late, 4 ms of it unsaid', () => {
    const rowsOf = (eye: string, slow = '100 mm/min') => {
      const [view] = show(
        assessed(
          `marks: { a: { speed: 400 mm/min, seen: { moved: 0.472 mm, lower: ${slow}, higher: 400 mm/min }, spread: { any: 1 µm }${eye} } }\n`,
        ),
        'marks.a',
      );
      return view!.tables.find(({ name }) => name === 'seen')!.rows.map(([, cell]) => cell);
    };
    const valuesOf = (rows: readonly unknown[]) => rows.map((cell) => (cell instanceof Quantity ? cell.value : cell));
    const close = (value: number) => expect.closeTo(value, 9);
    expect(valuesOf(rowsOf(', eye: { delay: 90 ms }'))).toEqual([0.472e-3, 0.0944, 0.09, 0.0044].map(close));
    expect(valuesOf(rowsOf(''))).toEqual([0.472e-3, 0.0944, 0, 0.0944].map(close));
    expect(valuesOf(rowsOf(', compensated: 50 %, eye: { delay: 90 ms }'))[3]).toBeCloseTo(0.0494, 9);
    expect(rowsOf('', '500 mm/min')[1]).toMatchObject({ lacks: [{ path: 'marks.a.seen.higher' }] });
  });

  it('two polled edges at 1 m/s and 4 ms: ±4 mm, standard deviation 4 mm over the root of 6', () => {
    const { u, worst, offset } = budgetIn(
      'marks: { length: { speed: 1 m/s, length: 300 mm, edges: [rising, falling], capture: { polled: 4 ms } } }\n',
    );
    expect(worst.value).toBeCloseTo(4e-3, 12);
    expect(u.value).toBeCloseTo(4e-3 / Math.sqrt(6), 12);
    // Both edges are late alike.
    expect(offset.value).toBe(0);
  });

  it('an eye that is 4 µs slower off than on at 5 m/s sees a product 20 µm too long, and a gap too short', () => {
    const biasOf = (edges: string) =>
      budgetIn(
        `marks: { length: { speed: 5 m/s, length: 0.3 m, edges: ${edges}, eye: { rise_fall_difference: 4 µs }, spread: { any: 1 µm } } }\n`,
      ).offset.value * 1e6;
    expect(biasOf('[rising, falling]')).toBeCloseTo(20, 9);
    expect(biasOf('[falling, rising]')).toBeCloseTo(-20, 9);
    expect(biasOf('[rising, rising]')).toBe(0);
  });

  it('the latch of 5 µm counts is anywhere in one, whatever the speed', () => {
    expect(budgetIn('marks: { a: { capture: { latched: 5 µm } } }\n').u.value).toBeCloseTo(5e-6 / Math.sqrt(12), 15);
  });
});

it('a Cpk of 1.67 of 50 pieces proves about 1.38 with 95 %, and 1.33 with somewhat more (derived)', () => {
  const { capability } = markIn(
    'marks: { a: { tolerance: 50.1 µm, spread: { x: 10 µm }, proves: { cpk: 1.33, confidence: 95 %, pieces: 50 } } }\n',
  );
  if (capability instanceof Missing || capability === 'untold') throw new Error('not known');
  expect(capability.cpk.value).toBeCloseTo(1.67, 9);
  expect(capability.measured!.cpk.value).toBeCloseTo(1.38, 2);
  expect(capability.measured!.sure.value).toBeGreaterThan(0.95);
  expect(capability.measured!.sure.value).toBeLessThan(0.98);
});

describe('register control as files', () => {
  it.each([
    ['0 repeats', 2],
    ['1 repeat', 1],
    ['2 repeats', (Math.sqrt(5) - 1) / 2],
  ])('with a dead time of %s it swings without end from a share of %f on', (dead, limit) => {
    const { loop } = markIn(`marks: { a: { spread: { x: 1 µm }, correct: { share: 10 %, dead_time: ${dead} } } }\n`);
    expect(known(loop!.limit)).toBeCloseTo(limit, 9);
  });

  it('the way to the eye and the delay make the dead time: 2.2 m and 80 mm in repeats of 635 mm are 3 more', () => {
    const { loop } = markIn(
      'marks: { a: { speed: 4 m/s, spacing: 635 mm, spread: { x: 1 µm }, correct: { share: 10 %, behind: 2.2 m, delay: 20 ms } } }\n',
    );
    expect(known(loop!.deadTime)).toBe(3);
  });

  it('beyond the limit the budget is not known, and the gain fails', () => {
    const { findings } = assessed(
      'marks: { a: { tolerance: 1 mm, spread: { x: 1 µm }, correct: { share: 70 %, dead_time: 2 repeats } } }\n',
    );
    const verdicts = Object.fromEntries(findings.map(({ check, verdict }) => [check, verdict]));
    expect(verdicts).toEqual({ 'marks.budget': 'unknown', 'marks.stable': 'fails' });
  });

  it('what is corrected scatters by the root of 1 + K/(2 − K) more without dead time', () => {
    const { u } = budgetIn('marks: { a: { spread: { x: 10 µm }, correct: { share: 40 %, dead_time: 0 repeats } } }\n');
    expect(u.value * 1e6).toBeCloseTo(10 * Math.sqrt(1 + 0.4 / 1.6), 9);
  });
});

it('two repeats of 250 mm, 18 ms and 5 m/s² at 150 m/min: 1.17 m of 1.5 m, with its caution (derived)', () => {
  const { findings } = assessed(
    'marks: { a: { speed: 150 m/min, spacing: 250 mm, spread: { x: 1 µm }, lost: { after: 2, looked_every: 0 ms, reaction: 18 ms, braking: 5 m/s², allowed: 1.5 m } } }\n',
  );
  const found = findings.find(({ check }) => check === 'marks.run_on')!;
  expect(found.demand!.value).toBeCloseTo(1.17, 9);
  expect(found.margin!.value).toBeCloseTo(0.22, 9);
  expect(found.says).toMatch(/not a safety distance.*local codes and licensed practice/);
});

it('tension that varies by 20 N stretches 3 m of a web of 0.5 m times 50 µm and 2 GPa by 1.2 mm (derived)', () => {
  const { parts } = budgetIn(
    'marks: { a: { web: { between: 3 m, tension: { rectangular: 20 N }, width: 0.5 m, thickness: 50 µm, modulus: 2000 N/mm² } } }\n',
  );
  expect(parts[0]!.limit.value * 1e3).toBeCloseTo(1.2, 9);
});
