// Files of marks that cannot be, or say half: each is told by its place, and nothing throws.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { allTables } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';

const assessed = (text: string) => {
  const machine = read(`layshaft: 1\n${text}`);
  return { machine, ...assess(resolve(machine, [])) };
};
const line = 'masters: { line: { speed: 4 m/s, repeat: 635 mm, stops: { quick: { within: 3 s } } } }\n';

describe('a name that is none', () => {
  it.each([
    ['an axis', 'axis: knive, spread: { x: 1 µm }', "no axis is called 'knive'"],
    ['a master', 'follow: lime, spread: { x: 1 µm }', "no master is called 'lime'"],
    [
      'a stop',
      'follow: line, spread: { x: 1 µm }, lost: { after: 2, looked_every: 1 ms, stop: quik }',
      "no stop is called 'quik'",
    ],
    ['a contribution', 'spread: { x: 1 µm, z: 1 µm }, correlation: [[x, y, 0.5]]', "no contribution is called 'y'"],
    ['a factor', 'spread: { x: 1 µm, z: 1 µm }, products: [[x, y, 1 m]]', "no contribution is called 'y'"],
  ])('of %s is told', (_, mark, message) => {
    const { machine } = assessed(`${line}axes: { knife: { drive: drive_5 } }\nmarks: { a: { ${mark} } }\n`);
    expect(machine.problems.map((each) => each.message)).toContain(message);
  });

  it('that another part of the mark brings cannot stand under spread', () => {
    const { machine } = assessed('marks: { a: { spread: { eye_jitter: 3 µs } } }\n');
    expect(machine.problems[0]!.message).toMatch(
      /'eye_jitter' cannot be a name here: another part of the mark brings it/,
    );
  });
});

