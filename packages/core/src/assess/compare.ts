// Two states of one machine held against each other: which inputs differ, which findings come, go, move or flip.
import type { Finding } from '../checks/finding.ts';
import type { Verdict } from '../checks/margin.ts';
import { type Shown, shown } from '../working/working.ts';
import type { Assessment } from './assess.ts';

export interface ComparedFinding {
  readonly margin?: Shown;
  readonly verdict: Verdict;
}

export interface Comparison {
  /** Values of the file that differ, as they are written; absent in the state that does not have them. */
  readonly inputs: readonly { readonly path: string; readonly before?: string; readonly after?: string }[];
  /** Flips first, the worst of them on top, then by how far the margin moves. */
  readonly findings: readonly {
    readonly address: string;
    readonly title: string;
    readonly subject: string;
    readonly before?: ComparedFinding;
    readonly after?: ComparedFinding;
    readonly flips: boolean;
  }[];
}

export function compare(before: Assessment, after: Assessment): Comparison {
  return { inputs: inputsThatDiffer(before, after), findings: findingsThatMove(before, after) };
}

function inputsThatDiffer(before: Assessment, after: Assessment): Comparison['inputs'] {
  const [old, now] = [valuesIn(before), valuesIn(after)];
  return [...new Set([...old.keys(), ...now.keys()])]
    .filter((path) => old.get(path) !== now.get(path))
    .map((path) => ({ path, ...given('before', old.get(path)), ...given('after', now.get(path)) }));
}

const given = <K extends string>(key: K, text: string | undefined): { readonly [key in K]?: string } =>
  (text === undefined ? {} : { [key]: text }) as { readonly [key in K]?: string };

/** Every value that is written in the file, by the path at which it is written, so that one that is shared counts once. */
function valuesIn({ design }: Assessment): ReadonlyMap<string, string> {
  const values = new Map<string, string>();
  for (const [path, { node, writtenAt }] of design.machine.reading.places) {
    if (node.kind === 'leaf' && writtenAt === path) values.set(path, node.text);
  }
  return values;
}

function findingsThatMove(before: Assessment, after: Assessment): Comparison['findings'] {
  const old = new Map(before.findings.map((each) => [each.address, each]));
  const now = new Map(after.findings.map((each) => [each.address, each]));
  return [...new Set([...now.keys(), ...old.keys()])]
    .map((address) => ({ address, was: old.get(address), is: now.get(address) }))
    .filter(({ was, is }) => was?.verdict !== is?.verdict || was?.margin?.value !== is?.margin?.value)
    .sort((a, b) => badness(b) - badness(a) || movement(b) - movement(a) || (a.address < b.address ? -1 : 1))
    .map(({ address, was, is }) => ({
      address,
      title: (is ?? was)!.title,
      subject: (is ?? was)!.subject,
      ...(was && { before: told(was) }),
      ...(is && { after: told(is) }),
      flips: was?.verdict !== is?.verdict,
    }));
}

interface Pair {
  readonly was: Finding | undefined;
  readonly is: Finding | undefined;
}

/** How bad a flip is: by the verdict that now holds; 0 for none. */
const badness = ({ was, is }: Pair): number =>
  was?.verdict === is?.verdict ? 0 : 1 + ['holds', 'thin', 'unknown', 'fails'].indexOf(is?.verdict ?? 'holds');

const movement = ({ was, is }: Pair): number => Math.abs((is?.margin?.value ?? 0) - (was?.margin?.value ?? 0));

const told = ({ margin, verdict }: Finding): ComparedFinding => ({ ...(margin && { margin: shown(margin) }), verdict });
