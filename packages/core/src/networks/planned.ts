// The cycle of a network: which stations are served when, what the fullest cycle needs, and how it is made up.
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { cycleFree, cycleUsed, fullestCycle, nonCyclicWindow, repeatsReserved, repeatsThatFit } from './calc/cycle.ts';
import { lineOccupancy, lineOccupancyIfSent } from './calc/frame.ts';
import { balance, patternOf } from './calc/phases.ts';
import { onTheLine, waiting } from './calc/polled.ts';
import { latestCommandIn, syncShift } from './calc/streams.ts';
import { type Served, serve } from './disciplines.ts';
import { multipleOf, type Network, statedMultiples } from './network.ts';
import type { Timetable } from './timetable.ts';
import { type CableDelays, cableDelays, type Exchange, exchangesOf } from './ways.ts';

type Time = Value<Quantity<'s'>>;

/** A part of the cycle; all parts together with what is free add up to it. */
export interface Share {
  readonly name: 'start' | 'commands' | 'answers' | 'waiting' | 'exchanges' | 'repeats' | 'non_cyclic' | 'free';
  readonly time: Time;
}

export interface Planned {
  readonly network: Network;
  readonly cables: CableDelays;
  readonly exchanges: readonly Exchange[];
  /** In which cycle of the pattern each exchange takes place; in the order of `exchanges`. */
  readonly phases: readonly number[];
  /** After how many cycles everything repeats. */
  readonly pattern: number;
  /** The cycle, counted from 0, that needs most, and which exchanges take place in it. */
  readonly fullest: number;
  readonly served: readonly Exchange[];
  /** What passes the controller's port in the fullest cycle, counted from the first command. */
  readonly timetable: () => Timetable;
  readonly start: Time;
  readonly busy: Time;
  readonly window: Time;
  /** What opens the non-cyclic window, its frame, and what closes it. */
  readonly windowFrames: readonly [Time, Time, Time];
  /** From the start of the cycle until every station has its command: no common sync event can be sooner. */
  readonly syncShift: Time;
  readonly repeats: Time;
  /** The longest thing that may have to be done again. */
  readonly repeatable: readonly Time[];
  readonly used: Time;
  readonly free: Time;
  readonly repeatsThatFit: Value<Quantity<'1'>>;
  readonly shares: readonly Share[];
  /** On a ring: the break that needs most is behind so many stations. */
  readonly brokenAfter: number | undefined;
}

/** Plans a network's cycle. A ring is planned for the break that needs most, wherever it is. */
export function plan(network: Network): Planned {
  const stations = network.devices.length;
  const cables = cableDelays(network);
  // The phases stay as they are when a ring breaks.
  const phases = phasesOf(exchangesOf(network, cables, stations));
  const whole = planBroken(network, cables, stations, phases);
  if (network.topology !== 'ring' || whole.used instanceof Missing) return whole;
  const broken = Array.from({ length: stations }, (_, after) => planBroken(network, cables, after, phases));
  const fullest = broken.reduce((most, each) => (timeOf(each.used) > timeOf(most.used) ? each : most), whole);
  return { ...fullest, syncShift: largestOf([whole, ...broken].map((each) => each.syncShift)) };
}

/** The largest of several times; what is missing in one is missing in all. */
const largestOf = (times: readonly Time[]): Time =>
  times.reduce((most, each) =>
    most instanceof Missing || (!(each instanceof Missing) && each.value <= most.value) ? most : each,
  );

const timeOf = (time: Time): number => (time instanceof Missing ? 0 : time.value);

