// The events of a chunk: every frame on every hop, every repeat and every deadline, cycle by cycle.
import { nextWord } from '../../../physics/random-bits.ts';
import { type FlatExchange, flatHopsOf } from './hops.ts';
import { nextShare, noiseState } from './noise-state.ts';
import type { PortFrame, SimulationChunk, SimulationCounts } from './plan.ts';
import { tallyOf } from './tally.ts';

/** Is told what passes the controller's port, in the order of play. */
export type Listener = (frame: PortFrame) => void;

/** Plays a chunk. With a listener it plays the same and tells the frames of its cycles. */
export function runSimulation(chunk: SimulationChunk, listen?: Listener): SimulationCounts {
  const { plan, first, skipAhead } = chunk;
  const end = first + chunk.cycles;
  const pattern = plan.cycles.length;
  const bits = Int32Array.from(chunk.state);
  const hops = flatHopsOf(plan);
  const { upper, lower, run, from_ps, after, hazard } = hops;
  const isChanceAlone = plan.twoState === undefined && plan.pulses.length === 0;
  const noise = noiseState(plan, hops, bits);
  const tally = tallyOf(plan, first, end);
  const branchSpoilt = new Uint8Array(Math.max(0, ...hops.cycles.map(({ branchEnd }) => branchEnd)));
  let events = 0;
  let cycle = first - pattern;
  /** Hops before this one are sound in this cycle, and it is spoilt; -1 where every hop is drawn. */
  let forced = -1;

  const isSpoilt = (hop: number, moved_ps: number): boolean => {
    if (hop < forced) return false;
    if (hop === forced) return true;
    events++;
    const word = nextWord(bits) >>> 0;
    const most = upper[hop]!;
    if (word < most || (word === most && nextWord(bits) >>> 0 < lower[hop]!)) return true;
    return !isChanceAlone && noise.meetsPulse(hop, moved_ps);
  };
  const spoil = (hop: number, moved_ps: number, repeat: number): void =>
    tally.spoil({ cycle, at_ps: from_ps[hop]! + moved_ps, run: run[hop]!, repeat });
  /** Plays the hops of a try up to the first that is spoilt, and gives it, or the end. */
  const play = (start: number, stop: number, moved_ps: number): number => {
    let hop = start;
    while (hop < stop && !isSpoilt(hop, moved_ps)) hop++;
    return hop;
  };
  /** A command where the try has one of its own, and the answer where it came. */
  const tell = (exchange: FlatExchange, repeat: number, begins_ps: number, isAnswered: boolean): void => {
    if (listen === undefined || cycle < first || cycle >= end) return;
    const { stations } = exchange;
    const [start, stop] = repeat === 0 ? [exchange.first, exchange.end] : [exchange.againFirst, exchange.againEnd];
    if (start === stop) return;
    if (repeat > 0 || exchange.behind < 0)
      listen({ cycle, stations, repeat, at_ps: from_ps[start]! + begins_ps, direction: 'command' });
    if (isAnswered) listen({ cycle, stations, repeat, at_ps: from_ps[stop - 1]! + begins_ps, direction: 'answer' });
  };

  /** Whether the try failed. */
  const fails = (exchange: FlatExchange, repeat: number, begins_ps: number): boolean => {
    const start = repeat === 0 ? exchange.first : exchange.againFirst;
    const stop = repeat === 0 ? exchange.end : exchange.againEnd;
    const over_ps = repeat === 0 ? exchange.over_ps : exchange.againOver_ps;
    const hasCommand = repeat > 0 || exchange.behind < 0 || branchSpoilt[exchange.behind] === 0;
    const reached = hasCommand ? play(start, stop, begins_ps) : start;
    const taken = !isChanceAlone && noise.takesTry(start, stop, begins_ps);
    if (hasCommand && reached < stop) spoil(reached, begins_ps, repeat);
    else if (taken) spoil(start, begins_ps, repeat);
    const isLate = begins_ps + over_ps > plan.cycle_ps;
    const isLost = !hasCommand || reached < stop || taken;
    tell(exchange, repeat, begins_ps, !isLost);
    if (isLate && !isLost) tally.late(exchange.stations, cycle);
    return isLost || isLate;
  };

  const playCycle = (): void => {
    const { exchanges, first: from, branchEnd, repeatsFrom_ps } = hops.cycles[inPattern(cycle, pattern)]!;
    for (let hop = from; hop < branchEnd; hop++) {
      const behind = after[hop]!;
      const isOwn = (behind < 0 || branchSpoilt[behind] === 0) && isSpoilt(hop, 0);
      branchSpoilt[hop] = isOwn || (behind >= 0 && branchSpoilt[behind] === 1) ? 1 : 0;
      if (isOwn) spoil(hop, 0, 0);
      if (behind < 0 && cycle >= first && cycle < end)
        listen?.({ cycle, stations: [], repeat: 0, at_ps: from_ps[hop]!, direction: 'command' });
    }
    const failed = exchanges.filter((exchange) => fails(exchange, 0, 0));
    if (failed.length === 0) return;
    forced = -1;
    let served = 0;
    for (let place = 0; place < repeatsFrom_ps.length && served < failed.length; place++) {
      const exchange = failed[served]!;
      tally.repeat(exchange.stations, cycle);
      if (!fails(exchange, place + 1, repeatsFrom_ps[place]!)) served++;
    }
    for (const { stations } of failed.slice(served)) for (const station of stations) tally.lose(station, cycle);
  };

  /** The next cycle with an error, from this one on; it and its first spoilt hop are set. */
  const jump = (): void => {
    const whole = hazard.at(-1) ?? 0;
    if (whole === 0) {
      cycle = Number.POSITIVE_INFINITY;
      return;
    }
    const at = inPattern(cycle, pattern);
    // Whole patterns and the rest of one are independent of each other.
    let patterns = Math.floor(-Math.log(nextShare(bits)) / whole);
    const rest = -Math.log1p(nextShare(bits) * Math.expm1(-whole));
    let reach = (hazard[hops.cycles[at]!.first - 1] ?? 0) + rest;
    if (reach >= whole) {
      reach -= whole;
      patterns++;
    }
    let [low, high] = [0, hazard.length - 1];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (hazard[middle]! > reach) high = middle;
      else low = middle + 1;
    }
    forced = low;
    cycle += patterns * pattern - at + hops.cycles.findIndex((each) => low < each.end);
  };

  while (cycle < end || tally.isOpen(cycle)) {
    if (skipAhead) {
      jump();
      if (cycle >= end && !tally.isOpen(cycle)) break;
    }
    playCycle();
    noise.nextCycle();
    cycle++;
  }
  return { cycles: chunk.cycles, events, stations: tally.counts(hops), traces: tally.traces };
}

const inPattern = (cycle: number, pattern: number): number => ((cycle % pattern) + pattern) % pattern;
