// Noise of whole files: who is asked what, and what is said of odd files. What is lost is in `noise-tries.test.ts`.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessed, cell, sound, tableIn, textOf } from '../assess/noise.support.ts';
import { explain } from '../assess/numbers.ts';
import { show, shownAddresses } from '../assess/show.ts';
import { allTables } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { replay, shown } from '../working/working.ts';
import type { SimulationChunk } from './calc/simulate/plan.ts';
import { runSimulation } from './calc/simulate/run.ts';

describe('findings about noise', () => {
  const checksOf = (noise: readonly string[], more: Partial<Parameters<typeof textOf>[0]> = {}) =>
    sound(textOf({ stations: 3, noise, ...more })).findings.filter(({ check }) =>
      /^networks\.(trip|burst|pattern|missed|counters)$/.test(check),
    );
  const verdicts = (noise: readonly string[], more?: Partial<Parameters<typeof textOf>[0]>) =>
    Object.fromEntries(checksOf(noise, more).map(({ address, verdict }) => [address, verdict]));

  it('are none where only the noise is said, and unknown where it is asked and not said what trips', () => {
    expect(checksOf(['bit_errors: 1e-9'])).toEqual([]);
    const [first, ...others] = checksOf(['trip_free: 8760 h']);
    expect(others).toHaveLength(2);
    expect([first!.verdict, first!.lacks[0]!.path]).toEqual(['unknown', 'networks.n.noise.trip_after']);
  });
  it('ask for a burst only those that it gets at', () => {
    const bursts = (burst: string) => [
      'trip_after: 3',
      'bursts:',
      `  spot: { pattern: welder, burst: ${burst}, hits: [[s1, s2]] }`,
    ];
    expect(verdicts(bursts('1.7 ms'))).toEqual({ 'networks.burst@s2': 'holds', 'networks.burst@s3': 'holds' });
    expect(verdicts(bursts('1.9 ms'))).toEqual({ 'networks.burst@s2': 'thin', 'networks.burst@s3': 'thin' });
    expect(verdicts(bursts('2 ms'))).toEqual({ 'networks.burst@s2': 'fails', 'networks.burst@s3': 'fails' });
  });
  it('ask all stations where a frame goes through all of them', () => {
    const burst = ['trip_after: 3', 'bursts: { spot: { pattern: welder, burst: 1 ms, hits: [[s2, s3]] } }'];
    expect(Object.keys(verdicts(burst, { profile: 'summation_100' }))).toEqual([
      'networks.burst@s1',
      'networks.burst@s2',
      'networks.burst@s3',
    ]);
    expect(Object.keys(verdicts(burst))).toEqual(['networks.burst@s3']);
  });
  it('take the longest of several bursts, and a dropout for one', () => {
    const found = checksOf([
      'trip_after: 3',
      'bursts: { a: { pattern: contactor }, b: { pattern: dropout, burst: 4 ms, period: 1 h } }',
    ]);
    expect(found.map(({ demand }) => demand?.value)).toEqual([4e-3, 4e-3, 4e-3]);
  });
  it.each([
    ['no loss at all', ['bit_errors: 0', 'trip_after: 3'], 0],
    ['losses too rare for any number', ['bit_errors: 1e-10', 'trip_after: 32'], 2],
    ['more repeats than the chance has digits for', ['bit_errors: 1e-10', 'trip_after: 3'], 200],
  ])('hold with %s, by the largest number that there is', (_, noise, repeats) => {
    const asked = { repeats, cycle: '20 ms' };
    const found = checksOf([...noise, 'trip_free: 1e290 a'], asked);
    expect(found.map(({ verdict, capacity }) => [verdict, capacity?.value])).toEqual(
      Array.from({ length: 3 }, () => ['holds', Number.MAX_VALUE]),
    );
    expect(found[0]!.says).toBe(
      'random losses trip it less often in the mean than once in 5.697e300 a, the longest time that can be told; 1e290 a are wanted; bursts are asked for apart',
    );
    expect(replay(found[0]!.capacity!)).toBe(Number.MAX_VALUE);
    const [view] = show(sound(textOf({ stations: 3, noise, ...asked })), 'networks.n.noise');
    expect(view!.says[0]).toBe('Random bit errors trip no station within any time that can be told');
  });
  it('know that the first loss of all trips where one is enough', () => {
    const [first] = checksOf(['trip_after: 1', 'bursts: { a: { pattern: contactor } }']);
    expect([first!.verdict, first!.margin, first!.capacity?.value]).toEqual(['fails', undefined, 0]);
    expect(first!.says).toBe('a burst lasts 3 ms, and any burst trips the station: it bridges 0 s');
  });
  it('ask of pulses without an end how many updates in a row they cost', () => {
    const edges = (every: string) => [
      'trip_after: 3',
      `bursts: { drive: { pattern: drive_switching, pulse_every: ${every} } }`,
    ];
    expect(verdicts(edges('62.5 µs'))['networks.pattern@s1']).toBe('fails');
    expect(verdicts(edges('457 µs'))['networks.pattern@s1']).toBe('holds');
  });
  it('take a recording as it was written down', () => {
    const told = (times: string) => [
      'trip_after: 3',
      `bursts: { log: { pattern: recorded, times: [${times}], period: 10 s, pulse: 30 µs } }`,
    ];
    expect(verdicts(told('1 s, 2 s, 5 s'))['networks.pattern@s1']).toBe('holds');
    expect(verdicts(told('1 s, 1.001 s, 1.002 s'))['networks.pattern@s1']).toBe('fails');
  });
  it('have an address each where two networks have a station of one name', () => {
    const one = textOf({ stations: 1, noise: ['trip_after: 3', 'trip_free: 1 a'] });
    const both = one + one.slice(one.indexOf('  n:')).replace('  n:', '  other:');
    const addresses = sound(both).findings.flatMap(({ address, check }) =>
      check === 'networks.trip' ? [address] : [],
    );
    expect([...addresses].sort()).toEqual(['networks.trip@n.s1', 'networks.trip@other.s1']);
  });
  it('are proven by the random answer and by the burst side by side', () => {
    const found = verdicts(['trip_after: 3', 'trip_free: 1 a', 'bursts: { a: { pattern: contactor } }']);
    expect(found).toEqual({
      'networks.trip@s1': 'holds',
      'networks.trip@s2': 'holds',
      'networks.trip@s3': 'holds',
      'networks.burst@s1': 'fails',
      'networks.burst@s2': 'fails',
      'networks.burst@s3': 'fails',
    });
  });
});

