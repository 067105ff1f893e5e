// Frames, ways and cycles against published values. 'Derived' says that a row is arithmetic on a source's formula and
// inputs: it checks the code, not the physics.
import { describe, expect, it } from 'vitest';
import { octets, q } from '../../working/testing.support.ts';
import { cycleUsed, nonCyclicWindow, repeatsReserved, updatePeriod } from './cycle.ts';
import { frameLength, lineOccupancy, lineOccupancyIfSent } from './frame.ts';
import {
  cableAttenuation,
  collisionRoundTrip,
  largestPayload,
  linkAttenuation,
  linkLength,
  longestLink,
  payloadCapacity,
  weakestLink,
} from './limits.ts';
import { passingOn, pathDelay, roundTrip, runDelay, wholeFrame } from './path.ts';
import { oneAfterAnother, turn } from './polled.ts';
import { answerInChain, commandIn } from './streams.ts';
import { frameData, stationData, throughAll } from './summation.ts';

const fast = q(100e6, 'bit/s');
const gigabit = q(1e9, 'bit/s');
const preamble = octets(8);
const gap = octets(12);
const least = octets(64);
const onLine = (count: number, R = fast) => lineOccupancy({ L: octets(count), w: preamble, g: gap, R }, 'test');
const us = (seconds: { value: number }): number => seconds.value * 1e6;

describe('RFC 5180, appendix A: frames per second (rounded down)', () => {
  it('E1: 64 octets at 100 Mbit/s are 148 809 frames/s', () => expect(Math.floor(1 / onLine(64).value)).toBe(148_809));
  it('E2: 1518 octets at 100 Mbit/s and 1 Gbit/s are 8 127 and 81 274 frames/s', () => {
    expect(Math.floor(1 / onLine(1518).value)).toBe(8_127);
    expect(Math.floor(1 / onLine(1518, gigabit).value)).toBe(81_274);
  });
  it.each([
    [128, 84_459],
    [256, 45_289],
    [512, 23_496],
    [1024, 11_973],
    [1280, 9_615],
    [1522, 8_106],
  ])('E3: %i octets at 100 Mbit/s are %i frames/s', (size, rate) =>
    expect(Math.floor(1 / onLine(size).value)).toBe(rate),
  );
});

describe('Wilamowski and Irwin (eds.), Industrial Communication Systems, 2011, chapter 39', () => {
  const frame = (payload: number) => frameLength({ m: least, h: octets(28), P: octets(payload) }, 'test');
  const exchange = (answering_us: number) => {
    const line = lineOccupancy({ L: frame(36), w: preamble, g: gap, R: fast }, 'test');
    return turn({ a: line, b: line, D: q(answering_us * 1e-6, 's'), p: q(0, 's'), r: q(0, 's') }, 'test');
  };
  it('E5: a minimum frame occupies the line for 6.72 µs (eq. 39.2)', () =>
    expect(us(onLine(64))).toBeCloseTo(6.72, 12));
  it('C8: up to 36 octets of payload each way take 6.72 µs a frame (eq. 39.2)', () => {
    for (const payload of [0, 1, 36])
      expect(us(lineOccupancy({ L: frame(payload), w: preamble, g: gap, R: fast }, 'test'))).toBeCloseTo(6.72, 12);
    expect(us(lineOccupancy({ L: frame(37), w: preamble, g: gap, R: fast }, 'test'))).toBeGreaterThan(6.72);
  });
  it('C9, derived: one exchange at 1 µs of answering time is 14.44 µs (eq. 39.2, no hub, no cable)', () =>
    expect(us(exchange(1))).toBeCloseTo(14.44, 12));
  it.each([
    [8, 1, 156.0],
    [16, 1, 271.5],
    [32, 1, 502.6],
    [8, 8, 212.0],
    [16, 8, 383.5],
    [32, 8, 726.6],
  ])(
    'C10, derived: the cycle of %i nodes answering in %i µs is %f µs (start 6.72, end 6.72, one frame of 318 octets)',
    (nodes, answering, cycle) => {
      const sent = (count: number) => lineOccupancyIfSent({ L: octets(count), w: preamble, g: gap, R: fast }, 'test');
      const w = nonCyclicWindow({ o: sent(64), f: onLine(318), e: sent(0) }, 'test');
      expect(us(onLine(318))).toBeCloseTo(27.04, 12);
      const x = oneAfterAnother({ x: Array.from({ length: nodes }, () => exchange(answering)) }, 'test');
      const r = repeatsReserved({ n: q(0, '1'), x: [exchange(answering)] }, 'test');
      expect(Math.abs(us(cycleUsed({ s: sent(64), x, r, w }, 'test')) - cycle)).toBeLessThan(0.051);
    },
  );
  it('C12, derived: 4 octets in an 84-octet slot are 4.76 %, with 10 µs of answering time 1.91 % (published 4.7 % and 1.9 %)', () => {
    expect((4 * 8) / 100 / us(onLine(64))).toBeCloseTo(0.0476, 4);
    expect((4 * 8) / 100 / (us(onLine(64)) + 10)).toBeCloseTo(0.0191, 4);
  });
});

describe('IEEE Std 802.3u-1995, delay budget', () => {
  it('E6, derived: two 100 m segments and one class I repeater are 462.4 of 512 bit times', () => {
    const c = [100, 100].map((l) => runDelay({ l: q(l, 'm'), t: q(5.56e-9, 's/m') }, 'test'));
    const trip = collisionRoundTrip({ d: q(100, 'bit'), h: [q(140, 'bit')], c, R: fast }, 'test');
    expect(trip.value).toBeCloseTo(462.4, 9);
  });
});

