// What wears a gear in a cycle, and what pulls across its shaft. The mean load is the constant one that takes as much of its
// life in as many turns: Mott, eq. 14-11. Standing still takes no life.
import { formula } from '../../working/formula.ts';

/** Powers by which load takes life, of ball and of roller bearings: Mott, eq. 14-11. */
export const lifeExponents = { ball: 3, roller: 10 / 3 } as const;

/** The mean load of equal wear, of as many pieces as are added; without a turn it is none. */
export function wear(exponent: number) {
  let [turned_rad, worn] = [0, 0];
  return {
    add: (load: number, angle_rad: number): void => {
      turned_rad += angle_rad;
      worn += angle_rad * Math.abs(load) ** exponent;
    },
    turned_rad: (): number => turned_rad,
    mean: (): number => (turned_rad === 0 ? 0 : (worn / turned_rad) ** (1 / exponent)),
  };
}

/** A force across the shaft for each part of the pull at the circumference: common practice, from memory. */
export const acrossForPull = {
  belt: { share: 1.5, because: 'a belt under tension at rest, from memory' },
  rack: { share: 1 / Math.cos(Math.PI / 9), because: 'teeth with a pressure angle of 20°, from memory' },
  drum: { share: 1, because: 'a rope pulls with what it carries' },
} as const;

export const pullAcross = formula({
  id: 'axes.gear.pull_across',
  title: 'force across a shaft by the pull at its wheel',
  text: '2*s*T/D',
  gives: 'N',
  symbols: { s: '1', T: 'N·m', D: 'm' },
  means: { s: 'force across for each part of the pull', T: 'torque at the shaft', D: 'diameter of the wheel' },
  try: { s: [1, 2], T: [0.1, 300], D: [0.02, 0.5] },
  source: 'common-practice',
  proof: 'a pull across a shaft is the sum of what meets at its wheel',
  of: (s: number, T: number, D: number) => (2 * s * T) / D,
});
