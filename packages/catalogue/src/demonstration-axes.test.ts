// The demonstration motors, gears, drives and resistors: they keep the rules at the head of their files, fit one another,
// and none is there without a reason.
import { readFileSync } from 'node:fs';
import type { Part } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { drivesText } from '../../../tools/demonstration/drives.ts';
import { gearsText } from '../../../tools/demonstration/gears.ts';
import { motorsText } from '../../../tools/demonstration/motors.ts';
import { figuresOf } from '../../core/src/reading/figures-of.ts';
import { Quantity } from '../../core/src/working/quantity.ts';
import { demonstration } from './demonstration.ts';

const parts = [...demonstration().parts.values()];
const ofKind = (kind: string): readonly Part[] => parts.filter((part) => part.kind === kind);
const [motors, gears, drives, resistors] = [
  ofKind('motor'),
  ofKind('gear'),
  ofKind('drive'),
  ofKind('brake_resistor'),
] as const;

const found = (part: Part, key: string): number | undefined => {
  const value = key === 'cost' ? part.cost : part.values[key];
  return value instanceof Quantity ? value.value : undefined;
};
const of = (part: Part, key: string): number => {
  const value = found(part, key);
  if (value === undefined) throw new Error(`${part.name} has no ${key}`);
  return value;
};
const named = (name: string): Part => parts.find((part) => part.name === name)!;
const hasBrake = (part: Part): boolean => found(part, 'brake') !== undefined;
const rest_A = (motor: Part): number => of(motor, 'torque') / of(motor, 'torque_constant');
const peak_A = (motor: Part): number => of(motor, 'torque_peak') / of(motor, 'torque_constant');

/** By how much a figure may be off for being written with two significant digits: 1.0 may have been 1.049. */
const twoDigits = 0.05;
/** A ratio of two such figures. */
const ofTwo = 2 * twoDigits;

it.each([
  ['drives', drivesText],
  ['motors', motorsText],
  ['gears', gearsText],
])('%s.yaml is what tools/demonstration writes', (name, text) =>
  expect(readFileSync(`packages/catalogue/src/demonstration/${name}.yaml`, 'utf8')).toBe(text()),
);

describe('all of them', () => {
  it('are as many as promised', () => {
    expect(motors.length).toBeGreaterThanOrEqual(60);
    expect(new Set(motors.map((motor) => of(motor, 'frame'))).size).toBe(6);
    expect(drives.length).toBe(12);
    expect(gears.length).toBeGreaterThanOrEqual(20);
    expect(resistors.length).toBe(6);
  });

  it('state every figure of their kind, a brake alone may lack', () => {
    for (const family of [motors, gears, drives, resistors]) {
      const all = new Set(family.flatMap((part) => figuresOf(part).map(({ key }) => key)));
      for (const part of family) {
        const own = figuresOf(part).map(({ key }) => key);
        const lacking = [...all].filter((key) => !own.includes(key));
        expect(lacking, part.name).toEqual(family === motors && !hasBrake(part) ? ['brake', 'brake_delay'] : []);
      }
    }
    expect(motors.filter(hasBrake).length).toBe(motors.length / 2);
  });

  it('differ from one another in what a title does not say', () => {
    const texts = [...motors, ...gears, ...drives, ...resistors].map(
      (part) =>
        part.kind +
        figuresOf(part)
          .map(({ key, text }) => `${key} ${text}`)
          .join(),
    );
    expect(new Set(texts).size).toBe(texts.length);
  });

  /** What more of is better, by kind. A part beside which a cheaper one is as good in all of it has no reason to be there. */
  const better: Readonly<Record<string, (part: Part) => readonly number[]>> = {
    motor: (part) => [
      of(part, 'torque'),
      of(part, 'torque_peak'),
      of(part, 'speed'),
      of(part, 'torque_constant'),
      // A heavier rotor carries a heavier load.
      of(part, 'inertia'),
      found(part, 'brake') ?? 0,
    ],
    gear: (part) => {
      const [ratio, torque] = [of(part, 'ratio'), of(part, 'torque')];
      return [ratio, -ratio, torque, of(part, 'speed'), -of(part, 'inertia'), -of(part, 'backlash')];
    },
    brake_resistor: (part) => [of(part, 'power'), of(part, 'energy'), of(part, 'resistance')],
  };
  it.each(Object.keys(better))('of kind %s are the cheapest for something', (kind) => {
    for (const part of ofKind(kind)) {
      const own = better[kind]!(part);
      const asGood = ofKind(kind).filter((each) => better[kind]!(each).every((value, at) => value >= own[at]!));
      expect(asGood).toContain(part);
      const [cheapest] = asGood.toSorted((one, other) => of(one, 'cost') - of(other, 'cost'));
      expect(cheapest?.name).toBe(part.name);
    }
  });
});

