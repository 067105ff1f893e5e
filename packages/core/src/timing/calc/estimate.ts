// What a task takes, estimated from what it does and what each of that costs; and what its processor has left.
// Costs have a spread: at least, likely, at most. The same formula with the one or the other gives the spread of the task;
// the sum of the costs at most is safe, and what responses are computed with.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const estimatedTime = formula({
  id: 'timing.estimate.takes',
  title: 'estimated execution of a task',
  text: 'b + sum(n .* c)',
  gives: 's',
  symbols: { b: 's', n: '1[]', c: 's[]' },
  means: { b: 'without anything to do', n: 'how many of each it does', c: 'what one of them costs' },
  try: { b: [1e-6, 1e-4], n: [0, 60, 1], c: [1e-7, 1e-4] },
  source: 'judgement',
  at: 'a sum of fixed costs, as catalogues state them',
  proof: 'a task estimated by hand',
  of: (b: number, n: readonly number[], c: readonly number[]) =>
    b + total(n.map((each, at) => each * (c[at] ?? Number.NaN))),
});

export const loadReserve = formula({
  id: 'timing.load.reserve',
  title: 'share of a processor that its tasks leave',
  text: '1 - U',
  gives: '1',
  as: '%',
  symbols: { U: '1' },
  means: { U: 'share that they take' },
  try: { U: [0.05, 1.2] },
  source: 'definition',
  proof: 'a task estimated by hand',
  of: (U: number) => 1 - U,
});
