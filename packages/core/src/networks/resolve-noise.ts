// The noise and the counters of a network's file entry with presets and defaults filled in, each run named as it is addressed.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { burstOfPulses, fastTransients } from './calc/pulse-pattern.ts';
import type { Counter, Counters, Hits, Noise, PulseSource, TwoState } from './noise.ts';
import type { BurstSection, NoiseSection } from './noise-fields.ts';
import { presets } from './noise-patterns.ts';
import { type Ends, type NetworkSection, type Wire, wireBetween } from './section.ts';

export function noiseOf(network: NetworkSection, wires: readonly Wire[]): Noise | undefined {
  const { noise } = network;
  if (noise === undefined) return undefined;
  const { path } = noise;
  return {
    path,
    bitErrors: bitErrorsOfAll(noise),
    counts: isAbsent(noise.counts)
      ? assumed(`${path}.counts`, 1, 'bit', { source: 'definition', because: 'each bit of the frame counts as one' })
      : noise.counts,
    twoState: noise.two_state && twoStateOf(noise.two_state, network, wires),
    sources: noise.bursts.map((burst) => sourceOf(burst, `${network.name}.noise.${burst.name}`, wires)),
    tripFree: noise.trip_free,
  };
}

function bitErrorsOfAll({ path, bit_errors }: NoiseSection): Value<Quantity<'1'>> {
  return isAbsent(bit_errors)
    ? assumed(`${path}.bit_errors`, 1e-10, '1', {
        source: 'judgement',
        because: 'figures published for 100 Mbit/s on copper disagree between 1e-9 and 1e-12',
      })
    : bit_errors;
}

/** The later of two rows on one run counts. */
export function bitErrorsOf(from: string, to: string, { noise, path }: NetworkSection): Value<Quantity<'1'>> {
  if (noise === undefined) return missing(`${path}.noise`, 'absent', 'a section on noise', '{ bit_errors: 1e-10 }');
  const rows = noise.runs instanceof Missing ? [] : noise.runs;
  const own = rows.findLast((row) => joins(row, from, to));
  return own === undefined || own instanceof Missing ? bitErrorsOfAll(noise) : own.bit_errors;
}

const joins = (row: Ends | Missing, a: string, b: string): boolean => {
  if (row instanceof Missing || row.from instanceof Missing || row.to instanceof Missing) return false;
  const ends = [row.from.name, row.to.name];
  return ends.includes(a) && ends.includes(b) && a !== b;
};

function twoStateOf(
  said: NonNullable<NoiseSection['two_state']>,
  { cycle }: NetworkSection,
  wires: readonly Wire[],
): TwoState {
  return {
    ...said,
    step: isAbsent(said.step) ? cycle : said.step,
    lost_in_good: isAbsent(said.lost_in_good)
      ? assumed(`${said.path}.lost_in_good`, 0, '1', {
          source: 'judgement',
          because: 'a good line loses what random bit errors take, and nothing else',
        })
      : said.lost_in_good,
    hits: hitsOf(said, wires),
  };
}

function sourceOf(said: BurstSection, about: string, wires: readonly Wire[]): PulseSource {
  const { name, path, pattern, period } = said;
  const pulse_every = orPreset(said, 'pulse_every');
  const burst = burstOf(said, pulse_every, about);
  const single = pattern === 'dropout';
  const endless = pattern === 'drive_switching' && isAbsent(period);
  return {
    name,
    path,
    pattern,
    // A dropout is one pulse, as long as its burst.
    pulse: single && isAbsent(said.pulse) ? burst : orPreset(said, 'pulse'),
    pulse_every: single && isAbsent(said.pulse_every) ? burst : pulse_every,
    burst: endless && isAbsent(burst) ? pulse_every : burst,
    period: endless ? pulse_every : orPreset(said, 'period'),
    at: pattern === 'recorded' ? timesOf(said) : undefined,
    hits: hitsOf(said, wires),
  };
}

