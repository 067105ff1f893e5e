// What a chunk counts of each station: losses, and runs of them that began within the cycles that count.
import type { FlatHops } from './hops.ts';
import type { SimulationPlan, SpoiltHop, StationCounts, TripTrace } from './plan.ts';

/** Spoilt frames that a trace shows, and traces of one chunk. Our judgement. */
const [mostSpoilt, mostTracesOfChunk] = [32, 4];
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
  const [lost, repeats, late, trips, length, began, last] = [
    zeros(),
    zeros(),
    zeros(),
    zeros(),
    zeros(),
    zeros(),
    zeros(),
  ];
  last.fill(Number.NEGATIVE_INFINITY);
  const runs: number[][] = stations.map(() => []);
  const recent: SpoiltHop[] = [];
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
      const { every, tripAfter } = stations[station]!;
      if (cycle - last[station]! !== every) {
        close(station);
        began[station] = cycle;
      }
      last[station] = cycle;
      length[station]!++;
      if (isCounted(cycle)) lost[station]!++;
      if (length[station] !== tripAfter || !isCounted(began[station]!)) return;
      trips[station]!++;
      if (traces.length < mostTracesOfChunk) {
        const from = cycle - every * (tripAfter - 1);
        traces.push({ station, cycle, spoilt: recent.filter((each) => each.cycle >= from) });
      }
    },
    repeat: (of, cycle) => {
      if (isCounted(cycle)) for (const station of of) repeats[station]!++;
    },
    late: (of, cycle) => {
      if (isCounted(cycle)) for (const station of of) late[station]!++;
    },
    spoil: (spoilt) => {
      if (traces.length === mostTracesOfChunk) return;
      recent.push(spoilt);
      if (recent.length > mostSpoilt) recent.shift();
    },
    isOpen: (cycle) =>
      stations.some(
        ({ every }, at) =>
          isCounted(began[at]!) && length[at]! > 0 && length[at]! < longestRun && last[at]! + every >= cycle,
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

function updatesOf({ cycles }: FlatHops, first: number, end: number, count: number): Float64Array {
  const updates = new Float64Array(count);
  const before = (cycle: number, at: number): number => Math.floor((cycle - 1 - at) / cycles.length) + 1;
  for (const [at, { exchanges }] of cycles.entries()) {
    const times = before(end, at) - before(first, at);
    for (const { stations } of exchanges) for (const station of stations) updates[station]! += times;
  }
  return updates;
}