const missedText = (missed: string, tolerance: string) =>
  textOf({ stations: 1, noise: ['trip_after: 4', `missed: ${missed}`] })
    .replace(
      'networks:',
      [
        'axes:',
        '  shuttle:',
        `    tolerance: ${tolerance}`,
        '    drive: { turnaround: 2 µs, forwarding: 1 µs, command: 30 octets, answer: 30 octets }',
        '    motion: { cycle: 300 ms, steps: [{ move: 400 mm, in: 200 ms, law: constant_acceleration }, { dwell: 100 ms }] }',
        '    train: [{ slide: { mass: 5 kg } }, { belt: { diameter: 80 mm, wheel_mass: 0.5 kg } }]',
        'networks:',
      ].join('\n'),
    )
    .replace('    noise:', '      - [s1, shuttle, 1 m, solid]\n    noise:');

describe('the trips of all stations together', () => {
  it('stand below those of each: means that add up as rates do, and chances that multiply', () => {
    const asked = { stations: 3, profile: 'slotted_100', noise: ['bit_errors: 2e-7', 'trip_after: 2'] };
    const table = tableIn(sound(textOf(asked)), 'trips');
    expect(table.rows.map(([name]) => name)).toEqual(['s1', 's2', 's3', 'any of them']);
    const rates = [0, 1, 2].reduce((sum, row) => sum + 1 / cell(table, row, 'mean'), 0);
    expect(cell(table, 3, 'mean') * rates).toBeCloseTo(1, 12);
    const none = [0, 1, 2].reduce((all, row) => all * cell(table, row, 'no trip in a shift'), 1);
    expect(cell(table, 3, 'no trip in a shift')).toBeCloseTo(none, 12);
    expect(none).toBeLessThan(cell(table, 2, 'no trip in a shift'));
    const one = tableIn(sound(textOf({ ...asked, stations: 1 })), 'trips');
    expect(one.rows).toHaveLength(1);
  });
});

describe('missed updates', () => {
  // Half the way in half the time: 4 m/s at the highest, reached with 40 m/s².
  it.each([
    ['hold', '13 mm', 4 * 3e-3 + (40 * 3e-3 ** 2) / 2, 'holds'],
    ['hold', '12 mm', 4 * 3e-3 + (40 * 3e-3 ** 2) / 2, 'fails'],
    ['extrapolate', '1 mm', (40 * 3e-3 ** 2) / 2, 'holds'],
  ])('cost an axis that must %s within %s so much', (missed, tolerance, error, verdict) => {
    const assessment = assessed(missedText(missed, tolerance));
    const finding = assessment.findings.find(({ address }) => address === 'networks.missed@shuttle');
    expect(assessment.design.problems.map(({ message }) => message)).toEqual([]);
    expect(finding?.lacks).toEqual([]);
    expect(finding?.demand?.value).toBeCloseTo(error, 9);
    expect(finding?.verdict).toBe(verdict);
  });
});

describe('a tolerance in another unit than the axis moves in', () => {
  it('is told, and stops nothing', () => {
    const file = assessed(missedText('hold', '1°'));
    const finding = file.findings.find(({ address }) => address === 'networks.missed@shuttle');
    expect(finding?.lacks[0]).toMatchObject({
      path: 'axes.shuttle.tolerance',
      due: 'a length, for the axis moves along',
    });
  });
});

