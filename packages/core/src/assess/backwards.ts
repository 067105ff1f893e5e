// Asking backwards: which value of one input just keeps the wanted reserve of a finding?
import { Finding, lackSentence } from '../checks/finding.ts';
import type { Verdict } from '../checks/margin.ts';
import type { Catalogue } from '../machine/catalogue.ts';
import { changeOf, isChange } from '../machine/change.ts';
import type { Machine } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { type Variation, vary } from '../machine/vary.ts';
import { nearest } from '../units/nearest.ts';
import { isLeaf, type Leaf } from '../working/quantity.ts';
import type { Shown } from '../working/working.ts';
import { type Assessment, assess } from './assess.ts';
import { isCounted } from './inputs-of.ts';
import { type Ladder, ladderOfDigits, ladderOfWholes, siOf, writingOf } from './ladder.ts';
import { type Change, nearestChange, type Outcome } from './nearest-change.ts';
import { numbersOf } from './numbers.ts';

export type Asking =
  | {
      readonly kind: 'just keeps';
      /** Assessed as it is written here: the finding holds. */
      readonly value: Shown;
      readonly side: 'at most' | 'at least';
      /** The next value that can be written, one unit more or less in the last digit. Assessed as well: it does not hold. */
      readonly beyond: string;
      readonly verdictBeyond: Verdict;
      /** How many values were tried. */
      readonly tried: number;
    }
  | {
      /** The values that were tried between these two all hold, or none of them does. */
      readonly kind: 'always holds' | 'never holds';
      readonly from: string;
      readonly upTo: string;
      readonly tried: number;
    }
  /** Demand, capacity and reserve stay what they are; of a finding of yes or no, its sentence. */
  | { readonly kind: 'does not matter'; readonly tried: number }
  | { readonly kind: 'refused'; readonly says: string; readonly advice: string };

export interface AskingOptions extends Variation {
  /** How many values are tried at most. Default 200 (our judgement: well under a second; few answers take more than 60). */
  readonly most?: number;
}

/**
 * Which value of the one input at `path` just keeps the wanted reserve of a finding, all else as it is. Values are whole
 * where they count something, and have four significant digits otherwise; both ends of the bracket are assessed as they
 * are printed. The search goes outwards from the present value on both sides and stops at the first verdict that begins
 * or ceases to be `holds`. Verdicts can come and go more than once: a multiple of the cycle moves stations between cycles,
 * a controller offers a few cycles only. Then the bracket is the one that is met nearest to the present value, and what
 * changes twice between two values that were tried is not seen. Never throws on what a user wrote.
 */
export function askBackwards(
  machine: Machine,
  catalogues: readonly Catalogue[],
  address: string,
  path: string,
  options: AskingOptions = {},
): Asking {
  const present = assess(resolve(machine, catalogues));
  const finding = findingOf(present, address);
  if (finding === undefined) return noFinding(present, address);
  const leaf = leafAt(present, path);
  if (leaf === undefined) return noNumber(machine, path);
  if (finding.verdict === 'unknown')
    return refused(`the finding ${address} is unknown: ${lackSentence(finding.lacks)}`, 'Settle that first');
  const barrier = barrierOf(machine, leaf, path, options);
  if (barrier !== undefined) return barrier;
  const varied = (text: string): Machine | undefined => possible(vary(machine, path, text, options), machine);
  const ladder = isWhole(leaf, (text) => varied(text) !== undefined) ? ladderOfWholes(leaf) : ladderOfDigits(leaf);
  const trials = new Map<number, Trial>([[ladder.present, finding]]);
  const tryAt = (rung: number): Trial => {
    const known = trials.get(rung);
    if (known !== undefined) return known;
    const changed = varied(ladder.textAt(rung));
    const trial =
      changed === undefined
        ? 'impossible'
        : (findingOf(assess(resolve(changed, catalogues), { only: address }), address) ?? 'gone');
    trials.set(rung, trial);
    return trial;
  };
  const { most = mostTried } = options;
  const change = nearestChange(
    ladder,
    (rung) => outcomeOf(tryAt(rung)),
    () => trials.size < most,
  );
  return answer(change, { path, leaf, ladder, finding, trials });
}

const mostTried = 200;

/** What a finding is with another value; the value may be one that the file cannot have, or end the finding. */
type Trial = Finding | 'impossible' | 'gone';

const findingOf = ({ findings }: Assessment, address: string): Finding | undefined =>
  findings.find((each) => each.address === address);

function outcomeOf(trial: Trial): Outcome {
  if (trial === 'impossible') return 'impossible';
  if (trial === 'gone' || !isTold(trial)) return 'unknown';
  return trial.verdict === 'holds' ? 'yes' : 'no';
}

const isTold = ({ verdict }: Finding): boolean => verdict !== 'unknown';

// ── the answer ───────────────────────────────────────────────────────────────────────────────────────────────────────

interface Tried {
  readonly path: string;
  readonly leaf: Leaf;
  readonly ladder: Ladder;
  readonly finding: Finding;
  readonly trials: ReadonlyMap<number, Trial>;
}

