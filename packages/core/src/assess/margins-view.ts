// All findings of a machine as one view: bars with a common rail, and a table of what is needed and what is there.
import type { Finding } from '../checks/finding.ts';
import { verdicts } from '../checks/margin.ts';
import type { Cell, View } from '../checks/view.ts';
import { marginsPicture } from '../pictures/margin-bars.ts';

/** The address at which the margins are shown. */
export const marginsAddress = 'margins';

export const marginsView = (findings: readonly Finding[]): View => ({
  address: marginsAddress,
  title: 'Margins, tightest first',
  says: [`Of ${findings.length} findings ${tally(findings)}.`],
  inputs: [],
  pictures: findings.length === 0 ? [] : [marginsPicture(findings)],
  tables: [
    {
      name: 'findings',
      title: 'Findings, tightest first',
      columns: ['finding', 'about', 'needed', 'there', 'margin', 'wanted', 'verdict'],
      rows: findings.map(({ title, subject, demand, capacity, margin, reserve, verdict }): readonly Cell[] => [
        title,
        subject,
        demand ?? '',
        capacity ?? '',
        margin ?? '',
        reserve ?? '',
        verdict,
      ]),
    },
  ],
  later: [],
});

/** '1 fails, 2 are thin, 9 hold'; what does not occur is not told. */
function tally(findings: readonly Finding[]): string {
  const words = {
    fails: ['fails', 'fail'],
    unknown: ['is unknown', 'are unknown'],
    thin: ['is thin', 'are thin'],
    holds: ['holds', 'hold'],
  };
  const told = [...verdicts].flatMap((verdict) => {
    const count = findings.filter((each) => each.verdict === verdict).length;
    return count === 0 ? [] : [`${count} ${words[verdict][count === 1 ? 0 : 1]}`];
  });
  return told.length === 0 ? 'none is there' : told.join(', ');
}