describe('half a mark', () => {
  it.each([
    ['nothing', '', 'marks.a.tolerance'],
    ['no contribution', 'tolerance: 1 mm', 'marks.a.spread'],
    ['no speed for a time', 'tolerance: 1 mm, spread: { x: 3 µs }', 'marks.a.speed'],
    ['an unknown contribution', 'tolerance: 1 mm, spread: { x: unknown }', 'marks.a.spread.x'],
    [
      'a sample of lengths and times',
      'tolerance: 1 mm, speed: 1 m/s, spread: { x: { sample: [1 µm, 2 µs] } }',
      'marks.a.spread.x.sample',
    ],
    ['a sample of one', 'tolerance: 1 mm, spread: { x: { sample: [1 µm] } }', 'marks.a.spread.x.sample'],
    [
      'no modulus',
      'tolerance: 1 mm, web: { between: 2 m, tension: 3 N, width: 1 m, thickness: 50 µm }',
      'marks.a.web.modulus',
    ],
    ['no length under a roll', 'tolerance: 1 mm, roll: { slip: 0.1 % }', 'marks.a.length'],
    [
      'no edges for an eye that is slower off than on',
      'speed: 1 m/s, tolerance: 1 mm, length: 1 m, eye: { jitter: 1 µs, hysteresis: 10 µm }',
      'marks.a.edges',
    ],
    ['no dead time', 'tolerance: 1 mm, spread: { x: 1 µm }, correct: { share: 10 % }', 'marks.a.correct.dead_time'],
    ['a master that turns', 'follow: shaft, tolerance: 1 mm, spread: { x: 3 µs }', 'masters.shaft.speed'],
    [
      'correlations that cannot be',
      'tolerance: 1 mm, spread: { x: 1 µm, y: 1 µm, z: 1 µm }, correlation: [[x, y, -0.9], [y, z, -0.9], [x, z, -0.9]]',
      'marks.a.correlation',
    ],
    ['a product over nothing', 'tolerance: 1 mm, spread: { x: 1 µm }, products: [[x, x, 0 m]]', 'marks.a.products'],
    [
      'a pair that stands twice',
      'tolerance: 1 mm, spread: { x: 1 µm, y: 1 µm }, products: [[x, y, 1 m], [y, x, 2 m]]',
      'marks.a.products',
    ],
    [
      'a product of what is something on average',
      'tolerance: 1 mm, spread: { x: { normal: 1 µm, offset: 1 µm }, y: 1 µm }, products: [[x, y, 1 m]]',
      'marks.a.products',
    ],
    [
      'a product of a measured sample',
      'tolerance: 1 mm, spread: { x: { sample: [1 µm, 2 µm] } }, products: [[x, x, 1 m]]',
      'marks.a.products',
    ],
    [
      'a product that has the name of a contribution',
      'tolerance: 1 mm, spread: { x: 1 µm, x_squared: 1 µm }, products: [[x, x, 1 m]]',
      'marks.a.products',
    ],
    [
      'a product of what is correlated and not normal',
      'tolerance: 1 mm, spread: { x: { rectangular: 1 µm }, y: 1 µm }, correlation: [[x, y, 0.5]], products: [[x, y, 1 m]]',
      'marks.a.correlation',
    ],
    [
      'a product over what is unknown',
      'tolerance: 1 mm, spread: { x: 1 µm }, products: [[x, x, unknown]]',
      'marks.a.products.0.over',
    ],
    [
      'a sample without acceleration',
      'speed: 1 m/s, tolerance: 1 mm, capture: { stamped: 1 µs, sample: 1 ms }',
      'marks.a.capture.acceleration',
    ],
  ])('%s is unknown and says what would settle it', (_, mark, path) => {
    const { findings, machine, ...rest } = assessed(
      `masters: { shaft: { speed: 60 rpm } }\nmarks: { a: { ${mark} } }\n`,
    );
    const budget = findings.find(({ check }) => check === 'marks.budget')!;
    expect(budget.verdict).toBe('unknown');
    expect(budget.lacks.map((lack) => lack.path)).toContain(path);
    for (const view of show({ findings, ...rest }, 'marks')) expect(allTables(view).length).toBeGreaterThan(1);
  });

  it('with a category 0 stop or one of another line does not know its run-on', () => {
    const { findings } = assessed(
      `masters: { line: { speed: 4 m/s, repeat: 1 m, stops: { off: { within: 3 s, category: 0 } } } }
marks: { a: { follow: line, spread: { x: 1 µm }, lost: { after: 1, looked_every: 1 ms, stop: off, allowed: 3 m } } }\n`,
    );
    const found = findings.find(({ check }) => check === 'marks.run_on')!;
    expect(found.lacks.map(({ path }) => path)).toContain('marks.a.lost.stop');
  });
});

describe('correlation', () => {
  const uOf = (more: string): number => {
    const { marks } = assessed(`marks: { a: { spread: { x: 3 µm, y: 4 µm }, ${more} } }\n`);
    const { known } = marks[0]!;
    return known instanceof Missing ? Number.NaN : known.u.value * 1e6;
  };
  it('adds up, cancels, or does nothing', () => {
    expect(uOf('correlation: [[x, y, 1]]')).toBeCloseTo(7, 9);
    expect(uOf('correlation: [[x, y, -1]]')).toBeCloseTo(1, 9);
    expect(uOf('correlation: [[y, x, 0]]')).toBeCloseTo(5, 9);
  });

  it('with few degrees of freedom leaves the expanded uncertainty unknown; not normal, it has no trials', () => {
    const { marks, ...rest } = assessed(
      'marks: { a: { spread: { x: { normal: 3 µm, degrees: 5 }, y: { rectangular: 4 µm } }, correlation: [[x, y, 0.5]] } }\n',
    );
    const { known } = marks[0]!;
    if (known instanceof Missing) throw new Error('not known');
    expect([known.degrees, known.factor, known.expanded]).toEqual(['unknown', undefined, undefined]);
    const [view] = show({ marks, ...rest }, 'marks.a');
    const trials = view!.later.find(({ name }) => name === 'trials')!.make();
    expect(trials.rows).toHaveLength(1);
    expect(trials.rows[0]![1]).toBeInstanceOf(Missing);
  });
});

