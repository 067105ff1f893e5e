// One exchange with a station, and exchanges one after another: the polled discipline.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const turn = formula({
  id: 'networks.exchange.turn',
  title: 'one exchange with a station',
  text: 'a + b + D + p + r',
  gives: 's',
  symbols: { a: 's', b: 's', D: 's', p: 's', r: 's' },
  means: {
    a: 'command on the line',
    b: 'answer on the line',
    D: 'turnaround of the station',
    p: 'way to the station',
    r: 'way back',
  },
  try: { a: [5e-6, 2e-4], b: [5e-6, 2e-4], D: [0, 1e-4], p: [0, 1e-5], r: [0, 1e-5] },
  source: 'wilamowski-irwin',
  at: 'eq. 39.2',
  proof: 'C9',
  of: (a: number, b: number, D: number, p: number, r: number) => a + b + D + p + r,
});

export const oneAfterAnother = formula({
  id: 'networks.polled.exchanges',
  title: 'every exchange of a cycle, one after another',
  text: 'sum(x)',
  gives: 's',
  symbols: { x: 's[]' },
  means: { x: 'every exchange' },
  try: { x: [1e-5, 3e-4] },
  source: 'wilamowski-irwin',
  at: 'eq. 39.2 summed over the stations',
  proof: 'C10',
  of: (x: readonly number[]) => total(x),
});

export const onTheLine = formula({
  id: 'networks.exchange.line',
  title: 'all frames of one direction on the line',
  text: 'sum(a)',
  gives: 's',
  symbols: { a: 's[]' },
  means: { a: 'each frame on the line' },
  try: { a: [5e-6, 2e-4] },
  source: 'definition',
  proof: 'the split adds up to the cycle',
  of: (a: readonly number[]) => total(a),
});

export const waiting = formula({
  id: 'networks.polled.waiting',
  title: 'waiting for stations and for the way there and back',
  text: 'sum(D) + sum(p) + sum(r)',
  gives: 's',
  symbols: { D: 's[]', p: 's[]', r: 's[]' },
  means: { D: 'turnaround of each station', p: 'way to each station', r: 'way back' },
  try: { D: [0, 1e-4], p: [0, 1e-5], r: [0, 1e-5] },
  source: 'definition',
  proof: 'the split adds up to the cycle',
  of: (D: readonly number[], p: readonly number[], r: readonly number[]) => total(D) + total(p) + total(r),
});
