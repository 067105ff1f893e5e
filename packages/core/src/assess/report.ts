// The report: an assessment as plain data with a version, for scripts, screens and other threads.
import type { Finding } from '../checks/finding.ts';
import type { Problem } from '../problems/problem.ts';
import { type Lack, Missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { isLeaf } from '../working/quantity.ts';
import { type Shown, shown } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { numbersOf } from './numbers.ts';

export const reportVersion = 1;

export interface FindingJson {
  readonly address: string;
  readonly check: string;
  readonly title: string;
  readonly subject: string;
  readonly path: string;
  readonly verdict: string;
  readonly says: string;
  readonly demand?: Shown;
  readonly capacity?: Shown;
  readonly margin?: Shown;
  readonly reserve?: Shown;
  /** The least capacity that keeps the reserve, where the capacity is to be chosen. */
  readonly enough?: Shown;
  /** What helps, of a finding that fails or is thin. */
  readonly advice?: string;
  readonly lacks: readonly Lack[];
}

export interface AssumptionJson extends Shown {
  readonly source: string;
}

export interface ReportJson {
  readonly layshaft_report: typeof reportVersion;
  readonly machine: string | null;
  readonly file: string;
  readonly problems: readonly Problem[];
  /** What is no problem but worth a look. */
  readonly remarks: readonly Problem[];
  readonly findings: readonly FindingJson[];
  /** Defaults that were used because the file gives no value. */
  readonly assumptions: readonly AssumptionJson[];
}

export function reportJson(assessment: Assessment): ReportJson {
  const { machine, problems } = assessment.design;
  return {
    layshaft_report: reportVersion,
    machine: machine.machine.name instanceof Missing ? null : machine.machine.name,
    file: machine.file,
    problems,
    remarks: machine.remarks,
    findings: assessment.findings.map(findingJson),
    assumptions: assumptionsOf(assessment),
  };
}

/** A finding as plain data. */
export const findingJson = (finding: Finding): FindingJson => ({
  address: finding.address,
  check: finding.check,
  title: finding.title,
  subject: finding.subject,
  path: finding.path,
  verdict: finding.verdict,
  says: finding.says,
  ...(finding.demand && { demand: shown(finding.demand) }),
  ...(finding.capacity && { capacity: shown(finding.capacity) }),
  ...(finding.margin && { margin: shown(finding.margin) }),
  ...(finding.reserve && { reserve: shown(finding.reserve) }),
  ...(finding.enough && { enough: shown(finding.enough) }),
  ...(finding.advice && { advice: finding.advice }),
  lacks: finding.lacks,
});

function assumptionsOf(assessment: Assessment): readonly AssumptionJson[] {
  const found = [...numbersOf(assessment).values()].filter(
    (quantity) => isLeaf(quantity) && quantity.by.kind === 'assumed',
  );
  return [...new Set(found)].map((quantity) => ({ ...shown(quantity), source: (quantity.by as Origin).source ?? '' }));
}
