// When the frames of a station are on the runs that a source of pulses gets at: from when on, and for how long.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  answerBegins,
  answerLeaves,
  beginsOnRun,
  commandBegins,
  openOnTheWay,
  openWhileWaiting,
} from './calc/exchange-noise.ts';
import { serve } from './disciplines.ts';
import type { Run, Way } from './network.ts';
import { type Hits, meets } from './noise.ts';
import { type AtPort, atPort, type StationLoss } from './noise-losses.ts';
import { frameForAll } from './noise-tries.ts';
import { type Planned, servedIn } from './planned.ts';
import { nothingSent, type Timetable } from './timetable.ts';
import { delays, type Exchange, hop, roundTheOther, sendsBothWays, wayDelay, wayTo } from './ways.ts';

type Time = Value<Quantity<'s'>>;

/** A frame, or a piece of its way. */
export interface Flight {
  readonly begins: Time;
  readonly open: Time;
}

/** The flights of a command and of its answer, on the way that the plan has and, where copies go, on the other way round. */
export interface Flights {
  readonly command: readonly Flight[];
  readonly answer: readonly Flight[];
  readonly copies: { readonly command: readonly Flight[]; readonly answer: readonly Flight[] } | undefined;
}

/** Where a station is not served at the same time in all of its cycles, the flights of all of them. */
export function flightsOf({ exchange, open }: StationLoss, planned: Planned, hits: Hits): Flights {
  const { network } = planned;
  const about = `${network.name}.${exchange.device.name}`;
  const all = ports(exchange, planned).map((port, at) => {
    const name = at === 0 ? about : `${about}.otherwise_${at}`;
    const begins = given({ c: port.commandEnd, a: port.command }, (each) => commandBegins(each, name));
    // A frame that goes out, around and back is one.
    return network.profile.discipline === 'summation'
      ? { command: [{ begins, open }], answer: [], copies: undefined }
      : inOneCycle(exchange, port, begins, planned, hits, name);
  });
  const joined = (of: (each: Flights) => readonly Flight[]): readonly Flight[] => all.flatMap(of);
  return {
    command: joined(({ command }) => command),
    answer: joined(({ answer }) => answer),
    copies: sendsBothWays(network)
      ? {
          command: joined(({ copies }) => copies?.command ?? []),
          answer: joined(({ copies }) => copies?.answer ?? []),
        }
      : undefined,
  };
}

// ── when frames pass the port ────────────────────────────────────────────────────────────────────────────────────────

/** Cycle by cycle, where several are in the pattern. */
const timetablesOf = onceForEach((planned: Planned): readonly Timetable[] => {
  const { network, cables, exchanges, phases, pattern } = planned;
  if (pattern === 1) return [planned.timetable()];
  return Array.from({ length: pattern }, (_, cycle) => {
    const served = servedIn(cycle, exchanges, phases);
    return served.length === 0
      ? nothingSent
      : serve(network, cables, served, `${network.name}.cycle_${cycle + 1}`).timetable();
  });
});

/** As each of the station's cycles has it; those that are alike once. One after another, only the two frames count. */
function ports(exchange: Exchange, planned: Planned): readonly AtPort[] {
  const { discipline } = planned.network.profile;
  if (discipline === 'polled') return [atPort(exchange, planned)];
  const found = timetablesOf(planned)
    .filter(({ commands }) => commands.some(({ exchanges }) => exchanges.includes(exchange)))
    .map((timetable): AtPort => {
      const port = atPort(exchange, planned, timetable);
      return discipline === 'pipelined' ? { ...port, answerEnd: latestEnd(exchange, timetable, planned) } : port;
    });
  const key = ({ commandEnd, command, answerEnd }: AtPort): string =>
    [commandEnd, command, answerEnd].map((each) => (each instanceof Missing ? '' : each.value)).join();
  const distinct = [...new Map(found.map((each) => [key(each), each])).values()];
  return distinct.length === 0 ? [atPort(exchange, planned)] : distinct;
}

/**
 * Which of the answers that wait for each other comes first is decided on their way: each may be the last of those that come in
 * without a pause. Devices that store frames bring them together in yet another order.
 */
