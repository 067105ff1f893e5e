// Small mixed-integer models against every combination of their whole numbers, tried one by one.
import { broken, type LinearModel } from '@layshaft/core/linear-model';
import { expect, it } from 'vitest';
import { seeded } from '../../../tests/support/seeded.ts';
import { solveHere } from './here.ts';

it('agrees with trying everything on 200 seeded models, half of them with a variable that need not be whole', async () => {
  const seen = { optimal: 0, infeasible: 0 };
  for (let seed = 1; seed <= 200; seed++) {
    const model = drawn(seeded(seed), seed % 2 === 0);
    const [solution, least] = [await solveHere(model), leastCost(model)];
    if (least === undefined) {
      if (solution.status !== 'infeasible') throw new Error(`seed ${seed}: ${solution.status}`);
      expect(solution.irreducible, `seed ${seed}`).toBe(true);
      const leastOf = (needs: readonly string[]): number | undefined =>
        leastCost({ ...model, constraints: model.constraints.filter(({ need }) => needs.includes(need!)) });
      expect(leastOf(solution.needs), `seed ${seed}`).toBeUndefined();
      for (const culprit of solution.needs)
        expect(leastOf(solution.needs.filter((need) => need !== culprit)), `seed ${seed}`).toBeDefined();
      seen.infeasible++;
    } else {
      if (solution.status !== 'optimal') throw new Error(`seed ${seed}: ${solution.status}`);
      expect(Math.abs(solution.cost - least), `seed ${seed}`).toBeLessThan(1e-7);
      expect(broken(model, solution.values), `seed ${seed}`).toEqual([]);
      seen.optimal++;
    }
  }
  // Both happen often enough to be tested.
  expect(Math.min(seen.optimal, seen.infeasible)).toBeGreaterThan(20);
});

function drawn(random: () => number, hasPart: boolean): LinearModel {
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const each = <T>(count: number, make: (at: number) => T): readonly T[] =>
    Array.from({ length: count }, (_, at) => make(at));
  const variables = each(whole(2, 4), (at) => {
    const least = whole(-2, 1);
    return { name: `x${at}`, least, most: least + whole(0, 4), whole: true, cost: whole(-9, 9) };
  });
  const part = { name: 'part', least: 0, most: whole(1, 5), whole: false, cost: whole(-9, 9) };
  const all = hasPart ? [...variables, part] : variables;
  return {
    variables: all,
    constraints: each(whole(1, 4), (at) => {
      const least = whole(-8, 8);
      return {
        name: `c${at}`,
        terms: all.map((_, variable) => ({ variable, factor: whole(-5, 5) })),
        least: random() < 0.7 ? least : -Infinity,
        most: random() < 0.7 ? least + whole(0, 6) : Infinity,
        need: `c${at}`,
      };
    }),
  };
}

/** The last variable, where it need not be whole, is best at an end of what the constraints leave it. */
function leastCost({ variables, constraints }: LinearModel): number | undefined {
  const last = variables.at(-1)!;
  const wholes = last.whole ? variables : variables.slice(0, -1);
  let least: number | undefined;
  const values: number[] = [];
  const tryFrom = (place: number): void => {
    if (place < wholes.length) {
      const { least, most } = variables[place]!;
      for (values[place] = least; values[place]! <= most; values[place]!++) tryFrom(place + 1);
      return;
    }
    let [from, to] = last.whole ? [0, 0] : [last.least, last.most];
    for (const { terms, least, most } of constraints) {
      const factor = last.whole ? 0 : terms.at(-1)!.factor;
      const rest = wholes.reduce((sum, _, at) => sum + terms[at]!.factor * values[at]!, 0);
      if (factor === 0) {
        if (rest < least || rest > most) return;
      } else {
        const ends = [(least - rest) / factor, (most - rest) / factor];
        from = Math.max(from, Math.min(...ends));
        to = Math.min(to, Math.max(...ends));
      }
    }
    if (from > to) return;
    const part = last.whole ? 0 : last.cost * (last.cost > 0 ? from : to);
    const cost = wholes.reduce((sum, { cost }, at) => sum + cost * values[at]!, part);
    least = Math.min(least ?? cost, cost);
  };
  tryFrom(0);
  return least;
}
