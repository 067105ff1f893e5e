// Whole machine files with noise against published values. 'Derived' says that a row is arithmetic on a source's formula and
// inputs: it checks the code, not the physics.
import { describe, expect, it } from 'vitest';
import { cell, lossesIn, ratioFor, sound, stationIn, tableIn, textOf } from '../assess/noise.support.ts';
import { known } from '../working/testing.support.ts';

/** The profiles of the demonstration catalogue carry 28 octets beside the payload. */
const overhead = 28;
const run = (asked: Parameters<typeof textOf>[0]) => sound(textOf(asked));

describe('a file of one run', () => {
  it('N3: UCD COMP20320, problem set: 12,000 bits at 1e-6 are lost with 0.0119283 (prints 0.012)', () => {
    const file = run({ stations: 1, command: 1500 - overhead, noise: ['bit_errors: 1e-6'] });
    const lost = known(stationIn(file, 's1').command);
    expect(Math.abs(lost - 0.0119283)).toBeLessThan(1e-7);
    expect(lost.toFixed(3)).toBe('0.012');
  });
  it('E8: IEEE 802.3, clause 40.6.1.3.1: 125 octets at 1e-10 are lost with 1.000e-7', () => {
    const file = run({ stations: 1, command: 125 - overhead, noise: ['bit_errors: 1e-10'] });
    expect(known(stationIn(file, 's1').command).toExponential(3)).toBe('1.000e-7');
  });
  it('E12, derived: 100 Mbit/s fully loaded at 1e-10 has one error each 100 s; 1e-10 is assumed', () => {
    const table = tableIn(run({ stations: 1, noise: ['trip_after: 3'] }), 'clean_run');
    expect(cell(table, 3, 'value')).toBeCloseTo(100, 12);
  });
  it.each([
    ['200 µs', 15e-3],
    ['10 µs', 0.75e-3],
  ])('N1: tutorial on IEC 61000-4-4: 75 pulses, one each %s, last %d s', (every, lasts) => {
    const file = run({ stations: 1, noise: ['bursts:', `  coil: { pattern: fast_transient, pulse_every: ${every} }`] });
    const [source] = lossesIn(file).noise.sources;
    expect(known(source!.burst)).toBeCloseTo(lasts, 15);
    expect([source!.pulse, source!.period].map(known)).toEqual([50e-9, 0.3]);
  });
});

describe('LNTwww, burst error channels: a file with a line of two states', () => {
  const file = run({
    stations: 1,
    noise: [
      'bit_errors: 0',
      'trip_after: 2',
      'two_state: { to_bad: 1 %, to_good: 10 %, lost_in_good: 0.1 %, lost_in_bad: 10 % }',
    ],
  });
  const table = tableIn(file, 'two_state');
  it('N6, exercise 5.7: it is bad for 1/11 of the time', () => expect(cell(table, 0, 'value')).toBeCloseTo(1 / 11, 15));
  it('N7, derived: it loses 1 % in the mean', () => expect(cell(table, 1, 'value')).toBeCloseTo(0.01, 15));
  it('N7 and N8, derived: a repeat 1, 2, 5 and 50 steps later is lost too with 8.21 %, 7.42 %, 5.52 % and 1.02 %', () => {
    const told = [2, 3, 4, 5].map((row) => cell(table, row, 'value'));
    expect(told.map((each) => (100 * each).toFixed(2))).toEqual(['8.21', '7.42', '5.52', '1.02']);
    for (const [at, joint] of [8.209e-4, 7.416e-4, 5.523e-4, 1.024e-4].entries())
      expect(Math.abs(told[at]! * 0.01 - joint)).toBeLessThan(1e-7);
  });
});

describe('losses in a row: a file whose station loses each update with a chance of its own', () => {
  // By a timetable nothing is repeated: 64 octets each way.
  const losing = (chance: number, m: number, cycle = '1 ms') =>
    run({
      stations: 1,
      profile: 'slotted_100',
      cycle,
      noise: [`bit_errors: ${ratioFor(chance, 2 * 8 * 64)}`, `trip_after: ${m}`],
    });
  it.each([
    [2, 6],
    [5, 62],
  ])('N9: math.stackexchange 364038: mean trials to %i losses of ½ in a row are %i', (m, mean) => {
    const station = stationIn(losing(0.5, m), 's1');
    expect(known(station.lost)).toBeCloseTo(0.5, 12);
    expect(known(station.meanToTrip) / 1e-3).toBeCloseTo(mean, 9);
  });
  it('N10: OEIS A115867: median trials to 1 to 6 losses of 1/6 in a row are 4, 30, 180, 1078, 6468, 38808', () => {
    const medians = [1, 2, 3, 4, 5, 6].map((m) => cell(tableIn(losing(1 / 6, m), 'trips'), 0, 'median') / 1e-3);
    expect(medians.map((each) => Number(each.toFixed(6)))).toEqual([4, 30, 180, 1078, 6468, 38_808]);
  });
  it('run-length formula, derived: losses of 1e-3, 3 in a row, take 278.06 h at 1 ms; 2 in a row 400.4 s at 400 µs', () => {
    expect((known(stationIn(losing(1e-3, 3), 's1').meanToTrip) / 3600).toFixed(2)).toBe('278.06');
    expect(known(stationIn(losing(1e-3, 2, '400 µs'), 's1').meanToTrip).toFixed(1)).toBe('400.4');
  });
  it.each([
    [2, 0.859375],
    [3, 0.5078125],
  ])('exact run probabilities: no %i losses of ½ in a row within a time come with 1 less %f', (m, chance) => {
    // A shift has ten updates where one is as long as 48 minutes.
    const none = cell(tableIn(losing(0.5, m, '2880 s'), 'trips'), 0, 'no trip in a shift');
    expect(1 - none).toBeCloseTo(chance, 11);
  });
});

describe('repeats that all stations share, derived', () => {
  it.each([
    [60, 2, '6.1e-7'],
    [14, 2, '4.0e-8'],
    [4, 1, '2.5e-6'],
  ])('%i stations of loss 1e-3 that share %i repeats lose %s of their updates each', (stations, repeats, share) => {
    const file = run({
      stations,
      repeats,
      laid: 'star',
      // Two runs there and two back, 64 octets each.
      noise: [`bit_errors: ${ratioFor(1e-3, 4 * 8 * 64)}`],
    });
    const all = lossesIn(file).stations;
    for (const each of all) expect(known(each.try)).toBeCloseTo(1e-3, 12);
    expect((all.reduce((sum, { lost }) => sum + known(lost), 0) / stations).toExponential(1)).toBe(share);
    expect(known(all[0]!.withOwn)).toBeCloseTo(1e-3 ** (repeats + 1), 14);
  });
});

describe('a burst that is bridged', () => {
  it.each([
    ['1 ms', 2e-3],
    ['250 µs', 0.5e-3],
  ])('with 3 losses in a row at %s is just shorter than %d s', (cycle, below) => {
    const station = stationIn(run({ stations: 1, cycle, noise: ['trip_after: 3'] }), 's1');
    expect(known(station.bridged)).toBeCloseTo(below - known(station.open), 15);
    expect(known(station.bridged)).toBeLessThan(below);
    expect(known(station.bridged)).toBeGreaterThan(below - 20e-6);
  });
  it('a clean day at 1 kHz proves a loss smaller than 3.5e-8', () => {
    const table = tableIn(run({ stations: 1, noise: ['trip_after: 3'] }), 'clean_run');
    expect(cell(table, 2, 'value').toExponential(1)).toBe('3.5e-8');
  });
});
