// What a load asks for: gravity, friction, screws, webs and acceleration, as forces along the way or torques at a shaft.
// Forces and torques are over 0 where they are against the motion, so that the motor has to overcome them.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

/** A counterweight hangs by a rope, whatever the way's inclination; its mass moves too and adds to what is accelerated. */
export const gravityForce = formula({
  id: 'axes.load.gravity',
  title: 'force of gravity along the way',
  text: 'g*(m*sin(φ) - c)',
  gives: 'N',
  symbols: { g: 'm/s²', m: 'kg', φ: 'rad', c: 'kg' },
  means: {
    g: 'acceleration of gravity',
    m: 'mass moved',
    φ: 'inclination of the way, over 0 where the motion goes up',
    c: 'counterweight, below 0 where the motion lifts it',
  },
  try: { g: [9.7, 9.9], m: [0.1, 1000], φ: [-1.57, 1.57], c: [-500, 500] },
  source: 'definition',
  proof: 'the work against gravity is the energy of the heights',
  of: (g: number, m: number, phi: number, c: number) => g * (m * Math.sin(phi) - c),
});

/** Coulomb friction, against the motion whichever way it goes. With the coefficient of rest: breakaway. */
export const slideFriction = formula({
  id: 'axes.load.slide_friction',
  title: 'friction of a slide',
  text: 'μ*(g*m*cos(φ) + N)',
  gives: 'N',
  symbols: { μ: '1', g: 'm/s²', m: 'kg', φ: 'rad', N: 'N' },
  means: {
    μ: 'coefficient of friction',
    g: 'acceleration of gravity',
    m: 'mass on the slide',
    φ: 'inclination of the way',
    N: 'preload across the way',
  },
  try: { μ: [0.001, 0.5], g: [9.7, 9.9], m: [0.1, 1000], φ: [-1.57, 1.57], N: [0, 1000] },
  source: 'common-practice',
  proof: 'on the slope of the friction angle a mass stays at speed',
  of: (mu: number, g: number, m: number, phi: number, N: number) => mu * (g * m * Math.cos(phi) + N),
});

const running = {
  title: 'friction in motion',
  means: { C: 'Coulomb friction', b: 'viscous friction for each part of the speed', v: 'speed, without its sign' },
  source: 'common-practice',
  proof: 'a body that only friction brakes comes to rest when it should',
  of: (C: number, b: number, v: number) => C + b * v,
  text: 'C + b*v',
  try: { C: [0, 50], b: [0, 20], v: [0, 10] },
} as const;

export const runningFrictionForce = formula({
  ...running,
  id: 'axes.load.running_friction_force',
  gives: 'N',
  symbols: { C: 'N', b: 'N·s/m', v: 'm/s' },
});

export const runningFrictionTorque = formula({
  ...running,
  id: 'axes.load.running_friction_torque',
  gives: 'N·m',
  symbols: { C: 'N·m', b: 'N·m·s/rad', v: 'rad/s' },
});

const viscous = {
  title: 'friction that grows with the speed',
  means: { b: 'viscous friction for each part of the speed', v: 'speed, without its sign' },
  source: 'common-practice',
  proof: 'a body that only friction brakes comes to rest when it should',
  text: 'b*v',
  of: (b: number, v: number) => b * v,
  try: { b: [0, 20], v: [0, 10] },
} as const;

export const viscousForce = formula({
  ...viscous,
  id: 'axes.load.viscous_force',
  gives: 'N',
  symbols: { b: 'N·s/m', v: 'm/s' },
});

export const viscousTorque = formula({
  ...viscous,
  id: 'axes.load.viscous_torque',
  gives: 'N·m',
  symbols: { b: 'N·m·s/rad', v: 'rad/s' },
});

const opposed = {
  title: 'the same while the motion goes backwards',
  text: '-F',
  means: { F: 'against the motion forwards' },
  source: 'definition',
  proof: 'a load that is lifted and lowered',
  of: (F: number) => -F,
  try: { F: [-100, 100] },
} as const;

export const opposedForce = formula({ ...opposed, id: 'axes.load.opposed_force', gives: 'N', symbols: { F: 'N' } });
export const opposedTorque = formula({
  ...opposed,
  id: 'axes.load.opposed_torque',
  gives: 'N·m',
  symbols: { F: 'N·m' },
});

/** A mass beside the axis of a wheel that stands up; on a level table gravity does nothing. */
export const offCentreTorque = formula({
  id: 'axes.load.off_centre',
  title: 'torque of the weight of a mass beside the axis',
  text: 'g*m*r*u*sin(φ + δ)',
  gives: 'N·m',
  symbols: { g: 'm/s²', m: 'kg', r: 'm', u: '1', φ: 'rad', δ: 'rad' },
  means: {
    g: 'acceleration of gravity',
    m: 'mass',
    r: 'distance of its centre from the axis',
    u: 'how far the plane of turning stands up',
    φ: 'position',
    δ: 'angle from the lowest point at position 0',
  },
  try: { g: [9.7, 9.9], m: [0.1, 50], r: [0.05, 1], u: [0, 1], φ: [0, 6], δ: [0, 6] },
  source: 'definition',
  proof: 'the work against gravity is the energy of the heights',
  of: (g: number, m: number, r: number, u: number, phi: number, delta: number) => g * m * r * u * Math.sin(phi + delta),
});