describe('a motor', () => {
  const lengths = [1, 2, 3] as const;
  const plain = (frame_mm: number, length: number): Part => named(`motor_${frame_mm}_${length}`);
  const frames_mm = [40, 60, 80, 100, 130, 180] as const;

  /** Each family in its order of size: a longer motor of the same flange, a larger flange of the same length. */
  const rows = [
    ...frames_mm.map((frame) => lengths.map((length) => plain(frame, length))),
    ...lengths.map((length) => frames_mm.map((frame) => plain(frame, length))),
  ];
  it.each(['torque', 'torque_rated', 'torque_peak', 'inertia', 'mass', 'cost'])(
    'has more %s when it is larger',
    (key) => {
      for (const row of rows)
        for (let at = 1; at < row.length; at++) expect(of(row[at]!, key)).toBeGreaterThan(of(row[at - 1]!, key));
    },
  );

  it.each([
    ['torque', 3.5, 1],
    ['torque_peak', 3, 1],
    ['inertia', 5, 1],
    ['time_winding', 1, 0],
    ['time_frame', 1, 0],
    ['brake_delay', 1, 0],
  ])(
    'has a %s that goes with the flange to the power of %d, and with the length to that of %d',
    (key, power, along) => {
      const active = [0.4, 0.7, 1.1] as const;
      const first = key === 'brake_delay' ? named('motor_100_1_brake') : plain(100, 1);
      for (const frame of frames_mm)
        for (const length of lengths) {
          const motor = key === 'brake_delay' ? named(`motor_${frame}_${length}_brake`) : plain(frame, length);
          const due = (frame / 100) ** power * (active[length - 1]! / active[0]) ** along;
          const ratio = of(motor, key) / of(first, key);
          expect(Math.abs(ratio / due - 1), motor.name).toBeLessThan(ofTwo);
        }
    },
  );

  it('gives less at speed than at rest, and more for a short time; its speeds are in order', () => {
    for (const motor of motors) {
      expect(of(motor, 'torque_rated'), motor.name).toBeLessThan(of(motor, 'torque'));
      expect(of(motor, 'torque'), motor.name).toBeLessThan(of(motor, 'torque_peak'));
      expect(of(motor, 'speed_rated'), motor.name).toBeLessThanOrEqual(of(motor, 'speed_peak_torque'));
      expect(of(motor, 'speed_peak_torque'), motor.name).toBeLessThanOrEqual(0.9 * of(motor, 'speed'));
    }
  });

  it('has as much heat at its rated point as at rest: what speed makes of it goes with flange·n^1.5', () => {
    for (const motor of motors) {
      const lost = 0.55 * (of(motor, 'frame') / 0.18) * (of(motor, 'speed_rated') / ((3000 * Math.PI) / 30)) ** 1.5;
      const due = of(motor, 'torque') * Math.sqrt(1 - lost);
      expect(Math.abs(of(motor, 'torque_rated') / due - 1), motor.name).toBeLessThan(twoDigits);
    }
  });

  it('may be used on the straight line between rest and its rated point: there it is no warmer', () => {
    for (const motor of motors) {
      const [rest, rated] = [of(motor, 'torque'), of(motor, 'torque_rated')];
      const lost = 1 - (rated / rest) ** 2;
      for (const share of [0.1, 0.25, 0.5, 0.75, 0.9]) {
        const torque = rest + share * (rated - rest);
        expect((torque / rest) ** 2 + lost * share ** 1.5, motor.name).toBeLessThan(1 + 1e-9);
      }
    }
  });

  it('gives off a heat that fits its mass, its time constant and its power', () => {
    for (const motor of motors.filter((each) => !hasBrake(each))) {
      const frameRise_K = of(motor, 'temperature_rise') * (1 - of(motor, 'rise_in_winding'));
      const heat_W = (of(motor, 'mass') * 480 * frameRise_K) / of(motor, 'time_frame');
      const power_W = of(motor, 'torque_rated') * of(motor, 'speed_rated');
      expect(power_W / (power_W + heat_W), motor.name).toBeGreaterThan(0.8);
      expect(power_W / (power_W + heat_W), motor.name).toBeLessThan(0.98);
      // Copper, 385 J/(kg·K) (from memory), is a part of the mass.
      const copper_kg =
        (of(motor, 'time_winding') * heat_W) / (of(motor, 'temperature_rise') * of(motor, 'rise_in_winding') * 385);
      expect(copper_kg / of(motor, 'mass'), motor.name).toBeGreaterThan(0.03);
      expect(copper_kg / of(motor, 'mass'), motor.name).toBeLessThan(0.2);
    }
  });

  it('keeps its winding below its highest temperature in the surroundings that it is stated for, and no longer where it gives nothing', () => {
    for (const motor of motors) {
      const warmest = of(motor, 'ambient') + of(motor, 'temperature_rise');
      expect(warmest).toBeLessThanOrEqual(of(motor, 'winding_at_most'));
      expect(of(motor, 'ambient_none')).toBe(warmest);
    }
  });

  it('induces no more than the mains at its highest speed', () => {
    for (const motor of motors) {
      const induced_V = (of(motor, 'torque_constant') * of(motor, 'speed')) / Math.sqrt(3);
      expect(induced_V / of(motor, 'mains'), motor.name).toBeLessThanOrEqual(0.9);
      if (rest_A(motor) > 0.65) expect(induced_V / of(motor, 'mains'), motor.name).toBeGreaterThan(0.88);
    }
  });

  it('with a brake is the same with more inertia, mass and cost, and holds what it gives at rest', () => {
    for (const motor of motors.filter(hasBrake)) {
      const without = named(motor.name.replace(/_brake$/, ''));
      for (const key of ['inertia', 'mass', 'cost']) expect(of(motor, key)).toBeGreaterThan(of(without, key));
      const changed = ['inertia', 'mass', 'brake', 'brake_delay'];
      const others = figuresOf(motor).filter(({ key }) => !changed.includes(key));
      expect(others).toEqual(figuresOf(without).filter(({ key }) => !changed.includes(key)));
      expect(of(motor, 'brake')).toBeGreaterThan(of(motor, 'torque'));
    }
  });

  it('has a drive that gives its torque at rest and its peak torque', () => {
    for (const motor of motors) {
      const fitting = drives.filter(
        (drive) => of(drive, 'current') >= rest_A(motor) && of(drive, 'current_peak') >= peak_A(motor),
      );
      expect(fitting.length, motor.name).toBeGreaterThan(0);
    }
  });
});