describe('a web askew', () => {
  it('about nothing has no expanded uncertainty; about more than its spread it has one', () => {
    const knownOf = (angle: string) => {
      const { known } = assessed(
        `marks: { a: { skew: { over: 2 m, angle: ${angle}, spread: 0.2° }, spread: { x: 1 µm } } }\n`,
      ).marks[0]!;
      if (known instanceof Missing) throw new Error('not known');
      return known;
    };
    expect(knownOf('0°').orders!.meaningless).toBe(true);
    expect(knownOf('0°').expanded).toBeUndefined();
    expect(knownOf('3°').orders!.meaningless).toBe(false);
    expect(knownOf('3°').expanded).toBeDefined();
    expect(knownOf('3°').u.value / knownOf('3°').orders!.second.value).toBeCloseTo(1, 3);
  });
});

it.each([
  ['degrees: 0.001', 2],
  ['degrees: 1', 2],
  ['degrees: 2', 1],
  ['degrees: 2.5', 0],
])('trials of a Student t tell no mean and no deviation that there is not: %s', (degrees, none) => {
  const { marks, ...rest } = assessed(
    `marks: { a: { tolerance: 1 mm, spread: { x: { normal: 3 µm, ${degrees} } } } }\n`,
  );
  const { rows } = show({ marks, ...rest }, 'marks.a')[0]!
    .later.find(({ name }) => name === 'trials')!
    .make();
  expect(rows.filter(([, cell]) => typeof cell === 'string' && /^none: /.test(cell))).toHaveLength(none);
  for (const cell of rows.flat()) if (cell instanceof Quantity) expect(cell.value).not.toBeNaN();
});

describe('products', () => {
  const knownOf = (mark: string) => {
    const { known } = assessed(`marks: { a: { tolerance: 1 mm, ${mark} } }\n`).marks[0]!;
    if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
    return known;
  };

  it('are of contributions as they are, whatever their sensitivity, and at their worst bounded', () => {
    const mark = (c: number) =>
      `spread: { x: { rectangular: 2 mm, sensitivity: ${c} }, y: { rectangular: 3 mm, sensitivity: 0 } }, products: [[y, x, 20 mm]]`;
    for (const c of [0, 1]) {
      const { parts, worst, orders } = knownOf(mark(c));
      const product = parts.find(({ name }) => name === 'x_times_y')!;
      expect(product.u.value).toBeCloseTo(((2e-3 / Math.sqrt(3)) * (3e-3 / Math.sqrt(3))) / 20e-3, 15);
      expect(worst.value).toBeCloseTo(0.3e-3 + c * 2e-3, 12);
      expect(orders!.meaningless).toBe(c === 0);
    }
  });

  it('leave the degrees of freedom unknown where a factor has few, and are nothing where one is nothing', () => {
    expect(knownOf('spread: { x: { normal: 1 mm, degrees: 4 }, y: 1 mm }, products: [[x, y, 1 m]]').degrees).toBe(
      'unknown',
    );
    expect(knownOf('spread: { x: { normal: 1 mm, degrees: 4 }, y: 1 mm }, products: [[y, y, 1 m]]').degrees).not.toBe(
      'unknown',
    );
    const { u, orders } = knownOf('spread: { x: 0 mm }, products: [[x, x, 1 m]]');
    expect([u.value, orders]).toEqual([0, undefined]);
  });

  it('stand beside a web askew: both are of second order', () => {
    const skew = 'skew: { over: 2 m, angle: 0°, spread: 0.2° }';
    const alone = knownOf(`${skew}, spread: { x: 10 µm }`);
    const both = knownOf(
      `${skew}, spread: { x: 10 µm, y: { normal: 1 mm, sensitivity: 0 } }, products: [[y, y, 50 mm]]`,
    );
    const square = (1e-6 * Math.SQRT2) / 50e-3;
    expect(both.u.value).toBeCloseTo(Math.hypot(alone.u.value, square), 12);
    expect(both.orders!.second.value).toBeCloseTo(Math.hypot(alone.orders!.second.value, square), 9);
    expect(both.orders!.first.value).toBe(alone.orders!.first.value);
    expect(both.orders!.meaningless).toBe(true);
  });

  it('are weighed against a first order in which correlation counts', () => {
    const skew = 'skew: { over: 2 m, angle: 0°, spread: 0.02° }, spread: { x: 1 µm, y: 1 µm }';
    expect(knownOf(skew).orders!.meaningless).toBe(false);
    expect(knownOf(`${skew}, correlation: [[x, y, -1]]`).orders!.meaningless).toBe(true);
  });
});

