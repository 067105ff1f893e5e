// Two warm bodies against their equations integrated step by step, closed forms, and what must not change them.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  type Heating,
  type HeatPhase,
  heatingTime,
  highestSettledRise,
  riseAfter,
  riseFromCold,
  settledRise,
  settledRiser,
  timeToWarmUp,
  windingTemperature,
} from './heat.ts';

const about = 'test';
const seeds = Array.from({ length: 12 }, (_, seed) => seed);

function randomDuty(seed: number): { readonly heating: Heating; readonly phases: readonly HeatPhase[] } {
  const random = seeded(seed);
  const winding_s = 20 + 100 * random();
  return {
    heating: {
      rise_K: 60 + 60 * random(),
      windingShare: 0.05 + 0.9 * random(),
      winding_s,
      frame_s: winding_s * (0.5 + 30 * random() ** 2),
    },
    phases: Array.from({ length: 1 + Math.floor(5 * random()) }, () => ({
      lasts_s: winding_s * (0.02 + 2 * random() ** 3),
      torque: 2.5 * random() ** 2 * (random() < 0.3 ? -1 : 1),
    })),
  };
}

/** Both equations with their resistances and capacities, by Runge and Kutta of the fourth order, phase by phase. */
function integrated(
  { rise_K, windingShare, winding_s, frame_s }: Heating,
  phases: readonly HeatPhase[],
  cycles: number,
) {
  const loss_W = 37;
  const [R_wf, R_fa] = [(windingShare * rise_K) / loss_W, ((1 - windingShare) * rise_K) / loss_W];
  const [C_w, C_f] = [winding_s / R_wf, frame_s / R_fa];
  const slope = (P: number, [w, f]: readonly [number, number]) =>
    [(P - (w - f) / R_wf) / C_w, ((w - f) / R_wf - f / R_fa) / C_f] as const;
  const plus = ([a, b]: readonly [number, number], k: number, [c, d]: readonly [number, number]) =>
    [a + k * c, b + k * d] as const;
  let state: readonly [number, number] = [0, 0];
  let [now, highest] = [0, { highest_K: 0, at_s: 0 }];
  const ends: number[] = [];
  const met: (readonly [time_s: number, rise_K: number])[] = [];
  for (let cycle = 0; cycle < cycles; cycle++) {
    highest = { highest_K: state[0], at_s: 0 };
    const start = now;
    for (const { lasts_s, torque } of phases) {
      const P = loss_W * torque ** 2;
      // Nothing in it is much faster than the winding, or than the frame with both ways for its heat.
      const steps = Math.ceil((lasts_s / Math.min(winding_s, windingShare * frame_s)) * 40) + 4;
      const h = lasts_s / steps;
      for (let step = 0; step < steps; step++) {
        const k1 = slope(P, state);
        const k2 = slope(P, plus(state, h / 2, k1));
        const k3 = slope(P, plus(state, h / 2, k2));
        const k4 = slope(P, plus(state, h, k3));
        state = plus(plus(plus(plus(state, h / 6, k1), h / 3, k2), h / 3, k3), h / 6, k4);
        now += h;
        met.push([now, state[0]]);
        if (state[0] > highest.highest_K) highest = { highest_K: state[0], at_s: now - start };
      }
    }
    ends.push(state[0]);
  }
  return { met, ends, ...highest };
}

const spanOf = (phases: readonly HeatPhase[]) => phases.reduce((sum, { lasts_s }) => sum + lasts_s, 0);

