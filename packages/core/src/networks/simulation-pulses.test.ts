// Pulses and lines of two states on files against their closed forms: which run they couple into, and which device stores frames.
import { describe, expect, it } from 'vitest';
import { cell, sound, tableIn, textOf } from '../assess/noise.support.ts';
import { planned, played } from '../assess/simulation.support.ts';
import { addressOf, Quantity } from '../working/quantity.ts';
import { known } from '../working/testing.support.ts';

const both = (part: string): string => `{ part: ${part}, topologies: [line, star, ring], ring_frames: both_ways }`;
/** A period that nothing ties to the cycle, and pulses far enough apart that the length of each frame counts. */
const pulses = (hits: string): string =>
  `bursts: { p: { pattern: contactor, pulse: 200 ns, pulse_every: 61 µs, burst: 7.1 ms, period: 9.3701 ms${hits} } }`;
const [onAll, onOne, onBoth] = ['', ', hits: [[s2, s3]]', ', hits: [[s1, s2], [s3, s4]]'];

const fileOf = (
  profile: string,
  laid: 'line' | 'star' | 'ring',
  noise: readonly string[],
  change = (text: string) => text,
) =>
  change(
    textOf({ stations: 4, profile, laid, cycle: '2 ms', command: 60, answer: 120, noise: [...noise, 'trip_after: 3'] }),
  );

/** Farther apart, with stations that take their time. */
const longer = (text: string): string =>
  text.replaceAll('2 m, solid', '80 m, solid').replaceAll('forwarding: 1 µs', 'forwarding: 9 µs');
/** Frames are stored before they are passed on. */
const storing = (text: string): string => text.replaceAll('forwarding: 1 µs', 'forwarding: 3 µs, waits: frame');

describe('pulses on files, frame by frame', () => {
  it.each([
    ['polled_100', 'line', onAll, longer],
    ['polled_100', 'line', onOne, longer],
    ['polled_100', 'line', onOne, storing],
    ['slotted_100', 'line', onOne, storing],
    ['slotted_100', 'line', onAll, storing],
    ['chained_100', 'line', onOne, longer],
    ['slotted_100', 'star', ', hits: [[hub, s2]]', longer],
  ] as const)('cost what the closed form says: %s, %s%s', (profile, laid, hits, change) => {
    const file = fileOf(profile, laid, ['bit_errors: 1e-6', pulses(hits)], change);
    const { stations, comparison } = played(planned(file), { cycles: 60_000, seed: 3 });
    expect(comparison).toBe('exact');
    for (const { agrees, loss } of stations) expect(agrees, loss.device.name).toBe('inside');
    const lost = stations.map(({ lost }) => lost.value);
    if (hits === onOne) expect(Math.min(...lost.slice(2))).toBeGreaterThan(20 * Math.max(...lost.slice(0, 2)));
    else expect(Math.max(...lost)).toBeGreaterThan(500);
  });

  it('keep the bound where answers wait for each other, in whatever order they come', () => {
    for (const [laid, change] of [
      ['line', longer],
      ['line', storing],
      ['star', longer],
      ['ring', longer],
    ] as const) {
      const text = fileOf(
        laid === 'ring' ? both('pipelined_100') : 'pipelined_100',
        laid,
        ['bit_errors: 0', pulses(onAll)],
        change,
      )
        .replace('command: 60 octets, answer: 120', 'command: 300 octets, answer: 600')
        .replace('s4: {', 's4: { every: 2 cycles,');
      const { stations, comparison } = played(planned(text), { cycles: 40_000, seed: 3 });
      expect(comparison).toBe('bound');
      for (const { agrees, loss, share, closed } of stations) {
        expect(agrees, `${laid}, ${loss.device.name}`).toBe('kept');
        if (laid !== 'ring') expect(known(share)).toBeGreaterThan(0.2 * known(closed));
      }
    }
  });

  it('cost every station of a summation as much, wherever they get in', () => {
    const file = fileOf('summation_100', 'line', ['bit_errors: 0', pulses(onOne)]);
    const { stations } = played(planned(file), { cycles: 40_000, seed: 3 });
    expect(new Set(stations.map(({ lost }) => lost.value)).size).toBe(1);
    for (const { agrees, share, closed } of stations) {
      expect(agrees).toBe('kept');
      expect(known(share)).toBeGreaterThan(0.3 * known(closed));
    }
  });
});

describe('copies both ways round a ring, of files', () => {
  it.each([
    ['slotted_100', onAll],
    ['slotted_100', onBoth],
    ['slotted_100', onOne],
    [both('polled_100'), onAll],
    [both('polled_100'), onBoth],
  ])('are lost together by pulses as the closed form says: %s%s', (profile, hits) => {
    const file = fileOf(profile, 'ring', ['bit_errors: 0', pulses(hits)], longer);
    const { stations, comparison } = played(planned(file), { cycles: 60_000, seed: 9 });
    expect(comparison).toBe('exact');
    for (const { agrees, loss } of stations) expect(agrees, loss.device.name).toBe('inside');
    const table = tableIn(sound(file), 'copies');
    for (const [row, { closed, lost, loss }] of stations.entries()) {
      expect(table.rows[row]![0]).toBe(loss.device.name);
      const told = table.rows[row]![table.columns.indexOf('both ways')];
      if (table.rows[row]![2] === 'both ways') expect(known(told as Quantity)).toBe(known(closed));
      else expect([told, lost.value]).toEqual(['nothing', 0]);
    }
    if (hits !== onOne) expect(Math.max(...stations.map(({ lost }) => lost.value))).toBeGreaterThan(500);
  });

  it.each([
    ['slotted_100', ''],
    [both('polled_100'), ', hits: [[s1, s2], [s3, s4]]'],
    ['slotted_100', ', hits: [[controller, s1]]'],
  ])('are lost together by a line of two states beside bit errors as the closed form says: %s%s', (profile, hits) => {
    const states = `two_state: { to_bad: 10 %, to_good: 20 %, lost_in_good: 5 %, lost_in_bad: 60 %${hits} }`;
    const file = fileOf(profile, 'ring', ['bit_errors: 4e-5', states]);
    const { stations, comparison } = played(planned(file), { cycles: 60_000, seed: 9 });
    expect(comparison).toBe('exact');
    for (const { agrees, loss } of stations) expect(agrees, loss.device.name).toBe('inside');
    const table = tableIn(sound(file), 'copies');
    for (const [row, { closed }] of stations.entries()) {
      expect(cell(table, row, 'both ways')).toBe(known(closed));
      if (hits === '') expect(cell(table, row, 'one way')).toBeGreaterThan(1.2 * known(closed));
    }
  });

  it('are no more than a bound where two causes may take a copy each', () => {
    const file = fileOf('slotted_100', 'ring', ['bit_errors: 2e-5', pulses(onAll)]);
    const { stations, comparison } = played(planned(file), { cycles: 20_000, seed: 9 });
    expect(comparison).toBe('bound');
    expect(stations.map(({ agrees }) => agrees)).toEqual(['kept', 'kept', 'kept', 'kept']);
  });

  it('have numbers that are found by their addresses', () => {
    const assessment = sound(fileOf('slotted_100', 'ring', ['bit_errors: 1e-6', pulses(onAll)]));
    const numbers = tableIn(assessment, 'copies')
      .rows.flat()
      .filter((each) => each instanceof Quantity);
    expect(numbers.map(addressOf)).toContain('networks.pattern.share@n.s2.p.both_ways');
    expect(numbers.length).toBe(16);
  });
});