function latestEnd(exchange: Exchange, { answers }: Timetable, { network }: Planned): Time {
  const at = answers.findIndex(({ exchanges }) => exchanges.includes(exchange));
  const isStoring = network.devices.some(({ passing }) => passing === 'frame');
  const isPaused = (index: number): boolean => {
    const [before, { end, takes }] = [answers[index - 1]!.end, answers[index]!];
    if (before instanceof Missing || end instanceof Missing || takes instanceof Missing) return false;
    return end.value - takes.value > before.value * (1 + 1e-12);
  };
  let last = at;
  while (last + 1 < answers.length && (isStoring || !isPaused(last + 1))) last++;
  return answers[last]?.end ?? missing(exchange.device.path, 'absent', 'an answer', '');
}

// ── on their way ─────────────────────────────────────────────────────────────────────────────────────────────────────

function inOneCycle(
  exchange: Exchange,
  port: AtPort,
  begins: Time,
  planned: Planned,
  hits: Hits,
  about: string,
): Flights {
  const { network, brokenAfter = network.devices.length } = planned;
  const { device, there, back, commandFrame, answerFrame } = exchange;
  const { discipline } = network.profile;
  const way = wayTo(device, network, brokenAfter);
  const e = port.answerEnd;
  const leaves =
    discipline === 'pipelined'
      ? given({ c: port.commandEnd, p: there, D: device.turnaround }, (each) => answerLeaves(each, about))
      : given({ e, b: port.answerTakes, r: back }, (each) => answerBegins(each, about));
  const isForAll = discipline === 'chained';
  const data = isForAll ? frameForAll(port.served, network, `${about}.for_all`) : commandFrame;
  // Answers that come up together wait for each other, somewhere on their way; copies are not planned and wait for none.
  const waits = discipline === 'pipelined' ? { e, b: port.answerTakes, r: back, o: leaves } : undefined;
  const ways = (to: Way, waits: Waits | undefined, which: string) => ({
    command: alongHits(to, { data, takes: port.command, begins }, hits, planned, `${about}.command${which}`),
    answer: alongHits(
      { runs: to.runs.toReversed(), passed: to.passed.toReversed() },
      { data: answerFrame, takes: port.answer, begins: leaves, waits },
      hits,
      planned,
      `${about}.answer${which}`,
    ),
  });
  const round = sendsBothWays(network) ? roundTheOther(way, device) : undefined;
  return {
    ...ways(way, waits, ''),
    copies: round && ways(round, undefined, '.other_way'),
  };
}

/** An answer that leaves at `o` ends at the port at `e`. */
type Waits = Readonly<Record<'e' | 'b' | 'r' | 'o', Time>>;

interface Sent {
  readonly data: Value<Quantity<'bit'>>;
  readonly takes: Time;
  readonly begins: Time;
  readonly waits?: Waits | undefined;
}

/** In one piece where all runs are hit and some octet is on one of them all the while; else run by run. */
function alongHits(way: Way, sent: Sent, hits: Hits, planned: Planned, about: string): readonly Flight[] {
  const { network, cables } = planned;
  const { gap: g, rate: R } = network.profile;
  const { data, takes: a, begins: o, waits } = sent;
  const openFor = (p: Time, at: string): Time => {
    const L = given({ p, a, g, R }, (each) => openOnTheWay(each, at));
    return waits === undefined ? L : given({ L, ...waits }, (each) => openWhileWaiting(each, at));
  };
  if (hits instanceof Missing) return [{ begins: hits, open: hits }];
  if (way.runs.every((run) => meets(hits, [run])) && isNeverOff(way, sent, planned, about))
    return [{ begins: o, open: openFor(wayDelay(way, data, network, cables, about), about) }];
  return way.runs.flatMap((run: Run, at): readonly Flight[] => {
    if (!meets(hits, [run])) return [];
    const name = `${about}.on_${run.name}`;
    const before = { runs: way.runs.slice(0, at), passed: way.passed.slice(0, at) };
    const begins =
      at === 0
        ? o
        : given({ o, p: wayDelay(before, data, network, cables, `${name}.before`) }, (each) => beginsOnRun(each, name));
    return [{ begins, open: openFor(cables.get(run)!, name) }];
  });
}

/** Whether no device holds it for longer than it lasts. */
function isNeverOff({ passed }: Way, { data, takes }: Sent, { network }: Planned, about: string): boolean {
  const { gap, rate } = network.profile;
  if (takes instanceof Missing || gap instanceof Missing || rate instanceof Missing) return false;
  const lasts_s = takes.value - gap.value / rate.value;
  return passed.every((device) => {
    if (!delays(device, network)) return true;
    const held = device.passing === 'frame' ? undefined : hop(device, data, network, about);
    return held !== undefined && !(held instanceof Missing) && held.value <= lasts_s;
  });
}
