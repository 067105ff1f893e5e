// Asking backwards: which value of one input just keeps the wanted reserve of a finding?
import type { Finding } from '../checks/finding.ts';
import type { Verdict } from '../checks/margin.ts';
import type { Catalogue } from '../machine/catalogue.ts';
import type { Machine } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { vary } from '../machine/vary.ts';
import { printQuantity, unitChoice } from '../units/print-quantity.ts';
import type { Unit } from '../units/si.ts';
import type { Origin, OriginKind } from '../working/origin.ts';
import { isLeaf, type Quantity } from '../working/quantity.ts';
import { print, type Shown, walk } from '../working/working.ts';
import { type Assessment, assess } from './assess.ts';

export type Asking =
  | {
      readonly kind: 'just keeps';
      /** Proven: assessed with it, the finding holds. */
      readonly value: Shown;
      readonly side: 'at most' | 'at least';
      /** The next value that can be written beyond it. Proven: assessed with it, the finding does not hold. */
      readonly beyond: string;
      readonly verdictBeyond: Verdict;
      /** How many machines were assessed. */
      readonly tried: number;
    }
  /** It holds at every value that was tried, up to these on both sides. */
  | { readonly kind: 'always holds'; readonly upTo: string; readonly tried: number }
  | { readonly kind: 'never holds'; readonly upTo: string; readonly tried: number }
  | { readonly kind: 'does not matter' }
  | { readonly kind: 'refused'; readonly says: string; readonly advice: string };

/** An input that a finding rests on. */
export interface Candidate {
  readonly path: string;
  readonly text: string;
  readonly origin: OriginKind;
}

/** Values of the machine that a finding rests on and that can be changed in the file; given ones first. */
export function inputsOf(assessment: Assessment, address: string): readonly Candidate[] {
  const finding = assessment.findings.find((each) => each.address === address);
  if (finding === undefined) return [];
  const order: readonly OriginKind[] = ['given', 'measured', 'planned', 'assumed', 'catalogue'];
  return [...leavesOf(finding).values()]
    .map((each) => ({ path: each.about, text: print(each), origin: (each.by as Origin).kind }))
    .sort((a, b) => order.indexOf(a.origin) - order.indexOf(b.origin));
}

/** By path; what is counted from the structure, and what a catalogue says of no place of the file, cannot be written. */
function leavesOf({ demand, capacity }: Finding): ReadonlyMap<string, Quantity> {
  const leaves = new Map<string, Quantity>();
  const seen = new Set<Quantity>();
  for (const each of [demand, capacity]) {
    if (each === undefined) continue;
    walk(
      each,
      (quantity) => {
        const counted = isLeaf(quantity) && (quantity.by as Origin).via.some((via) => via.startsWith('counted in '));
        if (isLeaf(quantity) && !counted) leaves.set(quantity.about, quantity);
      },
      seen,
    );
  }
  return leaves;
}

/** More machines than this are not assessed for one answer (our judgement: well under a second). */
const mostTried = 200;
/** Values are looked for from a millionth to a million times the present one (our judgement). */
const widest = 1e6;
/** Digits of an answer. */
const digits = 4;

/**
 * Starts from the present value and goes outwards, in steps that grow, to the nearest value at which the finding begins
 * or ceases to hold, then halves the stretch. Where verdicts come and go more than once, the answer is the change that
 * is nearest to the present value. Never throws on what a user wrote.
 */
export function askBackwards(
  machine: Machine,
  catalogues: readonly Catalogue[],
  address: string,
  path: string,
): Asking {
  const present = assess(resolve(machine, catalogues));
  const finding = present.findings.find((each) => each.address === address);
  if (finding === undefined) return refused(`There is no finding ${address}.`, 'The margins list all findings.');
  const leaf = leavesOf(finding).get(path);
  if (leaf === undefined) {
    return machine.where(path) === undefined
      ? refused(`${address} rests on no value ${path}.`, 'Choose one of the values of its working.')
      : { kind: 'does not matter' };
  }
  if (finding.verdict === 'unknown')
    return refused(`${address} is unknown as yet.`, 'Give what it lacks first; the finding says what.');
  return new Search(machine, catalogues, address, leaf).answer(finding);
}

const refused = (says: string, advice: string): Asking => ({ kind: 'refused', says, advice });

class Search {
  readonly #machine: Machine;
  readonly #catalogues: readonly Catalogue[];
  readonly #address: string;
  readonly #leaf: Quantity;
  readonly #known = new Map<string, Finding | undefined>();

  constructor(machine: Machine, catalogues: readonly Catalogue[], address: string, leaf: Quantity) {
    this.#machine = machine;
    this.#catalogues = catalogues;
    this.#address = address;
    this.#leaf = leaf;
  }

