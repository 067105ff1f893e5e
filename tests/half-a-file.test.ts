// Half a file gives half an answer and says which half is missing: whatever is taken out of an example, nothing throws,
// nothing is lost in silence, and no answer rests on data that is not there.
import { type Assessment, reportJson } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { isLeaf } from '../packages/core/src/working/quantity.ts';
import { assessText, exampleMachines } from './support/examples.ts';
import { restsOn } from './support/quantities.ts';

interface Removal {
  readonly what: string;
  readonly removed: string;
  readonly rest: string;
}

/** Each line, each line with all that is indented below it, and all that stands below each line. */
function removals(text: string): readonly Removal[] {
  const lines = text.split('\n');
  const without = (first: number, count: number, what: string): Removal => ({
    what: `${what} ${first + 1}`,
    removed: lines.slice(first, first + count).join('\n'),
    rest: [...lines.slice(0, first), ...lines.slice(first + count)].join('\n'),
  });
  return lines.flatMap((_, row) => [
    without(row, 1, 'line'),
    without(row, blockLength(lines, row), 'what begins in line'),
    without(row, lines.length - row, 'all from line'),
  ]);
}

/** How many lines belong to the entry that begins in a row. */
function blockLength(lines: readonly string[], row: number): number {
  const indent = indentOf(lines[row]!);
  const next = lines.findIndex((line, at) => at > row && /\S/.test(line) && indentOf(line) <= indent);
  return (next < 0 ? lines.length : next) - row;
}

const indentOf = (line: string): number => line.length - line.trimStart().length;

/** Findings that are not unknown and rest on a value of the file that stands nowhere in it. */
const answersFromNowhere = ({ design, findings }: Assessment): readonly string[] =>
  findings
    .filter(({ verdict }) => verdict !== 'unknown')
    .filter(({ demand, capacity, reserve }) =>
      restsOn([demand, capacity, reserve]).some(
        (each) =>
          isLeaf(each) &&
          ['given', 'measured', 'planned'].includes(each.by.kind) &&
          [each.by.writtenAt, each.by.path].every((path) => design.machine.where(path) === undefined),
      ),
    )
    .map(({ address }) => address);

/** All that a report says, places aside. */
const said = (assessment: Assessment): string => {
  const { problems, ...rest } = reportJson(assessment);
  // A ramp that is gentler than another moves no finding, but has a case of its own.
  const cases = assessment.axes.map(({ cases: found }) => ('lacks' in found ? [] : found.map(({ name }) => name)));
  return JSON.stringify([problems.map(({ code, path }) => [code, path]), rest, cases]);
};

describe.each(exampleMachines())('half of $name', ({ text, path }) => {
  const whole = assessText(text, path);
  const saidWhole = said(whole);
  // Nothing is kept of a half but what is asked of it: a thousand assessments are more than a thread has room for.
  const halves = removals(text).map(({ what, removed, rest }) => {
    const half = assessText(rest, path);
    return { what, removed, fromNowhere: answersFromNowhere(half), isSilent: said(half) === saidWhole };
  });

  it('never rests an answer on what is not there', () => {
    for (const { what, fromNowhere } of halves) expect(fromNowhere, what).toEqual([]);
    const blind = {
      ...whole,
      design: { ...whole.design, machine: { ...whole.design.machine, where: () => undefined } },
    };
    const some = whole.findings.find(({ check }) => check === 'networks.cycle' || check === 'marks.budget');
    expect(answersFromNowhere(blind)).toContain(some?.address);
  });

  it('loses nothing in silence', () => {
    const silent = halves.filter(({ isSilent }) => isSilent).map(({ removed }) => removed);
    expect(silent.filter((removed) => /^\s*[^\s#]/m.test(removed))).toEqual([]);
    expect(silent.length).toBeGreaterThan(0);
  });
});
