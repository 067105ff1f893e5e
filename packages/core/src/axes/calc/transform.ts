// Torque, speed and acceleration from the tool's side of a stage to the motor's side, without loss; inertias are beside.
// A wheel is what meets a belt, a rack, a rope, a conveyor or a web at its diameter; a screw's lead is its way in one
// revolution. Losses are added by `efficiency.ts`.
import { formula } from '../../working/formula.ts';

const ratio = 'ratio: turns of the motor’s side for one of the tool’s side';
const lead = 'lead: way in one revolution';
const diameter = 'diameter of the wheel';

export const gearTorque = formula({
  id: 'axes.gear.torque',
  title: 'torque at the fast side of a gear without loss',
  text: 'T/i',
  gives: 'N·m',
  symbols: { T: 'N·m', i: '1' },
  means: { T: 'torque at the tool’s side', i: ratio },
  try: { T: [-100, 100], i: [0.1, 100] },
  source: 'dubey',
  at: 'ex. 2.1',
  proof: 'S3',
  of: (T: number, i: number) => T / i,
});

export const gearSpeed = formula({
  id: 'axes.gear.speed',
  title: 'speed at the fast side of a gear',
  text: 'i*ω',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { i: '1', ω: 'rad/s' },
  means: { i: ratio, ω: 'speed at the tool’s side' },
  try: { i: [0.1, 100], ω: [-100, 100] },
  source: 'definition',
  proof: 'S9',
  of: (i: number, omega: number) => i * omega,
});

export const gearAcceleration = formula({
  id: 'axes.gear.acceleration',
  title: 'acceleration at the fast side of a gear',
  text: 'i*α',
  gives: 'rad/s²',
  symbols: { i: '1', α: 'rad/s²' },
  means: { i: ratio, α: 'acceleration at the tool’s side' },
  try: { i: [0.1, 100], α: [-500, 500] },
  source: 'khurmi-gupta',
  at: 'ex. 3.14',
  proof: 'S9',
  of: (i: number, alpha: number) => i * alpha,
});

export const screwTorque = formula({
  id: 'axes.screw.torque',
  title: 'torque at a screw without loss',
  text: 'F*p/(2*pi)',
  gives: 'N·m',
  symbols: { F: 'N', p: 'm' },
  means: { F: 'force along the screw', p: lead },
  try: { F: [-1e4, 1e4], p: [0.001, 0.1] },
  source: 'common-practice',
  proof: 'S1',
  of: (F: number, p: number) => (F * p) / (2 * Math.PI),
});

export const screwSpeed = formula({
  id: 'axes.screw.speed',
  title: 'speed of a screw',
  text: '2*pi*v/p',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { v: 'm/s', p: 'm' },
  means: { v: 'speed along the screw', p: lead },
  try: { v: [-2, 2], p: [0.001, 0.1] },
  source: 'definition',
  proof: 'S1',
  of: (v: number, p: number) => (2 * Math.PI * v) / p,
});

export const screwAcceleration = formula({
  id: 'axes.screw.acceleration',
  title: 'acceleration of a screw',
  text: '2*pi*a/p',
  gives: 'rad/s²',
  symbols: { a: 'm/s²', p: 'm' },
  means: { a: 'acceleration along the screw', p: lead },
  try: { a: [-20, 20], p: [0.001, 0.1] },
  source: 'definition',
  proof: 'S1',
  of: (a: number, p: number) => (2 * Math.PI * a) / p,
});

export const wheelTorque = formula({
  id: 'axes.wheel.torque',
  title: 'torque at a wheel without loss',
  text: 'F*D/2',
  gives: 'N·m',
  symbols: { F: 'N', D: 'm' },
  means: { F: 'force at its edge', D: diameter },
  try: { F: [-1e4, 1e4], D: [0.01, 2] },
  source: 'definition',
  proof: 'S4',
  of: (F: number, D: number) => (F * D) / 2,
});

export const wheelSpeed = formula({
  id: 'axes.wheel.speed',
  title: 'speed of a wheel',
  text: '2*v/D',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { v: 'm/s', D: 'm' },
  means: { v: 'speed at its edge', D: diameter },
  try: { v: [-10, 10], D: [0.01, 2] },
  source: 'definition',
  proof: 'W7',
  of: (v: number, D: number) => (2 * v) / D,
});

export const wheelAcceleration = formula({
  id: 'axes.wheel.acceleration',
  title: 'acceleration of a wheel',
  text: '2*a/D',
  gives: 'rad/s²',
  symbols: { a: 'm/s²', D: 'm' },
  means: { a: 'acceleration at its edge', D: diameter },
  try: { a: [-20, 20], D: [0.01, 2] },
  source: 'definition',
  proof: 'S4',
  of: (a: number, D: number) => (2 * a) / D,
});

/** For a train of which only the two speeds are known. */
export const torqueBySpeeds = formula({
  id: 'axes.torque.by_speeds',
  title: 'torque of a force without loss, by its speed and that of the shaft',
  text: 'F*v/ω',
  gives: 'N·m',
  symbols: { F: 'N', v: 'm/s', ω: 'rad/s' },
  means: { F: 'force', v: 'its speed', ω: 'speed of the shaft at the same time' },
  try: { F: [-1e4, 1e4], v: [0.01, 10], ω: [1, 600] },
  source: 'dubey',
  at: 'ex. 2.1',
  proof: 'S3',
  of: (F: number, v: number, omega: number) => (F * v) / omega,
});
