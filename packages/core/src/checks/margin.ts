// Margin and verdict: the two definitions that every finding rests on.
import { formula } from '../working/formula.ts';

/** In the order of how much they ask for attention. */
export const verdicts = ['fails', 'unknown', 'thin', 'holds'] as const;
export type Verdict = (typeof verdicts)[number];

export const margin = formula({
  id: 'margin',
  title: 'margin',
  text: '(C - D)/C',
  gives: '1',
  as: '%',
  symbols: { C: 'same', D: 'same' },
  means: { C: 'capacity: what is there', D: 'demand: what is needed' },
  try: { C: [1, 100], D: [0, 200] },
  source: 'definition',
  proof: 'margin by hand',
  of: (C: number, D: number) => (C - D) / C,
});

/** Two values this close, relative to the larger, count as equal (our judgement: far above rounding, far below any margin). */
export const equalWithin = 1e-9;

/** `holds`: the reserve is kept; `thin`: capacity is kept, the reserve is not; `fails`: it is not, or there is none. */
export function verdictOf(demand: number, capacity: number, reserve: number): Verdict {
  const slack = equalWithin * Math.max(Math.abs(demand), Math.abs(capacity));
  if (capacity <= 0 || demand > capacity + slack) return 'fails';
  return demand > capacity * (1 - reserve) + slack ? 'thin' : 'holds';
}