const starting = {
  title: 'friction to move off',
  text: 'max(B, C)',
  means: { B: 'breakaway friction', C: 'Coulomb friction' },
  try: { B: [0, 60], C: [0, 50] },
  source: 'common-practice',
  proof: 'moving off takes the greater of both frictions',
  of: (B: number, C: number) => Math.max(B, C),
} as const;

export const startingFrictionForce = formula({
  ...starting,
  id: 'axes.load.starting_friction_force',
  gives: 'N',
  symbols: { B: 'N', C: 'N' },
});

export const startingFrictionTorque = formula({
  ...starting,
  id: 'axes.load.starting_friction_torque',
  gives: 'N·m',
  symbols: { B: 'N·m', C: 'N·m' },
});

const thread = {
  symbols: { F: 'N', d: 'm', p: 'm', μ: '1', κ: '1', r: 'm' },
  means: {
    F: 'force along the screw',
    d: 'mean diameter of the thread',
    p: 'lead: way in one revolution',
    μ: 'friction of the thread',
    κ: 'friction of the collar, 0 without one',
    r: 'mean radius of the collar',
  },
  try: { F: [10, 1e5], d: [0.008, 0.1], p: [0.001, 0.02], μ: [0.01, 0.3], κ: [0.01, 0.3], r: [0.005, 0.1] },
  gives: 'N·m',
} as const;

/** Square threads; valid while π·d is over μ·p. */
export const screwRaising = formula({
  ...thread,
  id: 'axes.screw.raising',
  title: 'torque at a sliding screw with collar against its force',
  text: 'F*d/2*(p + pi*μ*d)/(pi*d - μ*p) + κ*F*r',
  source: 'jindal',
  at: 'ex. 16-1',
  proof: 'S7',
  of: (F: number, d: number, p: number, mu: number, kappa: number, r: number) =>
    (((F * d) / 2) * (p + Math.PI * mu * d)) / (Math.PI * d - mu * p) + kappa * F * r,
});

/** Square threads. Below 0, the force turns the screw by itself. */
export const screwLowering = formula({
  ...thread,
  id: 'axes.screw.lowering',
  title: 'torque at a sliding screw with collar along with its force',
  text: 'F*d/2*(pi*μ*d - p)/(pi*d + μ*p) + κ*F*r',
  source: 'jindal',
  at: 'ex. 16-1',
  proof: 'a block on an inclined plane gives the torque of a screw',
  of: (F: number, d: number, p: number, mu: number, kappa: number, r: number) =>
    (((F * d) / 2) * (Math.PI * mu * d - p)) / (Math.PI * d + mu * p) + kappa * F * r,
});

/** Below 0 where the web pulls the roll on, which then brakes. */
export const webForce = formula({
  id: 'axes.load.web',
  title: 'force of a web at a driven roll',
  text: 'B - A',
  gives: 'N',
  symbols: { B: 'N', A: 'N' },
  means: { B: 'tension before the roll', A: 'tension after it' },
  try: { B: [0, 500], A: [0, 500] },
  source: 'definition',
  proof: 'two rolls put into a web what its draw takes',
  of: (B: number, A: number) => B - A,
});

export const accelerationForce = formula({
  id: 'axes.load.acceleration_force',
  title: 'force to accelerate a mass',
  text: 'm*a',
  gives: 'N',
  symbols: { m: 'kg', a: 'm/s²' },
  means: { m: 'mass', a: 'acceleration' },
  try: { m: [0.1, 1000], a: [-20, 20] },
  source: 'definition',
  proof: 'S4',
  of: (m: number, a: number) => m * a,
});

export const accelerationTorque = formula({
  id: 'axes.load.acceleration_torque',
  title: 'torque to accelerate an inertia',
  text: 'J*α',
  gives: 'N·m',
  symbols: { J: 'kg·m²', α: 'rad/s²' },
  means: { J: 'inertia', α: 'acceleration' },
  try: { J: [1e-5, 100], α: [-2000, 2000] },
  source: 'definition',
  proof: 'S10',
  of: (J: number, alpha: number) => J * alpha,
});

const all = {
  text: 'sum(x)',
  source: 'definition',
  of: (x: readonly number[]) => total(x),
} as const;

export const totalForce = formula({
  ...all,
  id: 'axes.load.total_force',
  title: 'all forces along the way',
  gives: 'N',
  symbols: { x: 'N[]' },
  means: { x: 'each force' },
  try: { x: [-100, 1000] },
  proof: 'S4',
});

export const totalTorque = formula({
  ...all,
  id: 'axes.load.total_torque',
  title: 'all torques at a shaft',
  gives: 'N·m',
  symbols: { x: 'N·m[]' },
  means: { x: 'each torque' },
  try: { x: [-100, 1000] },
  proof: 'S3',
});