describe('INET framework 4.6, showcases (read)', () => {
  const cables = (count: number) =>
    Array.from({ length: count }, () => runDelay({ l: q(10, 'm'), t: q(5e-9, 's/m') }, 'test'));
  const storing = (count: number, L: number, R: typeof fast) =>
    Array.from({ length: count }, () =>
      passingOn({ f: q(0, 's'), H: wholeFrame({ L: octets(L - 8), w: preamble }, 'test'), R }, 'test'),
    );
  it('C1: three 10 m links at 1 Gbit/s, 1254 octets with preamble, stored twice: 30.246 µs', () => {
    const first = pathDelay({ c: cables(3), f: storing(2, 1254, gigabit) }, 'test');
    expect(us(first) + (1254 * 8) / 1000).toBeCloseTo(30.246, 9);
  });
  it('C2: the same, passed on after 22 octets: 10.534 µs', () => {
    const quick = Array.from({ length: 2 }, () => passingOn({ f: q(0, 's'), H: octets(22), R: gigabit }, 'test'));
    expect(us(pathDelay({ c: cables(3), f: quick }, 'test')) + (1254 * 8) / 1000).toBeCloseTo(10.534, 9);
  });
  it('C3: three 10 m links at 100 Mbit/s, 1058 octets with preamble, by timetable: 254.07 µs', () => {
    const way = pathDelay({ c: cables(3), f: storing(2, 1058, fast) }, 'test');
    expect(us(commandIn({ c: q((1058 * 8) / 100e6, 's'), p: way }, 'test'))).toBeCloseTo(254.07, 9);
  });
});

describe('open types of IEC 61158', () => {
  it('C11, derived: a chained answer of 36 octets takes 6.77 µs (constants of an open stack for type 13)', () => {
    const L = frameLength({ m: least, h: octets(28), P: octets(36) }, 'test');
    const b = lineOccupancy({ L, w: preamble, g: gap, R: fast }, 'test');
    expect(us(answerInChain({ b, g: q(0.05e-6, 's') }, 'test'))).toBeCloseTo(6.77, 9);
  });
  it('C16, derived: 100 nodes of 8 octets and 0.31 µs round trip each are 99.2 µs (association’s figure for type 12: 100 µs)', () => {
    const P = Array.from({ length: 100 }, () => stationData({ P: octets(4), Q: octets(4) }, 'test'));
    const L = frameLength({ m: least, h: octets(32), P: frameData({ P }, 'test') }, 'test');
    const t = roundTrip({ c: [q(0, 's')], f: Array.from({ length: 100 }, () => q(0.155e-6, 's')), b: [] }, 'test');
    const cycle = throughAll({ a: [lineOccupancy({ L, w: preamble, g: gap, R: fast }, 'test')], t }, 'test');
    expect(us(cycle)).toBeCloseTo(99.16, 9);
    expect(Math.abs(us(cycle) - 99.2)).toBeLessThan(0.05);
  });
  it('F1, derived: one datagram in a 1518-octet frame carries 1486 octets (type 12, SOEM ec_type.h)', () => {
    expect(payloadCapacity({ M: octets(1518), h: octets(32) }, 'test').value).toBe(1486 * 8);
    expect(largestPayload({ P: [octets(3), octets(1486)] }, 'test').value).toBe(1486 * 8);
    for (const [data, frame] of [
      [0, 64],
      [32, 64],
      [33, 65],
      [1486, 1518],
    ] as const) {
      expect(frameLength({ m: least, h: octets(14 + 2 + 12 + 4), P: octets(data) }, 'test').value).toBe(frame * 8);
    }
  });
  it('F4: base unit 31.25 µs, factor 2, reduction 4: cycle 62.5 µs, a frame every 250 µs (type 10, p-net source)', () => {
    expect(us(updatePeriod({ n: q(2, '1'), T: q(31.25e-6, 's') }, 'test'))).toBeCloseTo(62.5, 12);
    expect(us(updatePeriod({ n: q(4, '1'), T: q(62.5e-6, 's') }, 'test'))).toBeCloseTo(250, 12);
  });
  it('F5, derived: 36 and 37 octets of payload make frames of 64 and 65 octets (type 13, stack constants)', () => {
    expect(frameLength({ m: least, h: octets(28), P: octets(36) }, 'test').value).toBe(64 * 8);
    expect(frameLength({ m: least, h: octets(28), P: octets(37) }, 'test').value).toBe(65 * 8);
  });
});

describe('cables, common practice, no source', () => {
  const solid = q(24 / 105, 'dB/m');
  const cord = q((1.5 * 24) / 105, 'dB/m');
  const link = (...parts: readonly (readonly [number, typeof solid])[]) =>
    linkAttenuation({ k: parts.map(([l, k]) => cableAttenuation({ l: q(l, 'm'), k }, 'test')) }, 'test');
  it('90 m of solid cable and 10 m of cord are the limit; all cord: 70 m', () => {
    expect(link([90, solid], [10, cord]).value).toBeCloseTo(24, 9);
    expect(link([70, cord]).value).toBeCloseTo(24, 9);
    expect(weakestLink({ k: [link([90, solid]), link([70, cord])] }, 'test').value).toBeCloseTo(24, 9);
    expect(longestLink({ l: [linkLength({ l: [q(90, 'm'), q(10, 'm')] }, 'test'), q(70, 'm')] }, 'test').value).toBe(
      100,
    );
  });
});
