// Stops against the rule for their distance, and coasting against its differential equation, integrated.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { moveRampTime } from './ramp.ts';
import {
  type Coasting,
  coast,
  coastAngle,
  coastAngleAfter,
  coastSpeedAfter,
  coastTime,
  type Stop,
  stopAngle,
  stopTime,
  stopWay,
} from './stop.ts';

const about = 'test';

const shaft: Coasting = {
  inertia_kg_m2: 0.4,
  speed_rad_per_s: 150,
  friction_Nm: 3,
  viscous_Nms_per_rad: 0.05,
  load_Nm: 0,
  brake_Nm: 0,
  delay_s: 0,
};

it.each([
  [2, 0.02, 4, 0.54],
  [5, 0.05, 5, 2.75],
])('ramps stop within the distance of the rule (derived): %f m/s, %f s, %f m/s²: %f m', (speed, reaction, a, way) => {
  const v = q(speed, 'm/s');
  const r = q(reaction, 's');
  const t = moveRampTime({ v, a: q(a, 'm/s²') }, about);
  expect(stopWay({ v, r, t }, about).value).toBeCloseTo(way, 12);
  expect(stopAngle({ v: q(speed, 'rad/s'), r, t }, about).value).toBeCloseTo(way, 12);
  expect(stopTime({ r, t }, about).value).toBeCloseTo(reaction + speed / a, 12);
});

/** Runge and Kutta of the fourth order in small steps; a step in which the shaft comes to rest is cut by halving. */
function integrated(given: Coasting, step_s: number): Stop {
  const { inertia_kg_m2: J, viscous_Nms_per_rad: b, load_Nm, delay_s } = given;
  let [time, speed, forth, back, atBrake] = [0, given.speed_rad_per_s, 0, 0, Number.NaN];
  for (;;) {
    const braked = time >= delay_s;
    if (braked && Number.isNaN(atBrake)) atBrake = speed;
    const friction = given.friction_Nm + (braked ? given.brake_Nm : 0);
    if (speed === 0 && Math.abs(load_Nm) <= friction)
      return {
        lasts_s: time,
        forth_rad: forth,
        back_rad: back,
        atBrake_rad_per_s: Number.isNaN(atBrake) ? 0 : atBrake,
      };
    const direction = speed === 0 ? -Math.sign(load_Nm) : Math.sign(speed);
    const slope = (w: number) => -(direction * friction + load_Nm + b * w) / J;
    const advance = (h: number) => {
      const k1 = slope(speed);
      const k2 = slope(speed + (h / 2) * k1);
      const k3 = slope(speed + (h / 2) * k2);
      const k4 = slope(speed + h * k3);
      // The way goes with the same rule: its slopes are the speeds at the four places.
      const way = h * speed + ((h * h) / 6) * (k1 + k2 + k3);
      return { way, speed: speed + (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4) };
    };
    let h = braked ? step_s : Math.min(step_s, delay_s - time);
    let next = advance(h);
    if (next.speed * direction <= 0) {
      let [low, high] = [0, h];
      for (let halving = 0; halving < 60; halving++) {
        h = (low + high) / 2;
        if (advance(h).speed * direction > 0) low = h;
        else high = h;
      }
      next = { ...advance(high), speed: 0 };
      h = high;
    }
    if (direction > 0) forth += next.way;
    else back -= next.way;
    speed = next.speed;
    time = !braked && h === delay_s - time ? delay_s : time + h;
  }
}

function expectAlike(found: Stop | undefined, due: Stop): void {
  for (const [name, value] of Object.entries(due))
    expect(Math.abs(found![name as keyof Stop] - value), name).toBeLessThan(1e-8 * Math.max(1, Math.abs(value)));
}

