// What stands in the place of a number that is not there, and the one way to compute with numbers that may be absent.
import { addressOf, Quantity } from './quantity.ts';

export type Why = 'absent' | 'open' | 'unknown' | 'problem' | 'not finite';

/** One thing that is missing, and what would settle it. */
export interface Lack {
  readonly path: string;
  readonly why: Why;
  /** What is due there: 'a time', 'a part of kind drive'. */
  readonly due: string;
  /** What the user could write there. */
  readonly example: string;
}

export class Missing {
  readonly lacks: readonly Lack[];
  constructor(lacks: readonly Lack[]) {
    this.lacks = lacks;
  }
}

export const missing = (path: string, why: Why, due: string, example: string): Missing =>
  new Missing([{ path, why, due, example }]);

/** Whether nothing was said at all; what is open, unknown or spoilt was said. */
export const isAbsent = (value: unknown): value is Missing =>
  value instanceof Missing && value.lacks[0]?.why === 'absent';

/** Whether it is left to be chosen. */
export const isOpen = (value: unknown): value is Missing => value instanceof Missing && value.lacks[0]?.why === 'open';

/** Whether nothing is known of it and nothing is wrong with it: it is not said, or left to be chosen. */
export const isUnsaid = (value: unknown): value is Missing => isAbsent(value) || isOpen(value);

export type Known<T> = Exclude<T, Missing>;
type Asked = Readonly<Record<string, unknown>>;
type KnownValue<V> = V extends readonly (infer E)[] ? readonly Known<E>[] : Known<V>;
type KnownOf<A extends Asked> = { readonly [K in keyof A]: KnownValue<A[K]> };

/**
 * Computes `of` when nothing that is asked for is missing (lists are looked through); otherwise gives all that lacks.
 * Domain code goes through here, so that it never sees an absent value.
 */
export function given<const A extends Asked, R>(asks: A, of: (known: KnownOf<A>) => R): R | Missing {
  const lacks: Lack[] = [];
  for (const key in asks) collect(asks[key], lacks);
  return lacks.length > 0 ? new Missing(unique(lacks)) : of(asks as unknown as KnownOf<A>);
}

function collect(value: unknown, into: Lack[]): void {
  if (value instanceof Missing) into.push(...value.lacks);
  else if (Array.isArray(value)) for (const each of value) collect(each, into);
  else if (value instanceof Quantity && !Number.isFinite(value.value)) {
    into.push({ path: addressOf(value), why: 'not finite', due: 'a number that is finite', example: '' });
  }
}

/** Each lack once, however many values rest on what is missing. */
export const unique = (lacks: readonly Lack[]): readonly Lack[] => [
  ...new Map(lacks.map((lack) => [`${lack.path} ${lack.why}`, lack])).values(),
];
