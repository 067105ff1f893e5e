// A window of a simulation as a capture at the controller's ports: what went out and came in, each an Ethernet frame.
//
// Frames are real in length, order and time; what is inside is invented: the local experimental EtherType of IEEE Std 802,
// locally administered addresses, and data that say which telegram it is.
import { checkSequence } from './check-sequence.ts';
import { type CapturedFrame, pcapng } from './pcapng.ts';
import type { PortFrame, SimulationChunk, SimulationPlan } from './plan.ts';
import { runSimulation } from './run.ts';

/** What a plan does not say of its frames. */
export interface Telegrams {
  readonly network: string;
  readonly bits_per_s: number;
  /** What a frame on the line has before its destination address. */
  readonly preamble_bit: number;
  /** Names, in the order of the stations of the plan. */
  readonly stations: readonly string[];
  /** Of a ring that sends both ways, the runs at both ports of the controller, each an interface; else one stands for all. */
  readonly ports: readonly { readonly run: number; readonly name: string }[];
}

export interface CaptureWindow {
  /** The first cycle of the simulation is 0. */
  readonly from: number;
  readonly cycles: number;
}

/** A capture of more would not be looked at; half a million frames are about 80 MB. Our judgement. */
export const mostCaptured = 500_000;

/**
 * The frames of a window, in the order of play, for `captureOf`. Only the chunks of the job that hold some of it are played, and
 * only so far; what they play is what they play in the whole job. Throws a RangeError for a window that is none or not within the
 * job, for more frames than `mostCaptured`, and for chunks that jump over cycles, whose frames nobody plays.
 */
export function framesOf(chunks: readonly SimulationChunk[], window: CaptureWindow): readonly PortFrame[] {
  const end = window.from + window.cycles;
  const last = chunks.at(-1);
  const cycles = last === undefined ? 0 : last.first + last.cycles;
  if (
    !Number.isSafeInteger(window.from) ||
    window.from < 0 ||
    !Number.isSafeInteger(window.cycles) ||
    window.cycles < 1
  )
    throw new RangeError('A capture begins at a whole number of cycles from 0 on, and is at least one cycle long.');
  if (end > cycles) throw new RangeError(`The capture ends behind the last of the ${cycles} cycles of the simulation.`);
  if (chunks.some(({ skipAhead }) => skipAhead))
    throw new RangeError('Cycles that are jumped over have no frames to capture.');
  const frames: PortFrame[] = [];
  for (const chunk of chunks) {
    if (chunk.first >= end || chunk.first + chunk.cycles <= window.from) continue;
    runSimulation({ ...chunk, cycles: Math.min(chunk.cycles, end - chunk.first) }, (frame) => {
      if (frame.cycle < window.from) return;
      if (frames.length === mostCaptured)
        throw new RangeError(`A capture has at most ${mostCaptured} frames: ask for fewer cycles.`);
      frames.push(frame);
    });
  }
  return frames;
}

/**
 * The capture file (pcapng) of those frames that are in the window, in the order of their stamps. Time 0 is the begin of cycle 0;
 * stamps are whole nanoseconds, rounded down, and tell when the first bit leaves the sender's end of the run at the controller: of
 * an answer, sooner than it is at the controller by the delay of that run.
 *
 * A telegram of fewer than 64 octets is padded to 64, as IEEE Std 802.3 wants, and its comment says so. A comment tells the
 * station, the direction, the try and whether it was lost; an answer that was spoilt has a wrong check sequence, and the flag for
 * that. A command that is lost on its way leaves the controller whole. Of a frame that is sent both ways round a ring each copy is
 * told as it fared itself: the update is lost where both are.
 */
export function captureOf(
  { cycle_ps }: SimulationPlan,
  telegrams: Telegrams,
  frames: readonly PortFrame[],
  window: CaptureWindow,
): Uint8Array {
  const { from, cycles } = window;
  const captured = frames
    .filter(({ cycle }) => cycle >= from && cycle < from + cycles)
    .map((frame) => capturedOf(frame, BigInt(cycle_ps), telegrams))
    .toSorted((one, other) => (one.stamp_ns < other.stamp_ns ? -1 : one.stamp_ns > other.stamp_ns ? 1 : 0));
  const { network, bits_per_s, ports } = telegrams;
  const all = ports.length > 0 ? ports.map(({ name }) => `${network}, ${name}`) : [network];
  return pcapng(
    `Simulation of the network ${network}, ${wordsOf(window)}; addresses, EtherType and data are invented`,
    all.map((name) => ({ name, description: "the controller's port, simulated", bits_per_s })),
    captured,
  );
}

