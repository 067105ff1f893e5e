// A finding is the answer to one check for one subject.

import type { Unit } from '../units/si.ts';
import { assumed } from '../working/assumed.ts';
import { type Lack, Missing, unique } from '../working/missing.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import { type Asked, type Check, hasMargin, type MarginCheck, type YesNoCheck } from './check.ts';
import { equalWithin, margin, type Verdict, verdictOf } from './margin.ts';

/** What a finding may know beside its verdict. */
interface Known {
  readonly demand?: Quantity;
  readonly capacity?: Quantity;
  /** A step from demand and capacity; absent for yes or no, without a figure, and when something is missing. */
  readonly margin?: Quantity | undefined;
  /** The wanted share of the capacity; absent where nothing is to be kept free. */
  readonly reserve?: Quantity | undefined;
  /** The least capacity that keeps the reserve, where the capacity is to be chosen. */
  readonly enough?: Quantity | undefined;
  /** What is missing, for `unknown`. */
  readonly lacks?: readonly Lack[];
}

/** What a finding is about; the sentence is made when it is asked for, since most variants of a machine never show it. */
export class Finding {
  /** `check@subject`. */
  readonly address: string;
  readonly check: string;
  readonly title: string;
  readonly subject: string;
  readonly path: string;
  readonly verdict: Verdict;
  readonly demand: Quantity | undefined;
  readonly capacity: Quantity | undefined;
  readonly margin: Quantity | undefined;
  readonly reserve: Quantity | undefined;
  readonly enough: Quantity | undefined;
  readonly lacks: readonly Lack[];
  /** What helps, of a finding that fails or is thin. */
  readonly advice: string | undefined;
  readonly #sentence: () => string;

  constructor(head: Head, verdict: Verdict, known: Known, sentence: () => string) {
    this.address = head.address;
    this.check = head.check;
    this.title = head.title;
    this.subject = head.subject;
    this.path = head.path;
    this.verdict = verdict;
    this.demand = known.demand;
    this.capacity = known.capacity;
    this.margin = known.margin;
    this.reserve = known.reserve;
    this.enough = known.enough;
    this.advice = verdict === 'fails' || verdict === 'thin' ? head.advice : undefined;
    this.lacks = known.lacks ?? [];
    this.#sentence = sentence;
  }

  get says(): string {
    return this.#sentence();
  }
}

interface Head {
  readonly address: string;
  readonly check: string;
  readonly title: string;
  readonly subject: string;
  readonly path: string;
  readonly advice: string;
}

/** A check together with its subjects, for lists of checks whose subjects differ. */
export interface Question<In> {
  readonly id: string;
  readonly title: string;
  readonly asks: string;
  readonly page: string;
  readonly advice: string;
  /** Absent for a check that answers yes or no. */
  readonly reserve?: MarginCheck<never>['reserve'];
  readonly ask: (input: In, reserve: Quantity<'1'> | Missing | undefined) => readonly Finding[];
}

export function question<In, S>(check: Check<S> & Asked<In, S>): Question<In> {
  const { id, title, asks, page, advice } = check;
  return {
    id,
    title,
    asks,
    page,
    advice,
    ...(hasMargin(check) ? { reserve: check.reserve } : {}),
    ask: (input, reserve) => check.subjects(input).map((subject) => find(check, subject, reserve)),
  };
}

/** Asks a check of a subject. `reserve` is what the user wants, when the file says it. */
export function find<S>(check: Check<S>, subject: S, reserve: Quantity<'1'> | Missing | undefined): Finding {
  const name = check.name(subject);
  const head = {
    address: `${check.id}@${name}`,
    check: check.id,
    title: check.title,
    subject: name,
    path: check.path(subject),
    advice: check.advice,
  };
  return hasMargin(check) ? weigh(check, subject, reserve, head) : answer(check, subject, head);
}

