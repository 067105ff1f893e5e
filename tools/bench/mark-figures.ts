// Figures of the bench about marks: trials of a budget against plain C, and the marks of the large example with their working.
import { demonstration } from '@layshaft/catalogue';
import { read, resolve } from '@layshaft/core';
import { parseDocument } from 'yaml';
import { webLines } from '../../packages/core/src/assess/web-lines.ts';
import { type Contribution, combined, type Distribution } from '../../packages/core/src/marks/calc/budget.ts';
import { mergeTrials, runTrials, splitTrials } from '../../packages/core/src/marks/calc/monte-carlo.ts';
import { markDemandOf } from '../../packages/core/src/marks/demand.ts';
import { exampleMachines } from '../../tests/support/examples.ts';
import type { Figure } from './figures.ts';
import { compare, median, three } from './measure.ts';
import { inPlainC, type PlainC } from './plain-c.ts';

const large = 'print-line';
const trials = 10_000_000;
/** How often each is timed, in turn with C, after once that does not count. */
const rounds = 5;
const most = 1.5;

export function* markFigures(): Generator<Figure> {
  yield* inPlainC('trials.c', (program) => [againstC(program)]) ?? [];
  yield demandOfExample();
}

/** In µm; the same as in trials.c. */
const shapes: readonly Distribution[] = [
  { shape: 'normal', deviation: 15 },
  { shape: 'normal', deviation: 5 },
  { shape: 'rectangular', halfWidth: 8 },
  { shape: 'rectangular', halfWidth: 3 },
  { shape: 'triangular', halfWidth: 10 },
  { shape: 'triangular', halfWidth: 6 },
  { shape: 'arcsine', halfWidth: 12 },
  { shape: 'arcsine', halfWidth: 4 },
];

export const budgetTerms = shapes.map((spread, at): Contribution => ({ name: `${at}`, spread, sensitivity: 1 }));

/** Both must come to the deviation of the closed form. */
function againstC({ run }: PlainC): Figure {
  const chunks = splitTrials({ contributions: budgetTerms, trials, seed: 1 })!;
  const { most: reach } = chunks[0]!.range;
  const exact = combined(budgetTerms, { coverage: 0.95 })!.standard;
  const own: number[] = [];
  const theirs: number[] = [];
  for (let round = -1; round < rounds; round++) {
    const start = performance.now();
    const { deviation } = mergeTrials(chunks.map(runTrials), 0.95);
    const taken_s = (performance.now() - start) / 1000;
    const [each_s = Number.NaN, standard = Number.NaN] = run(trials, reach);
    for (const found of [deviation.value, standard])
      if (!(Math.abs(found / exact - 1) < 1e-3))
        throw new Error(`trials come to ${found}, the closed form to ${exact}`);
    if (round < 0) continue;
    own.push(taken_s / trials);
    theirs.push(each_s);
  }
  const ratio = median(own) / median(theirs);
  return {
    what: `a trial of a budget of ${shapes.length} terms, of ${trials / 1e6} million, intervals included`,
    measured: `${three(median(own) * 1e9)} ns`,
    baseline: `plain C, ${three(median(theirs) * 1e9)} ns`,
    ratio,
    aim: { text: `at most ${most} times`, kept: ratio <= most },
  };
}

/** From what the file says of the marks to their budgets and captures. */
function demandOfExample(): Figure {
  const text = exampleMachines().find(({ name }) => name === large)!.text;
  const design = resolve(read(text), [demonstration()]);
  const lines = webLines(design.masters, design.machine.masters, []);
  const { subject_s, ratio } = compare(
    () => design.marks.map((mark) => markDemandOf(mark, lines, () => undefined)),
    () => parseDocument(text),
    { batches: 31, batch_s: 0.02 },
  );
  const most_ms = 1;
  return {
    what: `marks of ${large}, working kept`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'parsing its YAML',
    ratio,
    aim: { text: `under ${most_ms} ms`, kept: subject_s * 1e3 < most_ms },
  };
}
