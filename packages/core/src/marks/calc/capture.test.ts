// What capturing is off by, by hand, by walks over edges and against check values.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { combinedSpread } from './budget.ts';
import { centredCapability } from './capability.ts';
import {
  delayOffset,
  evenJitter,
  halfCount,
  halfWindow,
  latchSpread,
  latencyFound,
  latencyLeft,
  latencySaid,
  normalJitter,
  pollSpread,
  pollWindow,
  rampAcceleration,
  stampInterpolation,
  stampSpread,
  tensionStretch,
  timeAllowed,
} from './capture.ts';
import {
  brakingWay,
  closestEdges,
  closestMarks,
  closestStray,
  lostMarkTime,
  lostMarkWeb,
  rearmSpeed,
  repeatsBetween,
  runOn,
  sharedRearm,
  windowAllowed,
  windowNeeded,
} from './caught.ts';
import {
  bothEdges,
  diameterError,
  eccentricLength,
  edgeBias,
  fixedLengthSpread,
  gapBias,
  lengthShare,
  polledLength,
  steppedLength,
  thermalLength,
  twoEdges,
} from './length.ts';
import { plain } from './plain.support.ts';

const about = 'test';
const deviation = (values: readonly number[]) => {
  const mean = values.reduce((sum, each) => sum + each) / values.length;
  return Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / values.length);
};

describe('the position of a mark', () => {
  it('a tenth of a millimetre at 300 m/min is 20 µs', () => {
    expect(timeAllowed({ e: q(1e-4, 'm'), v: q(300 / 60, 'm/s') }, about).value).toBeCloseTo(20e-6, 12);
  });

  it('a polled mark is anywhere in its window', () => {
    const [v, T] = [5, 1e-3];
    expect(pollWindow({ v: q(v, 'm/s'), t: q(T, 's') }, about).value).toBeCloseTo(5e-3, 12);
    const random = seeded(1);
    const late = Array.from({ length: 100_000 }, () => {
      const edge = 1000 * random();
      return v * (Math.ceil(edge / T) * T - edge);
    });
    expect(Math.max(...late)).toBeLessThan(plain(pollWindow)(v, T) * (1 + 1e-9));
    expect(Math.max(...late)).toBeGreaterThan(plain(pollWindow)(v, T) * 0.999);
    expect(deviation(late) / plain(pollSpread)(v, T)).toBeCloseTo(1, 2);
    expect(plain(latchSpread)(v * T)).toBeCloseTo(plain(pollSpread)(v, T), 15);
    const half = plain(halfWindow)(v, T);
    expect(late.reduce((sum, each) => sum + each) / late.length / half).toBeCloseTo(1, 2);
    expect(half / Math.sqrt(3)).toBeCloseTo(plain(pollSpread)(v, T), 15);
    expect(plain(halfCount)(v * T)).toBe(half);
  });

  it('a captured mark at 5 m/s has 16 µm and Cpk 2.06 for ± 0.1 mm (derived)', () => {
    const v = 5;
    const parts = [
      plain(normalJitter)(v, 3e-6),
      plain(normalJitter)(v, 0.5e-6),
      plain(stampSpread)(v, 1e-6),
      plain(normalJitter)(v, 0.3e-6),
      5e-6,
    ];
    const spread = plain(combinedSpread)(parts);
    expect(spread).toBeCloseTo(16e-6, 6);
    expect(plain(centredCapability)(1e-4, -1e-4, 0, spread)).toBeCloseTo(2.06, 2);
    // With a jitter of the input that is anywhere within ± 0.5 µs it is hardly less.
    const even = plain(combinedSpread)([...parts.slice(0, 1), plain(evenJitter)(v, 0.5e-6), ...parts.slice(2)]);
    expect(even).toBeLessThan(spread);
    expect(even).toBeGreaterThan(0.98 * spread);
  });

  it('a mark that moves with the speed tells its latency: 0.472 mm from 100 to 400 mm/min is 94 ms', () => {
    const latency = plain(latencyFound)(0.472e-3, 0.4 / 60, 0.1 / 60);
    expect(latency).toBeCloseTo(0.094, 3);
    expect(plain(delayOffset)(0.4 / 60, latency) - plain(delayOffset)(0.1 / 60, latency)).toBeCloseTo(0.472e-3, 12);
    const said = plain(latencySaid)(plain(delayOffset)(0.4 / 60, 0.09), 0.4 / 60);
    expect(said).toBeCloseTo(0.09, 12);
    expect(plain(latencyLeft)(latency, said)).toBeCloseTo(0.0044, 4);
  });

  it('between two samples the error is largest in the middle', () => {
    const [a, T] = [20, 2e-3];
    let largest = 0;
    for (let t = 0; t <= T; t += T / 1000) {
      const drawn = ((a * T ** 2) / 2) * (t / T);
      largest = Math.max(largest, Math.abs(drawn - (a * t ** 2) / 2));
    }
    expect(plain(stampInterpolation)(a, T)).toBeCloseTo(largest, 12);
    expect(plain(rampAcceleration)(40, 2)).toBe(a);
  });
});

