// Findings as text: title, subject, bar, margin and verdict in columns; below, the sentence, the address, and what helps.
import { type FindingJson, marginBar } from '@layshaft/core';
import { atBothEnds, indent } from './layout.ts';
import { barLength, printBar } from './print-bar.ts';
import type { Look } from './terminal.ts';

const marginLength = 8;
const verdictLength = 7;
/** Short names leave this much all the same, so that sentence and address mostly fit on one line. */
const usualNames = 24;
const rightLength = 2 + barLength + 2 + marginLength + 2 + verdictLength;

/** Findings of one check that say the same of several subjects; the first stands for all, the others are named with it. */
interface Group {
  readonly finding: FindingJson;
  readonly others: readonly string[];
}

function groups(findings: readonly FindingJson[]): readonly Group[] {
  const found = new Map<string, FindingJson[]>();
  for (const finding of findings) {
    const key = [finding.check, finding.verdict, finding.margin?.text, finding.says].join('\n');
    found.set(key, [...(found.get(key) ?? []), finding]);
  }
  return [...found.values()].map(([first, ...rest]) => ({
    finding: first!,
    others: rest.map(({ subject }) => subject),
  }));
}

/** Prints findings, those that say the same once. */
export function printGrouped(findings: readonly FindingJson[], look: Look): readonly string[] {
  const all = groups(findings);
  return printRows(
    all.map(({ finding }) => finding),
    look,
    (at) => (all[at]!.others.length === 0 ? [] : indent(`The same of ${all[at]!.others.join(', ')}.`, 4, look.columns)),
  );
}

/** Two lines for each finding, more where a name or a sentence is long; the bars of all stand below one another. */
export const printFindings = (findings: readonly FindingJson[], look: Look): readonly string[] =>
  printRows(findings, look, () => []);

function printRows(
  findings: readonly FindingJson[],
  look: Look,
  more: (at: number) => readonly string[],
): readonly string[] {
  const longest = Math.max(0, ...findings.map(({ title }) => title.length));
  const names = findings.map(({ title, subject }) => `${title.padEnd(longest)}  ${subject}`);
  const room = look.columns - rightLength;
  const fitting = names.filter((name) => name.length <= room);
  const lead = Math.max(Math.min(room, usualNames), ...fitting.map((name) => name.length));
  return findings.flatMap((finding, at) => {
    const name = names[at]!;
    const [above, beside] = name.length <= lead ? [[], name] : [[name], ''];
    return [
      ...above,
      `${beside.padEnd(lead)}${rightOf(finding, look)}`,
      ...below(finding, lead + rightLength, look),
      ...more(at),
      ...(finding.advice === undefined ? [] : indent(`What helps: ${finding.advice}.`, 4, look.columns)),
    ];
  });
}

function rightOf(finding: FindingJson, look: Look): string {
  const { verdict, margin } = finding;
  const paint = verdict === 'fails' ? look.fails : verdict === 'thin' ? look.thin : (text: string) => text;
  const figure = (verdict === 'unknown' ? '?' : (margin?.text ?? '')).padStart(marginLength);
  return `  ${paint(printBar(marginBar(finding), verdict))}  ${paint(figure)}  ${paint(verdict)}`;
}

/** The address stands at the right of the sentence's last line where there is room, else below it. */
function below({ says, address }: FindingJson, rowLength: number, { columns, quiet }: Look): readonly string[] {
  const lines = indent(says, 4, columns);
  return [...lines.slice(0, -1), ...atBothEnds(lines.at(-1)!, address, rowLength, { left: String, right: quiet })];
}