it('a coverage that is unknown leaves the expanded uncertainty unknown, and the tolerance is held all the same', () => {
  const { marks, findings } = assessed('marks: { a: { tolerance: 1 mm, coverage: unknown, spread: { x: 1 µm } } }\n');
  const { known } = marks[0]!;
  if (known instanceof Missing) throw new Error('not known');
  expect([known.factor, known.expanded]).toEqual([undefined, undefined]);
  expect(known.coverage).toBeInstanceOf(Missing);
  expect(findings[0]!.verdict).toBe('holds');
});

it('captures on one axis take turns', () => {
  const rearmOf = (atOnce: number) => {
    const { marks } = assessed(
      `${line}axes: { feed: { drive: drive_5 } }
marks:
  gap: { axis: feed, follow: line, spread: { x: 1 µm }, capture: { latched: 5 µm, rearm: 3 ms, at_once: ${atOnce} } }
  label: { axis: feed, follow: line, length: 200 mm, spread: { x: 1 µm }, capture: { latched: 5 µm, rearm: 3 ms, at_once: ${atOnce} } }
`,
    );
    return marks
      .map(({ captured }) => captured.caught!.rearm)
      .map((each) => (each instanceof Missing ? 0 : each.value));
  };
  expect(rearmOf(3)).toEqual([3e-3, 3e-3]);
  expect(rearmOf(2)).toEqual([6e-3, 6e-3]);
});

it('a stray edge counts by its way to the mark with one capture, and takes a turn with more', () => {
  const caughtOf = (said: string) => {
    const { marks, findings } = assessed(
      `${line}marks: { a: { follow: line, tolerance: 1 mm, wanders: 2 mm, spread: { x: 1 µm }, ${said} } }\n`,
    );
    const { rearm, spacing } = marks[0]!.captured.caught!;
    return [rearm, spacing]
      .map((each) => (each instanceof Missing ? 0 : each.value))
      .concat(findings.filter(({ check, verdict }) => check === 'marks.caught' && verdict === 'fails').length);
  };
  const latch = (more = '') => `capture: { latched: 5 µm, rearm: 3 ms${more} }`;
  expect(caughtOf(latch())).toEqual([3e-3, 0.635, 0]);
  expect(caughtOf(`stray: 40 mm, ${latch()}`)).toEqual([3e-3, 0.04, 0]);
  // 4 m/s for 3 ms and 2 mm either way are 16 mm.
  expect(caughtOf(`stray: 15 mm, ${latch()}`)).toEqual([3e-3, 0.015, 1]);
  expect(caughtOf(`stray: 15 mm, ${latch(', at_once: 2')}`)).toEqual([3e-3, 0.635, 0]);
});

