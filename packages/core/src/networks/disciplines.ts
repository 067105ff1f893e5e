// What one cycle needs for its exchanges, discipline by discipline.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { frameLength, lineOccupancy } from './calc/frame.ts';
import { roundTrip } from './calc/path.ts';
import { oneAfterAnother } from './calc/polled.ts';
import {
  answerEnd,
  answerInChain,
  answerReady,
  bothWays,
  commandEnd,
  commandForAll,
  commandIn,
  lastCommandIn,
} from './calc/streams.ts';
import { frameAgain, frameData, stationData, throughAll } from './calc/summation.ts';
import type { Network, Run } from './network.ts';
import { backToBack, inTurn, nothingSent, type Slot, type Timetable, thereAndBack } from './timetable.ts';
import type { CableDelays, Exchange } from './ways.ts';

type Time = Value<Quantity<'s'>>;

export interface Served {
  /** From the first command to the end of the last exchange. */
  readonly busy: Time;
  /** When the last command is at its station, gap included, counted like `busy`. */
  readonly commandsIn: Time;
  /** Everything that may be lost and done again, each with its time. */
  readonly repeatable: readonly Time[];
  /** Made when it is asked for: only pictures need it. */
  readonly timetable: () => Timetable;
}

/** The exchanges of one cycle. `about` names the cycle in the addresses of its numbers. */
export function serve(network: Network, cables: CableDelays, exchanges: readonly Exchange[], about: string): Served {
  const { discipline } = network.profile;
  if (discipline instanceof Missing) {
    return { busy: discipline, commandsIn: discipline, repeatable: [discipline], timetable: () => nothingSent };
  }
  const turns = exchanges.map((exchange) => exchange.turn);
  if (discipline === 'polled') return { ...polled(exchanges, turns, about), repeatable: turns };
  if (discipline === 'pipelined') return { ...pipelined(exchanges, about), repeatable: turns };
  if (discipline === 'chained') return { ...chained(network, exchanges, about), repeatable: turns };
  if (discipline === 'slotted') return { ...slotted(network, exchanges, about), repeatable: turns };
  return summation(network, cables, exchanges, about);
}

type Timed = Omit<Served, 'repeatable'>;

/** One exchange after another; the last command is in before its answer starts. */
function polled(exchanges: readonly Exchange[], turns: readonly Time[], about: string): Timed {
  const busy = given({ x: turns }, (known) => oneAfterAnother(known, about));
  const last = exchanges.at(-1);
  if (last === undefined) return { busy, commandsIn: busy, timetable: () => nothingSent };
  const before = given({ x: turns.slice(0, -1) }, (known) => oneAfterAnother(known, `${about}.before_the_last`));
  const end = given({ b: before, a: last.command }, (known) => commandEnd(known, `${about}.${last.device.name}`));
  return {
    busy,
    commandsIn: given({ c: end, p: last.there }, (known) => commandIn(known, `${about}.${last.device.name}`)),
    timetable: () => inTurn(exchanges, end, about),
  };
}

/** The last of the commands to be at its station. */
const lastIn = (commands: readonly Time[], about: string): Time =>
  given({ c: commands }, (known) => lastCommandIn(known, about));

/** The end of each command when they leave one behind another. */
function commandEnds(exchanges: readonly Exchange[], about: string): readonly Time[] {
  const ends: Time[] = [];
  for (const { command, device } of exchanges) {
    const before = ends.at(-1);
    ends.push(
      before === undefined
        ? command
        : given({ b: before, a: command }, (known) => commandEnd(known, `${about}.${device.name}`)),
    );
  }
  return ends;
}

interface Answer {
  readonly exchange: Exchange;
  readonly ready: Time;
  readonly takes: Time;
}

/** The answers on the line, with the end of the last. */
interface Answers {
  readonly slots: readonly Slot[];
  readonly end: Time;
}

