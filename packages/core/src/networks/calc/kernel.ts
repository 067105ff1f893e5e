// What the controller computes in each cycle, and what it may take.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const kernelTime = formula({
  id: 'networks.kernel.time',
  title: 'motion kernel in the fullest cycle',
  text: 'b + n*x + sum(P)*o',
  gives: 's',
  symbols: { b: 's', n: '1', x: 's', P: 'bit[]', o: 's/bit' },
  means: {
    b: 'without any axis',
    n: 'axes served',
    x: 'for each axis',
    P: 'payload of stations that are no axes, both ways',
    o: 'for each bit or octet of it',
  },
  try: { b: [1e-6, 1e-4], n: [0, 60, 1], x: [1e-6, 3e-5], P: [0, 2048], o: [1e-10, 1e-8] },
  source: 'judgement',
  at: 'a sum of fixed costs, as catalogues state them',
  proof: 'kernel by hand',
  of: (b: number, n: number, x: number, P: readonly number[], o: number) => b + n * x + total(P) * o,
});

export const kernelShare = formula({
  id: 'networks.kernel.share',
  title: 'share of the time that the motion kernel takes',
  text: 'sum(k ./ T)',
  gives: '1',
  as: '%',
  symbols: { k: 's[]', T: 's[]' },
  means: { k: 'kernel of each network', T: 'its cycle' },
  try: { k: [1e-5, 1e-3], T: [2.5e-4, 4e-3] },
  source: 'definition',
  proof: 'kernel by hand',
  of: (k: readonly number[], T: readonly number[]) => total(k.map((each, index) => each / (T[index] ?? Number.NaN))),
});
