// How the pulses of each source meet the frames of a station: share of updates, and how many of them in a row.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { answerBegins, commandBegins, longestBurst, openOnTheWay } from './calc/exchange-noise.ts';
import {
  inARowToPattern,
  inARowToRecording,
  longestWalk,
  lostToPattern,
  lostToRecording,
  type PulsePattern,
} from './calc/pulse-pattern.ts';
import { meets, type PulseSource, pulsesOf } from './noise.ts';
import { atPort, type Losses, type StationLoss } from './noise-losses.ts';
import type { Planned } from './planned.ts';

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

/** The first tries alone: repeats of the same cycle lie close behind them, and others may have used them up. */
export function meetingWith(source: PulseSource, station: StationLoss, { planned, noise }: Losses): Meeting {
  const { name } = planned.network;
  const about = `${name}.${station.device.name}.${source.name}`;
  const frames = framesOpen(station, planned);
  const a = (count: number): readonly Quantity<'1'>[] => Array.from({ length: count }, () => firstTry(noise.path));
  const { pulse, pulse_every, burst, period, at, hits } = source;
  const asked = { w: pulse, P: period, T: station.period, o: frames.begins, L: frames.open, hits };
  const walked = given({ pulses: pulsesOf(source), T: station.period }, ({ pulses, T }) =>
    at === undefined && pulses.starts_ps.length * Math.min(longestWalk, spanOf(pulses) / (T.value * 1e12)) > mostSteps
      ? missing(`${planned.network.path}.cycle`, 'problem', 'a longer cycle, or fewer pulses in a burst', '1 ms')
      : pulses,
  );
  const found = given({ walked }, () =>
    at === undefined
      ? given({ ...asked, e: pulse_every, B: burst }, ({ w, e, B, P, T, o, L }) => {
          const inputs = { w, e, B, P, T, o, L, a: a(o.length) };
          return { share: lostToPattern(inputs, about), inARow: inARowToPattern(inputs, about) };
        })
      : given({ ...asked, x: at }, ({ w, x, P, T, o, L }) => {
          const inputs = { w, x, P, T, o, L, a: a(o.length) };
          return { share: lostToRecording(inputs, about), inARow: inARowToRecording(inputs, about) };
        }),
  );
  return found instanceof Missing ? { source, share: found, inARow: found } : { source, ...found };
}

interface FramesOpen {
  readonly begins: readonly Value<Quantity<'s'>>[];
  readonly open: readonly Value<Quantity<'s'>>[];
}

/** When each frame leaves, and for how long it is on some cable of the way. */
function framesOpen({ exchange, open }: StationLoss, planned: Planned): FramesOpen {
  const { name, profile } = planned.network;
  const { gap: g, rate: R, discipline } = profile;
  const about = `${name}.${exchange.device.name}`;
  const { commandEnd, command, answerEnd, answer } = atPort(exchange, planned);
  const begin = given({ c: commandEnd, a: command }, (each) => commandBegins(each, about));
  // A frame that goes out, around and back is one.
  if (discipline === 'summation') return { begins: [begin], open: [open] };
  const { there, back } = exchange;
  const onWay = (p: typeof there, a: typeof command, which: string) =>
    given({ p, a, g, R }, (each) => openOnTheWay(each, `${about}.${which}`));
  return {
    begins: [begin, given({ e: answerEnd, b: answer, r: back }, (each) => answerBegins(each, about))],
    open: [onWay(there, command, 'command'), onWay(back, answer, 'answer')],
  };
}

const firstTry = (path: string): Quantity<'1'> =>
  assumed(`${path}.tries`, 1, '1', {
    source: 'judgement',
    because: 'repeats of a cycle lie within the same burst, and other stations may have used them up',
  });

/** From the begin of the pattern to the end of its last pulse. */
const spanOf = ({ starts_ps, pulse_ps }: PulsePattern): number =>
  starts_ps.reduce((most, each) => Math.max(most, each), 0) + pulse_ps;