describe('a winding in a frame', () => {
  it.each(seeds)('warms up as both equations integrated step by step, %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    const { met } = integrated(heating, phases, 3);
    for (const [time_s, rise_K] of met.filter((_, at) => at % 7 === 0))
      expect(Math.abs(riseFromCold(heating, phases, time_s) - rise_K)).toBeLessThan(1e-4);
  });

  it.each(seeds)('in the settled cycle is what many cycles from cold come to, %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    const cycle_s = spanOf(phases);
    // Twenty times the slower of both, which is at most this.
    const cycles = Math.ceil((20 * (heating.frame_s + heating.winding_s / heating.windingShare)) / cycle_s);
    const { ends, highest_K, at_s } = integrated(heating, phases, cycles);
    const found = settledRise(heating, phases);
    expect(Math.abs(found.start_K - ends.at(-1)!)).toBeLessThan(1e-4);
    expect(Math.abs(found.highest_K - highest_K)).toBeLessThan(1e-4);
    expect(found.highestAt_s).toBeCloseTo(at_s, 6);
    expect(riseFromCold(heating, phases, cycles * cycle_s + found.highestAt_s)).toBeCloseTo(found.highest_K, 6);
    const torques = phases.map(({ torque }) => q(7 * torque, 'N·m'));
    const quantity = highestSettledRise({ T: torques, C: q(7, 'N·m'), ...quantities(heating, phases) }, about);
    expect(quantity.value).toBeCloseTo(found.highest_K, 9);
  });

  it('has tops inside of phases too, and none of them is the highest', () => {
    const heating = { rise_K: 100, windingShare: 0.4, winding_s: 30, frame_s: 900 };
    const phases = [
      { lasts_s: 2000, torque: 1.2 },
      { lasts_s: 90, torque: 0 },
      { lasts_s: 600, torque: 0.8 },
    ];
    const { met, highest_K, at_s } = integrated(heating, phases, 4);
    const last = met.filter(([time_s]) => time_s > 3 * 2690 + 2090).map(([, rise_K]) => rise_K);
    expect(last.indexOf(Math.max(...last))).toBeGreaterThan(10);
    expect(last.indexOf(Math.max(...last))).toBeLessThan(last.length / 2);
    expect(Math.max(...last)).toBeLessThan(highest_K - 10);
    expect(at_s).toBeCloseTo(2000, 6);
    expect(settledRise(heating, phases).highestAt_s).toBe(2000);
  });

  it.each(seeds)('has a share of its highest rise when, and not before, it is said to, %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    const { highest_K } = settledRise(heating, phases);
    for (const share of [1e-6, 0.2, 0.63, 0.9, 0.999]) {
      const time_s = heatingTime(heating, phases, share);
      expect(riseFromCold(heating, phases, time_s) / highest_K).toBeCloseTo(share, 8);
      for (let at = 0; at < 200; at++)
        expect(riseFromCold(heating, phases, (time_s * at) / 200)).toBeLessThan(share * highest_K);
      const torques = phases.map(({ torque }) => q(7 * torque, 'N·m'));
      const inputs = { T: torques, C: q(7, 'N·m'), q: q(share, '1'), ...quantities(heating, phases) };
      expect(timeToWarmUp(inputs, about).value).toBeCloseTo(time_s, 6);
    }
  });

  it.each(seeds)('at continuous torque rises by what is stated, and by the square of another one, %i', (seed) => {
    const { heating } = randomDuty(seed);
    const { highest_K, start_K } = settledRise(heating, [{ lasts_s: 5, torque: 1 }]);
    expect(start_K).toBeCloseTo(heating.rise_K, 9);
    expect(highest_K).toBeCloseTo(heating.rise_K, 9);
    expect(settledRise(heating, [{ lasts_s: 5, torque: -0.5 }]).highest_K).toBeCloseTo(heating.rise_K / 4, 9);
  });

  it.each(seeds)('by a cycle much shorter than its time constants is warmed as by the effective torque, %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    const short = phases.map(({ lasts_s, torque }) => ({ lasts_s: lasts_s / 1e6, torque }));
    const squared = phases.reduce((sum, { lasts_s, torque }) => sum + lasts_s * torque ** 2, 0) / spanOf(phases);
    const { highest_K } = settledRise(heating, short);
    expect(Math.abs(highest_K / (heating.rise_K * squared) - 1)).toBeLessThan(1e-4);
  });

  it.each(seeds)('is the same for phases cut in two and for the cycle written twice, %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    const found = settledRise(heating, phases);
    const cut = phases.flatMap(({ lasts_s, torque }) =>
      [0.3, 0.7].map((part) => ({ lasts_s: part * lasts_s, torque })),
    );
    for (const same of [cut, [...phases, ...phases]]) {
      const again = settledRise(heating, same);
      expect(again.highest_K).toBeCloseTo(found.highest_K, 9);
      expect(again.start_K).toBeCloseTo(found.start_K, 9);
    }
  });
});

