// What `show` tells of the noise on a network, and of its error counters.
import type { Cell, Input, View } from '../checks/view.ts';
import type { AxisMotions } from '../physics/axis-motion.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { counterTables } from './counter-tables.ts';
import { longestOf } from './noise-bursts.ts';
import { type Losses, lossesOf } from './noise-losses.ts';
import { cyclesPicture, repeatsPicture } from './noise-pictures.ts';
import { copiesTable, ringTables } from './noise-ring.ts';
import {
  burstsTable,
  cleanRunTable,
  cyclesRows,
  cyclesTable,
  loser,
  missedTable,
  pulsesTable,
  repeatsRows,
  repeatsTable,
  stationsTable,
  tripsTable,
  weakest,
} from './noise-tables.ts';
import type { Planned } from './planned.ts';
import { simulationLeavesOut, simulationWork } from './simulation-work.ts';
import { twoStateTables } from './two-state-tables.ts';

/** Where it is shown. */
export const noiseAddress = ({ network }: Planned): string => `${network.path}.noise`;

/** Whether a formula gives numbers of this view and of no other. */
export const isOfNoise = (formula: string): boolean =>
  /^networks\.(noise|trip|burst|pattern|recording|two_state|count|clean_run|missed|repeats\.(own|shared|command_for_all|over_cycles))\b/.test(
    formula,
  );

/** Undefined where the file says nothing of noise and of counters. */
export function noiseView(planned: Planned, motions: AxisMotions): View | undefined {
  const { network } = planned;
  const losses = lossesOf(planned);
  if (losses === undefined && network.counters === undefined) return undefined;
  const head = { address: noiseAddress(planned), title: `Noise on network ${network.name}` };
  const counters = counterTables(planned);
  if (losses === undefined)
    return {
      ...head,
      says: ['What chance would do is not known: the network says nothing of noise.'],
      inputs: [],
      pictures: [],
      tables: counters,
      later: [],
    };
  const worst = loser(losses);
  const copies = copiesTable(losses);
  return {
    ...head,
    says: result(losses),
    inputs: inputsOf(losses),
    pictures: [
      ...(worst === undefined ? [] : [repeatsPicture(worst.device.name, repeatsRows(losses, worst))]),
      cyclesPicture(network.name, cyclesRows(losses), longestBurst(losses)),
    ],
    tables: [
      ...counters,
      ...burstsTable(losses),
      stationsTable(losses),
      ...(worst === undefined ? [] : [repeatsTable(losses, worst)]),
      ...twoStateTables(losses),
      ...ringTables(losses),
      ...(worst === undefined ? [] : [cleanRunTable(losses, worst)]),
    ],
    later: [
      tripsTable(losses),
      ...(losses.noise.sources.length === 0 ? [] : [pulsesTable(losses)]),
      ...(copies === undefined ? [] : [copies]),
      cyclesTable(losses),
      missedTable(losses, motions),
      simulationLeavesOut(planned, losses.noise),
    ],
    works: [simulationWork(planned)],
  };
}

/** The longest burst on the way of any station. */
function longestBurst(losses: Losses): Quantity<'s'> | undefined {
  const found = losses.stations.flatMap((station) => {
    const longest = longestOf(station, losses);
    return longest instanceof Quantity ? [longest] : [];
  });
  return found.sort((a, b) => b.value - a.value)[0];
}

/** Random losses and bursts side by side: one without the other misleads. */
function result(losses: Losses): readonly Cell[] {
  const [worst, weak] = [loser(losses), weakest(losses.stations)];
  const longest = longestBurst(losses);
  const random: readonly Cell[] =
    worst === undefined || worst.lost instanceof Missing
      ? ['What random bit errors cost is not known yet']
      : worst.meanToTrip instanceof Missing
        ? [`Random bit errors cost ${worst.device.name} `, worst.lost, ' of its updates']
        : !Number.isFinite(worst.meanToTrip.value)
          ? ['Random bit errors trip no station within any time that can be told']
          : [
              `Random bit errors trip ${worst.device.name}, which loses most, once in `,
              worst.meanToTrip,
              ' in the mean',
            ];
  const bursts: readonly Cell[] =
    weak === undefined || weak.bridged instanceof Missing
      ? ['; which burst is bridged is not known yet.']
      : weak.bridged.value === 0
        ? [`; every burst trips ${weak.device.name}.`]
        : [
            `; ${weak.device.name} bridges bursts shorter than `,
            weak.bridged,
            ...(longest === undefined ? ['.'] : [', and the longest that is said lasts ', longest, '.']),
          ];
  return [...random, ...bursts];
}

function inputsOf({ planned, noise }: Losses): readonly Input[] {
  const { path, cycle, repeats, controller, devices } = planned.network;
  const cycles =
    controller.cycles instanceof Missing ? [] : controller.cycles.filter((each) => each instanceof Quantity);
  const upTo = (value: Cell, step?: number): Pick<Input, 'span'> =>
    value instanceof Quantity && value.value > 0
      ? { span: { least: 0, most: 3 * value.value, ...(step === undefined ? {} : { step }) } }
      : {};
  const ofAll = devices.find(
    ({ tripAfter }) =>
      tripAfter instanceof Quantity && 'path' in tripAfter.by && tripAfter.by.path === `${noise.path}.trip_after`,
  )?.tripAfter;
  return [
    { path: `${path}.cycle`, title: 'Cycle', value: cycle, ...(cycles.length > 0 ? { offered: cycles } : upTo(cycle)) },
    { path: `${path}.repeats`, title: 'Repeats kept in hand', value: repeats, span: { least: 0, most: 8, step: 1 } },
    {
      path: `${noise.path}.bit_errors`,
      title: 'Share of bits that chance spoils',
      value: noise.bitErrors,
      ...upTo(noise.bitErrors),
    },
    ...(ofAll === undefined
      ? []
      : [
          {
            path: `${noise.path}.trip_after`,
            title: 'Losses in a row that trip',
            value: ofAll,
            span: { least: 1, most: 10, step: 1 },
          },
        ]),
    ...noise.sources
      .filter(({ at }) => at === undefined)
      .map((source) => ({
        path: `${source.path}.burst`,
        title: `Burst of ${source.name}`,
        value: source.burst,
        ...upTo(source.burst),
      })),
  ];
}
