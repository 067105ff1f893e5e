// Invented models that look like those of racks: modules of several types into racks with places and supply, for points of
// several kinds with spare. For tests and for the bench.
import type { Constraint, LinearModel, Term, Variable } from '@layshaft/core/linear-model';

export interface RackInstance {
  readonly kinds: readonly { readonly name: string; readonly points: number }[];
  /** Free channels as a share of the used ones. */
  readonly spare: number;
  readonly modules: readonly {
    readonly name: string;
    readonly cost: number;
    readonly places: number;
    readonly current_A: number;
    /** How many channels of each kind, in the order of the kinds. */
    readonly channels: readonly number[];
    /** Whether its channels serve any one of those kinds each, up to the greatest of them. */
    readonly shared: boolean;
  }[];
  readonly racks: readonly {
    readonly name: string;
    readonly cost: number;
    readonly places: number;
    readonly current_A: number;
  }[];
}

/** As small a cost as can be; a rack costs when anything is in it, and racks are not used in any order. */
export function rackModel({ kinds, spare, modules, racks }: RackInstance): LinearModel {
  const variables: Variable[] = [];
  const add = (name: string, most: number, cost: number): number =>
    variables.push({ name, least: 0, most, whole: true, cost }) - 1;
  const used = racks.map(({ name, cost }) => add(`${name} used`, 1, cost));
  const counts = racks.map((rack) =>
    modules.map(({ name, places, cost }) => add(`${name} in ${rack.name}`, Math.floor(rack.places / places), cost)),
  );
  const constraints: Constraint[] = racks.flatMap((rack, r) => [
    sum(
      `places of ${rack.name}`,
      [...modules.map(({ places }, m) => term(counts[r]![m]!, places)), term(used[r]!, -rack.places)],
      -Infinity,
      0,
      `places of ${rack.name}`,
    ),
    sum(
      `supply of ${rack.name}`,
      [...modules.map(({ current_A }, m) => term(counts[r]![m]!, current_A)), term(used[r]!, -rack.current_A)],
      -Infinity,
      0,
      `supply of ${rack.name}`,
    ),
  ]);
  // Channels that may serve several kinds are shared out, type by type.
  const shares = modules.map(({ name, channels, shared }, m) => {
    if (!shared) return undefined;
    const all = Math.max(...channels);
    const parts = kinds.map((kind, k) =>
      channels[k]! > 0 ? add(`channels of ${name} for ${kind.name}`, Infinity, 0) : undefined,
    );
    const taken = parts.flatMap((part) => (part === undefined ? [] : [term(part, 1)]));
    constraints.push(sum(`channels of ${name}`, [...taken, ...counts.map((of) => term(of[m]!, -all))], -Infinity, 0));
    return parts;
  });
  for (const [k, { name, points }] of kinds.entries()) {
    const offered = modules.flatMap(({ channels }, m) => {
      const parts = shares[m];
      if (parts !== undefined) return parts[k] === undefined ? [] : [term(parts[k]!, 1)];
      return channels[k]! > 0 ? counts.map((of) => term(of[m]!, channels[k]!)) : [];
    });
    constraints.push(
      sum(`channels for ${name}`, offered, Math.ceil(points * (1 + spare)), Infinity, `points of ${name}`),
    );
  }
  return { variables, constraints };
}

/** Sizes drawn between stated ends; nothing in it is anybody's. */
export function drawnInstance(
  random: () => number,
  size: { readonly kinds: number; readonly modules: number; readonly racks: number; readonly points: number },
): RackInstance {
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const each = <T>(count: number, make: (place: number) => T): readonly T[] =>
    Array.from({ length: count }, (_, at) => make(at));
  const groups = [6, 10, 12, 20];
  return {
    kinds: each(size.kinds, (k) => ({ name: `kind ${k + 1}`, points: whole(0, (2 * size.points) / size.kinds) })),
    spare: whole(0, 5) / 20,
    modules: each(size.modules, (m) => {
      const main = m % size.kinds;
      const other = random() < 0.4 ? whole(0, size.kinds - 1) : main;
      const channels = each(size.kinds, (k) => (k === main || k === other ? groups[whole(0, 3)]! : 0));
      const all = channels.reduce((a, b) => a + b, 0);
      return {
        name: `module ${m + 1}`,
        cost: 30 + 4 * all + whole(0, 60),
        places: whole(1, 2),
        current_A: whole(2, 12) / 20,
        channels,
        shared: other !== main && random() < 0.5,
      };
    }),
    racks: each(size.racks, (r) => ({
      name: `rack ${r + 1}`,
      cost: 150 + whole(0, 100),
      places: [4, 7, 9, 14][whole(0, 3)]!,
      current_A: whole(10, 50) / 10,
    })),
  };
}

/**
 * Shares to be chosen so that five sums are each half of all: the deviation is least. Always has a solution, and to prove the
 * least one takes far longer than any test waits, on any machine (market split instances as in G. Cornuéjols, M. Dawande, A
 * class of hard small 0-1 programs, 1999).
 */
export function endlessModel(random: () => number): LinearModel {
  const [sums, shares] = [5, 40];
  const variable = (name: string, whole: boolean): Variable =>
    whole ? { name, least: 0, most: 1, whole, cost: 0 } : { name, least: 0, most: Infinity, whole, cost: 1 };
  const variables = Array.from({ length: shares }, (_, at) => variable(`share ${at}`, true));
  const constraints = Array.from({ length: sums }, (_, at) => {
    const terms = Array.from({ length: shares }, (_each, place) => term(place, Math.floor(100 * random())));
    const half = Math.floor(terms.reduce((all, { factor }) => all + factor, 0) / 2);
    const over = variables.push(variable(`over ${at}`, false), variable(`under ${at}`, false)) - 2;
    return sum(`sum ${at}`, [...terms, term(over, -1), term(over + 1, 1)], half, half);
  });
  return { variables, constraints };
}

const term = (variable: number, factor: number): Term => ({ variable, factor });
const sum = (name: string, terms: readonly Term[], least: number, most: number, need?: string): Constraint => ({
  name,
  terms,
  least,
  most,
  need,
});