describe('many losses', () => {
  it.each(seeds)('warm up as each by itself does: seed %i', (seed) => {
    const { heating, phases } = randomDuty(seed);
    for (const windingShare of [0, heating.windingShare, 1]) {
      const rise = settledRiser(
        { ...heating, windingShare },
        phases.map(({ lasts_s }) => lasts_s),
      );
      for (const times of [0.3, 1, 2]) {
        const more = phases.map(({ lasts_s, torque }) => ({ lasts_s, torque: times * torque }));
        const due = settledRise({ ...heating, windingShare }, more).highest_K;
        expect(rise(Float64Array.from(more, ({ torque }) => torque ** 2)) / due).toBeCloseTo(1, 10);
      }
    }
  });
});

describe('one body', () => {
  const heating = { rise_K: 100, winding_s: 60, frame_s: 1800 };
  const one = [
    [{ ...heating, windingShare: 0 }, 1800],
    [{ ...heating, windingShare: 1 }, 60],
  ] as const;

  it('a step from cold is a curve of first order', () => {
    for (const [body, time_s] of one) {
      for (const t of [0, 1, 30, 59.5, 700, 20_000]) {
        const due = 64 * (1 - Math.exp(-t / time_s));
        expect(riseFromCold(body, [{ lasts_s: 11, torque: 0.8 }], t)).toBeCloseTo(due, 9);
        const inputs = { θ: q(100, 'K'), T: q(-4, 'N·m'), C: q(5, 'N·m'), t: q(t, 's'), τ: q(time_s, 's') };
        const θ = riseAfter(inputs, about);
        expect(θ.value).toBeCloseTo(due, 9);
        expect(windingTemperature({ A: q(313.15, 'K abs'), θ }, about).value).toBeCloseTo(313.15 + due, 9);
      }
      expect(heatingTime(body, [{ lasts_s: 11, torque: 0.8 }], 1 - Math.exp(-1))).toBeCloseTo(time_s, 6);
    }
  });

  it('is near to a winding that keeps nearly all of the rise to itself', () => {
    const phases = [
      { lasts_s: 40, torque: 1.5 },
      { lasts_s: 90, torque: 0.2 },
    ];
    const near = settledRise({ ...heating, windingShare: 1 - 1e-9 }, phases);
    expect(near.highest_K).toBeCloseTo(settledRise({ ...heating, windingShare: 1 }, phases).highest_K, 6);
    const equal = { rise_K: 100, winding_s: 60, frame_s: 60 };
    const close = settledRise({ ...equal, windingShare: 1 - 1e-12 }, phases);
    expect(close.highest_K).toBeCloseTo(settledRise({ ...equal, windingShare: 1 }, phases).highest_K, 3);
  });
});

it('refuses what cannot be', () => {
  const heating = { rise_K: 100, windingShare: 0.3, winding_s: 60, frame_s: 1800 };
  const phases = [{ lasts_s: 1, torque: 1 }];
  for (const wrong of [
    { rise_K: 0 },
    { windingShare: -0.1 },
    { windingShare: 1.1 },
    { winding_s: 0 },
    { frame_s: NaN },
  ])
    expect(() => settledRise({ ...heating, ...wrong }, phases)).toThrow(RangeError);
  for (const wrong of [[], [{ lasts_s: 0, torque: 1 }], [{ lasts_s: 1, torque: Infinity }]])
    expect(() => settledRise(heating, wrong)).toThrow(RangeError);
  for (const share of [0, 1, NaN]) expect(() => heatingTime(heating, phases, share)).toThrow(RangeError);
  expect(() => riseFromCold(heating, phases, -1)).toThrow(RangeError);
});

function quantities({ rise_K, windingShare, winding_s, frame_s }: Heating, phases: readonly HeatPhase[]) {
  return {
    t: phases.map(({ lasts_s }) => q(lasts_s, 's')),
    θ: q(rise_K, 'K'),
    s: q(windingShare, '1'),
    w: q(winding_s, 's'),
    f: q(frame_s, 's'),
  };
}
