// The events of a chunk: every frame on every hop, every repeat and every deadline, cycle by cycle.
import { type FlatCycle, type FlatExchange, type FlatWay, flatHopsOf } from './hops.ts';
import { nextShare, noiseState } from './noise-state.ts';
import type { PortFrame, SimulationChunk, SimulationCounts } from './plan.ts';
import { tallyOf } from './tally.ts';

/** Is told what passes the controller's port, in the order of play. */
export type Listener = (frame: PortFrame) => void;

/** Of the one way and the other. */
interface Copies {
  readonly command: [boolean, boolean];
  readonly answer: [boolean, boolean];
}

/** Plays a chunk. With a listener it plays the same and tells the frames of its cycles. */
export function runSimulation(chunk: SimulationChunk, listen?: Listener): SimulationCounts {
  const { plan, first, skipAhead } = chunk;
  const { cycle_ps } = plan;
  const end = first + chunk.cycles;
  const pattern = plan.cycles.length;
  const bits = Int32Array.from(chunk.state);
  const hops = flatHopsOf(plan);
  const { run, from_ps, lasts_ps, after, hazard } = hops;
  const noise = noiseState(plan, hops, bits);
  const { firstSpoilt, takesTry } = noise;
  const tally = tallyOf(plan, first, end);
  const branchSpoilt = new Uint8Array(Math.max(0, ...hops.cycles.map(({ branchEnd }) => branchEnd)));
  const failed = new Int32Array(Math.max(0, ...hops.cycles.map(({ exchanges }) => exchanges.length)));
  let events = 0;
  let cycle = first - pattern;
  let inPattern = remainder(cycle, pattern);
  /** Hops before this one are sound in this cycle, and it is spoilt; -1 where every hop is drawn. */
  let forced = -1;

  /** Plays hops up to the first that is spoilt, and gives it, or the end. */
  const play = (start: number, stop: number, moved_ps: number): number => {
    if (forced >= start) return Math.min(forced, stop);
    const reached = firstSpoilt(start, stop, moved_ps);
    events += Math.min(reached + 1, stop) - start;
    return reached;
  };
  const isHeard = (): boolean => listen !== undefined && cycle >= first && cycle < end;
  const sentFrom = (hop: number, begins_ps: number) => ({
    run: run[hop]!,
    at_ps: from_ps[hop]! + begins_ps,
    lasts_ps: lasts_ps[hop]!,
  });
  /** A command where the try has one of its own, and the answer where the command came. */
  const tell = (exchange: FlatExchange, repeat: number, begins_ps: number, reached: number, isLate: boolean): void => {
    const { stations } = exchange;
    const start = repeat === 0 ? exchange.first : exchange.againFirst;
    const stop = repeat === 0 ? exchange.end : exchange.againEnd;
    if (start === stop) return;
    const hasOwn = repeat > 0 || exchange.behind < 0;
    const answered = hasOwn ? Math.ceil((start + stop) / 2) : start;
    if (hasOwn) {
      const fate = reached < answered ? 'spoilt' : 'whole';
      listen?.({ cycle, stations, repeat, ...sentFrom(start, begins_ps), direction: 'command', fate });
    }
    if (reached < answered) return;
    const fate = reached < stop ? 'spoilt' : isLate ? 'late' : 'whole';
    listen?.({ cycle, stations, repeat, ...sentFrom(stop - 1, begins_ps), direction: 'answer', fate });
  };

  /** Both copies of the command, and both of the answer where one of the commands came. */
  const tellBothWays = (
    { stations, againFirst, againEnd, first, end }: FlatExchange,
    other: FlatWay,
    repeat: number,
    begins_ps: number,
    lost: Copies,
    isLate: boolean,
  ): void => {
    const ways: readonly (readonly [from: number, to: number])[] =
      repeat === 0
        ? [
            [first, end],
            [other.first, other.end],
          ]
        : [
            [againFirst, againEnd],
            [other.againFirst, other.againEnd],
          ];
    for (const direction of ['command', 'answer'] as const) {
      if (direction === 'answer' && lost.command.every((each) => each)) return;
      for (const [way, [from, to]] of ways.entries()) {
        const whole = direction === 'answer' && isLate ? 'late' : 'whole';
        const fate = lost[direction][way] ? 'spoilt' : whole;
        const hop = direction === 'command' ? from : to - 1;
        listen?.({ cycle, stations, repeat, ...sentFrom(hop, begins_ps), direction, fate });
      }
    }
  };

  const spoilAt = (hop: number, begins_ps: number, repeat: number): void =>
    tally.spoil({
      cycle,
      at_ps: from_ps[hop]! + begins_ps,
      run: run[hop]!,
      exchange: hops.exchange[hop]!,
      place: hops.place[hop]!,
      repeat,
    });
  /** The first hop on which a try is lost, or the end; what the channel takes is lost on the first. */
  const playWay = (start: number, stop: number, begins_ps: number, repeat: number): number => {
    const reached = play(start, stop, begins_ps);
    const isTaken = takesTry(start, stop, begins_ps);
    if (reached < stop) spoilAt(reached, begins_ps, repeat);
    else if (isTaken) spoilAt(start, begins_ps, repeat);
    return isTaken ? start : reached;
  };
  /** Which copies were lost of the try that was played last. */
  const lost: Copies = { command: [false, false], answer: [false, false] };
  /** The same where a copy of each frame goes the other way round, and the frame is lost with both. */
  const playBothWays = (start: number, stop: number, other: FlatWay, begins_ps: number, repeat: number): number => {
    const [otherStart, otherStop] = repeat === 0 ? [other.first, other.end] : [other.againFirst, other.againEnd];
    const [answered, otherAnswered] = [(start + stop) / 2, (otherStart + otherStop) / 2];
    const isTaken = takesTry(start, stop, begins_ps);
    const isOtherTaken = takesTry(otherStart, otherStop, begins_ps);
    /** The first hop on which a copy is spoilt, or the end. */
    const copy = (from: number, to: number, isOwnTaken: boolean): number => {
      const reached = play(from, to, begins_ps);
      const lostAt = isOwnTaken ? from : reached;
      if (lostAt < to) spoilAt(lostAt, begins_ps, repeat);
      return lostAt;
    };
    const command = copy(start, answered, isTaken);
    const otherCommand = copy(otherStart, otherAnswered, isOtherTaken);
    lost.command[0] = command < answered;
    lost.command[1] = otherCommand < otherAnswered;
    if (lost.command[0] && lost.command[1]) return command;
    const answer = copy(answered, stop, isTaken);
    const otherAnswer = copy(otherAnswered, otherStop, isOtherTaken);
    lost.answer[0] = answer < stop;
    lost.answer[1] = otherAnswer < otherStop;
    return lost.answer[0] && lost.answer[1] ? answer : stop;
  };

  /** Whether the try failed. */
  const fails = (exchange: FlatExchange, repeat: number, begins_ps: number): boolean => {
    const isFirst = repeat === 0;
    const start = isFirst ? exchange.first : exchange.againFirst;
    const stop = isFirst ? exchange.end : exchange.againEnd;
    const isLate = begins_ps + (isFirst ? exchange.over_ps : exchange.againOver_ps) > cycle_ps;
    const hasCommand = !isFirst || exchange.behind < 0 || branchSpoilt[exchange.behind] === 0;
    const reached = !hasCommand
      ? start
      : exchange.otherWay === undefined
        ? playWay(start, stop, begins_ps, repeat)
        : playBothWays(start, stop, exchange.otherWay, begins_ps, repeat);
    const isLost = !hasCommand || reached < stop;
    if (isHeard() && hasCommand) {
      if (exchange.otherWay === undefined) tell(exchange, repeat, begins_ps, reached, isLate);
      else tellBothWays(exchange, exchange.otherWay, repeat, begins_ps, lost, isLate);
    }
    if (isLate && !isLost) tally.late(exchange.stations, cycle);
    return isLost || isLate;
  };

  /** Whether all are sound. */
  const playBranches = (from: number, branchEnd: number): boolean => {
    let areSound = true;
    for (let hop = from; hop < branchEnd; hop++) {
      const behind = after[hop]!;
      const isBehindSpoilt = behind >= 0 && branchSpoilt[behind] === 1;
      const isOwn = !isBehindSpoilt && play(hop, hop + 1, 0) === hop;
      branchSpoilt[hop] = isOwn || isBehindSpoilt ? 1 : 0;
      if (isOwn) spoilAt(hop, 0, 0);
      if (isOwn) areSound = false;
    }
    return areSound;
  };
  /** A frame for all is spoilt where any of its branches is. */
  const tellBranches = (from: number, branchEnd: number): void => {
    const rootOf = (hop: number): number => (after[hop]! < 0 ? hop : rootOf(after[hop]!));
    const spoilt = new Set<number>();
    for (let hop = from; hop < branchEnd; hop++) if (branchSpoilt[hop] === 1) spoilt.add(rootOf(hop));
    for (let hop = from; hop < branchEnd; hop++) {
      if (after[hop]! >= 0) continue;
      const fate = spoilt.has(hop) ? 'spoilt' : 'whole';
      listen?.({ cycle, stations: [], repeat: 0, ...sentFrom(hop, 0), direction: 'command', fate });
    }
  };

  /** Plays the first tries of a cycle, and gives how many failed. */
  const playTries = ({ exchanges }: FlatCycle): number => {
    let count = 0;
    for (let at = 0; at < exchanges.length; at++) if (fails(exchanges[at]!, 0, 0)) failed[count++] = at;
    return count;
  };
  /** The same where every hop is played but those behind a spoilt one in its exchange: what is sound is passed over at once. */
  const playTriesTogether = ({ exchanges, branchEnd, end }: FlatCycle): number => {
    let count = 0;
    for (let hop = branchEnd; hop < end; ) {
      const reached = play(hop, end, 0);
      if (reached === end) break;
      const at = hops.exchange[reached]!;
      spoilAt(reached, 0, 0);
      failed[count++] = at;
      hop = exchanges[at]!.end;
    }
    return count;
  };

  const playCycle = (): void => {
    const played = hops.cycles[inPattern]!;
    const { exchanges, first: from, branchEnd, repeatsFrom_ps } = played;
    const areBranchesSound = from === branchEnd || playBranches(from, branchEnd);
    if (isHeard()) tellBranches(from, branchEnd);
    const isTogether = noise.isHopByHop && played.isPlain && areBranchesSound && !isHeard();
    const count = isTogether ? playTriesTogether(played) : playTries(played);
    let served = 0;
    for (let place = 0; place < repeatsFrom_ps.length && served < count; place++) {
      const exchange = exchanges[failed[served]!]!;
      tally.repeat(exchange.stations, cycle);
      if (!fails(exchange, place + 1, repeatsFrom_ps[place]!)) served++;
    }
    for (; served < count; served++)
      for (const station of exchanges[failed[served]!]!.stations) tally.lose(station, cycle);
  };

  /** The next cycle with an error, from this one on; it and its first spoilt hop are set. */
  const jump = (): void => {
    const whole = hazard.at(-1) ?? 0;
    if (whole === 0) {
      cycle = Number.POSITIVE_INFINITY;
      return;
    }
    // Whole patterns and the rest of one are independent of each other.
    let patterns = Math.floor(-Math.log(nextShare(bits)) / whole);
    const rest = -Math.log1p(nextShare(bits) * Math.expm1(-whole));
    let reach = (hazard[hops.cycles[inPattern]!.first - 1] ?? 0) + rest;
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
    const next = hops.cycles.findIndex((each) => low < each.end);
    cycle += patterns * pattern + next - inPattern;
    inPattern = next;
  };

  while (cycle < end || tally.isOpen(cycle)) {
    if (skipAhead) {
      jump();
      if (cycle >= end && !tally.isOpen(cycle)) break;
    }
    playCycle();
    noise.nextCycle();
    cycle++;
    inPattern = inPattern + 1 === pattern ? 0 : inPattern + 1;
  }
  return { cycles: chunk.cycles, events, stations: tally.counts(hops), traces: tally.traces };
}

const remainder = (value: number, divisor: number): number => ((value % divisor) + divisor) % divisor;
