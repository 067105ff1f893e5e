// From a planned network to what the simulation plays: every frame of every cycle hop by hop, and the noise on the runs.
//
// When frames pass the controller's port is taken from the plan of the cycle; the way of each frame along the runs and the chance
// that chance spoils it are reckoned here in plain picoseconds, without the closed forms, which the simulation is to prove.
import type { Value } from '../reading/values.ts';
import type { Values } from '../working/formula.ts';
import { Missing, missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import type { BranchHop, CyclePlan, Exchanged, Hop, SimulationPlan } from './calc/simulate/plan.ts';
import { serve, withoutBreak } from './disciplines.ts';
import type { Device, Network, Run, Way } from './network.ts';
import { type Noise, pulsesOf } from './noise.ts';
import { fewEnough } from './noise-tries.ts';
import { type Planned, servedIn } from './planned.ts';
import { type Read, readerOf, recorder } from './simulation-inputs.ts';
import { answersTogether } from './simulation-queue.ts';
import type { Slot, Timetable } from './timetable.ts';
import { delays, type Exchange, roundTheOther, sendsBothWays, wayTo } from './ways.ts';

type Time = Value<Quantity<'s'>>;

/** What a simulation may be limited to. */
export const noiseKinds = ['bit_errors', 'two_state', 'bursts'] as const;
export type NoiseKind = (typeof noiseKinds)[number];

export interface Simulated {
  readonly planned: Planned;
  readonly noise: Noise;
  /** Stations in the order of `planned.exchanges`, runs in that of `planned.network.runs`. */
  readonly plan: SimulationPlan;
  /** All that the plan rests on. */
  readonly inputs: Inputs;
  /** The plan from other values of the inputs, in their order. */
  readonly again: (values: Values) => SimulationPlan;
}

/** What `kinds` lists of the noise alone; all of it where nothing is said. */
export function simulatedOf(planned: Planned, kinds: readonly NoiseKind[] = noiseKinds): Value<Simulated> {
  const { network } = planned;
  const { noise } = network;
  if (noise === undefined)
    return missing(`${network.path}.noise`, 'absent', 'a section on noise', '{ bit_errors: 1e-10 }');
  if (network.wired instanceof Missing) return network.wired;
  const { discipline } = network.profile;
  if (discipline instanceof Missing) return discipline;
  const none = kinds.length === 1 ? lackOf(kinds[0]!, noise) : undefined;
  if (none !== undefined) return none;
  const { read, lacks, inputs } = recorder();
  const laid = layoutOf(planned);
  const plan = planFrom(laid, noise, kinds, read);
  const lacking = lacks();
  if (lacking.length > 0) return new Missing(lacking);
  const recorded = inputs();
  return {
    planned,
    noise,
    plan,
    inputs: recorded,
    again: (values) => planFrom(laid, noise, kinds, readerOf(recorded, values)),
  };
}

function lackOf(kind: NoiseKind, { path, twoState, sources }: Noise): Missing | undefined {
  if (kind === 'two_state' && twoState === undefined)
    return missing(
      `${path}.two_state`,
      'absent',
      'a line of two states',
      '{ to_bad: 0.001 %, to_good: 5 %, lost_in_bad: 50 % }',
    ); // prettier-ignore
  if (kind === 'bursts' && sources.length === 0)
    return missing(`${path}.bursts`, 'absent', 'a source of pulses', '{ clutch: { pattern: contactor } }');
  return undefined;
}

// ── what is sent when ────────────────────────────────────────────────────────────────────────────────────────────────

interface LaidCycle {
  /** In the order in which repeats are given. */
  readonly served: readonly Exchange[];
  readonly busy: Time;
  readonly timetable: Timetable;
}

interface Layout {
  readonly planned: Planned;
  readonly cycles: readonly LaidCycle[];
}

/** Every cycle of the pattern as the planner has it. */
const layoutOf = onceForEach((planned: Planned): Layout => {
  const { network, cables, exchanges, phases, pattern } = planned;
  return {
    planned,
    cycles: Array.from({ length: pattern }, (_, cycle) => {
      const served = servedIn(cycle, exchanges, phases);
      const { busy, timetable } = serve(network, cables, served, `${network.name}.cycle_${cycle + 1}`);
      return { served, busy, timetable: timetable() };
    }),
  };
});

function planFrom({ planned, cycles }: Layout, noise: Noise, kinds: readonly NoiseKind[], read: Read): SimulationPlan {
  const { network, exchanges } = planned;
  const { twoState, sources } = noise;
  const runAt = new Map(network.runs.map((run, at) => [run.name, at]));
  const hitsOf = (hits: Value<readonly string[]>): readonly number[] => {
    if (hits instanceof Missing) {
      read(hits);
      return [];
    }
    return hits.flatMap((name) => runAt.get(name) ?? []);
  };
  const line = lineOf(planned, noise, kinds.includes('bit_errors'), read);
  return {
    cycle_ps: picoseconds(read(network.cycle)),
    cycles: cycles.map((cycle) => cycleFrom(cycle, planned, line, read)),
    runs: network.runs.length,
    stations: exchanges.map(({ device: { every, tripAfter } }) => ({
      every: every === undefined ? 1 : read(every),
      tripAfter: tripAfter instanceof Missing ? 0 : read(tripAfter),
    })),
    ...(twoState === undefined || !kinds.includes('two_state')
      ? {}
      : {
          twoState: {
            toBad: read(twoState.to_bad),
            toGood: read(twoState.to_good),
            step_ps: picoseconds(read(twoState.step)),
            lossInGood: read(twoState.lost_in_good),
            lossInBad: read(twoState.lost_in_bad),
            hits: hitsOf(twoState.hits),
          },
        }),
    pulses: kinds.includes('bursts')
      ? sources.flatMap((source) => {
          const pattern = pulsesOf(source, read);
          if (pattern instanceof Missing) read(pattern);
          return pattern instanceof Missing ? [] : [{ pattern, hits: hitsOf(source.hits) }];
        })
      : [],
  };
}

export const picoseconds = (time_s: number): number => Math.round(time_s * 1e12);

/** What a frame meets on its way, in plain numbers. */
interface Line {
  readonly gap_ps: number;
  /** From the first bit of the preamble to the last bit, of a frame that takes so much of the line with its gap. */
  readonly lasts_ps: (takes: Time) => number;
  readonly spoils: (run: Run, takes: Time) => number;
  readonly runAt: (run: Run) => number;
  readonly cable_ps: (run: Run) => number;
  readonly passing_ps: (device: Device, lasts_ps: number) => number;
}

function lineOf({ network, cables }: Planned, { counts }: Noise, isWithBitErrors: boolean, read: Read): Line {
  const { rate, preamble, gap } = network.profile;
  const [R, w, g, b] = [rate, preamble, gap, counts].map((each) => read(each)) as [number, number, number, number];
  const gap_ps = picoseconds(g / R);
  const places = new Map(network.runs.map((run, at) => [run, at]));
  return {
    gap_ps,
    lasts_ps: (takes) => picoseconds(read(takes)) - gap_ps,
    spoils: (run, takes) => {
      if (!isWithBitErrors) return 0;
      const [frame_bit, ratio] = [Math.round(read(takes) * R) - g - w, read(run.bitErrors)];
      return frame_bit > 0 ? -Math.expm1((frame_bit / b) * Math.log1p(-ratio)) : 0;
    },
    runAt: (run) => places.get(run)!,
    cable_ps: (run) => picoseconds(read(cables.get(run)!)),
    passing_ps: (device, lasts_ps) => {
      if (!delays(device, network)) return 0;
      const forwarding_ps = picoseconds(read(device.forwarding));
      if (device.passing === 'frame') return lasts_ps + forwarding_ps;
      return forwarding_ps + (device.passing === 'start' ? picoseconds(read(device.waits) / R) : 0);
    },
  };
}

/** The runs in the order in which a frame passes them, and the devices between them. */
export interface Legs {
  readonly runs: readonly Run[];
  readonly passed: readonly Device[];
}

const back = ({ runs, passed }: Way): Legs => ({ runs: runs.toReversed(), passed: passed.toReversed() });

/** The hops of a frame that leaves at a time, and when its first bit is at the other end. */
function along({ runs, passed }: Legs, takes: Time, from_ps: number, line: Line) {
  const lasts_ps = line.lasts_ps(takes);
  let at_ps = from_ps;
  const hops = runs.map((run, index): Hop => {
    const open_ps = lasts_ps + line.cable_ps(run);
    const hop = { run: line.runAt(run), from_ps: at_ps, lasts_ps, open_ps, spoils: line.spoils(run, takes) };
    const next = passed[index];
    at_ps += line.cable_ps(run) + (next === undefined ? 0 : line.passing_ps(next, lasts_ps));
    return hop;
  });
  return { hops, arrives_ps: at_ps };
}

const moved = (hops: readonly Hop[], by_ps: number): readonly Hop[] =>
  hops.map((hop) => ({ ...hop, from_ps: hop.from_ps + by_ps }));

// ── one cycle ────────────────────────────────────────────────────────────────────────────────────────────────────────

function cycleFrom(cycle: LaidCycle, planned: Planned, line: Line, read: Read): CyclePlan {
  const { network, repeatable } = planned;
  const nothing = { branches: [], exchanges: [], repeatsFrom_ps: [] };
  if (cycle.served.length === 0) return nothing;
  // Where a time lacks, not all frames have a place in the timetable.
  if (cycle.busy instanceof Missing) {
    read(cycle.busy);
    return nothing;
  }
  const { discipline } = network.profile;
  const start_ps = picoseconds(read(planned.start));
  const first_ps = start_ps + picoseconds(read(cycle.busy));
  // By a timetable every frame has its place, and none is sent again.
  const count = discipline === 'slotted' ? 0 : read(fewEnough(network.repeats));
  const place_ps = count > 0 ? Math.max(...repeatable.map((each) => picoseconds(read(each)))) : 0;
  const repeatsFrom_ps = Number.isFinite(count)
    ? Array.from({ length: count }, (_, at) => first_ps + at * place_ps)
    : [];
  if (discipline === 'summation')
    return { branches: [], exchanges: framesThroughAll(cycle, planned, start_ps, line, read), repeatsFrom_ps };
  const { branches, exchanges } = exchangesFrom(cycle, planned, start_ps, line, read);
  return { branches, exchanges, repeatsFrom_ps };
}

/** When the first bit of a slot's frame passes the controller's port. */
const passesAt = ({ end, takes }: Slot, start_ps: number, read: Read): number =>
  start_ps + picoseconds(read(end)) - picoseconds(read(takes));

function exchangesFrom(
  { served, timetable }: LaidCycle,
  { network, exchanges, brokenAfter = network.devices.length }: Planned,
  start_ps: number,
  line: Line,
  read: Read,
): Pick<CyclePlan, 'branches' | 'exchanges'> {
  const { discipline } = network.profile;
  const slotOf = (slots: readonly Slot[], exchange: Exchange) =>
    slots.find((each) => each.exchanges.includes(exchange))!;
  const branches: BranchHop[] = [];
  const branchAt = new Map<Run, number>();
  const made = served.map((exchange) => {
    const { device, command, answer } = exchange;
    const way = wayTo(device, network, brokenAfter);
    const commandSlot = slotOf(timetable.commands, exchange);
    const passes_ps = passesAt(commandSlot, start_ps, read);
    const sent = along(way, commandSlot.frame, passes_ps, line);
    let behind = -1;
    if (discipline === 'chained') {
      for (const [index, run] of way.runs.entries()) {
        if (!branchAt.has(run)) {
          branchAt.set(run, branches.length);
          branches.push({ ...sent.hops[index]!, after: behind });
        }
        behind = branchAt.get(run)!;
      }
    }
    /** The station answers when the command that arrives there, and the gap behind it, are over. */
    const answersAt = (arrives_ps: number, frame: Time): number =>
      arrives_ps + line.lasts_ps(frame) + line.gap_ps + picoseconds(read(device.turnaround));
    const homeward = back(way);
    const direct = along(homeward, answer, 0, line);
    // What is planned for the port leaves its station so much sooner; where answers queue, they wait on their way.
    const answerSlot = slotOf(timetable.answers, exchange);
    const leaves_ps =
      discipline === 'pipelined'
        ? answersAt(sent.arrives_ps, commandSlot.frame)
        : passesAt(answerSlot, start_ps, read) - direct.arrives_ps;
    const own = along(way, command, 0, line);
    const isRepeated = discipline !== 'slotted';
    const again_ps = isRepeated ? answersAt(own.arrives_ps, command) : 0;
    const round = sendsBothWays(network) ? roundTheOther(way, device) : undefined;
    return {
      stations: [exchanges.indexOf(exchange)],
      behind,
      command: discipline === 'chained' ? [] : sent.hops,
      answer: moved(direct.hops, leaves_ps),
      again: isRepeated ? [...own.hops, ...moved(direct.hops, again_ps)] : [],
      otherWay: round && {
        hops: thereAndBack(round, exchange, [passes_ps, leaves_ps], line),
        again: isRepeated ? thereAndBack(round, exchange, [0, again_ps], line) : [],
      },
    };
  });
  const answers = made.map(({ answer }) => answer);
  const sent = discipline === 'pipelined' ? answersTogether(answers, line.gap_ps) : answers;
  const all = made.map(
    ({ stations, behind, command, again, otherWay }, at): Exchanged => ({
      stations,
      behind,
      hops: [...command, ...sent[at]!],
      again,
      otherWay,
    }),
  );
  // A state of the line is followed through time, and without repeats no order among the stations counts.
  const inTime = (a: Exchanged, b: Exchanged): number => a.hops[0]!.from_ps - b.hops[0]!.from_ps;
  return { branches, exchanges: discipline === 'slotted' ? all.toSorted(inTime) : all };
}

/** The hops of copies, which leave when the frames do that they are copies of. */
const thereAndBack = (
  way: Way,
  { command, answer }: Exchange,
  [sent_ps, answered_ps]: readonly [number, number],
  line: Line,
): readonly Hop[] => [...along(way, command, sent_ps, line).hops, ...along(back(way), answer, answered_ps, line).hops];

/** Frames out through every branch and back, each with the data of several stations. */
function framesThroughAll(
  { timetable }: LaidCycle,
  planned: Planned,
  start_ps: number,
  line: Line,
  read: Read,
): readonly Exchanged[] {
  return timetable.commands.map((slot) => {
    const begins_ps = passesAt(slot, start_ps, read);
    const hops = throughAll(planned.network, slot.frame, line, read);
    return {
      stations: slot.exchanges.map((exchange) => planned.exchanges.indexOf(exchange)),
      behind: -1,
      hops: moved(hops, begins_ps),
      again: hops,
    };
  });
}

/** Down every branch and up again: a device is crossed when it is entered, and after every branch behind it. */
function throughAll(network: Network, takes: Time, line: Line, read: Read): readonly Hop[] {
  const { devices } = network;
  const passedRuns = new Set(withoutBreak(network));
  const last = devices.findIndex(({ way }) => !passedRuns.has(way.runs.at(-1)!));
  const behind = new Map<Device | undefined, { readonly device: Device; readonly run: Run }[]>();
  for (const device of devices) {
    const { runs, passed } = wayTo(device, network, last < 0 ? devices.length : last);
    const before = passed.length === 0 ? undefined : devices.find(({ name }) => name === passed.at(-1)!.name);
    behind.set(before, [...(behind.get(before) ?? []), { device, run: runs.at(-1)! }]);
  }
  const lasts_ps = line.lasts_ps(takes);
  const hops: Hop[] = [];
  let at_ps = 0;
  const pass = (run: Run): void => {
    const open_ps = lasts_ps + line.cable_ps(run);
    hops.push({ run: line.runAt(run), from_ps: at_ps, lasts_ps, open_ps, spoils: line.spoils(run, takes) });
    at_ps += line.cable_ps(run);
  };
  // Trees may be as deep as the network is long, so that what is left to do is kept in a list.
  const todo: (() => void)[] = [];
  const visit = (branch: { readonly device: Device; readonly run: Run }): void => {
    const { device, run } = branch;
    const crossing_ps = device.kind === 'coupling' ? 0 : picoseconds(read(device.forwarding));
    const branches = behind.get(device) ?? [];
    const cross = (): void => {
      at_ps += crossing_ps;
    };
    pass(run);
    cross();
    todo.push(() => pass(run));
    if (branches.length === 0) todo.push(cross);
    for (const each of branches.toReversed()) todo.push(cross, () => visit(each));
  };
  for (const each of (behind.get(undefined) ?? []).toReversed()) todo.push(() => visit(each));
  while (todo.length > 0) todo.pop()!();
  return hops;
}
