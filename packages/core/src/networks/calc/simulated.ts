// What stands beside the counts of a simulation: how long it was on the machine, and what the closed forms allow.
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

/** Whatever the repeats do: who loses an update has lost its first try. Causes may fall together, and none counts for less. */
export const lostAtMost = formula({
  id: 'networks.simulation.lost_at_most',
  title: 'share of the updates whose first try is lost, at most',
  text: 'min(1, sum(p))',
  gives: '1',
  symbols: { p: '1[]' },
  means: { p: 'share of first tries that each cause takes' },
  try: { p: [0, 0.6] },
  source: 'definition',
  proof: 'a bound for causes that fall together',
  of: (p: readonly number[]) =>
    Math.min(
      1,
      p.reduce((sum, each) => sum + each, 0),
    ),
});