/** The times of a recording; each has to lie within it. */
function timesOf({ at, path, period }: BurstSection): Value<readonly Quantity<'s'>[]> {
  return given({ at, period }, (known) => {
    const outside = known.at.findIndex(({ value }) => value >= known.period.value);
    return outside < 0 ? known.at : missing(`${path}.at.${outside}`, 'problem', 'a time within the recording', '2 s');
  });
}

function burstOf(said: BurstSection, pulse_every: Value<Quantity<'s'>>, about: string): Value<Quantity<'s'>> {
  const { burst, pulses, pattern, path } = said;
  if (!isAbsent(burst) || (isAbsent(pulses) && pattern !== 'fast_transient')) return orPreset(said, 'burst');
  const n = isAbsent(pulses)
    ? assumed(`${path}.pulses`, fastTransients.pulses, '1', {
        source: 'iec-61000-4-4',
        because: 'so many pulses in a burst',
      })
    : pulses;
  return given({ n, e: pulse_every }, (known) => burstOfPulses(known, about));
}

function orPreset(said: BurstSection, key: 'pulse' | 'pulse_every' | 'burst' | 'period'): Value<Quantity<'s'>> {
  const own = said[key];
  if (!isAbsent(own) || said.pattern instanceof Missing) return own;
  const known = presets[said.pattern][key];
  return known === undefined
    ? own
    : assumed(`${said.path}.${key}`, known.time_s, 's', {
        source: known.source,
        because: `${said.pattern}: ${known.because}`,
      });
}

/** All runs where nothing is said. */
function hitsOf({ hits }: Pick<BurstSection, 'hits'>, wires: readonly Wire[]): Hits {
  if (isAbsent(hits)) return wires.map(nameOf);
  return given({ hits }, (known) => {
    const found = known.hits.map(({ from, to, path }) =>
      given({ from, to }, (ends) => {
        const wire = wireBetween(wires, ends.from.name, ends.to.name);
        return wire === undefined ? missing(path, 'problem', 'the two ends of a run', '[hub, rack_o]') : nameOf(wire);
      }),
    );
    return given({ found }, (all) => all.found);
  });
}

const nameOf = ({ from, to }: Wire): string => `${from}_${to}`;

export function countersOf({ counters }: NetworkSection, wires: readonly Wire[]): Counters | undefined {
  if (counters === undefined) return undefined;
  const { path, over, confidence, ports, intervals } = counters;
  return {
    path,
    over,
    confidence:
      confidence ??
      assumed(`${path}.confidence`, 0.95, '1', { source: 'common-practice', because: 'usual in statistics', as: '%' }),
    ports: given({ ports }, (known): Value<readonly Counter[]> => {
      const read = known.ports.map((port) =>
        given({ from: port.from, to: port.to }, ({ from, to }): Value<Counter> => {
          if (wireBetween(wires, from.name, to.name) === undefined)
            return missing(port.path, 'problem', 'the two ends of a run', '[hub, rack_o, 57600000, 41]');
          const rows = intervals instanceof Missing ? [] : intervals;
          const again = rows.find((row) => !(row instanceof Missing) && sameWay(row, from.name, to.name));
          return {
            name: `${from.name}_${to.name}`,
            path: port.path,
            from: from.name,
            to: to.name,
            frames: port.frames,
            errors: port.errors,
            intervals: again === undefined || again instanceof Missing ? undefined : countsOf(again.errors),
          };
        }),
      );
      return given({ read }, (all) => all.read);
    }),
  };
}

const countsOf = (errors: Value<readonly Value<Quantity<'1'>>[]>): Value<readonly Quantity<'1'>[]> =>
  given({ errors }, (known) => known.errors);

const sameWay = ({ from, to }: Ends, a: string, b: string): boolean =>
  !(from instanceof Missing) && !(to instanceof Missing) && from.name === a && to.name === b;
