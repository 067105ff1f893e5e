// Cranks and eccentrics: geometry, differences, energies, and the rod that has no end.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  crankForceTorque,
  crankFrictionTorque,
  crankInertia,
  crankKernels,
  crankSwing,
  crankVelocitySeries,
  crankWay,
  eccentricCurvature,
  eccentricKernels,
  eccentricTransmission,
  eccentricWay,
} from './crank.ts';
import { gaussLegendre } from './integral.ts';

const about = 'test';
const random = seeded(15);
const between = (least: number, most: number) => least + (most - least) * random();
const cranks = Array.from({ length: 200 }, () => {
  const r = between(0.01, 0.5);
  return { r, l: r * between(1.05, 8), φ: between(-7, 7) };
});

/** The integral over angles by 64 spans of Gauss quadrature. */
function integrated(of: (φ: number) => number, from: number, to: number): number {
  const { nodes, weights } = gaussLegendre(7);
  const half = (to - from) / 128;
  return Array.from({ length: 64 }, (_, span) => from + (2 * span + 1) * half)
    .flatMap((middle) => nodes.map((node, at) => half * weights[at]! * of(middle + half * node)))
    .reduce((sum, each) => sum + each, 0);
}

it('the rod of a crank keeps its length, and from dead point to dead point the slider goes twice the radius', () => {
  for (const { r, l, φ } of cranks) {
    const way = (at: number) => crankWay({ r: q(r, 'm'), l: q(l, 'm'), φ: q(at, 'rad') }, about).value;
    const slider = r + l - way(φ);
    expect(Math.hypot(slider - r * Math.cos(φ), r * Math.sin(φ))).toBeCloseTo(l, 12);
    expect(slider).toBeGreaterThan(r * Math.cos(φ));
    expect(way(0)).toBeCloseTo(0, 12);
    expect(way(Math.PI)).toBeCloseTo(2 * r, 12);
  }
});

it('each transmission is the slope of what it derives from', () => {
  const step = 1e-5;
  for (const { r, l, φ } of cranks) {
    const slope = (of: (r: number, l: number, φ: number) => number) =>
      (of(r, l, φ + step) - of(r, l, φ - step)) / (2 * step);
    const { way_m, transmission_m, curvature_m } = crankKernels;
    expect(slope(way_m)).toBeCloseTo(transmission_m(r, l, φ), 8);
    expect(slope(transmission_m)).toBeCloseTo(curvature_m(r, l, φ), 7);
  }
});

it('an eccentric is a crank whose rod has no end', () => {
  for (const { r, φ } of cranks) {
    const inputs = { r: q(r, 'm'), φ: q(φ, 'rad') };
    const rod = 1e6 * r;
    expect(eccentricWay(inputs, about).value).toBeCloseTo(crankKernels.way_m(r, rod, φ), 6);
    for (const kernels of [
      eccentricKernels.transmission_m,
      (r: number, φ: number) => eccentricTransmission({ r: q(r, 'm'), φ: q(φ, 'rad') }, about).value,
    ])
      expect(kernels(r, φ)).toBeCloseTo(crankKernels.transmission_m(r, rod, φ), 6);
    expect(eccentricCurvature(inputs, about).value).toBeCloseTo(crankKernels.curvature_m(r, rod, φ), 6);
    expect(eccentricKernels.curvature_m(r, φ)).toBe(eccentricCurvature(inputs, about).value);
  }
});

it('the series differs from the exact speed by its next term, which falls with the third power of r/l', () => {
  const ω = 20;
  for (const { r, φ } of cranks) {
    const l = 30 * r;
    const inputs = { r: q(r, 'm'), l: q(l, 'm'), φ: q(φ, 'rad'), ω: q(ω, 'rad/s') };
    const differs = ω * crankKernels.transmission_m(r, l, φ) - crankVelocitySeries(inputs, about).value;
    const next = (r * ω * Math.sin(2 * φ) * Math.sin(φ) ** 2) / (4 * 30 ** 3);
    // The term after it is 3/(4·n²) of it at most.
    expect(Math.abs(differs - next)).toBeLessThan(Math.abs(next) / 30 ** 2 + 1e-14);
  }
});

describe('at a crank', () => {
  const [r, l, m, F] = [0.12, 0.4, 3, 250];
  const y = (φ: number) => q(crankKernels.transmission_m(r, l, φ), 'm');

  it('the work of a crank is that of its slider', () => {
    const force = (φ: number) => crankForceTorque({ F: q(F, 'N'), y: y(φ) }, about).value;
    expect(integrated(force, 0.3, 2.8)).toBeCloseTo(
      F * (crankKernels.way_m(r, l, 2.8) - crankKernels.way_m(r, l, 0.3)),
      9,
    );
    expect(integrated(force, 0, 2 * Math.PI)).toBeCloseTo(0, 9);
    const friction = (φ: number) => crankFrictionTorque({ F: q(F, 'N'), y: y(φ) }, about).value;
    expect(integrated(friction, 0, 2 * Math.PI)).toBeCloseTo(F * 4 * r, 9);
    expect(friction(4)).toBeGreaterThan(0);
  });

  it('the torque for a mass that a crank moves is the rise of its energy', () => {
    const ω = 12;
    const energy = (φ: number) => (crankInertia({ m: q(m, 'kg'), y: y(φ) }, about).value * ω ** 2) / 2;
    const swing = (φ: number) =>
      crankSwing({ m: q(m, 'kg'), y: y(φ), z: q(crankKernels.curvature_m(r, l, φ), 'm'), ω: q(ω, 'rad/s') }, about)
        .value;
    expect(energy(1.1)).toBeCloseTo((m * (ω * y(1.1).value) ** 2) / 2, 12);
    expect(integrated(swing, 0.2, 1.1)).toBeCloseTo(energy(1.1) - energy(0.2), 9);
    expect(integrated(swing, 0, 2 * Math.PI)).toBeCloseTo(0, 9);
  });
});
