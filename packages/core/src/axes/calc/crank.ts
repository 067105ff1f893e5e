// A crank with a rod that moves a slider, and an eccentric that moves a yoke: way, speed, and what the slider asks for.
// The angle counts from the dead point at which the slider is farthest out, the way from there. The derivatives of the way
// by the angle are in m, since rad counts 1. A crank's rod is longer than its radius: otherwise it has no whole turn.
import { formula } from '../../working/formula.ts';

const angle = 'angle from the dead point at which the slider is farthest out';

const crank = {
  gives: 'm',
  symbols: { r: 'm', l: 'm', φ: 'rad' },
  means: { r: 'radius of the crank', l: 'length of the rod', φ: angle },
  try: { r: [0.05, 0.3], l: [0.35, 1.5], φ: [-6.3, 6.3] },
  source: 'definition',
} as const;

export const crankWay = formula({
  ...crank,
  id: 'axes.crank.way',
  title: 'way of the slider of a crank',
  text: 'r*(1 - cos(φ)) + l - sqrt(l^2 - r^2 + r^2*cos(φ)^2)',
  proof: 'the rod of a crank keeps its length',
  of: way_m,
});

export const crankTransmission = formula({
  ...crank,
  id: 'axes.crank.transmission',
  title: 'way of the slider for a small angle of the crank',
  text: 'r*sin(φ)*(1 + r*cos(φ)/sqrt(l^2 - r^2 + r^2*cos(φ)^2))',
  proof: 'each transmission is the slope of what it derives from',
  of: transmission_m,
});

export const crankCurvature = formula({
  ...crank,
  id: 'axes.crank.curvature',
  title: 'change of the transmission of a crank for a small angle',
  text: 'r*cos(φ) + r^2*(2*cos(φ)^2 - 1)/sqrt(l^2 - r^2 + r^2*cos(φ)^2) + r^4*cos(φ)^2*(1 - cos(φ)^2)/(l^2 - r^2 + r^2*cos(φ)^2)^1.5',
  proof: 'each transmission is the slope of what it derives from',
  of: curvature_m,
});

/** The first two terms of a series in r/l: 0.3 % too slow at the fastest of r/l = 0.3. The transmission is exact. */
export const crankVelocitySeries = formula({
  id: 'axes.crank.velocity_series',
  title: 'speed of the slider of a crank, by a series of two terms',
  text: 'r*ω*(sin(φ) + r*sin(2*φ)/(2*l))',
  gives: 'm/s',
  symbols: { ...crank.symbols, ω: 'rad/s' },
  means: { ...crank.means, ω: 'speed of the crank' },
  try: { ...crank.try, ω: [-50, 50] },
  source: 'khurmi-gupta',
  at: 'ex. 15.3',
  proof: 'S8',
  of: (r: number, l: number, phi: number, omega: number) =>
    r * omega * (Math.sin(phi) + (r * Math.sin(2 * phi)) / (2 * l)),
});

const eccentric = {
  gives: 'm',
  symbols: { r: 'm', φ: 'rad' },
  means: { r: 'eccentricity', φ: angle },
  try: { r: [0.002, 0.3], φ: [-6.3, 6.3] },
  source: 'definition',
  proof: 'an eccentric is a crank whose rod has no end',
} as const;

export const eccentricWay = formula({
  ...eccentric,
  id: 'axes.eccentric.way',
  title: 'way of the yoke of an eccentric',
  text: 'r*(1 - cos(φ))',
  of: (r: number, phi: number) => r * (1 - Math.cos(phi)),
});

export const eccentricTransmission = formula({
  ...eccentric,
  id: 'axes.eccentric.transmission',
  title: 'way of the yoke for a small angle of the eccentric',
  text: 'r*sin(φ)',
  of: eccentricTransmission_m,
});

export const eccentricCurvature = formula({
  ...eccentric,
  id: 'axes.eccentric.curvature',
  title: 'change of the transmission of an eccentric for a small angle',
  text: 'r*cos(φ)',
  of: eccentricCurvature_m,
});

