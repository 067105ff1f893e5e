// What passes the controller's port in one cycle, frame by frame: what a picture of the cycle is drawn from.
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { oneAfterAnother } from './calc/polled.ts';
import { commandEnd } from './calc/streams.ts';
import { throughAll } from './calc/summation.ts';
import type { Exchange } from './ways.ts';

type Time = Value<Quantity<'s'>>;

/** Both directions, each in the order of time. */
export interface Timetable {
  readonly commands: readonly Slot[];
  readonly answers: readonly Slot[];
}

/** A frame on the line; its first bit passes the port at `end - takes`. */
export interface Slot {
  /** Whose data the frame carries. */
  readonly exchanges: readonly Exchange[];
  /** When the next one may follow, counted from the first command. */
  readonly end: Time;
  readonly takes: Time;
  /** The frame with its gap: all that it takes, unless the profile adds a pause. */
  readonly frame: Time;
}

export const nothingSent: Timetable = { commands: [], answers: [] };

/** Exchanges one after another; the end of the last command is known already. */
export function inTurn(exchanges: readonly Exchange[], lastCommandEnd: Time, about: string): Timetable {
  const commands: Slot[] = [];
  const answers: Slot[] = [];
  let before: Time | undefined;
  for (const exchange of exchanges) {
    const { command, answer, turn, device } = exchange;
    const sent =
      exchange === exchanges.at(-1)
        ? lastCommandEnd
        : before === undefined
          ? command
          : given({ b: before, a: command }, (known) => commandEnd(known, `${about}.${device.name}`));
    before = given({ x: before === undefined ? [turn] : [before, turn] }, (known) =>
      oneAfterAnother(known, `${about}.until_${device.name}`),
    );
    commands.push({ exchanges: [exchange], end: sent, takes: command, frame: command });
    answers.push({ exchanges: [exchange], end: before, takes: answer, frame: answer });
  }
  return { commands, answers };
}

/** Commands that leave without a pause, with the end of each. */
export const backToBack = (exchanges: readonly Exchange[], ends: readonly Time[]): readonly Slot[] =>
  exchanges.map((exchange, index) => ({
    exchanges: [exchange],
    end: ends[index]!,
    takes: exchange.command,
    frame: exchange.command,
  }));

/** Frames that leave one behind another, pass through all stations, and come back in the same order. */
export function thereAndBack(
  carried: readonly (readonly Exchange[])[],
  frames: readonly Quantity<'s'>[],
  trip: Time,
  about: string,
): Timetable {
  const commands: Slot[] = [];
  const answers: Slot[] = [];
  let before: Time | undefined;
  for (const [index, frame] of frames.entries()) {
    const name = `${about}.frame_${index + 1}`;
    const end = before === undefined ? frame : given({ b: before, a: frame }, (known) => commandEnd(known, name));
    const back = given({ a: [end], t: trip }, (known) => throughAll(known, name));
    commands.push({ exchanges: carried[index]!, end, takes: frame, frame });
    answers.push({ exchanges: carried[index]!, end: back, takes: frame, frame });
    before = end;
  }
  return { commands, answers };
}
