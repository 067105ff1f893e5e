// How much of a processor tasks take, and the quick bounds that tell from it alone whether they keep their periods.
import { formula, method } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const utilisation = formula({
  id: 'timing.tasks.utilisation',
  title: 'share of a processor that its tasks take',
  text: 'sum(C ./ T)',
  gives: '1',
  as: '%',
  symbols: { C: 's[]', T: 's[]' },
  means: { C: 'longest execution of each task', T: 'its period, or least distance of its events' },
  try: { C: [1e-5, 1e-3], T: [1e-3, 1e-1] },
  source: 'definition',
  proof: 'RT1',
  of: (C: readonly number[], T: readonly number[]) => total(C.map((each, at) => each / (T[at] ?? Number.NaN))),
});

/** Where priorities follow the periods and each deadline is its period. Tasks over it may keep their periods all the same. */
export const periodicBound = formula({
  id: 'timing.tasks.periodic_bound',
  title: 'share up to which any so many tasks keep their periods',
  text: 'n*(2^(1/n) - 1)',
  gives: '1',
  as: '%',
  symbols: { n: '1' },
  means: { n: 'tasks' },
  try: { n: [1, 60, 1] },
  source: 'liu-layland',
  proof: 'bounds on the load are those that are printed',
  of: (n: number) => n * (2 ** (1 / n) - 1),
});

/** Tasks keep their periods where it is at most 2; never a stricter test than `periodicBound`. */
export const hyperbolicProduct = method({
  id: 'timing.tasks.hyperbolic',
  title: 'product that is at most 2 for tasks that keep their periods',
  prose: 'the product of 1 + C/T over all tasks; at most 2 is enough where priorities follow the periods',
  gives: '1',
  symbols: { C: 's[]', T: 's[]' },
  means: { C: 'longest execution of each task', T: 'its period, or least distance of its events' },
  source: 'bini-buttazzo',
  proof: 'RT5',
  of: (C: readonly number[], T: readonly number[]) =>
    C.reduce((product, each, at) => product * (1 + each / (T[at] ?? Number.NaN)), 1),
});
