// Noise of whole files: what each discipline loses against plain counting, who is asked what, and what is said of odd files.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessed, cell, lossesIn, sound, stationIn, tableIn, textOf } from '../assess/noise.support.ts';
import { explain } from '../assess/numbers.ts';
import { show, shownAddresses } from '../assess/show.ts';
import { allTables } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { known } from '../working/testing.support.ts';
import { replay, shown } from '../working/working.ts';
import type { SimulationChunk } from './calc/simulate/plan.ts';
import { runSimulation } from './calc/simulate/run.ts';

const frame_bit = (payload: number): number => 8 * Math.max(64, 28 + payload);
const lostAmong = (bits: number, ratio: number): number => -Math.expm1(bits * Math.log1p(-ratio));

/** Every outcome of every try: the first of those that failed is tried again, as long as repeats are left. */
function unserved(tries: readonly number[], repeats: number): readonly number[] {
  const lost = tries.map(() => 0);
  const again = (left: readonly number[], spare: number, chance: number): void => {
    const [first, ...others] = left;
    if (first === undefined || spare === 0) for (const at of left) lost[at]! += chance;
    else {
      again(others, spare - 1, chance * (1 - tries[first]!));
      again(left, spare - 1, chance * tries[first]!);
    }
  };
  for (let outcome = 0; outcome < 2 ** tries.length; outcome++) {
    const failed = tries.flatMap((_, at) => ((outcome >> at) % 2 === 1 ? [at] : []));
    again(
      failed,
      repeats,
      tries.reduce((all, p, at) => all * (failed.includes(at) ? p : 1 - p), 1),
    );
  }
  return lost;
}

describe('what a discipline loses on a line of four stations', () => {
  const [stations, command, answer, ratio] = [4, 50, 90, 2e-5];
  const file = (profile: string, repeats: number, laid: 'line' | 'ring' = 'line') =>
    sound(
      textOf({
        stations,
        profile,
        repeats,
        command,
        answer,
        laid,
        cycle: '2 ms',
        noise: [`bit_errors: ${ratio}`, 'trip_after: 3'],
      }),
    );
  /** Frames out and back over as many runs as lie before each station. */
  const tries = Array.from({ length: stations }, (_, at) =>
    lostAmong((at + 1) * (frame_bit(command) + frame_bit(answer)), ratio),
  );
  const lostIn = (profile: string, repeats: number): readonly number[] =>
    lossesIn(file(profile, repeats)).stations.map(({ lost }) => known(lost));
  const near = (found: readonly number[], due: readonly number[]): void => {
    expect(found).toHaveLength(due.length);
    for (const [at, each] of found.entries()) expect(each / due[at]!).toBeCloseTo(1, 9);
  };

  it.each(['polled_100', 'pipelined_100'])('%s: repeats that all share, every outcome counted', (profile) => {
    for (const repeats of [0, 1, 2, 3]) near(lostIn(profile, repeats), unserved(tries, repeats));
  });
  it('slotted_100: a frame that is lost is not sent again', () => {
    for (const repeats of [0, 2]) near(lostIn('slotted_100', repeats), tries);
  });
  it('summation_100: one frame over every run, out and back, for all; repeated whole', () => {
    const bits = 8 * Math.max(64, 32 + stations * (command + answer));
    const p = lostAmong(2 * stations * bits, ratio);
    for (const repeats of [0, 1, 3])
      near(
        lostIn('summation_100', repeats),
        tries.map(() => p ** (repeats + 1)),
      );
  });
  it('chained_100: one command for all; its loss silences all behind the run', () => {
    const all = frame_bit(stations * command);
    const first = tries.map(
      (_, at) => 1 - (1 - lostAmong((at + 1) * all, ratio)) * (1 - lostAmong((at + 1) * frame_bit(answer), ratio)),
    );
    near(lostIn('chained_100', 0), first);
    const shared = unserved(tries, 1);
    const beyond = shared.map((s, at) => s + lostAmong(at * all, ratio));
    near(lostIn('chained_100', 1), beyond);
  });
  it('a ring is counted where it is broken, and whole beside it', () => {
    const assessment = file('polled_100', 2, 'ring');
    const table = tableIn(assessment, 'ring');
    const whole = table.rows.map((_, row) => cell(table, row, 'one try, whole'));
    near(whole, tries);
    const worst = lossesIn(assessment).stations.map((station) => known(station.try));
    expect(Math.max(...worst)).toBeCloseTo(Math.max(...tries), 12);
  });
  it('a whole ring that sends both ways loses a frame with both its copies', () => {
    const assessment = file('slotted_100', 0, 'ring');
    const table = tableIn(assessment, 'ring');
    const frame = (payload: number, at: number) =>
      lostAmong((at + 1) * frame_bit(payload), ratio) * lostAmong((stations - at) * frame_bit(payload), ratio);
    const due = tries.map((_, at) => 1 - (1 - frame(command, at)) * (1 - frame(answer, at)));
    near(
      table.rows.map((_, row) => cell(table, row, 'one try, whole, both ways')),
      due,
    );
    near(
      table.rows.map((_, row) => cell(table, row, 'one try, whole')),
      tries,
    );
    expect(table.note).toContain('lost with both copies');
    for (const profile of ['polled_100', 'summation_100'])
      expect(tableIn(file(profile, 1, 'ring'), 'ring').columns).not.toContain('one try, whole, both ways');
  });
  it('a run and a station may differ from their network', () => {
    const plain = file('polled_100', 0);
    const own = sound(
      textOf({ stations, command, answer, cycle: '2 ms', noise: [`bit_errors: ${ratio}`, 'runs: [[s2, s1, 1e-3]]'] }),
    );
    const better = (name: string): number => known(stationIn(own, name).try) / known(stationIn(plain, name).try);
    expect(better('s1')).toBe(1);
    const bits = frame_bit(command) + frame_bit(answer);
    const due = 1 - (1 - lostAmong(bits, ratio)) * (1 - lostAmong(bits, 1e-3));
    expect(known(stationIn(own, 's2').try)).toBeCloseTo(due, 12);
    const text = textOf({ stations: 2, noise: ['trip_after: 3'] }).replace('s2: {', 's2: { trip_after: 5,');
    expect(lossesIn(sound(text)).stations.map(({ device }) => known(device.tripAfter))).toEqual([3, 5]);
  });
});

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
  it('take the longest of several bursts, and a dropout for one', () => {
    const found = checksOf([
      'trip_after: 3',
      'bursts: { a: { pattern: contactor }, b: { pattern: dropout, burst: 4 ms, period: 1 h } }',
    ]);
    expect(found.map(({ demand }) => demand?.value)).toEqual([4e-3, 4e-3, 4e-3]);
  });
  it('know that the first loss of all trips where one is enough', () => {
    const [first] = checksOf(['trip_after: 1', 'bursts: { a: { pattern: contactor } }']);
    expect([first!.verdict, first!.margin]).toEqual(['fails', undefined]);
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
