// What a chunk counts of each station: losses, and runs of them that began within the cycles that count.
import type { FlatHops } from './hops.ts';
import type { SimulationPlan, SpoiltHop, StationCounts, TripTrace } from './plan.ts';

/** Spoilt frames that a trace shows, and traces of one chunk. Our judgement. */
const [mostSpoilt, mostTracesOfChunk] = [256, 4];
/** A run as long as this ends where it is. Our judgement: no drive has not tripped by then. */
const longestRun = 10_000;

export interface Tally {
  readonly lose: (station: number, cycle: number) => void;
  readonly repeat: (stations: readonly number[], cycle: number) => void;
  readonly late: (stations: readonly number[], cycle: number) => void;
  readonly spoil: (spoilt: SpoiltHop) => void;
  /** Whether a run that counts may go on at this cycle. */
  readonly isOpen: (cycle: number) => boolean;
  readonly counts: (hops: FlatHops) => readonly StationCounts[];
  readonly traces: readonly TripTrace[];
}

export function tallyOf({ stations }: SimulationPlan, first: number, end: number): Tally {
  const zeros = () => new Float64Array(stations.length);
  const [lost, repeats, late, trips] = [zeros(), zeros(), zeros(), zeros()];
  const [length, began, last] = [zeros(), zeros(), zeros().fill(Number.NEGATIVE_INFINITY)];
  const every = Float64Array.from(stations, (each) => each.every);
  const tripAfter = Float64Array.from(stations, (each) => each.tripAfter);
  const runs: number[][] = stations.map(() => []);
  const recent = recentlySpoilt();
  const traces: TripTrace[] = [];
  const isCounted = (cycle: number): boolean => cycle >= first && cycle < end;
  const close = (station: number): void => {
    if (length[station]! > 0 && isCounted(began[station]!)) {
      const of = runs[station]!;
      while (of.length < length[station]!) of.push(0);
      of[length[station]! - 1]!++;
    }
    length[station] = 0;
  };
  return {
    traces,
    lose: (station, cycle) => {
      if (cycle - last[station]! !== every[station]!) {
        close(station);
        began[station] = cycle;
      }
      last[station] = cycle;
      length[station]!++;
      if (isCounted(cycle)) lost[station]!++;
      if (length[station]! !== tripAfter[station]! || !isCounted(began[station]!)) return;
      trips[station]!++;
      if (traces.length < mostTracesOfChunk) {
        const from = cycle - every[station]! * (tripAfter[station]! - 1);
        traces.push({ station, cycle, spoilt: recent.since(from) });
      }
    },
    repeat: (of, cycle) => {
      if (isCounted(cycle)) for (const station of of) repeats[station]!++;
    },
    late: (of, cycle) => {
      if (isCounted(cycle)) for (const station of of) late[station]!++;
    },
    spoil: (spoilt) => {
      if (traces.length < mostTracesOfChunk) recent.add(spoilt);
    },
    isOpen: (cycle) =>
      length.some(
        (each, at) => isCounted(began[at]!) && each > 0 && each < longestRun && last[at]! + every[at]! >= cycle,
      ),
    counts: (hops) => {
      const updates = updatesOf(hops, first, end, stations.length);
      return stations.map((_, at) => {
        close(at);
        return {
          updates: updates[at]!,
          lost: lost[at]!,
          runs: runs[at]!,
          repeats: repeats[at]!,
          late: late[at]!,
          trips: trips[at]!,
        };
      });
    },
  };
}

type Kept = readonly [cycle: number, at_ps: number, run: number, exchange: number, inTry: number, repeat: number];

/** The last hops on which a frame was spoilt, kept without making anything for each. */
function recentlySpoilt() {
  const fields = 6;
  const kept = new Float64Array(mostSpoilt * fields);
  let added = 0;
  return {
    add: ({ cycle, at_ps, run, exchange, place: inTry, repeat }: SpoiltHop): void => {
      const place = (added++ % mostSpoilt) * fields;
      kept[place] = cycle;
      kept[place + 1] = at_ps;
      kept[place + 2] = run;
      kept[place + 3] = exchange;
      kept[place + 4] = inTry;
      kept[place + 5] = repeat;
    },
    since: (cycle: number): readonly SpoiltHop[] => {
      const found: SpoiltHop[] = [];
      for (let at = Math.max(0, added - mostSpoilt); at < added; at++) {
        const place = (at % mostSpoilt) * fields;
        if (kept[place]! < cycle) continue;
        const [began, at_ps, run, exchange, inTry, repeat] = kept.subarray(place, place + fields) as unknown as Kept;
        found.push({ cycle: began, at_ps, run, exchange, place: inTry, repeat });
      }
      return found;
    },
  };
}

function updatesOf({ cycles }: FlatHops, first: number, end: number, count: number): Float64Array {
  const updates = new Float64Array(count);
  const before = (cycle: number, at: number): number => Math.floor((cycle - 1 - at) / cycles.length) + 1;
  for (const [at, { exchanges }] of cycles.entries()) {
    const times = before(end, at) - before(first, at);
    for (const { stations } of exchanges) for (const station of stations) updates[station]! += times;
  }
  return updates;
}
