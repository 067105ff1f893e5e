// The order of findings: what fails first, then what is not known, then the tightest margin.
import type { Finding } from './finding.ts';

/** Fails without a figure; fails by margin; unknown; the rest by margin; yes/no that hold; ties by address. */
export const ranked = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort(
    (a, b) =>
      placeOf(a) - placeOf(b) ||
      marginOf(a) - marginOf(b) ||
      (a.address < b.address ? -1 : a.address > b.address ? 1 : 0),
  );

function placeOf(finding: Finding): number {
  if (finding.verdict === 'fails') return finding.margin === undefined ? 0 : 1;
  if (finding.verdict === 'unknown') return 2;
  return finding.margin === undefined ? 4 : 3;
}

const marginOf = (finding: Finding): number => finding.margin?.value ?? 0;
