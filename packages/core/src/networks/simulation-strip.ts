// The strip of the cycles before a trip: what passed the controller's port, what was spoilt on which run and by what.

import { type Drawn, type Mark, type Meaning, pen, type Row, type Words } from '../pictures/picture.ts';
import type { Hop } from './calc/simulate/plan.ts';
import { bar, label } from './cycle-strip.ts';
import type { SimulationResult, TripResult } from './simulation.ts';
import { type Pulse, type Spoilt, type TracedCycle, tracedCycles } from './simulation-trace.ts';

const legend: readonly Meaning[] = [
  { fill: 'solid', tone: 'traffic', means: 'command' },
  { fill: 'tinted', tone: 'traffic', means: 'answer' },
  { fill: 'hatched', tone: 'fails', means: 'spoilt on its way' },
  { fill: 'dashed', tone: 'unknown', means: 'never sent: no command came in' },
  { fill: 'solid', tone: 'thin', means: 'behind the end of the cycle' },
  { fill: 'solid', tone: 'plain', means: 'pulse of the noise' },
];

/** Names that stand one behind another in a sentence (our judgement). */
const mostNames = 6;

/** Rows of one cycle: names, commands, answers, pulses, what happened. */
const rowsPerCycle = 5;

/** A pulse that is shorter is drawn so long, as a share of the cycle, so that it is seen (our judgement). */
const leastPulse = 1 / 500;

export function tripStrip(name: string, { trace, station, cycle, at }: TripResult, result: SimulationResult): Drawn {
  const { numbers, write } = pen();
  const { simulation } = result;
  const { planned, plan } = simulation;
  const cycles = tracedCycles(simulation, trace);
  const tripped = station.loss.device.name;
  const names = planned.exchanges.map(({ device }) => device.name);
  const who = (stations: readonly number[]): string => {
    const more = stations.length > mostNames ? ` and ${stations.length - mostNames} more` : '';
    return `${stations
      .slice(0, mostNames)
      .map((each) => names[each])
      .join(', ')}${more}`;
  };
  const { every } = plan.stations[trace.station]!;
  const hasPulses = plan.pulses.length > 0;
  const rows = cycles.flatMap((_, index): readonly Row[] => [
    { height: 1.2, above: index === 0 ? 0.2 : 0.9 },
    { height: 1.5, above: 0.1, label: [whichOf(index, cycles.length, every)], grid: true },
    { height: 1.5, above: 0.2, grid: true },
    { height: hasPulses ? 1 : 0, above: hasPulses ? 0.2 : 0, ...(hasPulses && { label: ['pulses'] }) },
    { height: 0, above: 0.3 },
  ]);
  return {
    picture: {
      name,
      title: `The cycles before ${tripped} tripped`,
      caption: `To scale, as the controller’s port sees them, each cycle in which ${tripped} is served: commands above, answers below. A hatched frame was spoilt on its way; repeats stand behind the exchanges.`,
      scale: { from: 0, to: plan.cycle_ps * 1e-12, unit: 's' },
      rows: [...rows, { height: 1.7, above: 0.3, ticks: true }],
      marks: [
        ...cycles.flatMap(({ pulses }, index) => pulseMarks(pulses, index * rowsPerCycle + 3, plan.cycle_ps)),
        ...cycles.flatMap((each, index) => cycleMarks(each, index * rowsPerCycle, trace.station, names)),
        ...cycles.map(
          (each, index): Mark => ({
            kind: 'paragraph',
            row: index * rowsPerCycle + rowsPerCycle - 1,
            items: [{ words: [happened(each, result, who)] }],
          }),
        ),
      ],
      legend,
      text: [
        [`${tripped} tripped in cycle `, write(cycle), ', ', write(at), ' after the start.'] as Words,
        ...cycles.map(
          (each, index): Words => [`${whichOf(index, cycles.length, every)}: ${happened(each, result, who)}.`],
        ),
      ],
    },
    numbers,
  };
}

const pulseMarks = (pulses: readonly Pulse[], row: number, cycle_ps: number): readonly Mark[] =>
  pulses.map(({ from_ps, to_ps }) => {
    const to = Math.min(cycle_ps, Math.max(to_ps, from_ps + cycle_ps * leastPulse));
    return bar(row, { from_s: from_ps * 1e-12, to_s: to * 1e-12, exchanges: [] }, 'solid', 'plain');
  });

