// Stations on multiples of the cycle: in which of their cycles each is served, so that the fullest cycle is as empty as
// possible.

/** More cycles until everything repeats are not planned (our judgement: eight times eight; no machine was seen with more). */
export const longestPattern = 64;

/** After how many cycles everything repeats. */
export function patternOf(multiples: readonly number[]): number {
  return multiples.reduce((whole, each) => (whole * each) / greatestDivisor(whole, each), 1);
}

const greatestDivisor = (a: number, b: number): number => (b === 0 ? a : greatestDivisor(b, a % b));

/** The load of each cycle of the pattern, for given phases. Loads in any one unit. */
export function loadsOf(
  loads: readonly number[],
  multiples: readonly number[],
  phases: readonly number[],
  pattern: number,
): number[] {
  const sums = new Array<number>(pattern).fill(0);
  loads.forEach((load, index) => {
    for (let cycle = phases[index]!; cycle < pattern; cycle += multiples[index]!) sums[cycle]! += load;
  });
  return sums;
}

/** With so few stations on multiples the best of all choices is proven; with more, the search stops with the best it has. */
const fewStations = 8;
const stepsForMany = 1000;

/**
 * A phase for each station. The largest loads are placed first, each where the fullest of its cycles stays emptiest;
 * then a search with bounds looks for something better: with few stations on multiples until it has proven that there is
 * none, with many for a limited number of steps. Stations of one multiple and one load are interchangeable and are tried once.
 */
export function balance(loads: readonly number[], multiples: readonly number[]): readonly number[] {
  const pattern = patternOf(multiples);
  const order = loads.map((_, index) => index).filter((index) => multiples[index]! > 1);
  order.sort((a, b) => multiples[a]! - multiples[b]! || loads[b]! - loads[a]! || a - b);
  const phases = loads.map(() => 0);
  const sums = loadsOf(loads, multiples, phases, pattern);
  for (const index of order) put(index, -1);

  function put(index: number, sign: number): void {
    for (let cycle = phases[index]!; cycle < pattern; cycle += multiples[index]!) sums[cycle]! += sign * loads[index]!;
  }
  const fullestAt = (index: number, phase: number): number => {
    let most = 0;
    for (let cycle = phase; cycle < pattern; cycle += multiples[index]!) most = Math.max(most, sums[cycle]!);
    return most;
  };
  const choices = (index: number): number[] =>
    Array.from({ length: multiples[index]! }, (_, phase) => phase).sort(
      (a, b) => fullestAt(index, a) - fullestAt(index, b) || a - b,
    );

  for (const index of [...order].sort((a, b) => loads[b]! - loads[a]! || multiples[a]! - multiples[b]! || a - b)) {
    phases[index] = choices(index)[0]!;
    put(index, 1);
  }
  let best = [...phases];
  let bestFullest = Math.max(...sums);
  for (const index of order) put(index, -1);

  // No plan can be better than the mean of what is placed, nor than the fullest cycle without any choice.
  const mean = loads.reduce((sum, load, index) => sum + load / multiples[index]!, 0);
  const least = Math.max(mean, ...sums) * (1 - 1e-12);
  const mostSteps = order.length <= fewStations ? Number.POSITIVE_INFINITY : stepsForMany;
  let steps = 0;
  search(0);
  return best;

  function search(depth: number): void {
    if (bestFullest <= least || ++steps > mostSteps) return;
    const index = order[depth];
    if (index === undefined) {
      bestFullest = Math.max(...sums);
      best = [...phases];
      return;
    }
    const before = order[depth - 1];
    const twin = before !== undefined && multiples[before] === multiples[index] && loads[before] === loads[index];
    const tried = new Set<string>();
    for (const phase of choices(index)) {
      if (twin && phase < phases[before]!) continue;
      if (fullestAt(index, phase) + loads[index]! >= bestFullest * (1 - 1e-12)) continue;
      const look = lookOf(index, phase);
      if (depth === 0 && tried.has(look)) continue;
      tried.add(look);
      phases[index] = phase;
      put(index, 1);
      search(depth + 1);
      put(index, -1);
    }
  }

  /** Phases that meet the same loads make no difference as long as nothing else has been placed. */
  function lookOf(index: number, phase: number): string {
    const met: number[] = [];
    for (let cycle = phase; cycle < pattern; cycle += multiples[index]!) met.push(sums[cycle]!);
    return met.join(' ');
  }
}
