// Generated models of racks against a solver that other people wrote: the same least cost, or that there is no solution.
import { describe, expect, it } from 'vitest';
import { hasForeignProgram } from '../../../tests/support/foreign-program.ts';
import { seeded } from '../../../tests/support/seeded.ts';
import { solveForeign } from './foreign.support.ts';
import { solveHere } from './here.ts';
import { drawnInstance, rackModel } from './instances.support.ts';

describe.runIf(hasForeignProgram('glpsol'))('the command-line solver glpsol', () => {
  it('finds the same least cost of 60 seeded models of racks', { timeout: 240_000 }, async () => {
    const seen = { optimal: 0, infeasible: 0 };
    for (let seed = 1; seed <= 60; seed++) {
      const size = { kinds: 1 + (seed % 3), modules: 3 + (seed % 4), racks: 1 + (seed % 3), points: 20 + (seed % 50) };
      const model = rackModel(drawnInstance(seeded(seed), size));
      const ours = await solveHere(model);
      const theirs = solveForeign('glpsol', model);
      if (ours.status !== 'optimal' && ours.status !== 'infeasible') throw new Error(`seed ${seed}: ${ours.status}`);
      expect({ status: ours.status, ...('cost' in ours && { cost: ours.cost }) }, `seed ${seed}`).toEqual({
        status: theirs.status,
        ...('cost' in theirs && { cost: theirs.cost }),
      });
      seen[ours.status]++;
    }
    expect(seen.optimal).toBeGreaterThan(30);
    expect(seen.infeasible).toBeGreaterThan(1);
  });
});
