// networks, timing: how a network serves the tasks, chains and axes that hang on it.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

export interface NetworkService {
  readonly name: string;
  readonly path: string;
  readonly cycle: Value<Quantity<'s'>>;
  /** Whether its cycles begin on the clock of tasks and other networks; nothing where the file does not say it. */
  readonly clock: Value<'shared' | 'own'> | undefined;
  /** When they do, on that clock; nothing where the file does not say it. */
  readonly offset: Value<Quantity<'s'>> | undefined;
  /** By how much a cycle may start late; nothing where the file does not say it. */
  readonly startJitter: Value<Quantity<'s'>> | undefined;
  /** The motion kernel in its fullest cycle. */
  readonly kernel: Value<Quantity<'s'>>;
  readonly stations: readonly ServedStation[];
}

/** A station that answers, an axis among them. */
export interface ServedStation {
  readonly name: string;
  readonly path: string;
  readonly isAxis: boolean;
  /** Every which cycle it is served in; absent where that is each one. */
  readonly every: Value<Quantity<'1'>> | undefined;
  /** From one update of it to the next. */
  readonly period: Value<Quantity<'s'>>;
  /** First bit of a command at the station after it left the controller. */
  readonly arrival: Value<Quantity<'s'>>;
  /** First bit of its answer at the controller after the command left. */
  readonly answered: Value<Quantity<'s'>>;
}
