// What a motion law asks for over a stroke in a time: coefficient times stroke, over the time to the power of the derivative.
// Each formula stands twice, in m and in rad, since a quantity says which of the two it is.
import { formula } from '../../working/formula.ts';

const means = { C: 'coefficient of the law', h: 'stroke', T: 'time for it' };
const ranges = { C: [0.5, 70], T: [0.01, 2] } as const;
const linear = { ...ranges, h: [0.001, 2] } as const;
const rotary = { ...ranges, h: [0.01, 7] } as const;

const velocity = {
  title: 'largest velocity of a motion law',
  text: 'C*h/T',
  means,
  source: 'vdi-2143',
  at: 'Cv',
  proof: 'peaks of a law searched finely over its stroke',
  of: (C: number, h: number, T: number) => (C * h) / T,
} as const;

const acceleration = {
  title: 'largest acceleration of a motion law',
  text: 'C*h/T^2',
  means,
  source: 'vdi-2143',
  at: 'Ca',
  proof: 'M1',
  of: (C: number, h: number, T: number) => (C * h) / T ** 2,
} as const;

const jerk = {
  title: 'largest jerk of a motion law',
  text: 'C*h/T^3',
  means,
  source: 'vdi-2143',
  at: 'Cj',
  proof: 'peaks of a law searched finely over its stroke',
  of: (C: number, h: number, T: number) => (C * h) / T ** 3,
} as const;

export const lawVelocity = formula({
  ...velocity,
  id: 'axes.law.velocity',
  gives: 'm/s',
  symbols: { C: '1', h: 'm', T: 's' },
  try: linear,
});

export const lawTurningVelocity = formula({
  ...velocity,
  id: 'axes.law.turning_velocity',
  gives: 'rad/s',
  symbols: { C: '1', h: 'rad', T: 's' },
  try: rotary,
});

export const lawAcceleration = formula({
  ...acceleration,
  id: 'axes.law.acceleration',
  gives: 'm/s²',
  symbols: { C: '1', h: 'm', T: 's' },
  try: linear,
});

export const lawTurningAcceleration = formula({
  ...acceleration,
  id: 'axes.law.turning_acceleration',
  gives: 'rad/s²',
  symbols: { C: '1', h: 'rad', T: 's' },
  try: rotary,
});

export const lawJerk = formula({
  ...jerk,
  id: 'axes.law.jerk',
  gives: 'm/s³',
  symbols: { C: '1', h: 'm', T: 's' },
  try: linear,
});

export const lawTurningJerk = formula({
  ...jerk,
  id: 'axes.law.turning_jerk',
  gives: 'rad/s³',
  symbols: { C: '1', h: 'rad', T: 's' },
  try: rotary,
});
