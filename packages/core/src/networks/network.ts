// A network with its catalogue data filled in: what the calculations start from. Nothing is absent without saying so.
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Counters, Noise } from './noise.ts';
import type { MissedRule } from './noise-patterns.ts';
import type { Discipline, Passer, RingFrames, Topology } from './parts.ts';

/** What a device waits for before it passes a frame on: nothing, a start of so many bits, or the whole frame. */
export type Passing = 'bits' | 'start' | 'frame';

/** A device on the network: a station that answers, or a hub, switch or coupling that only passes on. */
export interface Device {
  readonly name: string;
  readonly path: string;
  readonly kind: 'station' | 'hub' | 'switch' | 'coupling';
  /** An axis has a drive for a station. */
  readonly axis: boolean;
  /** The stated longest period between two updates, of an axis that states one. */
  readonly cycleAtMost: Value<Quantity<'s'>> | undefined;
  readonly passing: Passing;
  readonly forwarding: Value<Quantity<'s'>>;
  readonly waits: Value<Quantity<'bit'>>;
  readonly turnaround: Value<Quantity<'s'>>;
  readonly command: Value<Quantity<'bit'>>;
  readonly answer: Value<Quantity<'bit'>>;
  /** Served in every n-th cycle; in every cycle where nothing is said. */
  readonly every: Value<Quantity<'1'>> | undefined;
  readonly address: Value<Quantity<'1'>>;
  readonly plugs: Value<Quantity<'1'>>;
  /** Of a coupling. */
  readonly attenuation: Value<Quantity<'dB'>>;
  /** Of a hub. */
  readonly collisionDelay: Value<Quantity<'bit'>>;
  /** The so manieth lost update in a row trips it; missing where neither the station nor the network says. */
  readonly tripAfter: Value<Quantity<'1'>>;
  /** What it does while an update is missing. */
  readonly missed: Value<MissedRule>;
  /** How far an axis that states it may be from where it should be, in m or rad. */
  readonly tolerance: Value<Quantity> | undefined;
  /** How many runs are plugged in. */
  readonly plugged: number;
  /** The runs from the controller, in order, and the devices that are passed. */
  readonly way: Way;
  /** On a ring: the same the other way round. */
  readonly otherWay: Way | undefined;
}

/** In every which cycle a device is served; 1 where that is missing or not said. */
export const multipleOf = ({ every }: Device): number =>
  every === undefined || every instanceof Missing ? 1 : every.value;

/** The multiples that the stations of a network state; none when each is served in every cycle. */
export const statedMultiples = (devices: readonly Device[]): readonly Value<Quantity<'1'>>[] =>
  devices.flatMap(({ kind, every }) => (kind === 'station' && every !== undefined ? [every] : []));

export interface Way {
  readonly runs: readonly Run[];
  readonly passed: readonly Device[];
}

export interface Run {
  readonly name: string;
  readonly path: string;
  readonly from: string;
  readonly to: string;
  readonly length: Value<Quantity<'m'>>;
  readonly delay: Value<Quantity<'s/m'>>;
  readonly attenuation: Value<Quantity<'dB/m'>>;
  /** The share of bits that chance spoils on it; missing where the network says nothing of noise. */
  readonly bitErrors: Value<Quantity<'1'>>;
}

export interface Profile {
  readonly part: Value<string>;
  readonly discipline: Value<Discipline>;
  readonly line: Value<'passed_on' | 'shared'>;
  readonly rate: Value<Quantity<'bit/s'>>;
  readonly preamble: Value<Quantity<'bit'>>;
  readonly gap: Value<Quantity<'bit'>>;
  readonly frame_at_least: Value<Quantity<'bit'>>;
  readonly frame_at_most: Value<Quantity<'bit'>>;
  readonly overhead: Value<Quantity<'bit'>>;
  readonly start_frame: Value<Quantity<'bit'>>;
  readonly window_opens: Value<Quantity<'bit'>>;
  readonly window_closes: Value<Quantity<'bit'>>;
  readonly answer_gap: Value<Quantity<'s'>>;
  readonly topologies: Value<readonly Value<Topology>[]>;
  readonly ring_frames: Value<RingFrames>;
  readonly passes: Value<readonly Value<Passer>[]>;
  readonly stations_at_most: Value<Quantity<'1'>>;
  readonly spacing_at_most: Value<Quantity<'m'>>;
  readonly length_at_most: Value<Quantity<'m'>>;
  readonly attenuation_at_most: Value<Quantity<'dB'>>;
  readonly hops_at_most: Value<Quantity<'1'>>;
  readonly cycle_at_least: Value<Quantity<'s'>>;
  readonly collision_window: Value<Quantity<'bit'>>;
  readonly collision_delay: Value<Quantity<'bit'>>;
  readonly addresses: {
    readonly from: Value<Quantity<'1'>>;
    readonly to: Value<Quantity<'1'>>;
    readonly taken_by_the_network: Value<readonly Value<Quantity<'1'>>[]>;
  };
}

export interface Controller {
  readonly part: Value<string>;
  readonly path: string;
  readonly cycles: Value<readonly Value<Quantity<'s'>>[]>;
  readonly ports: Value<Quantity<'1'>>;
  readonly kernel_base: Value<Quantity<'s'>>;
  readonly kernel_per_axis: Value<Quantity<'s'>>;
  readonly kernel_per_octet: Value<Quantity<'s/bit'>>;
  readonly kernel_share: Value<Quantity<'1'>>;
}

export interface Network {
  readonly name: string;
  readonly path: string;
  readonly port: Value<Quantity<'1'>>;
  readonly profile: Profile;
  readonly cycle: Value<Quantity<'s'>>;
  readonly repeats: Value<Quantity<'1'>>;
  readonly non_cyclic: Value<Quantity<'bit'>>;
  /** Whether its cycles begin on the clock of tasks and other networks, and when; nothing where the file does not say it. */
  readonly clock: Value<'shared' | 'own'> | undefined;
  readonly offset: Value<Quantity<'s'>> | undefined;
  /** By how much a cycle may start late; nothing where the file does not say it. */
  readonly startJitter: Value<Quantity<'s'>> | undefined;
  /** When all stations take over their set values, from the start of the cycle; nothing where the file does not say it. */
  readonly syncEvent: Value<Quantity<'s'>> | undefined;
  readonly topology: Topology;
  /** In the order in which the controller reaches them. */
  readonly devices: readonly Device[];
  /** All runs, the one that closes a ring included. */
  readonly runs: readonly Run[];
  /** What lacks when no station answers. */
  readonly wired: Value<true>;
  /** Undefined where the file says nothing of noise: then nothing is asked about losses. */
  readonly noise: Noise | undefined;
  readonly counters: Counters | undefined;
  readonly controller: Controller;
}

/** The devices that answer, axes included; hubs, switches and couplings only pass on. */
export const stationsOf = ({ devices }: Network): readonly Device[] => devices.filter(({ kind }) => kind === 'station');
