// A simulation of a network as it is asked for, and what its counts say: every number with its inputs, its cycles and its seed.
import { saidOf } from '../checks/asked.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import type { OpenCall, Values } from '../working/formula.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { anyLost } from './calc/noise.ts';
import { lostShare, mergeSimulation, splitSimulation } from './calc/simulate/job.ts';
import type { SimulationChunk, SimulationCounts, StationCounts, TripTrace } from './calc/simulate/plan.ts';
import { runSimulation } from './calc/simulate/run.ts';
import { simulatedTime } from './calc/simulated.ts';
import { shareBetween } from './calc/simulated-share.ts';
import { meanLossOfTwoStates, shareBad } from './calc/two-state.ts';
import { statedMultiples } from './network.ts';
import { meets } from './noise.ts';
import { meetingBothWays, meetingWith, sourcesOf } from './noise-bursts.ts';
import { type Losses, lossesOf, type StationLoss } from './noise-losses.ts';
import { lossesBothWays, twoStateBothWays } from './noise-ring.ts';
import type { Planned } from './planned.ts';
import { counts, shares } from './simulation-counts.ts';
import { inputMeans } from './simulation-inputs.ts';
import { type NoiseKind, noiseKinds, type Simulated, simulatedOf } from './simulation-plan.ts';
import { sendsBothWays } from './ways.ts';

export interface SimulationRequest {
  readonly cycles: number;
  /** A whole number from 0 to 2^32 − 1: the same one gives the same results. */
  readonly seed: number;
  /** Jump over cycles without an error, where errors are rare. */
  readonly skipAhead?: boolean | undefined;
  /** What of the noise is simulated; all of it where nothing is said. */
  readonly kinds?: readonly NoiseKind[] | undefined;
}

export interface Simulation extends Simulated {
  readonly losses: Losses;
  readonly kinds: readonly NoiseKind[];
  readonly skipAhead: boolean;
  readonly cycles: Quantity<'1'>;
  readonly seed: Quantity<'1'>;
  /** What is to be run, in any order and on any thread. */
  readonly chunks: readonly SimulationChunk[];
}

/** Played one by one, so many hops take days. Our judgement. */
export const mostHops = 1e12;

/** Missing where the file lacks something. Throws a RangeError, with what to do instead, for what cannot be simulated. */
export function simulationOf(planned: Planned, request: SimulationRequest): Value<Simulation> {
  const { cycles, seed, skipAhead = false, kinds = noiseKinds } = request;
  const simulated = simulatedOf(planned, kinds);
  if (simulated instanceof Missing) return simulated;
  const { plan } = simulated;
  const { hops, spoilt } = cycleOf(simulated);
  if (cycles * hops * (skipAhead ? spoilt : 1) > mostHops)
    throw new RangeError(
      skipAhead
        ? 'Errors are not rare enough for so many cycles: it would take days. Ask for fewer.'
        : `${cycles} cycles of ${Math.ceil(hops)} frames on runs would take days. Jump over those without an error, or ask for fewer.`,
    );
  const path = `${planned.network.path}.simulation`;
  return {
    ...simulated,
    losses: lossesOf(planned)!,
    kinds,
    skipAhead,
    cycles: saidOf(`${path}.cycles`, cycles),
    seed: saidOf(`${path}.seed`, seed),
    chunks: splitSimulation({ plan, cycles, seed, skipAhead }),
  };
}

/** Hops of a cycle, and the chance that one of them is spoilt, in the mean over the pattern. */
function cycleOf({ plan }: Simulated): { readonly hops: number; readonly spoilt: number } {
  const hops = plan.cycles.flatMap(({ branches, exchanges }) => [
    ...branches,
    ...exchanges.flatMap((each) => each.hops),
  ]);
  const expected = hops.reduce((sum, { spoils }) => sum + spoils, 0) / plan.cycles.length;
  return { hops: hops.length / plan.cycles.length, spoilt: Math.min(1, expected) };
}

// ── what the counts say ──────────────────────────────────────────────────────────────────────────────────────────────

/** Where the closed form lies to the interval of the simulated share; a bound is kept or not. */
export type Agreement = 'inside' | 'below' | 'above' | 'kept' | 'not kept';

