// The numbers that a simulation gives: each a method whose inputs are all that was played, how many cycles of it and the seed.
import { openMethod } from '../working/formula.ts';

const counted = {
  prose: 'counted while every frame was played hop by hop, with random numbers from the seed',
  gives: '1',
  source: 'definition',
  proof: 'counts every cycle once, and each run of losses by its length',
} as const;

export const counts = {
  cycles: openMethod({ id: 'networks.simulation.cycles', title: 'cycles that were played', ...counted }),
  updates: openMethod({ id: 'networks.simulation.updates', title: 'updates that were due', ...counted }),
  lost: openMethod({ id: 'networks.simulation.lost', title: 'updates that were lost', ...counted }),
  runs: openMethod({
    id: 'networks.simulation.runs',
    title: 'runs of so many losses one behind the other',
    ...counted,
  }),
  longest: openMethod({ id: 'networks.simulation.longest', title: 'most losses one behind the other', ...counted }),
  repeats: openMethod({ id: 'networks.simulation.repeats', title: 'repeats that were made for it', ...counted }),
  late: openMethod({
    id: 'networks.simulation.late',
    title: 'answers that would have come behind the end of the cycle',
    ...counted,
  }),
  trips: openMethod({ id: 'networks.simulation.trips', title: 'runs of losses that tripped it', ...counted }),
  tripCycle: openMethod({
    id: 'networks.simulation.trip_cycle',
    title: 'cycle in which it tripped, the first one being 0',
    ...counted,
  }),
} as const;

const shareOfAll = {
  prose: 'lost updates over updates that were due',
  gives: '1',
  source: 'definition',
  proof: 'the interval of a simulated share covers it as often as it promises',
} as const;

const ofInterval = {
  ...shareOfAll,
  prose:
    'from the scatter among the parts of the simulation, which are independent, by Student’s t; where fewer than 1000 were lost no narrower than the exact interval of a count',
  source: 'clopper-pearson',
} as const;

export const shares = {
  value: openMethod({ id: 'networks.simulation.share', title: 'share of the updates that was lost', ...shareOfAll }),
  least: openMethod({
    id: 'networks.simulation.share_at_least',
    title: 'smallest share that the counts allow, with 99 % confidence both ways',
    ...ofInterval,
  }),
  most: openMethod({
    id: 'networks.simulation.share_at_most',
    title: 'largest share that the counts allow, with 99 % confidence both ways',
    ...ofInterval,
  }),
} as const;
