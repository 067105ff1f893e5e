// What is left of the figures of a motor or a drive where the air is warmer or thinner than they are stated for.
// Up to a temperature, and to a height, they hold in full; from there they fall in a straight line to nothing at
// another one. Cold air does not make up for thin air, nor the other way round: neither share is above 1.
import { formula } from '../../working/formula.ts';

/** In plain numbers: all of it up to `full`, nothing from `none` on. */
export function shareLeft(value: number, full: number, none: number): number {
  return Math.min(1, Math.max(0, (none - value) / (none - full)));
}

/** Of the ambient temperature or of the height, each against its own two places. */
export const deratingShare = formula({
  id: 'axes.derating.share',
  title: 'share of its figures that the surroundings leave',
  text: 'min(1, max(0, (n - x)/(n - f)))',
  gives: '1',
  as: '%',
  symbols: { x: 'same', f: 'same', n: 'same' },
  means: {
    x: 'temperature or height of the surroundings',
    f: 'the one up to which figures hold in full',
    n: 'the one at which nothing is left',
  },
  try: { x: [0, 120], f: [20, 50], n: [60, 110] },
  source: 'common-practice',
  proof: 'one per cent for each 100 m above 1000 m leaves 80 % at 3000 m',
  of: shareLeft,
});

const derated = {
  text: 'X*a*h',
  means: { X: 'as stated', a: 'share that the temperature leaves', h: 'share that the height leaves' },
  try: { X: [0.1, 200], a: [0, 1], h: [0, 1] },
  source: 'common-practice',
  proof: 'heat and height both take their share',
  of: (X: number, a: number, h: number) => X * a * h,
} as const;

export const deratedTorque = formula({
  ...derated,
  id: 'axes.derating.torque',
  title: 'torque that the surroundings leave',
  gives: 'N·m',
  symbols: { X: 'N·m', a: '1', h: '1' },
});

export const deratedCurrent = formula({
  ...derated,
  id: 'axes.derating.current',
  title: 'current that the surroundings leave',
  gives: 'A',
  symbols: { X: 'A', a: '1', h: '1' },
});
