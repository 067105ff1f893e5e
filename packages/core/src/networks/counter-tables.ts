// What the counters of the ports say, and what to try first.
import type { Table } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import { causeOf, countersRead, remediesFor } from './counter-reading.ts';
import type { Planned } from './planned.ts';

export function counterTables(planned: Planned): readonly Table[] {
  const read = countersRead(planned);
  if (read === undefined) return [];
  const name = 'counters';
  const title = 'What the ports have counted';
  if (read instanceof Missing) return [{ name, title, columns: ['what', 'value'], rows: [['the counters', read]] }];
  const cause = read.suspects[0] && causeOf(read.suspects[0]);
  return [
    {
      name,
      title,
      note: 'own: spoilt on the run right before the port, without those that came in spoilt already; chance: that the noise of the file brings about so many or more; a small one is suspect, and 0 is smaller than any number that can be held',
      columns: [
        'port',
        'frames',
        'errors',
        'own',
        'loss at least',
        'at most',
        'expected',
        'chance',
        'uneven by chance',
        'reads as',
      ],
      rows: read.ports.map((port) => [
        `${port.counter.from} to ${port.counter.to}`,
        port.counter.frames,
        port.counter.errors,
        port.own,
        port.least,
        port.most,
        port.expected,
        port.chance,
        port.uneven ?? 'not read in intervals',
        read.suspects.includes(port) ? 'suspect' : port.chance instanceof Missing ? 'not known' : 'chance',
      ]),
    },
    ...(cause === undefined
      ? []
      : [
          {
            name: 'remedies',
            title: `What to try at the run from ${read.suspects[0]!.counter.from} to ${read.suspects[0]!.counter.to}, cheapest first`,
            note: `common practice, no source; ${cause}. Read the counters again after each step; work on cabinets is for qualified people and by local rules`,
            columns: ['what', 'against', 'why'],
            rows: remediesFor(read.suspects[0]!).map(({ what, why, against }) => [
              what,
              against === 'both' ? 'cable and bursts' : against,
              why,
            ]),
          },
        ]),
  ];
}
