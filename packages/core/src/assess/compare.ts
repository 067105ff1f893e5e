// Two states of one machine held against each other: which inputs and parts differ, which findings come, go, move or flip.
import type { Finding } from '../checks/finding.ts';
import { equalWithin, type Verdict } from '../checks/margin.ts';
import { format, type SectionName } from '../machine/format.ts';
import type { Machine } from '../machine/machine.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
import { type Shown, shown } from '../working/working.ts';
import type { Assessment } from './assess.ts';

export interface ComparedFinding {
  readonly margin?: Shown;
  readonly verdict: Verdict;
}

export interface FindingChange {
  readonly address: string;
  readonly title: string;
  readonly subject: string;
  /** Absent for a finding that appears. */
  readonly before?: ComparedFinding;
  /** Absent for a finding that goes. */
  readonly after?: ComparedFinding;
  /** Whether the verdict is another one; a finding that appears or goes had none, or has none. */
  readonly flips: boolean;
}

export interface Comparison {
  /** Values of the file that differ, as they are written, at the path where they are; absent in a state that lacks them. */
  readonly inputs: readonly { readonly path: string; readonly before?: string; readonly after?: string }[];
  /** Flips first, the worst of them on top, then by how far the margin moves. */
  readonly findings: readonly FindingChange[];
  /** Parts that are used more or less often. */
  readonly parts: readonly { readonly part: string; readonly before: number; readonly after: number }[];
}

/** What differs between two states, as plain data; nothing where they say the same. Never throws. */
export const compare = (before: Assessment, after: Assessment): Comparison => ({
  inputs: inputsThatDiffer(before.design.machine, after.design.machine),
  findings: findingsThatMove(before, after),
  parts: partsThatDiffer(before, after),
});

// ── inputs ───────────────────────────────────────────────────────────────────────────────────────────────────────────

function inputsThatDiffer(before: Machine, after: Machine): Comparison['inputs'] {
  const [old, now] = [valuesIn(before), valuesIn(after)];
  return [...new Set([...now.keys(), ...old.keys()])].flatMap((path) => {
    const [was, is] = [old.get(path), now.get(path)];
    if (was === is) return [];
    return [{ path, ...(was === undefined ? {} : { before: was }), ...(is === undefined ? {} : { after: is }) }];
  });
}

/** Every value of the file, by the path at which it is written, so that one that many share counts once. */
function valuesIn(machine: Machine): ReadonlyMap<string, string> {
  const values = new Map<string, string>();
  const say = (writtenAt: string, text: string): void => void values.set(withoutPart(writtenAt), text);
  for (const { node, writtenAt } of machine.reading.places.values())
    if (node.kind === 'leaf') say(writtenAt, node.text);
  // A machine that was varied has the places of the text that it came from; what it says itself goes before.
  for (const section of Object.keys(format) as SectionName[]) sayAll(machine[section], say);
  return values;
}

/** A part says the same whether its name stands alone or with values beside it. */
const withoutPart = (path: string): string => path.replace(/\.part$/, '');

function sayAll(value: unknown, say: (writtenAt: string, text: string) => void): void {
  if (typeof value !== 'object' || value === null) return;
  if (value instanceof Quantity && isLeaf(value)) say(value.by.writtenAt, value.by.written);
  else if (isNamed(value)) say(value.at.writtenAt, value.name);
  else if (!('node' in value)) for (const each of Object.values(value)) sayAll(each, say);
}

/** The name of something else, with the place at which it is written. */
const isNamed = (value: object): value is { readonly name: string; readonly at: { readonly writtenAt: string } } =>
  'name' in value && 'at' in value && typeof value.at === 'object' && value.at !== null && 'writtenAt' in value.at;

// ── findings ─────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Pair {
  readonly was: Finding | undefined;
  readonly is: Finding | undefined;
}

function findingsThatMove(before: Assessment, after: Assessment): readonly FindingChange[] {
  const old = new Map(before.findings.map((each) => [each.address, each]));
  const now = new Map(after.findings.map((each) => [each.address, each]));
  return [...new Set([...now.keys(), ...old.keys()])]
    .map((address) => ({ address, was: old.get(address), is: now.get(address) }))
    .filter((pair) => flips(pair) || movement(pair) > equalWithin)
    .sort((a, b) => badness(b) - badness(a) || order(a, b) || (a.address < b.address ? -1 : 1))
    .map(({ address, was, is }) => ({
      address,
      title: (is ?? was)!.title,
      subject: (is ?? was)!.subject,
      ...(was && { before: told(was) }),
      ...(is && { after: told(is) }),
      flips: flips({ was, is }),
    }));
}

const flips = ({ was, is }: Pair): boolean => was?.verdict !== is?.verdict;

/** From worst to best. */
const flippedTo: readonly (Verdict | undefined)[] = ['fails', 'unknown', 'thin', 'holds', undefined];

/** How bad a flip is, by the verdict that it leads to; 0 for none. */
const badness = (pair: Pair): number => (flips(pair) ? flippedTo.length - flippedTo.indexOf(pair.is?.verdict) : 0);

/** Flips by the margin that is left, what has none first; the others by how far they move. */
const order = (a: Pair, b: Pair): number => (flips(a) ? left(a) - left(b) : movement(b) - movement(a));

const left = ({ is }: Pair): number => is?.margin?.value ?? Number.NEGATIVE_INFINITY;

const movement = ({ was, is }: Pair): number =>
  was?.margin === undefined || is?.margin === undefined ? 0 : Math.abs(is.margin.value - was.margin.value);

const told = ({ margin, verdict }: Finding): ComparedFinding => ({ ...(margin && { margin: shown(margin) }), verdict });

// ── parts ────────────────────────────────────────────────────────────────────────────────────────────────────────────

function partsThatDiffer(before: Assessment, after: Assessment): Comparison['parts'] {
  const [old, now] = [countsIn(before), countsIn(after)];
  return [...new Set([...now.keys(), ...old.keys()])]
    .map((part) => ({ part, before: old.get(part) ?? 0, after: now.get(part) ?? 0 }))
    .filter((each) => each.before !== each.after);
}

/** How often each part is used. */
function countsIn({ design }: Assessment): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { name } of design.parts) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}