describe('marks in a row', () => {
  /** The marks that an input sees which is armed again so long after each. */
  const seen = (places: readonly number[], rearm: number) => {
    let armed = -Infinity;
    return places.filter((place) => {
      if (place < armed) return false;
      armed = place + rearm;
      return true;
    }).length;
  };

  it('marks just far enough apart are all seen', () => {
    const [v, r, e] = [4, 3e-3, 2e-3];
    const spacing = plain(closestMarks)(v, r, e);
    expect(plain(rearmSpeed)(spacing, e, r)).toBeCloseTo(v, 12);
    // Each second mark is late and each other one early by all it may.
    const worst = (s: number) => Array.from({ length: 100 }, (_, at) => at * s + (at % 2 === 0 ? e : -e));
    expect(seen(worst(spacing * 1.001), v * r)).toBe(100);
    expect(seen(worst(spacing * 0.999), v * r)).toBeLessThan(100);
  });

  it('a stray edge costs the mark behind it just where the capture is not armed again, and a mark that is missing none', () => {
    const [v, r, e, spacing] = [4, 3e-3, 2e-3, 0.3];
    const least = plain(closestMarks)(v, r, e);
    for (const [stray, lost] of [
      [least * 1.001, 0],
      [least * 0.999, 100],
    ] as const) {
      // The stray comes late and its mark early by all they may; every seventh mark is missing.
      const marks = Array.from({ length: 100 }, (_, at) => (at + 1) * spacing - e).filter((_, at) => at % 7 !== 3);
      const strays = Array.from({ length: 100 }, (_, at) => (at + 1) * spacing - stray + e);
      const all = [...marks, ...strays].toSorted((one, other) => one - other);
      expect(seen(all, v * r)).toBe(all.length - (lost === 0 ? 0 : marks.length));
      expect(plain(closestStray)(spacing, stray) >= least).toBe(lost === 0);
    }
    expect(plain(closestStray)(0.3, 0.5)).toBe(0.3);
  });

  it('a window of the needed width loses no mark, and one of the allowed width sees no print', () => {
    const random = seeded(4);
    const [e, v, T, gap] = [1e-3, 5, 5e-4, 0.01];
    const trials = Array.from({ length: 20_000 }, (_, at) => [at % 2 === 0 ? -e : e, v * T * random()] as const);
    // The program aims the window so that its own lateness, half a cycle in the mean, is in the middle.
    const opens = (width: number, late: number) => -width / 2 - (v * T) / 2 + late;
    const closes = (width: number, late: number) => width / 2 - (v * T) / 2 + late;
    const needed = plain(windowNeeded)(e, v, T);
    const catches = (width: number) =>
      trials.every(([mark, late]) => opens(width, late) <= mark + 1e-15 && mark <= closes(width, late) + 1e-15);
    expect(catches(needed)).toBe(true);
    expect(catches(needed * 0.99)).toBe(false);
    const allowed = plain(windowAllowed)(gap, e, v, T);
    const sees = (width: number) =>
      trials.some(([mark, late]) => opens(width, late) < mark - gap || closes(width, late) > mark + gap);
    expect(sees(allowed)).toBe(false);
    expect(sees(allowed * 1.01)).toBe(true);
  });

  it('lost marks are noticed when their windows have closed', () => {
    const [spacing, width, v, T] = [0.3, 0.02, 5, 2e-3];
    for (const alarm of [1, 2, 4]) {
      // From the place of the first lost mark on: the program looks in its cycle, at any phase, and counts closed windows.
      let latest = 0;
      for (let phase = 0.0005; phase < 1; phase += 0.001) {
        for (let look = phase * T; ; look += T) {
          const closed = Array.from({ length: 10 }, (_, mark) => mark * spacing + width / 2).filter(
            (end) => end <= v * look,
          );
          if (closed.length < alarm) continue;
          latest = Math.max(latest, look);
          break;
        }
      }
      const time = plain(lostMarkTime)(alarm, spacing, width, v, T);
      expect(latest).toBeLessThanOrEqual(time);
      expect(latest).toBeGreaterThan(time - 0.002 * T);
      expect(plain(lostMarkWeb)(v, time)).toBeCloseTo((alarm - 1) * spacing + width / 2 + v * T, 12);
    }
  });

  it('captures armed in turn, edge by edge', () => {
    for (const [edges, units] of [
      [1, 1],
      [2, 1],
      [2, 2],
      [3, 2],
    ] as const) {
      // Edges take the units in turn, far enough apart that each unit is armed again: the least period of a repeat.
      const rearm = 3e-3;
      const shared = plain(sharedRearm)(rearm, edges, units);
      const free = Array<number>(units).fill(0);
      let missed = 0;
      for (let edge = 0; edge < 60; edge++) {
        const time = Math.floor(edge / edges) * shared + (edge % edges) * (shared / edges);
        const unit = edge % units;
        if (time < free[unit]! - 1e-12) missed++;
        else free[unit] = time + rearm;
      }
      expect(missed).toBe(0);
      expect((edges / units) * rearm).toBeLessThanOrEqual(shared);
    }
    // One capture on products of 0.1 m every 0.3 m: edges 0.1 m and 0.2 m apart in turn.
    expect(plain(closestEdges)(0.1, 0.3)).toBe(0.1);
    expect(plain(closestEdges)(0.25, 0.3)).toBeCloseTo(0.05, 12);
  });

  it('the web that runs on, step by step', () => {
    const [v, reaction, braking, spacing, after, T] = [2.5, 18e-3, 5, 0.25, 2, 1e-3];
    const time = plain(lostMarkTime)(after, spacing, 0, v, T);
    const total = plain(runOn)(spacing, plain(lostMarkWeb)(v, time), plain(brakingWay)(v, reaction, braking));
    const step = 1e-6;
    let [way, speed, clock] = [0, v, 0];
    const noticed = (after * spacing) / v + T;
    while (speed > 0) {
      if (clock > noticed + reaction) speed -= braking * step;
      way += Math.max(speed, 0) * step;
      clock += step;
    }
    expect(total).toBeCloseTo(way, 4);
  });

  it('a web stretched like a chain of springs', () => {
    const [F, L, E, b, h] = [20, 3, 2e9, 0.5, 5e-5];
    const springs = Array.from({ length: 100 }, () => F / ((E * b * h) / (L / 100)));
    expect(plain(tensionStretch)(F, L, E, b, h)).toBeCloseTo(
      springs.reduce((sum, each) => sum + each),
      12,
    );
    expect(plain(tensionStretch)(F, L, E, b, h)).toBeCloseTo(1.2e-3, 12);
    expect(plain(repeatsBetween)(L, L / springs.length)).toBeCloseTo(100, 9);
  });
});

