// What a bus has to bear over all cases: the highest of each.
import { formula } from '../../working/formula.ts';

const highest = { source: 'definition', proof: 'R4' } as const;

export const highestBusVoltage = formula({
  ...highest,
  id: 'axes.bus.highest_voltage',
  title: 'highest voltage of the bus over production and stops',
  text: 'max(U)',
  gives: 'V',
  symbols: { U: 'V[]' },
  means: { U: 'production, then each stop' },
  try: { U: [500, 900] },
  of: (U: readonly number[]) => Math.max(...U),
});

export const highestStopEnergy = formula({
  ...highest,
  id: 'axes.bus.highest_stop_energy',
  title: 'energy that the largest stop leaves for the resistor',
  text: 'max(E)',
  gives: 'J',
  symbols: { E: 'J[]' },
  means: { E: 'each stop' },
  try: { E: [0, 5000] },
  of: (E: readonly number[]) => Math.max(...E),
});
