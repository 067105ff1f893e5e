// Margins, verdicts and their order.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { q } from '../working/testing.support.ts';
import type { MarginCheck } from './check.ts';
import { type Finding, find } from './finding.ts';
import { margin, verdictOf } from './margin.ts';
import { ranked } from './rank.ts';

interface Subject {
  readonly name: string;
  readonly demand: Quantity | Missing;
  readonly capacity: Quantity | Missing;
}

const check: MarginCheck<Subject> = {
  id: 'networks.test',
  title: 'Test',
  asks: 'Is it enough?',
  page: 'A test.',
  advice: 'more of it',
  name: (subject) => subject.name,
  path: () => 'networks.test',
  reserve: { share: 0.2, source: 'judgement', because: 'a test' },
  demand: (subject) => subject.demand,
  capacity: (subject) => subject.capacity,
  says: (demand, capacity) => `${demand} of ${capacity}`,
};

const {
  demand: _d,
  capacity: _c,
  reserve: _r,
  says: _s,
  ...yesNo
} = {
  ...check,
  name: (subject: { name: string }) => subject.name,
  path: () => 'networks.test',
};

const ask = (demand: Quantity | Missing, capacity: Quantity | Missing, name = 'a', reserve?: Quantity<'1'>) =>
  find(check, { name, demand, capacity }, reserve);

describe('a finding', () => {
  it('margin by hand: 370.4 of 500 leave 25.92 %', () => {
    expect(margin({ C: q(500, 's'), D: q(370.4, 's') }, 'a').value).toBeCloseTo(0.2592, 12);
    expect(ask(q(370.4, 's'), q(500, 's')).margin?.value).toBeCloseTo(0.2592, 12);
  });

  it.each([
    [80, 100, 'holds'],
    [80 + 1e-8, 100, 'holds'],
    [80 + 1e-6, 100, 'thin'],
    [100, 100, 'thin'],
    [100 + 1e-8, 100, 'thin'],
    [100 + 1e-6, 100, 'fails'],
    [0, 0, 'fails'],
    [-1, -2, 'fails'],
  ] as const)('with a reserve of 20 %% and %d of %d it %s', (demand, capacity, verdict) => {
    expect(verdictOf(demand, capacity, 0.2)).toBe(verdict);
    expect(ask(q(demand, 's'), q(capacity, 's')).verdict).toBe(verdict);
  });

  it('has no figure without a capacity', () => {
    expect(ask(q(3, 's'), q(0, 's'))).toMatchObject({ verdict: 'fails', margin: undefined });
  });

  it('takes the reserve of the file before its own', () => {
    expect(ask(q(60, 's'), q(100, 's'), 'a', q(0.5, '1')).verdict).toBe('thin');
    expect(ask(q(60, 's'), q(100, 's')).reserve?.by).toMatchObject({
      kind: 'assumed',
      source: 'our judgement: a test',
    });
  });

  it('says what helps when it fails or is thin, and else nothing', () => {
    const advice = (demand: number) => ask(q(demand, 's'), q(100, 's')).advice;
    expect([advice(101), advice(90), advice(80)]).toEqual(['more of it', 'more of it', undefined]);
    expect(ask(q(1, 's'), missing('networks.n.cycle', 'open', 'a time', '500 µs')).advice).toBeUndefined();
  });

  it('of a limit that is met exactly says why that is enough', () => {
    const limit = { ...check, reserve: { share: 0, source: 'judgement', because: 'a limit' } as const };
    const says = (demand: number, reserve?: Quantity<'1'>) =>
      find(limit, { name: 'a', demand: q(demand, 's'), capacity: q(100, 's') }, reserve).says;
    expect(says(100)).toBe('100 of 100; met exactly, and no reserve is wanted on what is stated');
    expect(says(100 + 1e-8)).toContain('met exactly');
    expect(says(100, q(0, '1', 'reserves.networks.test'))).toMatch(/; met exactly, and reserves\.networks\.test is 0$/);
    expect(says(99)).toBe('99 of 100');
    expect(says(101)).toBe('101 of 100');
    expect(ask(q(100, 's'), q(100, 's')).says).toBe('100 of 100');
  });

  it('for a capacity that is open says what is needed, and what would keep the reserve', () => {
    const choosing: MarginCheck<Subject> = {
      ...check,
      whenOpen: {
        enough: (demand, reserve) => q(demand.value / (1 - reserve.value), 's'),
        says: (demand, enough) => `${demand.value} are needed, ${enough?.value ?? 'nothing'} keeps the reserve`,
      },
    };
    const open = missing('networks.n.cycle', 'open', 'a time', '500 µs');
    const asked = (demand: Quantity | Missing, reserve?: Quantity<'1'> | Missing) =>
      find(choosing, { name: 'a', demand, capacity: open }, reserve);
    expect(asked(q(60, 's'))).toMatchObject({
      verdict: 'unknown',
      enough: { value: 75 },
      says: '60 are needed, 75 keeps the reserve; networks.n.cycle is open: a time, such as 500 µs',
    });
    // No capacity keeps all of itself free, and an unknown reserve is not guessed.
    for (const reserve of [q(1, '1'), missing('reserves.networks.test', 'unknown', 'a share', '20 %')]) {
      expect(asked(q(60, 's'), reserve)).toMatchObject({ enough: undefined });
      expect(asked(q(60, 's'), reserve).says).toMatch(/^60 are needed, nothing keeps the reserve; networks/);
    }
    expect(asked(missing('networks.n.profile', 'absent', 'a part', 'polled_100')).says).toMatch(
      /^networks\.n\.profile is/,
    );
  });

  it('is unknown with the demand shown when the capacity is open', () => {
    const finding = ask(q(60, 's'), missing('networks.n.cycle', 'open', 'a time', '500 µs'));
    expect(finding).toMatchObject({
      verdict: 'unknown',
      demand: { value: 60 },
      capacity: undefined,
      margin: undefined,
    });
    expect(finding.says).toBe('networks.n.cycle is open: a time, such as 500 µs');
  });

  it('never compares a value that is not finite', () => {
    const finding = ask(q(Number.NaN, 's', 'networks.n.somewhere'), q(1, 's'));
    expect(finding.verdict).toBe('unknown');
    expect(finding.says).toBe('networks.n.somewhere has no finite value');
  });
});