function planBroken(network: Network, cables: CableDelays, after: number, { phases, pattern }: Phases): Planned {
  const { name, profile } = network;
  const exchanges = exchangesOf(network, cables, after);
  const cycles = cyclesOf(exchanges, phases, pattern);
  const served = cycles.map(({ cycle, served }) =>
    serve(network, cables, served, pattern === 1 ? name : `${name}.cycle_${cycle + 1}`),
  );
  const fullest = indexOfFullest(served);
  const { cycle, served: inFullest } = cycles[fullest]!;
  const n = statedMultiples(network.devices);
  const busy =
    n.length === 0
      ? served[fullest]!.busy
      : given({ b: served.map((each) => each.busy), n }, (known) => fullestCycle(known, name));
  const arrivals = served.map((each) => each.commandsIn);
  const commandsIn =
    n.length === 0 ? largestOf(arrivals) : given({ c: arrivals, n }, (known) => latestCommandIn(known, name));
  // What takes place in several cycles of the pattern is one thing.
  const repeatable = [...new Set(served.flatMap((each) => each.repeatable))];
  const lone = (
    frame: Value<Quantity<'bit'>>,
    about: string,
    occupancy: typeof lineOccupancy | typeof lineOccupancyIfSent,
  ) =>
    given({ L: frame, w: profile.preamble, g: profile.gap, R: profile.rate }, (known) =>
      occupancy(known, `${name}.${about}`),
    );
  const start = lone(profile.start_frame, 'start', lineOccupancyIfSent);
  const [o, f, e] = [
    lone(profile.window_opens, 'window_opens', lineOccupancyIfSent),
    lone(network.non_cyclic, 'non_cyclic', lineOccupancy),
    lone(profile.window_closes, 'window_closes', lineOccupancyIfSent),
  ];
  const window = given({ o, f, e }, (known) => nonCyclicWindow(known, name));
  const repeats = given({ n: network.repeats, x: repeatable, wired: network.wired }, ({ n, x }) =>
    repeatsReserved({ n, x }, name),
  );
  const used = given({ s: start, x: busy, r: repeats, w: window }, (known) => cycleUsed(known, name));
  const free = given({ T: network.cycle, u: used }, (known) => cycleFree(known, name));
  return {
    network,
    cables,
    exchanges,
    phases,
    pattern,
    fullest: cycle,
    served: inFullest,
    timetable: served[fullest]!.timetable,
    start,
    busy,
    window,
    windowFrames: [o, f, e],
    syncShift: given({ s: start, c: commandsIn }, (known) => syncShift(known, name)),
    repeats,
    repeatable,
    used,
    free,
    repeatsThatFit: given({ n: network.repeats, T: network.cycle, u: used, x: repeatable }, (known) =>
      repeatsThatFit(known, name),
    ),
    shares: [
      { name: 'start', time: start },
      ...sharesOfExchanges(network, inFullest, busy),
      { name: 'repeats', time: repeats },
      { name: 'non_cyclic', time: window },
      { name: 'free', time: free },
    ],
    brokenAfter: network.topology === 'ring' ? after : undefined,
  };
}

/** The cycles of the pattern in which anything is served; of a network without stations, one. */
function cyclesOf(
  exchanges: readonly Exchange[],
  phases: readonly number[],
  pattern: number,
): readonly { readonly cycle: number; readonly served: readonly Exchange[] }[] {
  const all = Array.from({ length: pattern }, (_, cycle) => ({
    cycle,
    served: servedIn(cycle, exchanges, phases),
  }));
  const busy = all.filter(({ served }) => served.length > 0);
  return busy.length > 0 ? busy : all.slice(0, 1);
}

/** The exchanges that take place in a cycle of the pattern. */
export const servedIn = (
  cycle: number,
  exchanges: readonly Exchange[],
  phases: readonly number[],
): readonly Exchange[] => exchanges.filter(({ device }, index) => cycle % multipleOf(device) === phases[index]!);

interface Phases {
  readonly phases: readonly number[];
  readonly pattern: number;
}

/** Phases are chosen on what each exchange takes of the line; a station whose time is missing counts as nothing. */
function phasesOf(exchanges: readonly Exchange[]): Phases {
  const multiples = exchanges.map(({ device }) => multipleOf(device));
  const loads = exchanges.map(({ turn }) => (turn instanceof Missing ? 0 : turn.value));
  return { phases: balance(loads, multiples), pattern: patternOf(multiples) };
}

function indexOfFullest(served: readonly Served[]): number {
  const times = served.map(({ busy }) => (busy instanceof Missing ? Number.POSITIVE_INFINITY : busy.value));
  return times.indexOf(Math.max(...times));
}

/** One after another the exchanges split into commands, answers and waiting; elsewhere they overlap. */
function sharesOfExchanges({ name, profile }: Network, served: readonly Exchange[], busy: Time): readonly Share[] {
  if (profile.discipline !== 'polled') return [{ name: 'exchanges', time: busy }];
  const commands = given({ a: served.map((each) => each.command) }, (known) => onTheLine(known, `${name}.commands`));
  const answers = given({ a: served.map((each) => each.answer) }, (known) => onTheLine(known, `${name}.answers`));
  const D = served.map((each) => each.device.turnaround);
  const waits = given({ D, p: served.map((each) => each.there), r: served.map((each) => each.back) }, (known) =>
    waiting(known, name),
  );
  return [
    { name: 'commands', time: commands },
    { name: 'answers', time: answers },
    { name: 'waiting', time: waits },
  ];
}
