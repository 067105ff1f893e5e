// How long a run without a loss has to be, or what it proves: nothing seen is not nothing there.
import { formula } from '../../working/formula.ts';

/** The rule of three: at a confidence of 95 %, −ln 0.05 being 2.996. */
export const provenByRuleOfThree = formula({
  id: 'networks.clean_run.rule_of_three',
  title: 'loss that a run without a loss rules out, with 95 % confidence',
  text: '3/n',
  gives: '1',
  symbols: { n: '1' },
  means: { n: 'frames without a loss' },
  try: { n: [100, 1e6] },
  source: 'common-practice',
  proof: 'rule of three',
  of: (n: number) => 3 / n,
});

export const updatesWithin = formula({
  id: 'networks.clean_run.updates',
  title: 'updates within a time',
  text: 't/T',
  gives: '1',
  symbols: { t: 's', T: 's' },
  means: { t: 'time', T: 'period of the updates' },
  try: { t: [1, 1e5], T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'rule of three',
  of: (t: number, T: number) => t / T,
});

/** A hair above the exact 1 − (1 − c)^(1/n), so on the safe side. */
export const provenByCleanRun = formula({
  id: 'networks.clean_run.proves',
  title: 'loss that a run without a loss rules out',
  text: '-log(1 - c)/n',
  gives: '1',
  symbols: { c: '1', n: '1' },
  means: { c: 'confidence', n: 'frames without a loss' },
  try: { c: [0.5, 0.999], n: [100, 1e6] },
  source: 'definition',
  proof: 'clean runs against the exact limit',
  of: (c: number, n: number) => -Math.log1p(-c) / n,
});

export const cleanRunFor = formula({
  id: 'networks.clean_run.lasts',
  title: 'run without a loss that proves a loss to be smaller',
  text: '-log(1 - c)*T/p',
  gives: 's',
  symbols: { c: '1', T: 's', p: '1' },
  means: { c: 'confidence', T: 'period of the frames', p: 'loss that is to be ruled out' },
  try: { c: [0.5, 0.999], T: [1e-4, 1e-2], p: [1e-9, 1e-3] },
  source: 'definition',
  proof: 'clean runs against the exact limit',
  of: (c: number, T: number, p: number) => (-Math.log1p(-c) * T) / p,
});
