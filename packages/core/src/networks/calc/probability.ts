// What a number has to be to count as a probability or as a count.

/** Throws a RangeError that names what is no probability. */
export function mustBeProbability(value: number, what: string): void {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`${what} is a probability, and here ${value}`);
}

/** Throws a RangeError that names what is no whole number, or less than it may be. */
export function mustBeCount(value: number, least: number, what: string): void {
  if (!(Number.isInteger(value) && value >= least))
    throw new RangeError(`${what} is whole and ${least} or more, and here ${value}`);
}