function answer(change: Change, { path, leaf, ladder, finding, trials }: Tried): Asking {
  const { textAt, valueAt } = ladder;
  const tried = trials.size;
  switch (change.kind) {
    case 'found': {
      const { yes, no } = change;
      const beyond = trials.get(no);
      return {
        kind: 'just keeps',
        value: { address: path, value: valueAt(yes), unit: leaf.unit, text: textAt(yes) },
        side: no > yes ? 'at most' : 'at least',
        beyond: textAt(no),
        verdictBeyond: beyond instanceof Finding ? beyond.verdict : 'unknown',
        tried,
      };
    }
    case 'none': {
      const told = [...trials.values()].filter((trial) => trial instanceof Finding).filter(isTold);
      if (told.length < 2)
        return refused(`no other value at '${path}' leaves ${finding.address} with a verdict`, 'Ask for another input');
      if (!told.some((trial) => moves(trial, finding))) return { kind: 'does not matter', tried };
      const kind = finding.verdict === 'holds' ? 'always holds' : 'never holds';
      return { kind, from: textAt(change.from), upTo: textAt(change.upTo), tried };
    }
    case 'stopped':
      return refused(
        `after ${tried} values it is not settled: ${textAt(change.yes)} keeps it, ${textAt(change.no)} does not`,
        'Ask again and let more values be tried',
      );
  }
}

function moves(to: Finding, from: Finding): boolean {
  if (from.demand === undefined) return to.says !== from.says;
  return (['demand', 'capacity', 'reserve'] as const).some((key) => to[key]?.value !== from[key]?.value);
}

// ── what cannot be asked ─────────────────────────────────────────────────────────────────────────────────────────────

const refused = (says: string, advice: string): Asking => ({
  kind: 'refused',
  says: sentence(says),
  advice: sentence(advice),
});

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1).replace(/(?<![.?])$/, '.');

function noFinding({ findings }: Assessment, address: string): Asking {
  const addresses = findings.map((each) => each.address);
  const near = nearest(address, addresses);
  return refused(
    `there is no finding '${address}'`,
    near === undefined ? 'Name one of the findings of the machine' : `Did you mean '${near}'?`,
  );
}

function noNumber({ reading }: Machine, path: string): Asking {
  const node = reading.places.get(path)?.node;
  return node?.kind === 'leaf' && (node.text === 'open' || node.text === 'unknown')
    ? refused(`'${path}' is ${node.text}`, 'Write a value there, from which the search can start')
    : refused(`no finding rests on a number at '${path}'`, 'Ask for an input of the finding');
}

/** Why no other value can be written there: it is counted, belongs to a part as a whole, or is written elsewhere. */
function barrierOf(machine: Machine, leaf: Leaf, path: string, { at = 'here' }: Variation): Asking | undefined {
  const { kind, via, writtenAt, written } = leaf.by;
  if (isCounted(leaf)) return refused(`'${path}' is ${via.join(', ')}`, `Change ${writtenAt}, and it is counted anew`);
  if (kind === 'catalogue' && via.length === 0)
    return refused(`'${path}' is one of several values of a part`, 'Choose another part');
  const change = changeOf(machine, { path, value: written, at });
  if (isChange(change)) return undefined;
  const from = via.length === 0 ? '' : `; its value comes by ${via.join(', ')}`;
  return change.kind === 'refused'
    ? refused(`${change.message}${from}`, change.remedy)
    : refused(`'${path}' takes its value from ${writtenAt}`, `Ask for ${writtenAt}`);
}

/** A varied machine, unless the file cannot have the value: it is out of range, or no whole number where one is due. */
function possible(varied: Machine | undefined, machine: Machine): Machine | undefined {
  const refusals = ({ problems }: Machine): number =>
    problems.filter(({ code }) => code === 'out-of-range' || code === 'number-expected').length;
  return varied && refusals(varied) <= refusals(machine) ? varied : undefined;
}

/** The number at a path, or the one that is written there for others. */
function leafAt(assessment: Assessment, path: string): Leaf | undefined {
  const numbers = numbersOf(assessment);
  const found = numbers.get(path) ?? numbers.get(path.replace(/\.measured$/, ''));
  if (found !== undefined) return isLeaf(found) ? found : undefined;
  return [...numbers.values()].filter(isLeaf).find(({ by }) => by.kind !== 'catalogue' && by.writtenAt === path);
}

/** Whether a number counts something: octets or bits, or what the file takes no halves of. */
function isWhole(leaf: Leaf, reads: (text: string) => boolean): boolean {
  const { number, spelling, behind } = writingOf(leaf);
  if (!Number.isInteger(number) || number < 0) return false;
  if (leaf.unit === 'bit') return (siOf(1, spelling, 'bit') ?? 0) <= octet_bit;
  return leaf.unit === '1' && !reads(number + 0.5 + behind) && !reads(number - 0.5 + behind);
}

const octet_bit = 8;