export const wordsOf = ({ from, cycles }: CaptureWindow): string =>
  cycles === 1 ? `cycle ${from}` : `cycles ${from} to ${from + cycles - 1}`;

/** The first of the two EtherTypes that IEEE Std 802 (802a-2003, 3.2) keeps for local experiments. */
const etherType = 0x88b5;
/** IEEE Std 802.3, 3.2.8: no frame is shorter, check sequence included. */
const [shortestFrame, checkOctets, headerOctets] = [64, 4, 14];
/** What the data begin with, so that they are told from others under that EtherType: 'LY', and a version. */
const [subtype, version] = [0x4c59, 1];
const kinds = { command: 0, answer: 1 } as const;

function capturedOf(frame: PortFrame, cycle_ps: bigint, telegrams: Telegrams): CapturedFrame {
  const { cycle, at_ps, stations, direction, repeat, fate } = frame;
  const length = octetsOf(frame, telegrams);
  const octets = new Uint8Array(Math.max(shortestFrame, length));
  const view = new DataView(octets.buffer);
  const port = Math.max(
    0,
    telegrams.ports.findIndex(({ run }) => run === frame.run),
  );
  const isSpoiltHere = direction === 'answer' && fate === 'spoilt';
  const of = addressOf(stations);
  octets.set(direction === 'command' ? of : controllerAddress, 0);
  octets.set(direction === 'command' ? controllerAddress : of, 6);
  view.setUint16(12, etherType);
  view.setUint16(headerOctets, subtype);
  view.setUint8(headerOctets + 2, version);
  view.setUint8(headerOctets + 3, kinds[direction]);
  view.setUint16(headerOctets + 4, repeat);
  view.setUint16(headerOctets + 6, stations.length === 0 ? 0xffff : stations[0]!);
  view.setBigUint64(headerOctets + 8, BigInt(cycle));
  view.setUint8(headerOctets + 16, port);
  const end = octets.length - checkOctets;
  const check = checkSequence(octets.subarray(0, end));
  view.setUint32(end, isSpoiltHere ? ~check : check, true);
  const padding = length < shortestFrame ? `, ${length} octets padded to ${shortestFrame}` : '';
  const by = telegrams.ports.length > 0 ? `, by ${telegrams.ports[port]!.name}` : '';
  return {
    port,
    stamp_ns: (BigInt(cycle) * cycle_ps + BigInt(at_ps)) / 1000n,
    octets,
    direction: direction === 'command' ? 'outbound' : 'inbound',
    hasCheckError: isSpoiltHere,
    comment: `cycle ${cycle}, ${nameOf(stations, telegrams)}: ${direction}, ${repeat === 0 ? 'first try' : `repeat ${repeat}`}${by}, ${outcomeOf(frame)}${padding}`,
  };
}

/** From destination address to check sequence. */
const octetsOf = ({ lasts_ps }: PortFrame, { bits_per_s, preamble_bit }: Telegrams): number =>
  Math.round(((lasts_ps / 1e12) * bits_per_s - preamble_bit) / 8);

/** Locally administered: the second bit of the first octet is set. */
const controllerAddress = Uint8Array.of(0x02, 0, 0, 0, 0, 0);

/** Of one station; where a frame is for several, a group address, which has the first bit set as well. */
const addressOf = (stations: readonly number[]): Uint8Array => {
  const number = stations.length === 1 ? stations[0]! + 1 : 1;
  return Uint8Array.of(stations.length === 1 ? 0x02 : 0x03, 0, 0, 0, number >> 8, number & 0xff);
};

function nameOf(stations: readonly number[], telegrams: Telegrams): string {
  if (stations.length === 0) return 'all stations';
  const names = stations.map((station) => telegrams.stations[station]!);
  return names.length <= 3 ? names.join(', ') : `${names[0]} to ${names.at(-1)} (${names.length} stations)`;
}

function outcomeOf({ stations, fate }: PortFrame): string {
  if (fate === 'whole') return 'not lost';
  if (fate === 'late') return 'lost: behind the end of its cycle';
  return stations.length === 0 ? 'lost for some' : 'lost';
}