const whichOf = (index: number, count: number, every: number): string => {
  const before = (count - 1 - index) * every;
  return before === 0 ? 'the trip' : before === 1 ? '1 cycle before' : `${before} cycles before`;
};

const span = ({ from_ps, lasts_ps }: Hop) => ({
  from_s: from_ps * 1e-12,
  to_s: (from_ps + lasts_ps) * 1e-12,
  exchanges: [],
});

function cycleMarks(
  { forAll, spoiltForAll, tries }: TracedCycle,
  first: number,
  tripped: number,
  names: readonly string[],
): readonly Mark[] {
  const [above, commands, answers] = [first, first + 1, first + 2] as const;
  const [marks, labels]: [Mark[], Mark[]] = [[], []];
  const draw = (row: number, hop: Hop | undefined, fate: 'whole' | 'spoilt' | 'never' | 'late'): void => {
    if (hop === undefined) return;
    const [fill, tone] = (
      {
        whole: [row === commands ? 'solid' : 'tinted', 'traffic'],
        spoilt: ['hatched', 'fails'],
        never: ['dashed', 'unknown'],
        late: ['solid', 'thin'],
      } as const
    )[fate];
    marks.push(bar(row, span(hop), fill, tone));
  };
  for (const hop of forAll.slice(0, 1)) draw(commands, hop, spoiltForAll.length > 0 ? 'spoilt' : 'whole');
  for (const each of tries) {
    const { hops, hasCommand, isCommandLost, fate, stations, repeat } = each;
    if (hasCommand) draw(commands, hops[0], isCommandLost ? 'spoilt' : fate === 'late' ? 'late' : 'whole');
    draw(
      answers,
      hops.at(-1),
      isCommandLost ? 'never' : fate === 'spoilt' ? 'spoilt' : fate === 'late' ? 'late' : 'whole',
    );
    if (fate === 'whole' && repeat === 0) continue;
    const middle_s = ((hops[0]!.from_ps + hops.at(-1)!.from_ps + hops.at(-1)!.lasts_ps) / 2) * 1e-12;
    const whose = stations.length > 1 ? 'frame' : names[stations[0]!]!;
    const isOwn = stations.includes(tripped);
    // The first of labels that would run into each other is written.
    labels[isOwn ? 'unshift' : 'push'](
      label(above, middle_s, [[repeat === 0 ? whose : `${whose} again`], [whose]], {
        tone: fate === 'whole' ? 'quiet' : 'fails',
        ...(isOwn && { strong: true }),
      }),
    );
  }
  return [...marks, ...labels];
}

/** What went wrong in a cycle, in words: by run and cause, whose commands, answers and repeats. */
function happened(
  { tries, spoiltForAll, lost }: TracedCycle,
  { simulation }: SimulationResult,
  who: (stations: readonly number[]) => string,
): string {
  const { runs } = simulation.planned.network;
  const groups = new Map<string, string[]>();
  const add = ({ run, by }: Spoilt, what: string): void => {
    const where = `spoilt on ${runs[run]!.name} by ${by}`;
    groups.set(where, [...(groups.get(where) ?? []), what]);
  };
  for (const each of spoiltForAll) add(each, 'the command for all');
  for (const each of tries) {
    const { stations, repeat } = each;
    for (const spoilt of each.spoilt) {
      const whose =
        stations.length > 1
          ? `the frame with the data of ${who(stations.slice(0, 1))}`
          : `${spoilt.of === 'command' ? 'command to' : 'answer of'} ${who(stations)}`;
      add(spoilt, `${whose}${spoilt.isCopy ? ' the other way' : ''}${repeat === 0 ? '' : `, repeat ${repeat}`}`);
    }
  }
  const late = tries.filter(({ fate }) => fate === 'late').flatMap(({ stations }) => stations);
  return [
    ...(groups.size === 0
      ? ['nothing was spoilt']
      : [...groups].map(([where, what]) => `${where}: ${what.join('; ')}`)),
    ...(late.length === 0 ? [] : [`too late: ${who([...new Set(late)])}`]),
    `lost: ${lost.length === 0 ? 'nothing' : who(lost)}`,
  ].join('. ');
}