export interface StationResult {
  readonly loss: StationLoss;
  readonly updates: Quantity<'1'>;
  readonly lost: Quantity<'1'>;
  /** Missing where no update was due. */
  readonly share: Value<Quantity<'1'>>;
  readonly least: Value<Quantity<'1'>>;
  readonly most: Value<Quantity<'1'>>;
  readonly closed: Value<Quantity<'1'>>;
  readonly agrees: Agreement | Missing;
  readonly repeats: Quantity<'1'>;
  readonly late: Quantity<'1'>;
  /** Missing where nothing says what trips it. */
  readonly trips: Value<Quantity<'1'>>;
  /** Runs of 1, of 2, … losses. */
  readonly runs: readonly Quantity<'1'>[];
  readonly longest: Quantity<'1'>;
}

export interface TripResult {
  readonly trace: TripTrace;
  readonly station: StationResult;
  readonly cycle: Quantity<'1'>;
  readonly at: Quantity<'s'>;
}

export interface SimulationResult {
  readonly simulation: Simulation;
  readonly isWhole: boolean;
  readonly counts: SimulationCounts;
  readonly cycles: Quantity<'1'>;
  readonly lasted: Value<Quantity<'s'>>;
  readonly stations: readonly StationResult[];
  readonly trips: readonly TripResult[];
  /** Whether the closed forms are the very thing that is simulated, or a bound for it. */
  readonly comparison: Comparison;
}

export type Comparison = 'exact' | 'bound';

/** `done` are the results of the first chunks, in their order; of all of them where nothing stopped the simulation. */
export function resultOf(simulation: Simulation, done: readonly SimulationCounts[]): SimulationResult {
  const { planned, losses, cycles: N, seed: s } = simulation;
  const { name, path } = planned.network;
  const isWhole = done.length === simulation.chunks.length;
  const k = assumed(`${path}.simulation.parts`, done.length, '1', {
    source: 'judgement',
    because: isWhole ? 'all of them' : 'those that were done when it was stopped',
  });
  const inputs: Inputs = { ...simulation.inputs, N, s, k };
  const now: Played = { merged: mergeSimulation(done), done };
  const means = { ...inputMeans, N: 'cycles asked for', s: 'seed', k: 'parts of it that were played' };
  const call = (take: (played: Played) => number): OpenCall => ({
    inputs,
    means,
    of: (...values: Values) => take(play(simulation, values)),
    value: take(now),
  });
  const comparison = comparisonOf(simulation);
  const stations = losses.stations.map((loss, at): StationResult => {
    const about = `${name}.${loss.device.name}`;
    const of = (take: (counted: StationCounts) => number): OpenCall => call(({ merged }) => take(merged.stations[at]!));
    const between = shareBetween(done, at);
    const end = (which: 'least' | 'most'): Value<Quantity<'1'>> =>
      between === undefined
        ? tooFew(path)
        : shares[which](
            call((played) => shareBetween(played.done, at)![which]),
            about,
          );
    const [least, most, closed] = [end('least'), end('most'), closedOf(at, simulation, comparison)];
    const counted = now.merged.stations[at]!;
    return {
      loss,
      updates: counts.updates(
        of(({ updates }) => updates),
        about,
      ),
      lost: counts.lost(
        of(({ lost }) => lost),
        about,
      ),
      share:
        counted.updates === 0
          ? tooFew(path)
          : shares.value(
              call((played) => lostShare(played.done, at).value),
              about,
            ),
      least,
      most,
      closed,
      agrees: given({ least, most, closed }, (known) => agreement(known, comparison)),
      repeats: counts.repeats(
        of(({ repeats }) => repeats),
        about,
      ),
      late: counts.late(
        of(({ late }) => late),
        about,
      ),
      trips:
        loss.device.tripAfter instanceof Missing
          ? loss.device.tripAfter
          : counts.trips(
              of(({ trips }) => trips),
              about,
            ),
      runs: counted.runs.map((_, index) =>
        counts.runs(
          of(({ runs }) => runs[index] ?? 0),
          `${about}.of_${index + 1}`,
        ),
      ),
      longest: counts.longest(
        of(({ runs }) => runs.length),
        about,
      ),
    };
  });
  const cycles = counts.cycles(
    call(({ merged }) => merged.cycles),
    name,
  );
  const T = planned.network.cycle;
  return {
    simulation,
    isWhole,
    counts: now.merged,
    cycles,
    lasted: given({ T }, (known) => simulatedTime({ N: cycles, T: known.T }, name)),
    stations,
    trips: now.merged.traces.map((trace, at) => {
      const about = `${name}.trip_${at + 1}`;
      const cycle = counts.tripCycle(
        call(({ merged }) => merged.traces[at]!.cycle),
        about,
      );
      return {
        trace,
        station: stations[trace.station]!,
        cycle,
        at: simulatedTime({ N: cycle, T: T as Quantity<'s'> }, about),
      };
    }),
    comparison,
  };
}