// What follows takes the transmission of either.
const transmission = 'transmission: way for a small angle';

export const crankForceTorque = formula({
  id: 'axes.crank.force_torque',
  title: 'torque at a crank of a force on its slider',
  text: 'F*y',
  gives: 'N·m',
  symbols: { F: 'N', y: 'm' },
  means: { F: 'force, over 0 where it is against the slider on its way in', y: transmission },
  try: { F: [-1e4, 1e4], y: [-0.4, 0.4] },
  source: 'definition',
  proof: 'the work of a crank is that of its slider',
  of: (F: number, y: number) => F * y,
});

/** Against the motion of the crank whichever way it and its slider go. */
export const crankFrictionTorque = formula({
  id: 'axes.crank.friction_torque',
  title: 'torque at a crank of the friction of its slider',
  text: 'F*abs(y)',
  gives: 'N·m',
  symbols: { F: 'N', y: 'm' },
  means: { F: 'friction', y: transmission },
  try: { F: [0, 1e4], y: [-0.4, 0.4] },
  source: 'definition',
  proof: 'the work of a crank is that of its slider',
  of: (F: number, y: number) => F * Math.abs(y),
});

export const crankInertia = formula({
  id: 'axes.crank.inertia',
  title: 'inertia at a crank of the mass of its slider, at one angle',
  text: 'm*y^2',
  gives: 'kg·m²',
  symbols: { m: 'kg', y: 'm' },
  means: { m: 'mass of the slider, with its part of the rod', y: transmission },
  try: { m: [0.1, 500], y: [-0.4, 0.4] },
  source: 'definition',
  proof: 'the torque for a mass that a crank moves is the rise of its energy',
  of: (m: number, y: number) => m * y ** 2,
});

/** What the change of the inertia asks for; over 0 while the slider grows faster. It does nothing over a whole turn. */
export const crankSwing = formula({
  id: 'axes.crank.swing',
  title: 'torque at a crank at constant speed of the mass of its slider',
  text: 'm*y*z*ω^2',
  gives: 'N·m',
  symbols: { m: 'kg', y: 'm', z: 'm', ω: 'rad/s' },
  means: {
    m: 'mass of the slider, with its part of the rod',
    y: transmission,
    z: 'change of the transmission for a small angle',
    ω: 'speed of the crank',
  },
  try: { m: [0.1, 500], y: [-0.4, 0.4], z: [-0.5, 0.5], ω: [-50, 50] },
  source: 'definition',
  proof: 'the torque for a mass that a crank moves is the rise of its energy',
  of: (m: number, y: number, z: number, omega: number) => m * y * z * omega ** 2,
});

/** Way and derivatives on plain numbers, in m for radius and rod in m and an angle in rad. */
export const crankKernels = { way_m, transmission_m, curvature_m };
export const eccentricKernels = { transmission_m: eccentricTransmission_m, curvature_m: eccentricCurvature_m };

function way_m(r: number, l: number, phi: number): number {
  return r * (1 - Math.cos(phi)) + l - alongRod(r, l, phi);
}

function transmission_m(r: number, l: number, phi: number): number {
  return r * Math.sin(phi) * (1 + (r * Math.cos(phi)) / alongRod(r, l, phi));
}

function curvature_m(r: number, l: number, phi: number): number {
  const along = alongRod(r, l, phi);
  return (
    r * Math.cos(phi) + (r ** 2 * Math.cos(2 * phi)) / along + ((r ** 2 * Math.sin(2 * phi)) / 2) ** 2 / along ** 3
  );
}

function eccentricTransmission_m(r: number, phi: number): number {
  return r * Math.sin(phi);
}

function eccentricCurvature_m(r: number, phi: number): number {
  return r * Math.cos(phi);
}

/** What the rod spans along the way of the slider. */
function alongRod(r: number, l: number, phi: number): number {
  return Math.sqrt(l ** 2 - r ** 2 + (r * Math.cos(phi)) ** 2);
}