/** The answers, each behind the one before it, in the order in which they are ready or as they are listed. */
function answerQueue(answers: readonly Answer[], about: string, order: 'as ready' | 'as listed' = 'as ready'): Answers {
  const ends = given({ ready: answers.map((each) => each.ready), b: answers.map((each) => each.takes) }, (known) => {
    const { ready, b } = known;
    const sequence = ready.map((_, index) => index);
    if (order === 'as ready') sequence.sort((x, y) => ready[x]!.value - ready[y]!.value || x - y);
    let end: Quantity<'s'> | undefined;
    return sequence.map((index) => {
      end = answerEnd(
        { e: end === undefined ? [ready[index]!] : [ready[index]!, end], b: b[index]! },
        `${about}.${answers[index]!.exchange.device.name}`,
      );
      return { answer: answers[index]!, end };
    });
  });
  if (ends instanceof Missing) return { slots: [], end: ends };
  return {
    slots: ends.map(({ answer: { exchange, takes }, end }) => ({
      exchanges: [exchange],
      end,
      takes,
      frame: exchange.answer,
    })),
    end: ends.at(-1)?.end ?? missing(about, 'absent', 'a station that answers', ''),
  };
}

/** Commands back to back, answers meanwhile on the other direction. */
function pipelined(exchanges: readonly Exchange[], about: string): Timed {
  const ends = commandEnds(exchanges, about);
  const answers = answerQueue(
    exchanges.map((exchange, index) => answerOf(exchange, ends[index]!, about)),
    about,
  );
  return {
    busy: answers.end,
    commandsIn: lastIn(commandsAt(exchanges, ends, about), about),
    timetable: () => ({ commands: backToBack(exchanges, ends), answers: answers.slots }),
  };
}

const commandsAt = (exchanges: readonly Exchange[], ends: readonly Time[], about: string): readonly Time[] =>
  exchanges.map(({ there, device }, index) =>
    given({ c: ends[index]!, p: there }, (known) => commandIn(known, `${about}.${device.name}`)),
  );

const answerOf = (exchange: Exchange, end: Time, about: string): Answer => {
  const { device, there, back, answer } = exchange;
  const ready = given({ c: end, p: there, D: device.turnaround, r: back }, (known) =>
    answerReady(known, `${about}.${device.name}`),
  );
  return { exchange, ready, takes: answer };
};

/** One command for all stations of the cycle, then their answers in a chain. */
function chained({ profile }: Network, exchanges: readonly Exchange[], about: string): Timed {
  const command = given(
    {
      P: exchanges.map(({ device }) => device.command),
      m: profile.frame_at_least,
      h: profile.overhead,
      w: profile.preamble,
      g: profile.gap,
      R: profile.rate,
    },
    ({ P, m, h, w, g, R }) => {
      const L = frameLength({ m, h, P: commandForAll({ P }, about) }, `${about}.command`);
      return lineOccupancy({ L, w, g, R }, `${about}.command`);
    },
  );
  const answers = exchanges.map((exchange): Answer => {
    const inChain = given({ b: exchange.answer, g: profile.answer_gap }, (known) =>
      answerInChain(known, `${about}.${exchange.device.name}`),
    );
    return { ...answerOf(exchange, command, about), takes: inChain };
  });
  const ends = exchanges.map(() => command);
  const chain = answerQueue(answers, about);
  return {
    busy: chain.end,
    commandsIn: lastIn(commandsAt(exchanges, ends, about), about),
    timetable: () => ({
      commands: [{ exchanges, end: command, takes: command, frame: command }],
      answers: chain.slots,
    }),
  };
}

/**
 * Both directions by a timetable in which no frame waits for another: the farthest station's command first, the nearest
 * station's answer first. Where a device stores frames, a short frame must not run up to a long one: commands go the
 * shortest first, answers the longest first.
 */
function slotted({ devices }: Network, exchanges: readonly Exchange[], about: string): Timed {
  const storing = devices.some((device) => device.passing === 'frame') ? 1 : 0;
  const down = [...exchanges].sort(
    (a, b) => storing * (size(a.command) - size(b.command)) || size(b.there) - size(a.there),
  );
  const up = [...exchanges].sort((a, b) => storing * (size(b.answer) - size(a.answer)) || size(a.back) - size(b.back));
  const ends = commandEnds(down, about);
  const commandsIn = lastIn(commandsAt(down, ends, about), about);
  const answers = answerQueue(
    up.map((exchange) => ({ exchange, ready: exchange.back, takes: exchange.answer })),
    about,
    'as listed',
  );
  return {
    busy: given({ c: commandsIn, e: answers.end }, (known) => bothWays(known, about)),
    commandsIn,
    timetable: () => ({ commands: backToBack(down, ends), answers: answers.slots }),
  };
}

