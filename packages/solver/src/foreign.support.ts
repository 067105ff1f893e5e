// Two solvers of other people, started as commands on the same model in LP format; for tests and for the bench.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LinearModel } from '@layshaft/core/linear-model';
import { lpFormat } from './lp-format.support.ts';

export type ForeignSolver = 'glpsol' | 'cbc';

export interface ForeignAnswer {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  /** The best that was found, where anything was. */
  readonly cost?: number | undefined;
  /** From the start of the command to its end, reading and writing files among it. */
  readonly taken_s: number;
}

/** Throws where the command says anything but how it ended. */
export function solveForeign(solver: ForeignSolver, model: LinearModel, most_s = 60): ForeignAnswer {
  const folder = mkdtempSync(join(tmpdir(), 'layshaft-lp-'));
  try {
    const [file, answer] = [join(folder, 'model.lp'), join(folder, 'answer.txt')];
    writeFileSync(file, lpFormat(model));
    const args = {
      glpsol: ['--lp', file, '--output', answer, '--tmlim', String(most_s)],
      cbc: [file, 'ratio', '0', 'timeMode', 'elapsed', 'seconds', String(most_s), 'solve', 'solution', answer, 'quit'],
    }[solver];
    const start_ms = performance.now();
    const { status, stdout } = spawnSync(solver, args, { encoding: 'utf8' });
    const taken_s = (performance.now() - start_ms) / 1000;
    if (status !== 0) throw new Error(`${solver} ended with ${status}: ${stdout.slice(-500)}`);
    const text = readFileSync(answer, 'utf8');
    return { ...{ glpsol: ofGlpsol, cbc: ofCbc }[solver](text, stdout), taken_s };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

type Ended = Omit<ForeignAnswer, 'taken_s'>;

function ofGlpsol(answer: string, log: string): Ended {
  const status = /^Status: +(.+)$/m.exec(answer)?.[1] ?? '';
  const cost = Number(/^Objective: +cost = (\S+)/m.exec(answer)?.[1]);
  if (/HAS NO (INTEGER |PRIMAL )?FEASIBLE SOLUTION/.test(log) || status === 'INTEGER EMPTY')
    return { status: 'infeasible' };
  if (/^(INTEGER )?OPTIMAL$/.test(status)) return { status: 'optimal', cost };
  if (/TIME LIMIT EXCEEDED/.test(log)) return { status: 'stopped', ...(status === 'INTEGER NON-OPTIMAL' && { cost }) };
  throw new Error(`glpsol says ${status}`);
}

function ofCbc(answer: string): Ended {
  const [line = ''] = answer.split('\n');
  const cost = Number(/objective value (\S+)/.exec(line)?.[1]);
  if (/^(Infeasible|Integer infeasible)/.test(line)) return { status: 'infeasible' };
  if (/^Optimal - /.test(line)) return { status: 'optimal', cost };
  if (/^Stopped on time - /.test(line)) return { status: 'stopped', cost };
  throw new Error(`cbc says ${line}`);
}
