// The fullest cycle in seconds: where each frame and each part of it lies, as far as that is known. Positions only, for a
// picture to scale; what they are taken from are the quantities of the plan.
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Planned } from './planned.ts';
import type { Slot, Timetable } from './timetable.ts';
import type { Exchange } from './ways.ts';

/** From the first bit of its preamble to its last bit, without the gap behind it; counted from the start of the cycle. */
export interface Frame {
  readonly from_s: number;
  readonly to_s: number;
  readonly exchanges: readonly Exchange[];
}

export interface CycleFrames {
  readonly start: Frame | undefined;
  readonly commands: readonly Frame[];
  readonly answers: readonly Frame[];
  /** What is kept in hand, drawn as the longest exchange again and again; too many to draw are none. */
  readonly repeats: readonly { readonly command: Frame; readonly answer: Frame }[];
  /** What opens the non-cyclic window, its frame, and what closes it. */
  readonly windowFrames: readonly (Frame | undefined)[];
  /** Where the parts end: start frame, exchanges, repeats, non-cyclic window. */
  readonly started_s: number | undefined;
  readonly exchanged_s: number | undefined;
  readonly repeated_s: number | undefined;
  readonly spoken_s: number | undefined;
  /** Up to here frames are known. */
  readonly known_s: number;
}

/** More repeats than these are one block in a picture (our judgement). */
const mostRepeats = 24;

export function framesOf(planned: Planned): CycleFrames {
  const timetable = planned.timetable();
  const [started_s, busy_s, repeats_s] = [planned.start, planned.busy, planned.repeats].map(secondsOf);
  const exchanged_s = plus(started_s, busy_s);
  const repeated_s = plus(exchanged_s, repeats_s);
  const spoken_s = secondsOf(planned.used);
  const { gap, rate } = planned.network.profile;
  const gap_s = gap instanceof Missing || rate instanceof Missing ? undefined : gap.value / rate.value;
  /** A frame that has passed, gap included, at `end`. */
  const frame = (end_s?: number, takes_s?: number, line_s = takes_s, exchanges: readonly Exchange[] = []) =>
    end_s === undefined || takes_s === undefined || line_s === undefined || gap_s === undefined || line_s <= gap_s
      ? undefined
      : { from_s: end_s - takes_s, to_s: end_s - takes_s + line_s - gap_s, exchanges };
  const inSlots = (slots: readonly Slot[]): readonly Frame[] =>
    slots.flatMap(
      ({ end, takes, frame: line, exchanges }) =>
        frame(plus(started_s, secondsOf(end)), secondsOf(takes), secondsOf(line), exchanges) ?? [],
    );
  const commands = inSlots(timetable.commands);
  const answers = inSlots(timetable.answers);
  const again = longest(planned, timetable);
  const count = planned.network.repeats instanceof Missing ? 0 : planned.network.repeats.value;
  const repeats = Array.from({ length: count <= mostRepeats ? count : 0 }, (_, index) => {
    if (again === undefined || exchanged_s === undefined) return [];
    const begins_s = exchanged_s + index * again.takes_s;
    const command = frame(begins_s + again.command_s, again.command_s);
    const answer = frame(begins_s + again.takes_s, again.answer_s);
    return command && answer ? [{ command, answer }] : [];
  }).flat();
  let end_s = repeated_s;
  const windowFrames = planned.windowFrames.map((time) => {
    end_s = plus(end_s, secondsOf(time));
    return frame(end_s, secondsOf(time));
  });
  const start = frame(started_s, started_s);
  const ends = [start, ...commands, ...answers].map((each) => each?.to_s ?? 0);
  const known_s = ends.reduce((latest, each) => Math.max(latest, each), spoken_s ?? 0);
  return { start, commands, answers, repeats, windowFrames, started_s, exchanged_s, repeated_s, spoken_s, known_s };
}

const secondsOf = (time: Value<Quantity>): number | undefined => (time instanceof Missing ? undefined : time.value);

const plus = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined || b === undefined ? undefined : a + b;

/** What is reserved for each repeat: the longest exchange, or the longest frame through all stations and back. */
function longest(
  { repeatable, exchanges, network }: Planned,
  { commands, answers }: Timetable,
): { readonly takes_s: number; readonly command_s: number; readonly answer_s: number } | undefined {
  const takes_s = repeatable.reduce((most, each) => Math.max(most, secondsOf(each) ?? Number.NaN), 0);
  if (network.profile.discipline === 'summation') {
    const trip_s = secondsOf(answers[0]?.end ?? new Missing([]));
    const sent_s = secondsOf(commands[0]?.end ?? new Missing([]));
    if (trip_s === undefined || sent_s === undefined) return undefined;
    const frame_s = takes_s - (trip_s - sent_s);
    return { takes_s, command_s: frame_s, answer_s: frame_s };
  }
  const exchange = exchanges.find(({ turn }) => secondsOf(turn) === takes_s);
  const [command_s, answer_s] = [exchange?.command, exchange?.answer].map((each) => each && secondsOf(each));
  return command_s === undefined || answer_s === undefined ? undefined : { takes_s, command_s, answer_s };
}