const tooFew = (path: string): Missing =>
  missing(`${path}.simulation.cycles`, 'problem', 'cycles enough for several parts, whose scatter tells', '1e6');

interface Played {
  readonly merged: SimulationCounts;
  readonly done: readonly SimulationCounts[];
}

/** The same again from the inputs of a number, in their order. */
function play({ again, skipAhead }: Simulation, values: Values): Played {
  const [cycles, seed, parts] = values.slice(-3) as number[];
  const chunks = splitSimulation({ plan: again(values.slice(0, -3)), cycles: cycles!, seed: seed!, skipAhead });
  const done = chunks.slice(0, parts).map((chunk) => runSimulation(chunk));
  return { merged: mergeSimulation(done), done };
}

// ── against the closed forms ─────────────────────────────────────────────────────────────────────────────────────────

const playsBursts = ({ kinds, noise }: Simulation): boolean => kinds.includes('bursts') && noise.sources.length > 0;
const playsTwoStates = ({ kinds, noise }: Simulation): boolean =>
  kinds.includes('two_state') && noise.twoState !== undefined;

const spoilsByChance = ({ plan }: Simulation): boolean =>
  plan.cycles.some(({ branches, exchanges }) =>
    [...branches, ...exchanges.flatMap(({ hops }) => hops)].some(({ spoils }) => spoils > 0),
  );

/**
 * By random bit errors alone the closed forms are exact. With pulses or a line of two states they count the first try: all there
 * is without repeats, if each frame has a fixed place, and with copies round a ring, if no two causes take a copy each.
 */
function comparisonOf(simulation: Simulation): Comparison {
  const bursts = playsBursts(simulation);
  if (!bursts && !playsTwoStates(simulation)) return 'exact';
  const { network } = simulation.planned;
  const { discipline } = network.profile;
  if (simulation.plan.cycles.some(({ repeatsFrom_ps }) => repeatsFrom_ps.length > 0)) return 'bound';
  if (!bursts) return sendsBothWays(network) && !simulation.kinds.includes('bit_errors') ? 'bound' : 'exact';
  const hasPlace =
    discipline === 'polled' ||
    ((discipline === 'slotted' || discipline === 'chained') && statedMultiples(network.devices).length === 0);
  if (!hasPlace) return 'bound';
  if (!sendsBothWays(network)) return 'exact';
  const isOneCause =
    simulation.noise.sources.length === 1 && !playsTwoStates(simulation) && !spoilsByChance(simulation);
  return isOneCause ? 'exact' : 'bound';
}

/** With pulses or a line of two states an update is lost no more often than its first try is, by any cause. */
function closedOf(at: number, simulation: Simulation, comparison: Comparison): Value<Quantity<'1'>> {
  const { kinds, noise, losses, planned } = simulation;
  const loss = losses.stations[at]!;
  const copies = lossesBothWays(losses);
  const [bursts, twoStates] = [playsBursts(simulation), playsTwoStates(simulation)];
  const { twoState } = noise;
  if (!bursts && !twoStates) return copies?.[at]?.lost ?? loss.lost;
  const about = `${planned.network.name}.${loss.device.name}`;
  // Both copies are known of where there is one cause; else one way round is a bound.
  if (copies !== undefined && comparison === 'exact') {
    if (!bursts) return twoStateBothWays(at, losses);
    const both = noise.sources.flatMap((source) => meetingBothWays(source, loss, losses)?.share ?? []);
    return given({ p: both }, (known) => anyLost(known, `${about}.first_try`));
  }
  const p = [
    ...(kinds.includes('bit_errors') ? [loss.try] : []),
    ...(bursts ? sourcesOf(loss, losses).map((source) => meetingWith(source, loss, losses).share) : []),
    ...(twoState !== undefined && twoStates && meets(twoState.hits, loss.runs)
      ? [
          given(
            { b: twoState.to_bad, g: twoState.to_good, u: twoState.lost_in_good, v: twoState.lost_in_bad },
            (known) => meanLossOfTwoStates({ w: shareBad(known, about), u: known.u, v: known.v }, about),
          ),
        ]
      : []),
  ];
  return given({ p }, (known) => anyLost(known, `${about}.first_try`));
}

function agreement(
  { least, most, closed }: Readonly<Record<'least' | 'most' | 'closed', Quantity>>,
  comparison: Comparison,
): Agreement {
  if (comparison === 'bound') return closed.value >= least.value ? 'kept' : 'not kept';
  return closed.value < least.value ? 'below' : closed.value > most.value ? 'above' : 'inside';
}