function answer<S>(check: YesNoCheck<S>, subject: S, head: Head): Finding {
  const given = check.answer(subject);
  if (given instanceof Missing) return new Finding(head, 'unknown', given, () => lackSentence(given.lacks));
  return new Finding(head, given.yes ? 'holds' : 'fails', {}, () => given.because);
}

function weigh<S>(check: MarginCheck<S>, subject: S, wanted: Quantity<'1'> | Missing | undefined, head: Head): Finding {
  const demand = finite(check.demand(subject));
  const capacity = finite(check.capacity(subject));
  const wish = check.wish?.(subject) ?? wanted ?? assumedReserve(check);
  const reserve = wish && finite(wish);
  if (demand instanceof Missing || capacity instanceof Missing || reserve instanceof Missing) {
    const lacks = unique([demand, capacity, reserve].flatMap((each) => (each instanceof Missing ? each.lacks : [])));
    const known = {
      ...(demand instanceof Missing ? {} : { demand }),
      ...(capacity instanceof Missing ? {} : { capacity }),
      ...(reserve instanceof Missing ? {} : { reserve }),
      lacks,
    };
    const { whenOpen } = check;
    if (whenOpen === undefined || demand instanceof Missing) {
      return new Finding(head, 'unknown', known, () => lackSentence(lacks));
    }
    const least =
      reserve === undefined || reserve instanceof Missing ? undefined : whenOpen.enough(demand, reserve, subject);
    const enough = least !== undefined && Number.isFinite(least.value) && least.value > 0 ? least : undefined;
    const says = (): string => `${whenOpen.says(demand, enough, subject)}; ${lackSentence(lacks)}`;
    return new Finding(head, 'unknown', { ...known, enough }, says);
  }
  if (demand.unit !== capacity.unit)
    throw new Error(`${check.id}: a demand in ${demand.unit}, a capacity in ${capacity.unit}`);
  const verdict = verdictOf(demand.value, capacity.value, reserve?.value ?? 0);
  const share = capacity.value > 0 ? margin({ C: capacity, D: demand }, head.address) : undefined;
  const says = (): string =>
    check.says(print(demand), print(capacity), subject) + whyEnough(demand, capacity, reserve, verdict);
  return new Finding(head, verdict, { demand, capacity, margin: share, reserve }, says);
}

/** Why a limit that is met exactly holds all the same. */
function whyEnough(demand: Quantity, capacity: Quantity, reserve: Quantity | undefined, verdict: Verdict): string {
  if (verdict !== 'holds' || Math.abs(capacity.value - demand.value) > equalWithin * capacity.value) return '';
  return reserve === undefined
    ? '; met exactly, and no reserve is wanted on what is stated'
    : `; met exactly, and ${addressOf(reserve)} is ${print(reserve)}`;
}

/** A value that is not finite is never compared; the step is named instead. */
function finite<U extends Unit>(value: Quantity<U> | Missing): Quantity<U> | Missing {
  if (value instanceof Missing || Number.isFinite(value.value)) return value;
  return new Missing([{ path: addressOf(value), why: 'not finite', due: 'a finite number', example: '' }]);
}

/** A check that keeps nothing free by default has no reserve. */
function assumedReserve<S>(check: MarginCheck<S>): Quantity<'1'> | undefined {
  const { share, source, because } = check.reserve;
  if (share === 0) return undefined;
  return assumed(`reserves.${check.id}`, share, '1', { source, because, as: '%' });
}

/** What is missing and what would settle it, in a sentence. */
export function lackSentence(lacks: readonly Lack[]): string {
  return lacks
    .map(({ path, why, due, example }) => {
      if (why === 'not finite') return `${path} has no finite value`;
      const state = why === 'absent' ? 'is not given' : why === 'problem' ? 'has a problem' : `is ${why}`;
      return `${path} ${state}: ${due}${example === '' ? '' : `, such as ${example}`}`;
    })
    .join('; ');
}
