// The refusal of measures that no motion can have: each must be over 0 and finite.

/** The measures by the words that a sentence has for them. Throws a RangeError that names the first wrong one. */
export function mustBeOverZero(measures: Readonly<Record<string, number>>): void {
  for (const [words, value] of Object.entries(measures))
    if (!(value > 0 && value < Infinity)) throw new RangeError(`${words} must be over 0 and finite, and is ${value}`);
}
