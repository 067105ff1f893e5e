// What a cycle asks for, from what its phases ask for: highest speeds and powers, energies, and the highest of all cases.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

const highest = { text: 'max(x)', source: 'definition', of: (x: readonly number[]) => Math.max(...x) } as const;

export const highestSpeed = formula({
  ...highest,
  id: 'axes.cycle.highest_speed',
  title: 'highest speed of a cycle',
  gives: 'm/s',
  symbols: { x: 'm/s[]' },
  means: { x: 'highest speed of each phase' },
  try: { x: [0, 10] },
  proof: 'S1',
});

export const highestTurningSpeed = formula({
  ...highest,
  id: 'axes.cycle.highest_turning_speed',
  title: 'highest speed of a cycle',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { x: 'rad/s[]' },
  means: { x: 'highest speed of each phase' },
  try: { x: [0, 700] },
  proof: 'S10',
});

export const highestPower = formula({
  ...highest,
  id: 'axes.cycle.highest_power',
  title: 'highest power of a cycle',
  gives: 'W',
  symbols: { x: 'W[]' },
  means: { x: 'highest power of each phase' },
  try: { x: [0, 5000] },
  proof: 'S10',
});

export const highestTorque = formula({
  ...highest,
  id: 'axes.demand.highest_torque',
  title: 'the highest torque of all cases',
  gives: 'N·m',
  symbols: { x: 'N·m[]' },
  means: { x: 'each case' },
  try: { x: [0, 100] },
  proof: 'S10',
});

export const totalEnergy = formula({
  id: 'axes.cycle.energy',
  title: 'energy of a cycle',
  text: 'sum(E)',
  gives: 'J',
  symbols: { E: 'J[]' },
  means: { E: 'each phase' },
  try: { E: [0, 500] },
  source: 'definition',
  proof: 'shaft work is what becomes of it',
  of: (E: readonly number[]) => total(E),
});

/** What the motor gives less what it takes back; what the drive makes of that is another matter. */
export const meanPower = formula({
  id: 'axes.cycle.mean_power',
  title: 'mean power of a cycle at the motor shaft',
  text: '(E - R)/t',
  gives: 'W',
  symbols: { E: 'J', R: 'J', t: 's' },
  means: { E: 'energy that the motor gives', R: 'energy that it takes back', t: 'cycle' },
  try: { E: [200, 500], R: [0, 100], t: [0.1, 5] },
  source: 'definition',
  proof: 'shaft work is what becomes of it',
  of: (E: number, R: number, t: number) => (E - R) / t,
});
