// What stands beside the counts of a simulation: how long it was on the machine.
import { formula } from '../../working/formula.ts';

export const simulatedTime = formula({
  id: 'networks.simulation.time',
  title: 'time on the machine',
  text: 'N*T',
  gives: 's',
  symbols: { N: '1', T: 's' },
  means: { N: 'cycles', T: 'cycle of the network' },
  try: { N: [1, 1e6, 1], T: [1e-4, 4e-3] },
  source: 'definition',
  proof: 'cycles one behind another',
  of: (N: number, T: number) => N * T,
});
