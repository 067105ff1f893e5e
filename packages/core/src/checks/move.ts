// Moving an input along its span, as a screen does: from a place on the span to the text that goes into the file.
import { printQuantity, unitChoice } from '../units/print-quantity.ts';
import type { Origin } from '../working/origin.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import type { Input } from './view.ts';

/** Where an input stands on its span, 0 to 1; nothing where it has no span or is missing. */
export function placeOf(input: Input): number | undefined {
  if (!(input.value instanceof Quantity)) return undefined;
  const { value } = input.value;
  if (input.offered !== undefined) {
    const at = input.offered.findIndex((each) => same(each.value, value));
    return at < 0 ? undefined : at / Math.max(input.offered.length - 1, 1);
  }
  if (input.span === undefined) return undefined;
  const { least, most } = input.span;
  return within((value - least) / (most - least));
}

/** What is written when an input is moved to a place on its span, 0 to 1. */
export function textAt(input: Input, place: number): string | undefined {
  if (input.offered !== undefined) {
    const chosen = input.offered[Math.round(within(place) * (input.offered.length - 1))];
    return chosen && print(chosen);
  }
  if (input.span === undefined || !(input.value instanceof Quantity)) return undefined;
  const { least, most } = input.span;
  return textOf(input.value, stepped(input, least + within(place) * (most - least)));
}

/** What is written when an input is moved by so many steps; it stops at the ends of its span. */
export function textAfter(input: Input, steps: number): string | undefined {
  if (!(input.value instanceof Quantity)) return undefined;
  const { value } = input.value;
  if (input.offered !== undefined) {
    const beyond = input.offered.filter((each) => (steps < 0 ? each.value < value : each.value > value));
    const reached = steps < 0 ? beyond.at(steps) : beyond[steps - 1];
    const chosen = reached ?? (steps < 0 ? beyond[0] : beyond.at(-1));
    return print(chosen ?? input.value);
  }
  if (input.span === undefined) return undefined;
  const { least, most } = input.span;
  return textOf(input.value, Math.min(Math.max(stepped(input, value + steps * stepOf(input)), least), most));
}

/** A step of 1, 2 or 5 that goes about 200 times into the span, where the input has none of its own (our judgement). */
function stepOf({ span, value }: Input): number {
  if (span?.step !== undefined) return span.step;
  // In the unit that it is written in, so that the numbers come out round there.
  const unit = (value as Quantity).unit;
  const one = Number(printQuantity(1, unit, { as: unitOf(value as Quantity), digits: 17 }).split(' ')[0]);
  const fine = ((span!.most - span!.least) / 200) * one;
  const decade = 10 ** Math.floor(Math.log10(fine));
  const round = [1, 2, 5, 10].find((each) => each * decade >= fine * 0.999)!;
  return (round * decade) / one;
}

const stepped = (input: Input, value: number): number => {
  const step = stepOf(input);
  return Math.round(value / step) * step;
};

const unitOf = (quantity: Quantity): string =>
  isLeaf(quantity) ? (quantity.by as Origin).writtenUnit : unitChoice(quantity.value, quantity.unit);

/** Twelve digits take away what steps leave behind in the last places of a number. */
const textOf = (quantity: Quantity, value: number): string =>
  printQuantity(value, quantity.unit, { as: unitOf(quantity), digits: 12 });

const within = (place: number): number => Math.min(Math.max(place, 0), 1);
const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.abs(b);