describe('a gear', () => {
  it('bears more for a short time, and more still in an emergency', () => {
    for (const gear of gears) {
      expect(of(gear, 'torque'), gear.name).toBeLessThan(of(gear, 'torque_peak'));
      expect(of(gear, 'torque_peak'), gear.name).toBeLessThan(of(gear, 'torque_stop'));
      expect(of(gear, 'speed'), gear.name).toBeLessThan(of(gear, 'speed_peak'));
      expect(of(gear, 'efficiency'), gear.name).toBeLessThan(1);
      expect(of(gear, 'efficiency'), gear.name).toBeGreaterThan(0.9);
    }
  });

  it.each([
    ['torque', 3],
    ['torque_peak', 3],
    ['stiffness', 3],
    ['inertia', 5],
    ['radial_load', 2],
    ['speed', -0.5],
  ])('has a %s that goes with the flange to the power of %d', (key, power) => {
    for (const gear of gears) {
      const ratio = of(gear, key) / of(named(`gear_60_${of(gear, 'ratio')}`), key);
      expect(Math.abs(ratio / (of(gear, 'frame') / 0.06) ** power - 1), gear.name).toBeLessThan(ofTwo);
    }
  });

  it('of a larger flange bears more, is stiffer and costs more; of more stages it loses more', () => {
    for (const ratio of [3, 4, 5, 7, 10, 20, 50]) {
      const row = [60, 80, 120, 160].map((frame) => named(`gear_${frame}_${ratio}`));
      for (const key of ['torque', 'torque_peak', 'torque_stop', 'stiffness', 'inertia', 'radial_load', 'cost'])
        for (let at = 1; at < row.length; at++) expect(of(row[at]!, key)).toBeGreaterThan(of(row[at - 1]!, key));
      for (const gear of row)
        if (ratio > 10) {
          const single = named(gear.name.replace(/\d+$/, '5'));
          expect(of(gear, 'efficiency')).toBeLessThan(of(single, 'efficiency'));
          expect(of(gear, 'backlash')).toBeGreaterThan(of(single, 'backlash'));
        }
    }
  });

  it('twists by 4 to 13 arcmin at its torque', () => {
    for (const gear of gears) {
      const twist_arcmin = (of(gear, 'torque') / of(gear, 'stiffness')) * ((180 * 60) / Math.PI);
      expect(twist_arcmin, gear.name).toBeGreaterThan(4);
      expect(twist_arcmin, gear.name).toBeLessThan(13);
    }
  });

  it('fits a motor: each has one whose torque at rest it bears', () => {
    for (const gear of gears) {
      const fitting = motors.filter(
        (motor) =>
          of(motor, 'torque') * of(gear, 'ratio') <= of(gear, 'torque') &&
          of(motor, 'speed_rated') <= of(gear, 'speed_peak'),
      );
      expect(fitting.length, gear.name).toBeGreaterThan(0);
    }
  });
});

