// Methods over a bus: what is walked along the common time of its axes.
import { openMethod } from '../working/formula.ts';

const walked = {
  source: 'judgement',
  proof: 'a bus of axes gives what its axes give',
} as const;
const inProduction = 'powers of all axes at their shafts on one time, walked from breakpoint to breakpoint';

export const busVoltage = openMethod({
  ...walked,
  id: 'axes.bus.voltage',
  title: 'highest voltage of the bus in production',
  prose: inProduction,
  gives: 'V',
});
export const stopVoltage = openMethod({
  ...walked,
  id: 'axes.bus.stop_voltage',
  title: 'highest voltage of the bus when all its axes stop',
  prose:
    'the same, with every axis that follows a master slowing down at once, at the worst of eight places of the longest cycle',
  gives: 'V',
});
export const energyToResistor = openMethod({
  ...walked,
  id: 'axes.bus.energy_to_resistor',
  title: 'energy into the resistor',
  prose: inProduction,
  gives: 'J',
});
export const peakToResistor = openMethod({
  ...walked,
  id: 'axes.bus.peak_to_resistor',
  title: 'highest power into the resistor',
  prose: inProduction,
  gives: 'W',
});
export const meanToResistor = openMethod({
  ...walked,
  id: 'axes.bus.mean_to_resistor',
  title: 'mean power into the resistor in production',
  prose: inProduction,
  gives: 'W',
});