describe('a file that is odd', () => {
  const problemsOf = (noise: readonly string[], more?: readonly string[]) =>
    assessed(textOf({ stations: 2, noise, ...(more && { more }) })).design.problems.map(({ message }) => message);
  it.each([
    [['runs: [[s1, s3, 1e-8]]'], "no run joins 's1' and 's3'"],
    [['bursts: { a: { pattern: welder, hits: [[controller, s2]] } }'], "no run joins 'controller' and 's2'"],
    [['trip_after: 0'], '0 cannot be: trip_after is at least 1'],
    [['bit_errors: 2'], '2 cannot be: bit_errors is at most 100 %'],
    [['bursts: { a: { pattern: weldr } }'], /'weldr' is not one of/],
    [['missed: coast'], /'coast' is not one of/],
  ])('%j is told', (noise, message) => expect(problemsOf(noise)[0]).toMatch(message));

  it('says what is missing in the place of each number, and never throws', () => {
    const value = fc.constantFrom(
      'open',
      'unknown',
      '0',
      '1',
      '1e-10',
      '1e-300',
      '1 ms',
      '1 ps',
      '1e-9 ps',
      '1e9 s',
      '300 ms',
      '3',
      '32',
      '[]',
      '[0 s, 1 s]',
      'hold',
    );
    const field = (keys: readonly string[]) =>
      fc
        .dictionary(fc.constantFrom(...keys), value, { maxKeys: 6 })
        .map((entries) => Object.entries(entries).map(([key, each]) => `${key}: ${each}`));
    const file = fc.record({
      profile: fc.constantFrom('polled_100', 'pipelined_100', 'chained_100', 'summation_100', 'slotted_100', 'none'),
      cycle: fc.constantFrom('1 ms', 'open', '1e-3 ps', '1e12 s', '333 µs'),
      pattern: fc.constantFrom(
        'fast_transient',
        'contactor',
        'welder',
        'drive_switching',
        'dropout',
        'recorded',
        'open',
      ),
      noise: field(['bit_errors', 'counts', 'trip_after', 'trip_free', 'missed']),
      burst: field(['pulse', 'pulse_every', 'pulses', 'burst', 'period', 'times']),
      two: field(['to_bad', 'to_good', 'step', 'lost_in_good', 'lost_in_bad']),
      laid: fc.constantFrom('line', 'ring', 'star'),
      repeats: fc.constantFrom(0, 2, 1000),
    });
    fc.assert(
      fc.property(file, ({ noise, burst, two, pattern, ...asked }) => {
        const lines = [
          ...noise,
          `bursts: { a: { ${[`pattern: ${pattern}`, ...burst].join(', ')} } }`,
          `two_state: { ${two.join(', ')} }`,
        ];
        const assessment = assessed(textOf({ stations: 2, noise: lines, ...asked } as Parameters<typeof textOf>[0]));
        for (const view of show(assessment, 'networks.n.noise')) {
          allTables(view);
          for (const work of view.works ?? []) {
            const job = work.job({ count: 64, seed: 1 });
            if (job instanceof Missing) expect(job.lacks).not.toEqual([]);
            else
              expect(job.merge(job.chunks.map((chunk) => runSimulation(chunk as SimulationChunk))).rows.length).toBe(2);
          }
        }
        for (const { says, demand, capacity } of assessment.findings) {
          expect(says).not.toBe('');
          for (const each of [demand, capacity]) if (each !== undefined) expect(each.value).not.toBeNaN();
        }
      }),
      { seed: 13, numRuns: 60 },
    );
  });

  it('has every number of the view explained by its address, and replayed to the same bits', () => {
    const assessment = sound(
      textOf({
        stations: 3,
        repeats: 2,
        laid: 'ring',
        noise: [
          'trip_after: 3',
          'two_state: { to_bad: 1 %, to_good: 10 %, lost_in_bad: 50 % }',
          'bursts: { a: { pattern: contactor } }',
        ],
        more: ['    counters: { ports: [[controller, s1, 1000, 3]], intervals: [[controller, s1, [1, 2]]] }'],
      }),
    );
    expect(shownAddresses(assessment)).toContain('networks.n.noise');
    const [view] = show(assessment, 'networks.n.noise');
    const numbers = allTables(view!).flatMap(({ rows }) => rows.flat().filter((each) => each instanceof Quantity));
    expect(numbers.length).toBeGreaterThan(80);
    for (const [at, each] of numbers.entries()) {
      expect(Object.is(replay(each), each.value)).toBe(true);
      // Views are made anew for each that is explained.
      if (at % 8 === 0) expect(explain(assessment, addressOf(each))?.text, addressOf(each)).toBe(shown(each).text);
    }
    expect(view!.says.some((each) => each instanceof Missing)).toBe(false);
  });
});
