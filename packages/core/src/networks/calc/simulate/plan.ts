// What a simulation of a network is given: every frame of a cycle hop by hop in whole picoseconds, and the noise on the runs.
// All plain data. Nothing here or beside it uses the closed forms: each is to prove the other.
import type { PulsePattern } from '../pulse-pattern.ts';

/** A frame on one run, from the first bit of the preamble to the last bit. */
export interface Hop {
  readonly run: number;
  /** From the start of the cycle; of a repeat, from the start of its place. */
  readonly from_ps: number;
  /** As the sender's end sees it. */
  readonly lasts_ps: number;
  /** How long some of it is on the run, where a pulse spoils it: as long as it lasts and what a bit takes along the run. */
  readonly open_ps: number;
  /** Chance that random bit errors spoil the frame on this run. */
  readonly spoils: number;
}

/** A hop of a frame that is meant for several stations: it is spoilt as well where the hop before it was. */
export interface BranchHop extends Hop {
  /** Its place among the branch hops of the cycle; -1 where it leaves the controller. */
  readonly after: number;
}

/**
 * A try at an exchange: lost when one of its hops is, or the branch hop by which the stations get their command. With a command
 * of its own the first half of its hops leads there and the other half back; without one all of them lead back.
 */
export interface Exchanged {
  /** Whose data it carries. */
  readonly stations: readonly number[];
  /** The last branch hop of its command; -1 where it has a command of its own. */
  readonly behind: number;
  readonly hops: readonly Hop[];
  /** The same again as a repeat, with a command of its own. */
  readonly again: readonly Hop[];
  /**
   * On a whole ring whose frames are sent both ways: the copies that go the other way, halved as the hops are. The command is lost
   * with both its copies, and so is the answer; the exchange has a command of its own.
   */
  readonly otherWay?: { readonly hops: readonly Hop[]; readonly again: readonly Hop[] } | undefined;
}

export interface CyclePlan {
  readonly branches: readonly BranchHop[];
  readonly exchanges: readonly Exchanged[];
  /** Where each repeat begins. The exchange that failed first is repeated until it succeeds, then the next one. */
  readonly repeatsFrom_ps: readonly number[];
}

export interface TwoStateNoise {
  readonly toBad: number;
  readonly toGood: number;
  readonly step_ps: number;
  /** Chance that a try is lost, drawn once for each try that passes one of the runs. */
  readonly lossInGood: number;
  readonly lossInBad: number;
  /** The numbers of the runs that it couples into. */
  readonly hits: readonly number[];
}

export interface PulseNoise {
  readonly pattern: PulsePattern;
  readonly hits: readonly number[];
}

export interface SimulationPlan {
  readonly cycle_ps: number;
  /** The cycles of the pattern, one behind another. */
  readonly cycles: readonly CyclePlan[];
  readonly runs: number;
  /** Each is served in every n-th cycle; the m-th loss in a row trips, none trips where that is 0. */
  readonly stations: readonly { readonly every: number; readonly tripAfter: number }[];
  readonly twoState?: TwoStateNoise | undefined;
  readonly pulses: readonly PulseNoise[];
}

export interface SimulationJob {
  readonly plan: SimulationPlan;
  readonly cycles: number;
  /** A whole number from 0 to 2^32 − 1. */
  readonly seed: number;
  /** Jump over cycles without an error: the same in distribution, for rare errors. With random bit errors alone. */
  readonly skipAhead?: boolean;
}

export interface SimulationChunk {
  readonly plan: SimulationPlan;
  readonly first: number;
  readonly cycles: number;
  readonly skipAhead: boolean;
  /** Where its stream of random bits starts. */
  readonly state: readonly number[];
}

/** A hop on which a frame was spoilt. Time is the cycle and whole picoseconds in it. */
export interface SpoiltHop {
  readonly cycle: number;
  readonly at_ps: number;
  readonly run: number;
  /** Its place among the exchanges of the cycle; -1 of a command for all. */
  readonly exchange: number;
  /** Its place among the hops of the try, those of copies behind the others; of a command for all, among the branch hops. */
  readonly place: number;
  /** 0 is the first try. */
  readonly repeat: number;
}

export interface TripTrace {
  readonly station: number;
  readonly cycle: number;
  /** The last frames that were spoilt up to the trip, the trip's own last. */
  readonly spoilt: readonly SpoiltHop[];
}

/** What passes a port of the controller; of a frame that is sent both ways round a ring, each copy for itself. */
export interface PortFrame {
  readonly cycle: number;
  /** The run that is plugged in there. */
  readonly run: number;
  /** When its first bit leaves the sender's end of the run at the controller. */
  readonly at_ps: number;
  /** From the first bit of its preamble to its last bit. */
  readonly lasts_ps: number;
  /** None where the frame is for all. */
  readonly stations: readonly number[];
  readonly direction: 'command' | 'answer';
  /** 0 is the first try. */
  readonly repeat: number;
  /** Of a copy, its own. Late is what would have come whole, but behind the end of the cycle. */
  readonly fate: 'whole' | 'spoilt' | 'late';
}

export interface StationCounts {
  readonly updates: number;
  readonly lost: number;
  /** Runs of 1, of 2, … losses one behind the other that began in these cycles. */
  readonly runs: readonly number[];
  /** Repeats that were made for it. */
  readonly repeats: number;
  /** Answers that would have come behind the end of the cycle. */
  readonly late: number;
  readonly trips: number;
}

export interface SimulationCounts {
  readonly cycles: number;
  /** Hops that were drawn; those that were jumped over are not among them. */
  readonly events: number;
  readonly stations: readonly StationCounts[];
  readonly traces: readonly TripTrace[];
}
