// Whether a first-order budget may be believed: the terms of second order of a model of independent inputs.

export interface ModelInput {
  readonly value: number;
  /** Its standard uncertainty. */
  readonly standard: number;
}

export type Model = (values: readonly number[]) => number;

export interface SecondOrder {
  readonly value: number;
  /** How much the result changes with each input. */
  readonly sensitivities: readonly number[];
  /** Standard uncertainty by the first-order terms, and with those of second order. */
  readonly first: number;
  readonly second: number;
  /** How much of the greater variance of the two is between them. */
  readonly share: number;
  /** Set where the first order is not to be believed: by trials then, see `runModel`. */
  readonly refused: 'meaningless' | undefined;
}

/** The share of the variance from which on the first order is meaningless: our judgement. */
export const meaninglessFrom = 0.1;

/** Differences are taken over this share of a standard uncertainty: their own error is then under 1 % of the second order. */
const step = 0.1;

/**
 * JCGM 100:2008, 5.1.2, note: to the variance comes Σ Σ (½·f_ij² + f_i·f_ijj)·u_i²·u_j². It holds for independent inputs of
 * about normal distribution. Derivatives are central differences, exact for a model of third degree.
 */
export function secondOrder(model: Model, inputs: readonly ModelInput[]): SecondOrder {
  const at = (...moved: readonly (readonly [number, number])[]): number => {
    const values = inputs.map(({ value }) => value);
    for (const [input, steps] of moved) values[input]! += steps * step * inputs[input]!.standard;
    return model(values);
  };
  const value = at();
  const slopes = inputs.map((_, i) => (8 * (at([i, 1]) - at([i, -1])) - (at([i, 2]) - at([i, -2]))) / (12 * step));
  let more = 0;
  inputs.forEach((_, i) => {
    inputs.forEach((_, j) => {
      if (i === j) {
        const [up, down] = [at([i, 1]), at([i, -1])];
        const curve = (up - 2 * value + down) / step ** 2;
        const twist = (at([i, 2]) - 2 * up + 2 * down - at([i, -2])) / (2 * step ** 3);
        more += curve ** 2 / 2 + slopes[i]! * twist;
      } else {
        const [uu, ud, du, dd] = [at([i, 1], [j, 1]), at([i, 1], [j, -1]), at([i, -1], [j, 1]), at([i, -1], [j, -1])];
        const curve = (uu - ud - du + dd) / (4 * step ** 2);
        const twist = (uu + ud - 2 * at([i, 1]) - (du + dd - 2 * at([i, -1]))) / (2 * step ** 3);
        more += curve ** 2 / 2 + slopes[i]! * twist;
      }
    });
  });
  const first = slopes.reduce((sum, slope) => sum + slope ** 2, 0);
  const share = Math.abs(more) / Math.max(first, first + more);
  return {
    value,
    sensitivities: slopes.map((slope, i) => slope / inputs[i]!.standard),
    first: Math.sqrt(first),
    second: Math.sqrt(first + more),
    share,
    refused: first > 0 && share <= meaninglessFrom ? undefined : 'meaningless',
  };
}