describe('the order of findings', () => {
  const place = (finding: Finding): number =>
    finding.verdict === 'fails' ? (finding.margin ? 1 : 0) : finding.verdict === 'unknown' ? 2 : finding.margin ? 3 : 4;

  it('puts fails without a figure first, then fails, unknown, the rest by margin, and yes or no that holds last', () => {
    const subject = fc.tuple(
      fc.integer({ min: 0, max: 200 }),
      fc.integer({ min: 0, max: 100 }),
      fc.nat(3),
      fc.string({ minLength: 1, maxLength: 3 }),
    );
    fc.assert(
      fc.property(fc.array(subject, { maxLength: 12 }), (subjects) => {
        const findings = subjects.map(([demand, capacity, kind, name]) =>
          kind === 0
            ? find({ ...yesNo, answer: () => ({ yes: demand > 100, because: '' }) }, { name }, undefined)
            : ask(kind === 1 ? new Missing([]) : q(demand, 's'), q(capacity, 's'), name),
        );
        const order = ranked(findings);
        expect(order).toHaveLength(findings.length);
        expect(findings.every((finding) => order.includes(finding))).toBe(true);
        for (let index = 1; index < order.length; index++) {
          const [a, b] = [order[index - 1]!, order[index]!];
          expect(place(a)).toBeLessThanOrEqual(place(b));
          if (place(a) !== place(b)) continue;
          const [x, y] = [a.margin?.value ?? 0, b.margin?.value ?? 0];
          expect(x).toBeLessThanOrEqual(y);
          if (x === y) expect(a.address <= b.address).toBe(true);
        }
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});
