// What surroundings leave of a figure, against losses taken one step after another.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { deratedCurrent, deratedTorque, deratingShare } from './derating.ts';

const about = 'test';
const height = (metres: number) =>
  deratingShare({ x: q(metres, 'm'), f: q(1000, 'm'), n: q(11_000, 'm') }, about).value;
const warmth = (celsius: number) =>
  deratingShare({ x: q(celsius + 273.15, 'K abs'), f: q(313.15, 'K abs'), n: q(353.15, 'K abs') }, about).value;

it('one per cent for each 100 m above 1000 m leaves 80 % at 3000 m, as manuals of drives commonly say', () => {
  expect(height(3000)).toBeCloseTo(0.8, 12);
  let left = 1;
  for (let metres = 1000; metres <= 12_500; metres += 100) {
    expect(height(metres)).toBeCloseTo(Math.max(left, 0), 9);
    left -= 0.01;
  }
});

it('a loss for each kelvin is a straight line to where nothing is left', () => {
  // 2.5 % for each kelvin above 40 °C: nothing at 80 °C.
  for (let kelvin = 0; kelvin <= 60; kelvin++)
    expect(warmth(40 + kelvin)).toBeCloseTo(Math.max(0, 1 - 0.025 * kelvin), 9);
});

it('nothing is gained by cold or thick air', () => {
  expect([height(-100), height(999), warmth(-20), warmth(40)]).toEqual([1, 1, 1, 1]);
});

it('heat and height both take their share', () => {
  const left = { a: q(warmth(50), '1'), h: q(height(3000), '1') };
  expect(deratedTorque({ X: q(10, 'N·m'), ...left }, about).value).toBeCloseTo(10 * 0.75 * 0.8, 9);
  expect(deratedCurrent({ X: q(8, 'A'), a: q(warmth(90), '1'), h: left.h }, about).value).toBe(0);
});