  answer(present: Finding): Asking {
    const start = this.#leaf.value;
    const holds = present.verdict === 'holds';
    const ends: string[] = [];
    let moved = false;
    for (const direction of this.#directions(present)) {
      let inside = start;
      for (const next of outwards(start, direction, this.#step)) {
        const value = this.#written(next);
        const found = this.#at(value);
        if (found === undefined || this.#known.size >= mostTried) break;
        moved ||= !sameNumbers(found, present);
        if ((found.verdict === 'holds') !== holds) return this.#halve(holds ? inside : value, holds ? value : inside);
        inside = value;
      }
      ends.push(this.#text(inside));
    }
    if (!moved) return { kind: 'does not matter' };
    const upTo = ends.join(' and ');
    return { kind: holds ? 'always holds' : 'never holds', upTo, tried: this.#known.size };
  }

  /** Away from the reserve when it is kept, towards it when it is not; one small step tells which way that is. */
  #directions(present: Finding): readonly (1 | -1)[] {
    const up = this.#at(this.#written(this.#leaf.value + Math.max(this.#step, Math.abs(this.#leaf.value) * 0.05)));
    const rises = up !== undefined && (up.margin?.value ?? 0) > (present.margin?.value ?? 0);
    const first = rises === (present.verdict === 'holds') ? -1 : 1;
    return [first, first === 1 ? -1 : 1];
  }

  /** From a value that holds and one that does not to two neighbours, which are what can be written next to each other. */
  #halve(good: number, bad: number): Asking {
    let [inside, outside] = [good, bad];
    while (this.#known.size < mostTried) {
      const middle = this.#written((inside + outside) / 2);
      if (middle === this.#written(inside) || middle === this.#written(outside)) break;
      if (this.#at(middle)?.verdict === 'holds') inside = middle;
      else outside = middle;
    }
    // What lies between two neighbours in the fourth digit is not written; the neighbour itself is proven as well.
    const beyond = this.#neighbour(inside, outside);
    const verdictBeyond = this.#at(beyond)?.verdict;
    if (verdictBeyond === undefined || this.#at(inside)?.verdict !== 'holds' || verdictBeyond === 'holds')
      return refused('No two neighbouring values were found between which the verdict changes.', 'Try another input.');
    const { unit } = this.#leaf;
    return {
      kind: 'just keeps',
      value: { address: this.#leaf.about, value: inside, unit, text: this.#text(inside) },
      side: beyond > inside ? 'at most' : 'at least',
      beyond: this.#text(beyond),
      verdictBeyond,
      tried: this.#known.size,
    };
  }

  /** The next value that can be written, from one towards another. */
  #neighbour(from: number, to: number): number {
    const unit = this.#step > 0 ? this.#step : 10 ** (Math.floor(Math.log10(Math.abs(from))) - digits);
    for (let by = 1; by <= 20; by++) {
      const next = this.#written(from + Math.sign(to - from) * by * unit);
      if (next !== this.#written(from)) return next;
    }
    return to;
  }

  /** Counts and octets are whole; everything else has no step of its own. */
  get #step(): number {
    const { unit } = this.#leaf;
    const { writtenUnit } = this.#leaf.by as Origin;
    if (unit === 'bit') return 8;
    return unit === '1' && writtenUnit !== '%' && Number.isInteger(this.#leaf.value) ? 1 : 0;
  }

  get #as(): string {
    const { value, unit } = this.#leaf;
    return (this.#leaf.by as Origin).writtenUnit || unitChoice(value, unit);
  }

  #text(value: number): string {
    const { unit } = this.#leaf;
    return printQuantity(value, unit as Unit, { as: this.#as, digits: this.#step > 0 ? 12 : digits });
  }

  /** A value as it would be written. */
  #written(value: number): number {
    if (this.#step > 0) return Math.max(0, Math.round(value / this.#step)) * this.#step;
    return value === 0 ? 0 : Number(value.toPrecision(digits));
  }

  #at(value: number): Finding | undefined {
    const text = this.#text(value);
    if (!this.#known.has(text)) {
      const varied = vary(this.#machine, this.#leaf.about, text);
      const design = varied && resolve(varied, this.#catalogues);
      const worse = design !== undefined && design.problems.length > this.#machine.problems.length;
      const found = worse || design === undefined ? [] : assess(design).findings;
      this.#known.set(
        text,
        found.find((each) => each.address === this.#address && each.verdict !== 'unknown'),
      );
    }
    return this.#known.get(text);
  }
}

function* outwards(start: number, direction: 1 | -1, step: number): Generator<number> {
  if (step > 0) {
    for (let by = step; by <= widest * step; by = by < 16 * step ? by + step : by * 2) {
      const next = start + direction * by;
      if (next < 0) return;
      yield next;
    }
    return;
  }
  if (start === 0) return;
  for (let factor = 1.05; factor <= widest; factor = factor < 2 ? factor * 1.15 : factor * 2)
    yield direction > 0 ? start * factor : start / factor;
}

const sameNumbers = (a: Finding, b: Finding): boolean =>
  a.demand?.value === b.demand?.value && a.capacity?.value === b.capacity?.value && a.verdict === b.verdict;
