// The figures of the bench: what is measured, against which baseline, and what is aimed at.
import { spawnSync } from 'node:child_process';
import { demonstration } from '@layshaft/catalogue';
import { assess, read, resolve } from '@layshaft/core';
import { parseDocument } from 'yaml';
import { turn } from '../../packages/core/src/networks/calc/polled.ts';
import { leaf, type Quantity } from '../../packages/core/src/working/quantity.ts';
import { exampleMachines } from '../../tests/support/examples.ts';
import { axisFigures } from './axis-figures.ts';
import { markFigures } from './mark-figures.ts';
import { type CompareOptions, compare, three } from './measure.ts';
import { networkFigures } from './network-figures.ts';
import { simulationFigures } from './simulation-figures.ts';
import { timingFigures } from './timing-figures.ts';

export interface Figure {
  readonly what: string;
  /** With its unit. */
  readonly measured: string;
  readonly baseline: string;
  /** How many times the baseline. */
  readonly ratio: number;
  readonly aim?: { readonly text: string; readonly kept: boolean };
}

const warm: CompareOptions = { batches: 31, batch_s: 0.02 };

/** Every figure, measured one after another; `command` is the bundled command, when there is one. */
export function* figures(command: string | undefined): Generator<Figure> {
  yield* axisFigures();
  for (const example of exampleMachines()) yield assessing(example.name, example.text);
  for (const example of exampleMachines()) yield reading(example.name, example.text);
  yield* networkFigures();
  yield* simulationFigures();
  yield* timingFigures();
  yield* markFigures();
  yield formulaCall();
  if (command !== undefined) yield coldCheck(command);
}

/** From the design to the findings, the working of every number included. */
function assessing(name: string, text: string): Figure {
  const design = resolve(read(text), [demonstration()]);
  const { subject_s, ratio } = compare(
    () => assess(design),
    () => parseDocument(text),
    warm,
  );
  const most_ms = 0.5;
  return {
    what: `assess ${name}, warm`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'parsing its YAML',
    ratio,
    ...(name === 'labeller' && { aim: { text: `under ${most_ms} ms`, kept: subject_s * 1e3 < most_ms } }),
  };
}

/** From the text to the machine, nothing kept from an earlier reading. */
function reading(name: string, text: string): Figure {
  const { subject_s, ratio } = compare(
    () => read(text),
    () => parseDocument(text),
    warm,
  );
  const most = 1.3;
  return {
    what: `read ${name}, warm`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'parsing its YAML',
    ratio,
    aim: { text: `at most ${most} times`, kept: ratio <= most },
  };
}

/** One call that keeps its working, against the same arithmetic on plain numbers. */
function formulaCall(): Figure {
  const seconds = (value: number): Quantity<'s'> =>
    leaf(value, 's', { kind: 'given', path: 'a', via: [], writtenAt: 'a', written: '1 s', writtenUnit: 's' });
  const inputs = Object.fromEntries(
    Object.keys(turn.symbols).map((symbol, index) => [symbol, seconds((index + 1) * 1e-6)]),
  ) as unknown as Parameters<typeof turn>[0];
  const numbers = Object.values(inputs).map(({ value }) => value);
  const plain = turn.of as unknown as (...values: number[]) => number;
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = numbers;
  const { subject_s, ratio } = compare(
    () => turn(inputs, 'network.station'),
    () => plain(a, b, c, d, e),
    warm,
  );
  return {
    what: `one call of the formula ${turn.id}, working kept`,
    measured: `${three(subject_s * 1e9)} ns`,
    baseline: 'the same on plain numbers',
    ratio,
  };
}

/** From the shell to the report and back, against a Node that does nothing. */
function coldCheck(command: string): Figure {
  const start = (args: readonly string[]) => () => {
    const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
    if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  };
  const example = 'examples/labeller/machine.yaml';
  const { subject_s, ratio } = compare(start([command, 'check', example]), start(['-e', '0']), {
    batches: 15,
    batch_s: 0,
  });
  const most = 3;
  return {
    what: 'layshaft check labeller, cold',
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'node -e 0',
    ratio,
    aim: { text: `at most ${most} times`, kept: ratio <= most },
  };
}