describe('a speed that varies', () => {
  const speedPartOf = (mark: string): number => {
    const { known } = assessed(`marks: { a: { speed: 2 m/s, speed_spread: 10 %, ${mark} } }\n`).marks[0]!;
    if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
    return known.parts.find(({ name }) => name === 'speed_spread')?.u.value ?? 0;
  };
  it.each([
    ['a delay', 'eye: { delay: 50 µs }, spread: { x: 1 µm }', 10e-6],
    ['an offset that is a time, of a spread that is a length', 'spread: { x: { normal: 1 µm, offset: 50 µs } }', 10e-6],
    ['times that were measured', 'spread: { x: { sample: [40 µs, 60 µs] } }', 10e-6],
  ])('moves %s', (_, mark, due) => {
    expect(speedPartOf(mark)).toBeCloseTo(due, 15);
  });

  it.each([
    ['an offset that is a length, of a spread that is a time', 'spread: { x: { normal: 1 µs, offset: 50 µm } }'],
    ['a hysteresis', 'length: 0.3 m, edges: [rising, falling], eye: { hysteresis: 1 mm }, spread: { x: 1 µm }'],
  ])('does not move %s', (_, mark) => {
    expect(speedPartOf(mark)).toBe(0);
  });

  it('moves what an eye is slower off than on, and not its hysteresis beside it', () => {
    const eye = 'eye: { rise_fall_difference: 50 µs, hysteresis: 1 mm }, spread: { x: 1 µm }';
    for (const edges of ['[rising, falling]', '[falling, rising]'])
      expect(speedPartOf(`length: 0.3 m, edges: ${edges}, ${eye}`)).toBeCloseTo(10e-6, 15);
  });
});

it('a scale that is off counts as a share of the length', () => {
  const { marks } = assessed(
    `${line}marks: { a: { follow: line, tolerance: 1 mm, length: 300 mm, roll: { scale: 0.02 % } } }\n`,
  );
  const { known } = marks[0]!;
  if (known instanceof Missing) throw new Error(JSON.stringify(known.lacks));
  expect(known.worst.value).toBeCloseTo(60e-6, 12);
  expect(known.u.value).toBeCloseTo(60e-6 / Math.sqrt(3), 12);
});

it('a tolerance reads with its sign and without it', () => {
  for (const written of ['0.2 mm', '±0.2 mm', '± 0.2 mm']) {
    const { machine, marks } = assessed(`marks: { a: { tolerance: ${written}, spread: { x: 10 µm } } }\n`);
    expect(machine.problems).toEqual([]);
    expect(marks[0]!.capability).toHaveProperty('cpk.value', expect.closeTo(0.2 / 0.03, 9));
  }
  expect(assessed('marks: { a: { tolerance: ±-0.2 mm } }\n').machine.problems).toHaveLength(1);
});

describe('a correction that swings without end', () => {
  const mark = (correct: string) =>
    assessed(
      `masters: { line: { speed: 1 m/s, repeat: 1 m } }\nmarks: { a: { tolerance: 1 mm, spread: { x: 1 µm }, follow: line, correct: { ${correct} } } }\n`,
    );
  const lack = (rest: string) =>
    `marks.a.correct.share has a problem: less than ${rest.replace(',', ', from which on the correction swings without end,')}`;
  it.each([
    ['dead_time: 2 repeats', '61.8 %, or a shorter dead time (dead_time)'],
    ['behind: 2.5 m', '61.8 %, or a shorter dead time (behind, delay)'],
    ['dead_time: 2 repeats, filter: 2', '53.59 %, or a shorter dead time (dead_time), or a shorter mean (filter)'],
  ])('with %s leaves budget and settling unknown, and tells its limit and what would end it', (loop, rest) => {
    const rests = `${loop}, splice: 5 mm, settles_within: 40 repeats`;
    const { findings, ...more } = mark(`share: 70 %, ${rests}`);
    const found = (check: string) => findings.find((each) => each.check === `marks.${check}`);
    expect([more.machine.problems, found('stable')?.verdict]).toEqual([[], 'fails']);
    expect(printQuantity(found('stable')!.capacity!.value, '1', { as: '%' })).toBe(rest.slice(0, rest.indexOf(',')));
    for (const check of ['budget', 'settling'])
      expect([found(check)?.verdict, found(check)?.says]).toEqual(['unknown', lack(rest)]);
    for (const view of show({ findings, ...more }, 'marks.a')) allTables(view);
    const budget = mark(`share: 30 %, ${rests}`).findings.find(({ check }) => check === 'marks.budget');
    expect(budget?.verdict).toBe('holds');
  });
});