describe('coasting integrated step by step', () => {
  it.each<[string, Partial<Coasting>]>([
    ['by friction alone', {}],
    ['by friction without a viscous part', { viscous_Nms_per_rad: 0 }],
    ['by a viscous part so small that its closed form would lose digits', { viscous_Nms_per_rad: 1e-9 }],
    ['by friction mostly viscous', { viscous_Nms_per_rad: 2, friction_Nm: 0.5 }],
    ['by a brake that takes hold after its delay', { brake_Nm: 40, delay_s: 0.15 }],
    ['by a brake that comes too late', { brake_Nm: 40, delay_s: 60 }],
    ['by a load that stops it and that friction holds', { load_Nm: 2 }],
    ['lowering, driven by the load until the brake holds', { load_Nm: -20, brake_Nm: 60, delay_s: 0.2 }],
    ['falling from rest until the brake holds', { speed_rad_per_s: 0, load_Nm: -20, brake_Nm: 60, delay_s: 0.2 }],
    ['lifting, turned round by the load', { speed_rad_per_s: 8, load_Nm: 30, brake_Nm: 60, delay_s: 0.4 }],
    ['lifting, stopped before the brake holds', { speed_rad_per_s: 8, load_Nm: 2.9, brake_Nm: 60, delay_s: 0.9 }],
  ])('gives the same stop %s', (_, change) => {
    const given = { ...shaft, ...change };
    expectAlike(coast(given), integrated(given, 1e-3));
  });

  it('gives the same stops for seeded random shafts', () => {
    const random = seeded(5);
    let turnedRound = 0;
    for (let round = 0; round < 100; round++) {
      const load_Nm = 60 * (random() - 0.5);
      const given: Coasting = {
        inertia_kg_m2: 0.1 + random(),
        speed_rad_per_s: round % 5 === 0 ? 0 : 20 * random(),
        friction_Nm: 5 * random(),
        viscous_Nms_per_rad: round % 3 === 0 ? 0 : 0.5 * random(),
        load_Nm,
        brake_Nm: Math.abs(load_Nm) + 5 + 30 * random(),
        delay_s: random(),
      };
      const due = integrated(given, 2e-3);
      if (due.forth_rad > 0 && due.back_rad > 0) turnedRound += 1;
      expectAlike(coast(given), due);
    }
    expect(turnedRound).toBeGreaterThan(10);
  });

  it('gives what the formulas give, piece after piece', () => {
    const given = { ...shaft, load_Nm: -20, brake_Nm: 60, delay_s: 0.2 };
    for (const viscous of [0, 0.05]) {
      const b = q(viscous, 'N·m·s/rad');
      const J = q(0.4, 'kg·m²');
      const ω = q(150, 'rad/s');
      const t = q(0.2, 's');
      const driven = { J, ω, M: q(3 - 20, 'N·m'), b, t };
      const ωBrake = coastSpeedAfter(driven, about);
      const braked = { J, ω: ωBrake, M: q(3 + 60 - 20, 'N·m'), b };
      const found = coast({ ...given, viscous_Nms_per_rad: viscous })!;
      expect(found.atBrake_rad_per_s).toBeCloseTo(ωBrake.value, 9);
      expect(found.lasts_s).toBeCloseTo(0.2 + coastTime(braked, about).value, 9);
      expect(found.forth_rad).toBeCloseTo(coastAngleAfter(driven, about).value + coastAngle(braked, about).value, 9);
    }
  });
});

describe('a shaft', () => {
  it.each<[string, Partial<Coasting>]>([
    ['driven by more than friction and brake hold', { load_Nm: -50, brake_Nm: 40, delay_s: 0.1 }],
    ['driven by just as much', { load_Nm: -43, brake_Nm: 40, viscous_Nms_per_rad: 0 }],
    ['driven by just as much, with a viscous part', { load_Nm: -43, brake_Nm: 40 }],
    ['that the load turns round and the brake does not hold', { load_Nm: 50, brake_Nm: 40, delay_s: 5 }],
    ['without any friction', { friction_Nm: 0, viscous_Nms_per_rad: 0 }],
    ['at rest that nothing holds', { speed_rad_per_s: 0, load_Nm: -3.1 }],
  ])('does not stop %s', (_, change) => {
    expect(coast({ ...shaft, ...change })).toBeUndefined();
  });

  it('at rest stays where friction holds its load, on either side', () => {
    for (const load_Nm of [-3, 0, 3])
      expect(coast({ ...shaft, speed_rad_per_s: 0, load_Nm, delay_s: 1 })).toEqual({
        lasts_s: 0,
        forth_rad: 0,
        back_rad: 0,
        atBrake_rad_per_s: 0,
      });
  });

  it('turns its energy into the work of friction and brake', () => {
    const { forth_rad } = coast({ ...shaft, viscous_Nms_per_rad: 0, brake_Nm: 17 })!;
    expect(forth_rad * 20).toBeCloseTo((0.4 * 150 ** 2) / 2, 9);
    // A viscous part takes an impulse that goes with the angle.
    const viscous = coast(shaft)!;
    expect(0.05 * viscous.forth_rad + 3 * viscous.lasts_s).toBeCloseTo(0.4 * 150, 9);
  });

  it('goes the farther the later its brake holds', () => {
    const ways = [0, 0.1, 0.2, 0.5].map((delay_s) => coast({ ...shaft, brake_Nm: 30, delay_s })!.forth_rad);
    expect(ways.toSorted((one, other) => one - other)).toEqual(ways);
    expect(new Set(ways).size).toBe(4);
  });

  it.each<[Partial<Coasting>]>([
    [{ inertia_kg_m2: 0 }],
    [{ speed_rad_per_s: -1 }],
    [{ friction_Nm: -1 }],
    [{ viscous_Nms_per_rad: Number.NaN }],
    [{ load_Nm: Infinity }],
    [{ brake_Nm: Infinity }],
    [{ delay_s: -0.1 }],
  ])('cannot be with %o', (change) => {
    expect(() => coast({ ...shaft, ...change })).toThrow(RangeError);
  });
});
