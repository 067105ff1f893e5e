// The noise of a network with everything filled in: what the calculations and the simulation of events start from.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { type PulsePattern, pulsesInBursts } from './calc/pulse-pattern.ts';
import type { Pattern } from './noise-patterns.ts';

/** The names of the runs that something couples into. */
export type Hits = Value<readonly string[]>;

export interface TwoState {
  readonly path: string;
  readonly to_bad: Value<Quantity<'1'>>;
  readonly to_good: Value<Quantity<'1'>>;
  readonly step: Value<Quantity<'s'>>;
  readonly lost_in_good: Value<Quantity<'1'>>;
  readonly lost_in_bad: Value<Quantity<'1'>>;
  readonly hits: Hits;
}

/** A source of pulses. */
export interface PulseSource {
  readonly name: string;
  readonly path: string;
  readonly pattern: Value<Pattern>;
  readonly pulse: Value<Quantity<'s'>>;
  /** Pulses follow each other without a pause. */
  readonly endless: boolean;
  /** Equal to the burst where there is one pulse only. */
  readonly pulse_every: Value<Quantity<'s'>>;
  readonly burst: Value<Quantity<'s'>>;
  readonly period: Value<Quantity<'s'>>;
  /** Of a recording: when each pulse began. The times above but pulse and period have no meaning then. */
  readonly at: Value<readonly Quantity<'s'>[]> | undefined;
  readonly hits: Hits;
}

/** What a run and a station have of it stands there: `Run.bitErrors`, `Device.tripAfter`, `Device.missed`. */
export interface Noise {
  readonly path: string;
  readonly bitErrors: Value<Quantity<'1'>>;
  /** What a bit error ratio counts, in bits of the frame. */
  readonly counts: Value<Quantity<'bit'>>;
  readonly twoState: TwoState | undefined;
  readonly sources: readonly PulseSource[];
  /** The mean time between trips that is wanted; undefined where the file says none. */
  readonly tripFree: Value<Quantity<'s'>> | undefined;
}

/** A counter of spoilt frames at a port; the port is at `to`. */
export interface Counter {
  readonly name: string;
  readonly path: string;
  readonly from: string;
  readonly to: string;
  readonly frames: Value<Quantity<'1'>>;
  readonly errors: Value<Quantity<'1'>>;
  /** Spoilt frames in each of several intervals of one length. */
  readonly intervals: Value<readonly Quantity<'1'>[]> | undefined;
}

export interface Counters {
  readonly path: string;
  readonly over: Value<Quantity<'s'>> | undefined;
  readonly confidence: Value<Quantity<'1'>>;
  readonly ports: Value<readonly Counter[]>;
}

/** More are not walked one by one (our judgement). */
const mostPulses = 2000;

const presentValue = ({ value }: Quantity): number => value;

/** The pulses in plain picoseconds, as the calculations walk them. `read` gives other values where a result is replayed. */
export const pulsesOf = (
  { path, pulse, pulse_every, burst, period, at }: PulseSource,
  read: (of: Quantity) => number = presentValue,
): Value<PulsePattern> => {
  const ps = (time: Quantity<'s'>): number => Math.max(1, Math.round(read(time) * 1e12));
  return at === undefined
    ? given({ pulse, pulse_every, burst, period }, (known) =>
        Math.min(known.burst.value, known.period.value) / known.pulse_every.value > mostPulses
          ? missing(`${path}.pulse_every`, 'problem', `at most ${mostPulses} pulses in a burst`, '200 µs')
          : pulsesInBursts(ps(known.pulse), ps(known.pulse_every), ps(known.burst), ps(known.period)),
      )
    : given({ at, pulse, period }, (known) => ({
        starts_ps: known.at.map((each) => Math.round(read(each) * 1e12)),
        pulse_ps: ps(known.pulse),
        period_ps: ps(known.period),
      }));
};

/** Whether something with these hits couples into one of the runs. */
export const meets = (hits: Hits, runs: readonly { readonly name: string }[]): boolean =>
  !(hits instanceof Missing) && runs.some(({ name }) => hits.includes(name));
