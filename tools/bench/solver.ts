// `npm run bench:solver`: time to the proven least cost of 300 points in 4 racks, against command-line solvers on the same
// model; `npm run bench:solver -- 0.1 0.25` for these shares of spare alone. Ours is timed cold, as a program that starts,
// loads the library and solves, and warm, in a thread that has solved before; the others are programs that start each time.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { solverInNode } from '@layshaft/solver/node';
import { type ForeignSolver, solveForeign } from '../../packages/solver/src/foreign.support.ts';
import { rackModel } from '../../packages/solver/src/instances.support.ts';
import { hasForeignProgram } from '../../tests/support/foreign-program.ts';
import { table } from '../reference/markdown.ts';
import { median, three } from './measure.ts';
import { rackInstance } from './rack-instance.ts';

const asked = process.argv.slice(2).map(Number);
const spares = asked.length > 0 ? asked : [0.05, 0.1, 0.15, 0.2, 0.25];
/** After this long another solver is not waited for. */
const most_s = 60;
/** What is quick is timed so often; what takes longer than this, once. */
const rounds = 5;
const long_s = 5;

/** What a command does that solves one model. */
const coldProgram = `
  const [script, file] = process.argv.slice(1);
  const back = (_, value) => (/^-?Infinity$/.test(value) ? Number(value) : value);
  const model = JSON.parse(require('node:fs').readFileSync(file, 'utf8'), back);
  const thread = new (require('node:worker_threads').Worker)(script);
  thread.on('message', ({ solution, failed }) => {
    if (failed) throw new Error(failed.message);
    console.log(solution.cost);
    process.exit();
  });
  thread.postMessage({ model, tells: false, hands: false });`;

const script = resolve('packages/cli/dist/solver.js');
if (!existsSync(script)) throw new Error(`${script} is not there: run npm run build first.`);
const foreign = (['glpsol', 'cbc'] as const).filter(hasForeignProgram);
const solve = solverInNode({ script: pathToFileURL(script) });
const folder = mkdtempSync(join(tmpdir(), 'layshaft-bench-'));
try {
  // The thread starts before it is timed.
  await solve({ variables: [], constraints: [] });
  const rows: string[][] = [];
  for (const spare of spares) {
    rows.push(await rowOf(spare));
    console.log(rows.at(-1)!.join('  '));
  }
  console.log(
    table(['spare', 'least cost', 'warm', 'cold', ...foreign, 'warm / the faster', 'cold / the faster'], rows),
  );
} finally {
  rmSync(folder, { recursive: true });
}

async function rowOf(spare: number): Promise<string[]> {
  const model = rackModel(rackInstance(spare));
  const file = join(folder, 'model.json');
  writeFileSync(
    file,
    JSON.stringify(model, (_, value) => (Math.abs(value) === Infinity ? String(value) : value)),
  );
  const costs = new Set<number>();
  const warm_s = await timed(async () => {
    const solution = await solve(model);
    if (solution.status !== 'optimal') throw new Error(`ours ended as ${solution.status}`);
    costs.add(solution.cost);
  });
  const cold_s = await timed(() =>
    costs.add(Number(execFileSync(process.execPath, ['-e', coldProgram, script, file]))),
  );
  const theirs = foreign.map((solver) => ({ solver, ...timeOf(solver, model) }));
  for (const { status, cost } of theirs) if (status === 'optimal') costs.add(cost!);
  if (costs.size !== 1) throw new Error(`The solvers do not agree: ${[...costs].join(', ')}.`);
  const fastest_s = Math.min(...theirs.map(({ taken_s }) => taken_s));
  return [
    `${100 * spare} %`,
    String([...costs][0]),
    `${three(warm_s)} s`,
    `${three(cold_s)} s`,
    ...theirs.map(({ status, taken_s }) => (status === 'optimal' ? `${three(taken_s)} s` : `no proof in ${most_s} s`)),
    ...[warm_s, cold_s].map((own_s) => `${three(own_s / fastest_s)} ×`),
  ];
}

async function timed(call: () => unknown): Promise<number> {
  const taken: number[] = [];
  do {
    const start = performance.now();
    await call();
    taken.push((performance.now() - start) / 1000);
  } while (taken.length < rounds && taken[0]! < long_s);
  return median(taken);
}

function timeOf(solver: ForeignSolver, model: Parameters<typeof solveForeign>[1]): ReturnType<typeof solveForeign> {
  const answers = [solveForeign(solver, model, most_s)];
  while (answers.length < rounds && answers[0]!.taken_s < long_s) answers.push(solveForeign(solver, model, most_s));
  return { ...answers[0]!, taken_s: median(answers.map(({ taken_s }) => taken_s)) };
}
