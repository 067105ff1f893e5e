// A shared bus against a walk in small steps, its energy balance, and what must not change its results.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { total } from '../../working/total.ts';
import {
  type BusDuty,
  busCycle,
  greatestResistance,
  leastResistance,
  type PowerPiece,
  rectifiedVoltage,
  resistorPower,
  settledVoltage,
} from './bus.ts';

const about = 'test';
const bus = { capacitance_F: 1e-3, mains_V: 565, brake_V: 780 };

/** Pieces of random lengths and powers, some with gaps between them, about a mean power. */
function randomAxis(random: () => number, cycle_s: number, most_W: number, mean_W: number): readonly PowerPiece[] {
  const ends = Array.from({ length: 2 + 2 * Math.floor(6 * random()) }, () => cycle_s * random()).toSorted(
    (one, other) => one - other,
  );
  const power = () => 2 * most_W * (random() - 0.5) + mean_W;
  return ends.flatMap((to_s, at) => {
    if (at % 2 === 0 && random() < 0.7) return [];
    const from_s = ends[at - 1] ?? 0;
    return [{ from_s, to_s, start_W: power(), end_W: power(), energy_J: power() * (to_s - from_s) }];
  });
}

function randomDuty(seed: number): BusDuty {
  const random = seeded(seed);
  const cycle_s = 0.5 + random();
  const most = 100 + 4000 * random() ** 2;
  const mean = 0.3 * most * (random() - 0.5);
  return { ...bus, cycle_s, axes: Array.from({ length: 5 }, () => randomAxis(random, cycle_s, most, mean)) };
}

const seeds = Array.from({ length: 10 }, (_, seed) => seed);
const allTaken = ({ axes }: BusDuty) => total(axes.flat().map(({ energy_J }) => energy_J));
const allMoved = ({ axes }: BusDuty) => total(axes.flat().map(({ energy_J }) => Math.abs(energy_J)));

/** By the values at both ends and, from Simpson's rule, in the middle. */
function powerAt(piece: PowerPiece, t: number): number {
  const { from_s, to_s, start_W, end_W, energy_J } = piece;
  const middle_W = ((6 * energy_J) / (to_s - from_s) - start_W - end_W) / 4;
  const x = (t - from_s) / (to_s - from_s);
  return start_W * (1 - x) * (1 - 2 * x) + 4 * middle_W * x * (1 - x) + end_W * x * (2 * x - 1);
}

/** The same bus in small steps, voltage by voltage. */
function stepped({ capacitance_F: C, mains_V, brake_V = Infinity, axes, cycle_s }: BusDuty, start_V: number) {
  const steps = 50_000;
  const step_s = cycle_s / steps;
  let [voltage, highest_V, mains_J, resistor_J, mainsPeak_W, resistorPeak_W] = [start_V, start_V, 0, 0, 0, 0];
  const next = axes.map(() => 0);
  for (let at = 0; at < steps; at++) {
    const t = (at + 0.5) * step_s;
    let power = 0;
    axes.forEach((pieces, axis) => {
      while (next[axis]! < pieces.length && pieces[next[axis]!]!.to_s < t) next[axis]! += 1;
      const piece = pieces[next[axis]!];
      if (piece !== undefined && piece.from_s <= t) power += powerAt(piece, t);
    });
    const squared = voltage ** 2 - (2 * power * step_s) / C;
    if (squared < mains_V ** 2) {
      mains_J += (C / 2) * (mains_V ** 2 - squared);
      mainsPeak_W = Math.max(mainsPeak_W, power);
      voltage = mains_V;
    } else if (squared > brake_V ** 2) {
      resistor_J += (C / 2) * (squared - brake_V ** 2);
      resistorPeak_W = Math.max(resistorPeak_W, -power);
      voltage = brake_V;
    } else voltage = Math.sqrt(squared);
    highest_V = Math.max(highest_V, voltage);
  }
  return { highest_V, end_V: voltage, mains_J, resistor_J, mainsPeak_W, resistorPeak_W };
}

