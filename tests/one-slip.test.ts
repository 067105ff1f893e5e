// One slip is one problem: whatever single thing is mistyped in an example, what follows from it is not reported beside
// it, and no answer about the network stands on the part of it that could still be read.
import type { Assessment, Problem } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { assessText, exampleMachines, hasNetworks } from './support/examples.ts';

interface Slip {
  readonly what: string;
  readonly text: string;
}

/** A letter too many in each word, each mark left out, each line indented by one more and one less; comments aside. */
function slips(text: string): readonly Slip[] {
  const code = text.replace(/#.*/g, (comment) => ' '.repeat(comment.length));
  const at = (pattern: RegExp, becomes: (found: string) => string): readonly Slip[] =>
    [...code.matchAll(pattern)].map(({ 0: found, index }) => ({
      what: `'${found}' becomes '${becomes(found)}' in line ${text.slice(0, index).split('\n').length}`,
      text: text.slice(0, index) + becomes(found) + text.slice(index + found.length),
    }));
  return [
    ...at(/[\w.%µ]+/g, (word) => `${word}x`),
    ...at(/[{}[\],:]/g, () => ''),
    ...at(/^ +(?=\S)/gm, (indent) => `${indent} `),
    ...at(/^ +(?=\S)/gm, (indent) => indent.slice(1)),
  ];
}

/** Findings about the runs of a network that are not unknown. */
const answersAboutRuns = ({ findings }: Assessment): readonly string[] =>
  findings.filter(({ path, verdict }) => path.endsWith('.runs') && verdict !== 'unknown').map(({ address }) => address);

/** What a run or a node has wrong beside its figures and keys: its name, its form, its part. */
const isAboutRuns = ({ code, path = '' }: Problem): boolean =>
  /^networks\.\w+\.(runs|nodes)/.test(path) &&
  !/^(unit-|number-|out-|key-unknown)/.test(code) &&
  !path.endsWith('.cable');

describe.each(exampleMachines())('one slip in $name', ({ text, path }) => {
  // Of thousands of assessments only what is asked of them is kept.
  const results = slips(text).map((slip) => {
    const result = assessText(slip.text, path);
    return { what: slip.what, problems: result.design.problems, answers: answersAboutRuns(result) };
  });

  it('is at most two problems, and mostly one, beside those of what refers to a name that is gone', () => {
    const counts = results.map(({ what, problems }) => ({
      what,
      codes: problems.map(({ code }) => code).filter((code, at) => at === 0 || code !== 'name-unknown'),
    }));
    expect(counts.filter(({ codes }) => codes.length > 2)).toEqual([]);
    expect(counts.filter(({ codes }) => codes.length === 1).length).toBeGreaterThan(0.85 * counts.length);
  });

  it('leaves no answer about runs that are not all read', () => {
    const faulty = results.filter(({ problems }) => problems.some(isAboutRuns));
    expect(faulty.length > 20).toBe(hasNetworks({ text }));
    for (const { what, answers } of faulty) expect(answers, what).toEqual([]);
    expect(answersAboutRuns(assessText(text, path)).length > 3).toBe(hasNetworks({ text }));
  });
});
