// How the pulses of each source meet the frames of a station: share of updates, and how many of them in a row.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { longestBurst } from './calc/exchange-noise.ts';
import {
  inARowToPattern,
  inARowToRecording,
  longestWalk,
  lostToPattern,
  lostToRecording,
  type PulsePattern,
} from './calc/pulse-pattern.ts';
import { meets, type PulseSource, pulsesOf } from './noise.ts';
import { type Flight, flightsOf } from './noise-flights.ts';
import type { Losses, StationLoss } from './noise-losses.ts';

/** Pulses times updates in a row: more are not walked (our judgement). */
const mostSteps = 1_000_000;

export interface Meeting {
  readonly source: PulseSource;
  /** Share of the updates that it costs. */
  readonly share: Value<Quantity<'1'>>;
  /** The most updates in a row that it costs, at the worst phase; infinite where cycle and pulses stay in step. */
  readonly inARow: Value<Quantity<'1'>>;
}

/** The sources whose pulses get onto the way of a station; one whose runs are not known may be among them. */
export const sourcesOf = ({ runs }: StationLoss, { noise }: Losses): readonly PulseSource[] =>
  noise.sources.filter(({ hits }) => hits instanceof Missing || meets(hits, runs));

/** One that comes in bursts with a pause behind each: the longest burst says what it may cost. */
export const inBursts = (source: PulseSource): boolean => source.at === undefined && !source.endless;

/** The longest burst on the way of a station; undefined where none is said. */
export function longestOf(station: StationLoss, losses: Losses): Value<Quantity<'s'>> | undefined {
  const sources = sourcesOf(station, losses).filter(inBursts);
  if (sources.length === 0) return undefined;
  const { name } = losses.planned.network;
  return given({ B: sources.map(({ burst }) => burst), hits: sources.map(({ hits }) => hits) }, ({ B }) =>
    longestBurst({ B }, `${name}.${station.device.name}`),
  );
}

/**
 * The first tries alone: repeats of the same cycle lie close behind them, and others may have used them up. Exact for one after
 * another and by a timetable; at most where answers wait for each other, frames go through all stations, or a station has no fixed
 * place in its cycles.
 */
export function meetingWith(source: PulseSource, station: StationLoss, losses: Losses): Meeting {
  const { command, answer } = flightsOf(station, losses.planned, source.hits);
  return meeting(source, station, [[...command, ...answer]], losses, '');
}

/** With a copy of each frame the other way round; undefined where none is sent, or where one of the ways is left alone. */
export function meetingBothWays(source: PulseSource, station: StationLoss, losses: Losses): Meeting | undefined {
  const { command, answer, copies } = flightsOf(station, losses.planned, source.hits);
  if (copies === undefined || command.length === 0 || copies.command.length === 0) return undefined;
  // An update comes through where one copy of its command and one of its answer do: lost is what all four choices lose.
  const choices = [command, copies.command].flatMap((out) => [answer, copies.answer].map((home) => [...out, ...home]));
  return meeting(source, station, choices, losses, '.both_ways');
}

/** An update is lost when each of the ways in which it may come through has a frame with a pulse on it. */
function meeting(
  source: PulseSource,
  station: StationLoss,
  ways: readonly (readonly Flight[])[],
  { planned, noise }: Losses,
  which: string,
): Meeting {
  const { name } = planned.network;
  const about = `${name}.${station.device.name}.${source.name}${which}`;
  const a = ways.flatMap((flights, at) => flights.map(() => wayOf(noise.path, at + 1)));
  const { pulse, pulse_every, burst, period, at, hits } = source;
  const flights = ways.flat();
  const asked = {
    w: pulse,
    P: period,
    T: station.period,
    o: flights.map(({ begins }) => begins),
    L: flights.map(({ open }) => open),
    hits,
  };
  const walked = given({ pulses: pulsesOf(source), T: station.period }, ({ pulses, T }) =>
    at === undefined && pulses.starts_ps.length * Math.min(longestWalk, spanOf(pulses) / (T.value * 1e12)) > mostSteps
      ? missing(`${planned.network.path}.cycle`, 'problem', 'a longer cycle, or fewer pulses in a burst', '1 ms')
      : pulses,
  );
  const found = given({ walked }, () =>
    at === undefined
      ? given({ ...asked, e: pulse_every, B: burst }, ({ w, e, B, P, T, o, L }) => {
          const inputs = { w, e, B, P, T, o, L, a };
          return { share: lostToPattern(inputs, about), inARow: inARowToPattern(inputs, about) };
        })
      : given({ ...asked, x: at }, ({ w, x, P, T, o, L }) => {
          const inputs = { w, x, P, T, o, L, a };
          return { share: lostToRecording(inputs, about), inARow: inARowToRecording(inputs, about) };
        }),
  );
  return found instanceof Missing ? { source, share: found, inARow: found } : { source, ...found };
}

const wayOf = (path: string, way: number): Quantity<'1'> =>
  way === 1
    ? assumed(`${path}.tries`, 1, '1', {
        source: 'judgement',
        because: 'repeats of a cycle lie within the same burst, and other stations may have used them up',
      })
    : assumed(`${path}.copies_${way}`, way, '1', {
        source: 'definition',
        because: 'one copy of the command and one of the answer are enough: four ways to come through',
      });

/** From the begin of the pattern to the end of its last pulse. */
const spanOf = ({ starts_ps, pulse_ps }: PulsePattern): number =>
  starts_ps.reduce((most, each) => Math.max(most, each), 0) + pulse_ps;
