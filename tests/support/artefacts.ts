// What is kept under version control though it can be made again: the results of the examples and the reference pages.
// `npm run accept` writes all of it; a test makes all of it again and compares, so that a change of a number is read.
import { existsSync, readdirSync } from 'node:fs';
import {
  type Assessment,
  cellJson,
  numbersOf,
  print,
  printProblem,
  type Quantity,
  reportJson,
  resultOf,
  simulationOf,
  simulationView,
} from '@layshaft/core';
import { runSimulation } from '@layshaft/core/kernels';
import { checksPage } from '../../tools/reference/checks.ts';
import { formulasPage } from '../../tools/reference/formulas.ts';
import { machineFilePage } from '../../tools/reference/machine-file.ts';
import { partsPage } from '../../tools/reference/parts.ts';
import { pointsPage } from '../../tools/reference/points.ts';
import { problemsPage } from '../../tools/reference/problems.ts';
import { sourcesPage } from '../../tools/reference/sources.ts';
import { assessExample, checkOutput, exampleMachines } from './examples.ts';
import { problemExamples, slipExamples } from './problem-examples.ts';

/** Makes the text of one artefact. */
export type Make = () => string | Promise<string>;

/** Every artefact: its path from the root, and how its text is made. */
export function artefacts(): ReadonlyMap<string, Make> {
  return new Map<string, Make>([
    ...exampleMachines().flatMap((example): [string, Make][] => {
      const folder = `examples/${example.name}/expected`;
      return [
        [`${folder}/report.json`, async () => reportText(await assessExample(example))],
        [`${folder}/numbers.txt`, async () => numbersText(await assessExample(example))],
        [`${folder}/check.txt`, () => checkOutput(example)],
      ];
    }),
    ...exampleMachines()
      .filter(({ text }) => /^ {4}noise:/m.test(text))
      .map((example): [string, Make] => [
        `examples/${example.name}/expected/simulation.txt`,
        async () => simulationText(await assessExample(example)),
      ]),
    ...problemExamples().map((example): [string, Make] => [
      `examples/problems/expected/${example.name}.txt`,
      async () => problemsText(await assessExample(example)),
    ]),
    ...slipExamples().map((example): [string, Make] => [
      `examples/problems/slips/expected/${example.name}.txt`,
      () => checkOutput(example),
    ]),
    ['docs/reference/checks.md', checksPage],
    ['docs/reference/formulas.md', formulasPage],
    ['docs/reference/problems.md', () => problemsPage(problemExamples(), assessExample)],
    ['docs/reference/sources.md', sourcesPage],
    ['docs/reference/machine-file.md', machineFilePage],
    ['docs/reference/parts.md', partsPage],
    ['docs/reference/points.md', pointsPage],
  ]);
}

/** Files that lie where only artefacts lie and are none: what an example or a page that is gone left behind. */
export function leftovers(kept: ReadonlyMap<string, Make>): readonly string[] {
  return [
    ...filesUnder('examples').filter((path) => path.includes('/expected/')),
    ...filesUnder('docs/reference'),
  ].filter((path) => !kept.has(path));
}

const filesUnder = (folder: string): readonly string[] =>
  !existsSync(folder)
    ? []
    : readdirSync(folder, { withFileTypes: true, recursive: true })
        .filter((entry) => entry.isFile())
        .map((entry) => `${entry.parentPath}/${entry.name}`.replaceAll('\\', '/'));

/** The digits that a report promises, the same in every engine. */
const promisedDigits = 6;

const reportText = (assessment: Assessment): string =>
  `${JSON.stringify(
    reportJson(assessment),
    (_key, value) => (typeof value === 'number' ? Number(value.toPrecision(promisedDigits)) : value),
    2,
  )}\n`;

/** Every number by its address, as it is printed, with the kind of its origin or the formula that gives it. */
const numbersText = (assessment: Assessment): string =>
  [...numbersOf(assessment)]
    .map(([address, quantity]) => `${address} = ${print(quantity)} (${originOf(quantity)})\n`)
    .sort()
    .join('');

/** So many cycles of each network under its noise, with a fixed seed: every number of what is shown. */
const simulationText = ({ networks }: Assessment): string =>
  networks
    .flatMap((planned) => {
      const simulation = simulationOf(planned, { cycles: 30_000, seed: 1 });
      if ('lacks' in simulation) return [];
      const { tables } = simulationView(
        resultOf(
          simulation,
          simulation.chunks.map((chunk) => runSimulation(chunk)),
        ),
      );
      return tables.flatMap(({ rows }) => rows.flat().map(cellJson));
    })
    .flatMap((cell) => ('address' in cell ? [`${cell.address} = ${cell.text}\n`] : []))
    .join('');

const originOf = ({ by }: Quantity): string => ('kind' in by ? by.kind : by.id);

const problemsText = (assessment: Assessment): string =>
  [...assessment.design.problems, ...assessment.design.machine.remarks]
    .map((problem) => `${printProblem(problem)}\n`)
    .join('\n');
