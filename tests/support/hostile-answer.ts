// What the reader of hostile texts answers: how many problems, whether each has a place in the text, and what was found.
import { type Assessment, reportJson } from '@layshaft/core';

export interface Answer {
  readonly problems: number;
  /** Every problem stands at a line and column that the text has. */
  readonly placed: boolean;
  /** Every finding says something. */
  readonly said: boolean;
  /** The findings, to the last digit. */
  readonly findings: string;
}

export function answerOf(assessment: Assessment): Answer {
  const { problems, machine } = assessment.design;
  const lines = machine.parsed.source.text.split('\n');
  const placed = problems.every(
    ({ place }) =>
      place.column >= 1 &&
      place.line >= 1 &&
      place.line <= lines.length &&
      place.column <= lines[place.line - 1]!.length + 1,
  );
  const { findings } = reportJson(assessment);
  return {
    problems: problems.length,
    placed,
    said: findings.every(({ says }) => says !== ''),
    findings: problems.length > 0 ? '' : JSON.stringify(findings),
  };
}
