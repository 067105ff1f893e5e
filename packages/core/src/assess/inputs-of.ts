// The values of the file that a finding rests on: what can be asked for backwards.
import type { Finding } from '../checks/finding.ts';
import { changeOf, isChange } from '../machine/change.ts';
import type { OriginKind } from '../working/origin.ts';
import { isLeaf, type Leaf } from '../working/quantity.ts';
import { print, walk } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { numbersOf } from './numbers.ts';

export interface Candidate {
  readonly path: string;
  /** As it is written. */
  readonly text: string;
  readonly origin: OriginKind;
}

/**
 * All leaves of the working of a finding that can be changed in the file; of a finding of yes or no, the number at its
 * path. Given ones come first, then those of the whole before those of its parts. A value that is written once for a range
 * of names stands once, where it is written. What is counted from the structure is left out; what a part gives to a name
 * of a range, and lists of a part, as well: they have no place of their own. Nothing for an address that no finding has.
 */
export function inputsOf(assessment: Assessment, address: string): readonly Candidate[] {
  const finding = assessment.findings.find((each) => each.address === address);
  if (finding === undefined) return [];
  const inputs = new Map<string, Candidate>();
  for (const leaf of leavesOf(finding, assessment)) {
    const path = changeable(leaf, assessment);
    if (path !== undefined) inputs.set(path, { path, text: print(leaf), origin: leaf.by.kind });
  }
  return [...inputs.values()].sort(
    (a, b) => order.indexOf(a.origin) - order.indexOf(b.origin) || depthOf(a.path) - depthOf(b.path),
  );
}

const order: readonly OriginKind[] = ['given', 'measured', 'planned', 'assumed', 'catalogue'];

const depthOf = (path: string): number => path.split('.').length;

/** Whether a number is counted from the structure: to change it, something is added or removed. */
export const isCounted = ({ by }: Leaf): boolean => by.via.some((each) => each.startsWith('counted in '));

function leavesOf({ demand, capacity, path }: Finding, assessment: Assessment): readonly Leaf[] {
  const own = demand ?? capacity ?? numbersOf(assessment).get(path);
  const leaves = new Set<Leaf>();
  for (const each of [own, capacity]) if (each) walk(each, (number) => void (isLeaf(number) && leaves.add(number)));
  return [...leaves];
}

/** The path at which a leaf can be written: its own, or the one at which it is written for several. */
function changeable(leaf: Leaf, { design: { machine } }: Assessment): string | undefined {
  const { kind, path, via, writtenAt, written } = leaf.by;
  const inListOfPart = via.length === 0 || /\.\d+(\.|$)/.test(writtenAt);
  if (isCounted(leaf) || (kind === 'catalogue' && inListOfPart)) return undefined;
  const paths = kind === 'catalogue' ? [path] : [path, writtenAt];
  return paths.find((each) => isChange(changeOf(machine, { path: each, value: written, at: 'here' })));
}
