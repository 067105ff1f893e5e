// The chapters of a machine's sheet: one for each domain that the file has, with its result in a few words and its views.

import { axesGist } from '../axes/views.ts';
import { type Verdict, verdicts } from '../checks/margin.ts';
import type { Cell, View } from '../checks/view.ts';
import { marksGist } from '../marks/views.ts';
import { networkGist } from '../networks/views.ts';
import { pointsAddress, pointsGist } from '../racks/points-alone.ts';
import { hasRacks, racksAddress, racksGist } from '../racks/views.ts';
import { hasTiming, timingGist } from '../timing/views.ts';
import type { Assessment } from './assess.ts';
import { hasPointsAlone, show } from './show.ts';

export interface Chapter {
  /** The domain: a section of the file, the first word of its checks and addresses. */
  readonly domain: string;
  readonly title: string;
  /** The result in a few words: words and numbers in turn. */
  readonly gist: readonly Cell[];
  /** How many findings of the domain have each verdict. */
  readonly verdicts: Readonly<Record<Verdict, number>>;
  readonly views: readonly View[];
}

/** In the order of the argument; a domain that the file does not have has no chapter. */
export function chapters(assessment: Assessment): readonly Chapter[] {
  const { axes, networks, timing, marks, racks, design, findings } = assessment;
  const counted = (domain: string): Record<Verdict, number> => {
    const own = findings.filter(({ check }) => check.startsWith(`${domain}.`));
    return Object.fromEntries(
      verdicts.map((verdict) => [verdict, own.filter((each) => each.verdict === verdict).length]),
    ) as Record<Verdict, number>;
  };
  return [
    ...(axes.length === 0
      ? []
      : [
          {
            domain: 'axes',
            title: 'Axes',
            gist: axesGist(axes),
            verdicts: counted('axes'),
            views: [...show(assessment, 'masters'), ...show(assessment, 'axes'), ...show(assessment, 'buses')],
          },
        ]),
    ...(networks.length === 0
      ? []
      : [
          {
            domain: 'networks',
            title: networks.length === 1 ? 'Network' : 'Networks',
            gist: networkGist(networks),
            verdicts: counted('networks'),
            views: show(assessment, 'networks'),
          },
        ]),
    ...(hasTiming(timing)
      ? [
          {
            domain: 'timing',
            title: 'Timing',
            gist: timingGist(timing),
            verdicts: counted('timing'),
            views: show(assessment, 'timing'),
          },
        ]
      : []),
    ...(marks.length === 0
      ? []
      : [
          {
            domain: 'marks',
            title: 'Marks',
            gist: marksGist(marks),
            verdicts: counted('marks'),
            views: show(assessment, 'marks'),
          },
        ]),
    ...(hasRacks(racks)
      ? [
          {
            domain: 'racks',
            title: 'Racks',
            gist: racksGist(racks),
            verdicts: counted('racks'),
            views: show(assessment, racksAddress),
          },
        ]
      : []),
    ...(hasPointsAlone(assessment)
      ? [
          {
            domain: 'racks',
            title: 'Racks',
            gist: pointsGist(design.racks.alone),
            verdicts: counted('racks'),
            views: show(assessment, pointsAddress),
          },
        ]
      : []),
  ];
}