/** A time to sort by; one that is missing spoils the result anyway. */
const size = (time: Time): number => (time instanceof Missing ? 0 : time.value);

/** Frames through all stations and back; data are laid into frames in the order of the stations, none is split. */
function summation(network: Network, cables: CableDelays, exchanges: readonly Exchange[], about: string): Served {
  const { profile, name } = network;
  const f = network.devices.filter((device) => device.kind !== 'coupling');
  const b = f.flatMap((device) => Array.from({ length: Math.max(0, device.plugged - 2) }, () => device.forwarding));
  const c = withoutBreak(network).map((run) => cables.get(run)!);
  const trip = given({ c, f: f.map((device) => device.forwarding), b }, (known) => roundTrip(known, name));
  const laid = summationFrames(network, exchanges, about);
  const frames = given({ laid, w: profile.preamble, g: profile.gap, R: profile.rate }, ({ laid, w, g, R }) =>
    laid.map(({ length: L }, index) => lineOccupancy({ L, w, g, R }, `${about}.frame_${index + 1}`)),
  );
  const busy = given({ a: frames, t: trip }, (known) => throughAll(known, about));
  const repeatable = given({ a: frames, t: trip }, ({ a, t }) =>
    a.map((each, index) => frameAgain({ a: each, t }, `${about}.frame_${index + 1}`)),
  );
  return {
    busy,
    commandsIn: busy,
    repeatable: repeatable instanceof Missing ? [repeatable] : repeatable,
    timetable: () => {
      if (frames instanceof Missing || laid instanceof Missing) return nothingSent;
      return thereAndBack(
        laid.map(({ carries }) => carries),
        frames,
        trip,
        about,
      );
    },
  };
}

/** A frame with the data of several stations. */
export interface SharedFrame {
  /** From destination address to check sequence. */
  readonly length: Quantity<'bit'>;
  readonly carries: readonly Exchange[];
}

/** The frames that a summation needs, in the order in which they leave. */
export function summationFrames(
  { profile, name }: Network,
  exchanges: readonly Exchange[],
  about: string,
): Value<readonly SharedFrame[]> {
  const places = exchanges.map(({ device }) =>
    given({ P: device.command, Q: device.answer }, (known) => stationData(known, `${name}.${device.name}`)),
  );
  return given({ places, M: profile.frame_at_most, m: profile.frame_at_least, h: profile.overhead }, (known) => {
    let first = 0;
    return intoFrames(known.places, known.M.value - known.h.value).map((P, index) => {
      first += P.length;
      const at = `${about}.frame_${index + 1}`;
      return {
        length: frameLength({ m: known.m, h: known.h, P: frameData({ P }, at) }, at),
        carries: exchanges.slice(first - P.length, first),
      };
    });
  });
}

/** The cables that a frame passes; of a ring, all but the one whose break saves least. */
export function withoutBreak({ runs, topology }: Network): readonly Run[] {
  if (topology !== 'ring') return runs;
  const shortest = runs.reduce((least, run) => (lengthOf(run) < lengthOf(least) ? run : least));
  return runs.filter((run) => run !== shortest);
}

const lengthOf = ({ length }: Run): number => (length instanceof Missing ? 0 : length.value);

/** The places in frames of a given room, in their order; one that is larger than a frame has one for itself. */
export function intoFrames(
  places: readonly Quantity<'bit'>[],
  room_bit: number,
): readonly (readonly Quantity<'bit'>[])[] {
  const frames: Quantity<'bit'>[][] = [];
  let left_bit = 0;
  for (const place of places) {
    if (frames.length === 0 || place.value > left_bit) {
      frames.push([]);
      left_bit = room_bit;
    }
    frames.at(-1)!.push(place);
    left_bit -= place.value;
  }
  return frames;
}
