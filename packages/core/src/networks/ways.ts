// The ways from the controller to the stations, and one exchange with each of them.
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { frameLength, lineOccupancy } from './calc/frame.ts';
import { answerArrival, passingOn, pathDelay, runDelay, wholeFrame } from './calc/path.ts';
import { turn } from './calc/polled.ts';
import { type Device, type Network, type Run, stationsOf, type Way } from './network.ts';

type Time = Value<Quantity<'s'>>;
type Data = Value<Quantity<'bit'>>;

export interface Exchange {
  readonly device: Device;
  /** Frames, from destination address to check sequence. */
  readonly commandFrame: Data;
  readonly answerFrame: Data;
  /** The same on the line. */
  readonly command: Time;
  readonly answer: Time;
  /** First bit of the command at the station, counted from its leaving the controller. */
  readonly there: Time;
  /** First bit of the answer from the station to the controller. */
  readonly back: Time;
  /** First bit of the answer at the controller, counted from the command's first bit leaving it. */
  readonly answered: Time;
  readonly turn: Time;
}

/** The exchanges of a network. On a ring that is broken after so many stations, the others are reached the other way. */
export function exchangesOf(network: Network, cables: CableDelays, whole: number): readonly Exchange[] {
  return stationsOf(network).map((device) => exchangeWith(device, wayTo(device, network, whole), network, cables));
}

/** The way to a device; on a ring that is broken before it, the other way round. */
export const wayTo = (device: Device, { devices }: Network, whole: number): Way =>
  (devices.indexOf(device) >= whole ? device.otherWay : undefined) ?? device.way;

/**
 * Whether a copy of each frame goes the other way round: on a ring whose profile says so, where a command and an answer of their
 * own go to and fro. A frame for all is not counted with copies.
 */
export const sendsBothWays = ({ topology, profile: { ring_frames, discipline } }: Network): boolean =>
  topology === 'ring' &&
  ring_frames === 'both_ways' &&
  ['polled', 'pipelined', 'slotted'].includes(discipline as string);

/** Where the copies go of frames that go that way. */
export const roundTheOther = (way: Way, device: Device): Way | undefined =>
  way === device.way ? device.otherWay : device.way;

/** The propagation along every run of a network. */
export type CableDelays = ReadonlyMap<Run, Time>;

export const cableDelays = ({ name, runs }: Network): CableDelays =>
  new Map(
    runs.map((run) => [run, given({ l: run.length, t: run.delay }, (known) => runDelay(known, `${name}.${run.name}`))]),
  );

function exchangeWith(device: Device, way: Way, network: Network, cables: CableDelays): Exchange {
  const { profile } = network;
  const about = `${network.name}.${device.name}`;
  const frame = (payload: Data, which: string): Data =>
    given({ m: profile.frame_at_least, h: profile.overhead, P: payload }, (known) =>
      frameLength(known, `${about}.${which}`),
    );
  const onLine = (length: Data, which: string): Time =>
    given({ L: length, w: profile.preamble, g: profile.gap, R: profile.rate }, (known) =>
      lineOccupancy(known, `${about}.${which}`),
    );
  const commandFrame = frame(device.command, 'command');
  const answerFrame = frame(device.answer, 'answer');
  const command = onLine(commandFrame, 'command');
  const answer = onLine(answerFrame, 'answer');
  const there = wayDelay(way, commandFrame, network, cables, about);
  const back = way.passed.some((each) => each.passing === 'frame')
    ? wayDelay(way, answerFrame, network, cables, `${about}.back`)
    : there;
  const D = device.turnaround;
  return {
    device,
    commandFrame,
    answerFrame,
    command,
    answer,
    there,
    back,
    answered: given({ p: there, a: command, g: profile.gap, R: profile.rate, D, r: back }, (known) =>
      answerArrival(known, about),
    ),
    turn: given({ a: command, b: answer, D, p: there, r: back }, (known) => turn(known, about)),
  };
}

/** The first bit's way for a given frame: devices that store frames make the way of a longer one longer. */
export function wayDelay(way: Way, frame: Data, network: Network, cables: CableDelays, about: string): Time {
  const c = way.runs.map((run) => cables.get(run)!);
  const { line } = network.profile;
  const f = way.passed.filter((device) => delays(device, network)).map((device) => hop(device, frame, network, about));
  return given({ c, f, line }, (known) => pathDelay({ c: known.c, f: known.f }, about));
}

/** Whether a device takes time to pass a frame on; a coupling, and a station on a shared line, take none. */
export const delays = ({ kind }: Device, { profile }: Network): boolean =>
  kind !== 'coupling' && !(profile.line === 'shared' && kind === 'station');

/** The time in which a device passes on a frame. */
export function hop(device: Device, frame: Data, { name, profile }: Network, about: string): Time {
  if (device.passing === 'bits') return device.forwarding;
  const at = `${about}.through_${device.name}`;
  if (device.passing === 'start')
    return given({ f: device.forwarding, H: device.waits, R: profile.rate }, (known) =>
      passingOn(known, `${name}.${device.name}`),
    );
  const H = given({ L: frame, w: profile.preamble }, (known) => wholeFrame(known, at));
  return given({ f: device.forwarding, H, R: profile.rate }, (known) => passingOn(known, at));
}
