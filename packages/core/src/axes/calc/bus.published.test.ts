// The worked stop of the reference: what the capacitor takes and what is left for the resistor.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import {
  busCycle,
  capacitorEnergy,
  kineticEnergy,
  meanResistorPower,
  type PowerPiece,
  resistorEnergy,
  settledVoltage,
  stopPower,
} from './bus.ts';

const about = 'test';
const bus = { capacitance_F: 1e-3, mains_V: 565, brake_V: 780 };

describe('R4 (derived): 0.05 kg·m² at 3000 rpm, 1000 µF from 565 V to 780 V, a stop in 0.2 s every 2 s', () => {
  const E = kineticEnergy({ J: q(0.05, 'kg·m²'), ω: q(100 * Math.PI, 'rad/s') }, about);
  const A = capacitorEnergy({ C: q(1e-3, 'F'), U: q(780, 'V'), u: q(565, 'V') }, about);
  const left = resistorEnergy({ E, A }, about);
  const peak = stopPower({ E, t: q(0.2, 's') }, about).value;

  it('step by step', () => {
    expect(Math.abs(E.value - 2467.4)).toBeLessThan(0.05);
    expect(Math.abs(A.value - 144.6)).toBeLessThan(0.05);
    expect(Math.abs(left.value - 2322.8)).toBeLessThan(0.05);
    expect(Math.abs(peak - 24_670)).toBeLessThan(5);
    expect(Math.abs(meanResistorPower({ E: left, t: q(2, 's') }, about).value - 1161)).toBeLessThan(0.5);
    expect(resistorEnergy({ E: A, A: E }, about).value).toBe(0);
  });

  it('on the bus, where the resistor begins a little later than the stop', () => {
    const start: PowerPiece = { from_s: 0, to_s: 0.5, start_W: 0, end_W: 4 * E.value, energy_J: E.value };
    const stop: PowerPiece = { from_s: 1, to_s: 1.2, start_W: -peak, end_W: 0, energy_J: -E.value };
    const duty = { ...bus, axes: [[start, stop]], cycle_s: 2 };
    // The capacitor keeps from each stop what the next start takes out of it.
    expect(settledVoltage(duty)).toBe(780);
    const settled = busCycle(duty, 780);
    expect(settled.resistor_J).toBeCloseTo(left.value, 8);
    expect(settled.mains_J).toBeCloseTo(left.value, 8);
    expect(settled.stored_J).toBeCloseTo(0, 9);
    expect(settled.resistorMean_W).toBeCloseTo(left.value / 2, 8);
    // The energy that is left of a ramp goes with the square of the speed, the power with the speed.
    expect(settled.resistorPeak_W).toBeCloseTo(peak * Math.sqrt(left.value / E.value), 6);
    const first = busCycle(duty, 565);
    expect(first.highest_V).toBeCloseTo(780, 9);
    expect(first.highestAt_s).toBeCloseTo(1 + 0.2 * (1 - Math.sqrt(left.value / E.value)), 9);
    // The same backwards: what the capacitor has above the mains goes first.
    const taken: PowerPiece = { ...stop, start_W: peak, energy_J: E.value };
    const emptied = busCycle({ ...duty, axes: [[taken]] }, 780);
    expect(emptied.mainsPeak_W).toBeCloseTo(settled.resistorPeak_W, 6);
    expect(emptied.mains_J).toBeCloseTo(left.value, 8);
  });
});