describe('a drive', () => {
  it('gives more for a short time, trips above its brake and is stated for the surroundings of its condition', () => {
    for (const drive of drives) {
      expect(of(drive, 'current_peak'), drive.name).toBeGreaterThan(of(drive, 'current'));
      expect(of(drive, 'bus_brake'), drive.name).toBeGreaterThan(Math.SQRT2 * 400 * 1.1);
      expect(of(drive, 'bus_at_most'), drive.name).toBeGreaterThan(of(drive, 'bus_brake'));
      expect(drive.condition).toContain(`to ${(of(drive, 'ambient') - 273.15).toFixed(0)} °C`);
      expect(of(drive, 'ambient_none'), drive.name).toBeGreaterThan(of(drive, 'ambient'));
    }
  });

  it('has a capacitance that goes with its current, within a step of E12', () => {
    for (const drive of drives) {
      const share = of(drive, 'capacitance') / of(drive, 'current') / 48e-6;
      expect(Math.abs(Math.log(share)), drive.name).toBeLessThan(Math.log(1.22) / 2 + 0.01);
    }
  });

  it('loses a few per cent of what it gives', () => {
    for (const drive of drives) {
      const heat_W = of(drive, 'loss_at_rest') + of(drive, 'loss_per_current') * of(drive, 'current');
      const share = heat_W / (Math.sqrt(3) * 400 * of(drive, 'current'));
      expect(share, drive.name).toBeGreaterThan(0.01);
      expect(share, drive.name).toBeLessThan(0.03);
    }
  });

  it('has a resistor that it may switch and that takes at least half of its peak power; each resistor has a drive', () => {
    const fits = (drive: Part, resistor: Part): boolean =>
      of(resistor, 'resistance') >= of(drive, 'resistor_at_least') &&
      of(drive, 'bus_brake') ** 2 / of(resistor, 'resistance') >=
        0.5 * Math.sqrt(3) * 400 * of(drive, 'current_peak') * 0.9;
    for (const drive of drives)
      expect(
        resistors.some((resistor) => fits(drive, resistor)),
        drive.name,
      ).toBe(true);
    for (const resistor of resistors)
      expect(
        drives.some((drive) => fits(drive, resistor)),
        resistor.name,
      ).toBe(true);
  });
});

describe('a resistor', () => {
  it('takes more at once the more it takes for any length of time, and is cheaper the less it takes', () => {
    for (let at = 1; at < resistors.length; at++) {
      const [small, large] = [resistors[at - 1]!, resistors[at]!];
      for (const key of ['power', 'energy', 'cost']) expect(of(large, key)).toBeGreaterThan(of(small, key));
      expect(of(large, 'resistance')).toBeLessThan(of(small, 'resistance'));
    }
    for (const resistor of resistors) expect(of(resistor, 'energy') / of(resistor, 'power')).toBeCloseTo(30, 9);
  });
});
