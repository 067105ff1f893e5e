// A window of a simulation as a capture file, with the names and the line of the network that is simulated.
import type { Quantity } from '../working/quantity.ts';
import { captureOf, framesOf, type Telegrams, wordsOf } from './calc/simulate/capture.ts';
import type { Network } from './network.ts';
import type { Simulation } from './simulation.ts';
import { sendsBothWays } from './ways.ts';

/** What is usual shows every station several times, and repeats where there are any. Our judgement. */
const usualCycles = 100;

export interface CaptureRequest {
  /** The first cycle of the simulation is 0, and is what is usual. */
  readonly from?: number | undefined;
  /** As many cycles as are left where that is less than 100, and else 100, where nothing is said. */
  readonly cycles?: number | undefined;
}

export interface Capture {
  readonly file: Uint8Array;
  readonly frames: number;
  /** Which cycles it holds, in words. */
  readonly says: string;
}

/** Throws a RangeError for a window that cannot be captured, with the reason: see `framesOf`. */
export function captureFrom(simulation: Simulation, { from = 0, cycles }: CaptureRequest): Capture {
  const { chunks, plan } = simulation;
  const left = simulation.cycles.value - from;
  const window = { from, cycles: cycles ?? Math.max(1, Math.min(usualCycles, left)) };
  const frames = framesOf(chunks, window);
  return {
    file: captureOf(plan, telegramsOf(simulation), frames, window),
    frames: frames.length,
    says: wordsOf(window),
  };
}

/** Without rate and preamble there is no simulation. */
function telegramsOf({ planned: { network, exchanges } }: Simulation): Telegrams {
  return {
    network: network.name,
    bits_per_s: (network.profile.rate as Quantity<'bit/s'>).value,
    preamble_bit: (network.profile.preamble as Quantity<'bit'>).value,
    stations: exchanges.map(({ device }) => device.name),
    ports: portsOf(network),
  };
}

/** A ring has a run at each of both ports. */
function portsOf(network: Network): Telegrams['ports'] {
  const [first] = network.devices;
  if (!sendsBothWays(network) || first?.otherWay === undefined) return [];
  return [first.way, first.otherWay].map(({ runs }) => ({ run: network.runs.indexOf(runs[0]!), name: runs[0]!.name }));
}
