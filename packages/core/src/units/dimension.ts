// What a unit measures, as powers of bases, so that a torque is never taken for an energy.

/** Bases that count in physics; the order is the one in which `kg m^2 s^-2` is written. */
export const physicalBases = ['kg', 'm', 's', 'A', 'K', 'bit'] as const;

/** Bases that count as 1 in physics and keep apart what a reader must not confuse: rad/s, Hz and 1/s; N·m and J; K and °C. */
export const distinguishingBases = ['rad', 'cycle', 'energy', 'absolute', 'level', 'cost'] as const;

export const bases = [...physicalBases, ...distinguishingBases] as const;
export type Base = (typeof bases)[number];

/** Powers of the bases; an absent base has the power 0. */
export type Dimension = Readonly<Partial<Record<Base, number>>>;

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return bases.every((base) => (a[base] ?? 0) === (b[base] ?? 0));
}

/** The dimension of `a·bⁿ`. */
export function timesPower(a: Dimension, b: Dimension, power: number): Dimension {
  return Object.fromEntries(bases.map((base) => [base, (a[base] ?? 0) + power * (b[base] ?? 0)]));
}