describe('a bus', () => {
  it.each(seeds)('goes as the same bus in small steps: seeded random axes, %i', (seed) => {
    const braked = randomDuty(seed);
    const { brake_V, ...without } = braked;
    for (const duty of [braked, without]) {
      const found = busCycle(duty, 600);
      const near = stepped(duty, 600);
      for (const name of ['mains_J', 'resistor_J'] as const)
        expect(Math.abs(found[name] - near[name]) / allMoved(duty), name).toBeLessThan(1e-4);
      for (const name of ['highest_V', 'end_V'] as const)
        expect(Math.abs(found[name] / near[name] - 1), name).toBeLessThan(1e-4);
      for (const name of ['mainsPeak_W', 'resistorPeak_W'] as const)
        expect(Math.abs(found[name] - near[name]), name).toBeLessThan(20);
    }
  });

  it('has among those axes some that reach the brake and some that do not', () => {
    const burnt = seeds.map((seed) => busCycle(randomDuty(seed), 600).resistor_J > 0);
    expect(new Set(burnt)).toEqual(new Set([true, false]));
  });

  it.each(seeds)('balances: what the axes take comes from the mains, less resistor and capacitor, %i', (seed) => {
    const duty = randomDuty(seed);
    const { mains_J, resistor_J, stored_J, resistorMean_W, end_V } = busCycle(duty, 700);
    expect(Math.abs(mains_J - resistor_J - stored_J - allTaken(duty))).toBeLessThan(1e-9 * allMoved(duty));
    expect(Math.abs(stored_J - (bus.capacitance_F / 2) * (end_V ** 2 - 700 ** 2))).toBeLessThan(1e-9 * allMoved(duty));
    expect(resistorMean_W * duty.cycle_s).toBeCloseTo(resistor_J, 9);
  });

  it.each(seeds)('is the same whichever axis has which piece, and for pieces cut in two, %i', (seed) => {
    const duty = randomDuty(seed);
    const due = busCycle(duty, 600);
    const cut = duty.axes.map((pieces) =>
      pieces.flatMap((piece): readonly PowerPiece[] => {
        const middle_s = piece.from_s + 0.3 * (piece.to_s - piece.from_s);
        const middle_W = powerAt(piece, middle_s);
        // Simpson's rule is exact for a parabola.
        const first_W = piece.start_W + 4 * powerAt(piece, (piece.from_s + middle_s) / 2) + middle_W;
        const energy_J = ((middle_s - piece.from_s) / 6) * first_W;
        return [
          { ...piece, to_s: middle_s, end_W: middle_W, energy_J },
          { ...piece, from_s: middle_s, start_W: middle_W, energy_J: piece.energy_J - energy_J },
        ];
      }),
    );
    for (const axes of [duty.axes.toReversed(), duty.axes.flat().map((piece) => [piece]), cut]) {
      const found = busCycle({ ...duty, axes }, 600);
      for (const [name, value] of Object.entries(due))
        expect(Math.abs(found[name as keyof typeof found] - value), name).toBeLessThanOrEqual(1e-7 * Math.abs(value));
    }
  });

  it.each(seeds)('that is settled comes back to where it began, from wherever it was switched on, %i', (seed) => {
    const duty = randomDuty(seed);
    const settled_V = settledVoltage(duty)!;
    expect(busCycle(duty, settled_V).end_V).toBeCloseTo(settled_V, 9);
    for (const start of [bus.mains_V, 650, bus.brake_V]) {
      let voltage = start;
      // Each cycle comes nearer by what it takes or gives, until a limit is met.
      const cycles = 2 + Math.ceil(145 / Math.abs(allTaken(duty)));
      for (let cycle = 0; cycle < cycles; cycle++) voltage = busCycle(duty, voltage).end_V;
      expect(voltage).toBeCloseTo(settled_V, 6);
    }
  });

  it('without a resistor never settles where more comes back than is taken', () => {
    const gives: PowerPiece = { from_s: 0, to_s: 1, start_W: -100, end_W: -100, energy_J: -100 };
    const { brake_V, ...without } = { ...bus, axes: [[gives]], cycle_s: 2 };
    expect(settledVoltage(without)).toBeUndefined();
    expect(settledVoltage({ ...without, brake_V })).toBe(brake_V);
    expect(busCycle(without, 565)).toMatchObject({ mains_J: 0, resistor_J: 0, highestAt_s: 1 });
    expect(busCycle(without, 565).highest_V).toBeCloseTo(Math.sqrt(565 ** 2 + 2e5), 9);
    expect(settledVoltage({ ...without, axes: [] })).toBe(565);
    // Rounding keeps a settled voltage from none of its brakes.
    for (let tenths = 5700; tenths < 8000; tenths++) {
      const duty = { ...without, brake_V: tenths / 10 };
      expect(busCycle(duty, settledVoltage(duty)!).end_V).toBe(tenths / 10);
    }
  });

  it('hands energy from one axis to another at the same time, and then neither mains nor resistor have a part', () => {
    const one: PowerPiece = { from_s: 0.1, to_s: 0.4, start_W: 9000, end_W: -2000, energy_J: 700 };
    const other = { ...one, start_W: -9000, end_W: 2000, energy_J: -700 };
    const { mains_J, resistor_J, highest_V } = busCycle({ ...bus, axes: [[one], [other]], cycle_s: 1 }, 600);
    expect([mains_J, resistor_J, highest_V]).toEqual([0, 0, 600]);
    expect(busCycle({ ...bus, axes: [[one]], cycle_s: 1 }, 600).mains_J).toBeGreaterThan(600);
  });

  it('refuses what cannot be', () => {
    const piece: PowerPiece = { from_s: 0, to_s: 1, start_W: 1, end_W: 1, energy_J: 1 };
    const duty: BusDuty = { ...bus, axes: [[piece]], cycle_s: 2 };
    expect(busCycle(duty, 600).highest_V).toBe(600);
    for (const wrong of [
      { ...duty, capacitance_F: 0 },
      { ...duty, mains_V: Number.NaN },
      { ...duty, brake_V: 500 },
      { ...duty, cycle_s: 0.9 },
      { ...duty, axes: [[piece, { ...piece, from_s: 0.5, to_s: 1.5 }]] },
      { ...duty, axes: [[{ ...piece, to_s: 0 }]] },
      { ...duty, axes: [[{ ...piece, energy_J: Number.NaN }]] },
    ])
      expect(() => busCycle(wrong, 600)).toThrow(RangeError);
    for (const start of [500, 800, Number.NaN]) expect(() => busCycle(duty, start)).toThrow(RangeError);
  });
});

it('a bus is filled to the top of the sine: samples of it have that effective value', () => {
  const U = rectifiedVoltage({ U: q(400, 'V') }, about).value;
  const samples = Array.from({ length: 1000 }, (_, at) => U * Math.sin((2 * Math.PI * at) / 1000));
  expect(Math.sqrt(total(samples.map((each) => each ** 2)) / 1000)).toBeCloseTo(400, 9);
  expect(Math.max(...samples)).toBeCloseTo(U, 9);
});

it('between its bounds a resistor takes the peak and its current is allowed', () => {
  const U = q(780, 'V');
  const P = q(24_670, 'W');
  const most = greatestResistance({ U, P }, about);
  const least = leastResistance({ U, I: q(40, 'A') }, about);
  expect(resistorPower({ U, R: most }, about).value).toBeCloseTo(24_670, 8);
  expect(resistorPower({ U, R: least }, about).value).toBeCloseTo(780 * 40, 8);
  expect(least.value).toBeLessThan(most.value);
});
