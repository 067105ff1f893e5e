// layshaft check: what a machine file demands against what is there, tightest first.
import { assess, plural, printProblem, type ReportJson, reportJson, type Verdict } from '@layshaft/core';
import { exit, type Io } from './io.ts';
import { inColumns, indent, paragraphs } from './layout.ts';
import { openDesign } from './open-design.ts';
import { printGrouped } from './print-finding.ts';
import { type Look, type LookOptions, lookOf } from './terminal.ts';

export interface CheckOptions extends LookOptions {
  readonly json?: boolean;
  /** From which verdict on the exit status says that the machine does not hold. */
  readonly failOn: 'fails' | 'thin';
}

/** Prints the report and gives the exit status. */
export async function check(file: string, options: CheckOptions, io: Io): Promise<number> {
  const design = await openDesign(file, io);
  const report = reportJson(assess(design));
  const lines = options.json ? [JSON.stringify(report, null, 2)] : printReport(report, lookOf(options, io));
  io.stdout.write(`${lines.join('\n')}\n`);
  return statusOf(report, options.failOn);
}

function statusOf({ problems, findings }: ReportJson, failOn: 'fails' | 'thin'): number {
  const any = (verdict: Verdict): boolean => findings.some((finding) => finding.verdict === verdict);
  if (problems.length > 0) return exit.unusable;
  if (any('fails') || (failOn === 'thin' && any('thin'))) return exit.fails;
  return any('unknown') ? exit.unknown : exit.fine;
}

function printReport(report: ReportJson, look: Look): readonly string[] {
  const { machine, file, problems, remarks, findings, assumptions } = report;
  const assumed = assumptions.map(({ address, text, source }) => [address, text, source]);
  return paragraphs([
    [machine === null ? look.strong(file) : `${look.strong(machine)}, ${file}`],
    ...problems.map((problem) => [printProblem(problem)]),
    printGrouped(findings, look),
    assumed.length === 0 ? [] : ['Assumed, because the file does not say:', ...inColumns(assumed, 2, look.columns)],
    remarks.length === 0 ? [] : ['Worth a look:', ...remarks.map(printProblem)],
    indent(summary(report), 0, look.columns),
  ]);
}

/** '1 fails, 2 thin, 5 hold; 3 assumed values.' */
function summary({ problems, findings, assumptions }: ReportJson): string {
  const of = (verdict: Verdict, one: string, many: string): readonly string[] => {
    const { length } = findings.filter((finding) => finding.verdict === verdict);
    return length === 0 ? [] : [`${length} ${length === 1 ? one : many}`];
  };
  const verdicts = [
    ...of('fails', 'fails', 'fail'),
    ...of('unknown', 'unknown', 'unknown'),
    ...of('thin', 'thin', 'thin'),
    ...of('holds', 'holds', 'hold'),
  ];
  const parts = [
    ...(problems.length === 0 ? [] : [plural(problems.length, 'problem')]),
    verdicts.length === 0 ? 'nothing was checked: there is nothing yet that a check asks about' : verdicts.join(', '),
    ...(assumptions.length === 0 ? [] : [plural(assumptions.length, 'assumed value')]),
  ];
  return `${parts.join('; ')}.`;
}
