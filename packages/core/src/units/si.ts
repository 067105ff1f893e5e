// The closed list of units that a quantity may have inside, each with its dimension; one more unit is one more entry here.
import { type Dimension, physicalBases } from './dimension.ts';
import { takeApart } from './spelling.ts';
import { measure, separate } from './symbols.ts';

/**
 * A quantity is held in one of these. `K` is a temperature difference, `K abs` a temperature from absolute zero; data are
 * held in bits; `1/s`, `Hz` and `rad/s` are three; `N·m` is a torque and `J` an energy; `cost` is whatever money the reader
 * counts in.
 */
export const siUnits = [
  ...(['1', 's', 'm', 'm/s', 'm/s²', 'm/s³', 'm²', 'm³', '1/m', 's/m'] as const),
  ...(['kg', 'kg·m²', 'kg/m', 'kg/m²', 'kg/m³', 'N', 'N·m', 'Pa', 'N/m', 'N·s/m', 'N·m/rad', 'N·m·s/rad'] as const),
  ...(['Hz', '1/s', 'rad', 'rad/s', 'rad/s²', 'rad/s³'] as const),
  ...(['W', 'J', 'V', 'A', 'Ω', 'Ω/m', 'Ω·m', 'F', 'N·m/A', 'V·s/rad', 'dB', 'dB/m'] as const),
  ...(['K', 'K abs', 'W/K', 'K/W', 'J/K', '1/K', 'W/(m²·K)'] as const),
  ...(['bit', 'bit/s', 's/bit', 'cost'] as const),
] as const;
export type Unit = (typeof siUnits)[number];

/** The dimension of each unit, read from its own name. */
export const dimensionOf: Readonly<Record<Unit, Dimension>> = forEachUnit((unit) => {
  if (unit === '1') return {};
  const spelling = takeApart(unit);
  const measured = spelling.ok ? measure(separate(spelling.terms), spelling.over) : undefined;
  if (!measured?.ok) throw new Error(`${unit} is no spelling`);
  return measured.meaning.dimension;
});

/** Each unit as an expression for mathjs 15, in base units: `kg m^2 s^-2`, without a number. Angles, cycles, dB and cost are 1. */
export const mathjsUnit: Readonly<Record<Unit, string>> = forEachUnit((unit) => {
  const powers = physicalBases.flatMap((base) => {
    const power = dimensionOf[unit][base] ?? 0;
    const name = base === 'bit' ? 'b' : base;
    return power === 0 ? [] : [power === 1 ? name : `${name}^${power}`];
  });
  return powers.join(' ') || '1';
});

function forEachUnit<T>(make: (unit: Unit) => T): Record<Unit, T> {
  return Object.fromEntries(siUnits.map((unit) => [unit, make(unit)])) as Record<Unit, T>;
}
