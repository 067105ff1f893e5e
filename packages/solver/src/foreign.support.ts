// Two solvers of other people, started as commands on the same model in LP format; for tests and for the bench.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LinearModel } from '@layshaft/core/linear-model';
import { lpFormat } from './lp-format.support.ts';

export type ForeignSolver = 'glpsol' | 'cbc';

export interface ForeignAnswer {
  /** Undefined where it says that there is no solution. */
  readonly cost: number | undefined;
  /** From the start of the command to its end, reading and writing files among it. */
  readonly taken_s: number;
}

/** Throws where the command says anything but the least cost or that there is no solution. */
export function solveForeign(solver: ForeignSolver, model: LinearModel, most_s = 60): ForeignAnswer {
  const folder = mkdtempSync(join(tmpdir(), 'layshaft-lp-'));
  try {
    const [file, answer] = [join(folder, 'model.lp'), join(folder, 'answer.txt')];
    writeFileSync(file, lpFormat(model));
    const args = {
      glpsol: ['--lp', file, '--output', answer, '--tmlim', String(most_s)],
      cbc: [file, 'ratio', '0', 'seconds', String(most_s), 'solve', 'solution', answer, 'quit'],
    }[solver];
    const start_ms = performance.now();
    const { status, stdout } = spawnSync(solver, args, { encoding: 'utf8' });
    const taken_s = (performance.now() - start_ms) / 1000;
    if (status !== 0) throw new Error(`${solver} ended with ${status}: ${stdout.slice(-500)}`);
    return { cost: { glpsol: ofGlpsol, cbc: ofCbc }[solver](readFileSync(answer, 'utf8'), stdout), taken_s };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function ofGlpsol(answer: string, log: string): number | undefined {
  const status = /^Status: +(.+)$/m.exec(answer)?.[1];
  if (/HAS NO (INTEGER |PRIMAL )?FEASIBLE SOLUTION/.test(log) || status === 'INTEGER EMPTY') return undefined;
  if (status !== 'INTEGER OPTIMAL' && status !== 'OPTIMAL') throw new Error(`glpsol says ${status}`);
  return Number(/^Objective: +cost = (\S+)/m.exec(answer)?.[1]);
}

function ofCbc(answer: string): number | undefined {
  const [line = ''] = answer.split('\n');
  if (/^(Infeasible|Integer infeasible)/.test(line)) return undefined;
  const cost = /^Optimal - objective value (\S+)/.exec(line)?.[1];
  if (cost === undefined) throw new Error(`cbc says ${line}`);
  return Number(cost);
}