describe('a length between two edges', () => {
  it('an eye that is slower off than on sees products too long', () => {
    const [v, on, off, way, hysteresis, gap] = [2, 50e-6, 80e-6, 0.2, 0.3e-3, 0.1];
    // The product covers the eye from 0 on; off comes when its end is farther by the hysteresis.
    const seenOn = v * on;
    const seenOff = way + hysteresis + v * off;
    expect(plain(edgeBias)(v, off - on, hysteresis)).toBeCloseTo(seenOff - seenOn - way, 12);
    expect(plain(edgeBias)(v, 0, 0)).toBe(0);
    // The next product comes after a gap; it is seen on as the first was.
    const nextOn = way + gap + v * on;
    expect(plain(gapBias)(v, off - on, hysteresis)).toBeCloseTo(nextOn - seenOff - gap, 12);
  });

  it('two polled edges at 1 m/s and 4 ms are off by up to 4 mm', () => {
    const [v, T] = [1, 4e-3];
    expect(plain(polledLength)(v, T)).toBeCloseTo(4e-3, 12);
    const random = seeded(14);
    const off = Array.from({ length: 200_000 }, () => {
      const [start, length] = [random(), 0.1 + random()];
      return Math.ceil((start + length) / (v * T)) * v * T - Math.ceil(start / (v * T)) * v * T - length;
    });
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(4e-3);
    expect(Math.max(...off.map(Math.abs))).toBeGreaterThan(3.9e-3);
    expect(deviation(off) / plain(steppedLength)(v * T)).toBeCloseTo(1, 2);
    // The triangle between both is the sum of two even errors, half as wide each.
    expect(plain(bothEdges)(plain(halfWindow)(v, T))).toBe(plain(polledLength)(v, T));
    expect(plain(twoEdges)(plain(pollSpread)(v, T))).toBeCloseTo(plain(steppedLength)(v * T), 15);
    // 95 % are within 0.7764 of a step.
    const within = off.filter((each) => Math.abs(each) < 0.7764 * v * T).length / off.length;
    expect(within).toBeCloseTo(0.95, 2);
  });

  it('one fixed length is seen in whole steps, one more or one less', () => {
    for (const rest of [0, 0.2, 0.5, 0.9]) {
      const counts = Array.from({ length: 10_000 }, (_, at) => {
        const start = (at + 0.5) / 10_000;
        return Math.floor(start + 7 + rest) - Math.floor(start);
      });
      expect(deviation(counts)).toBeCloseTo(plain(fixedLengthSpread)(1, rest), 6);
    }
  });

  it('a roll that is 0.1 % too thick measures 1 m as 0.999 m', () => {
    const [circumference, length, counts] = [0.3, 1, 3000];
    const counted = (length / (circumference * 1.001)) * counts;
    const measured = (counted * circumference) / counts;
    expect(measured).toBeCloseTo(0.999, 5);
    expect(length - plain(lengthShare)(length, 0.001)).toBeCloseTo(measured, 5);
    const diameter = circumference / Math.PI;
    expect(length - plain(diameterError)(length, 0.001 * diameter, diameter)).toBeCloseTo(measured, 5);
  });

  it('a roll out of centre, turned step by step', () => {
    const [e, r] = [50e-6, 0.05];
    for (const length of [0.05, 0.1, Math.PI * r, 2 * Math.PI * r, 1]) {
      const steps = 2000;
      const turned = length / r;
      let largest = 0;
      for (let phase = 0; phase < 2 * Math.PI; phase += Math.PI / 180) {
        // The web touches the roll where its radius about the axle is r + e·cos.
        let way = 0;
        for (let at = 0; at < steps; at++)
          way += (r + e * Math.cos(phase + ((at + 0.5) * turned) / steps)) * (turned / steps);
        largest = Math.max(largest, Math.abs(way - length));
      }
      expect(Math.abs(largest - plain(eccentricLength)(e, length, 2 * r))).toBeLessThan(2e-4 * 2 * e);
    }
  });

  it('2 m of steel at 12 ppm in a kelvin grow by 0.24 mm in 10 K', () => {
    expect(plain(thermalLength)(2, 12e-6, 10, 1)).toBeCloseTo(0.24e-3, 12);
  });
});
