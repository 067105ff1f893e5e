// The wiring map: when the first bit of a command arrives at each device, with a box for the time it takes to pass it on.
import { lackSentence } from '../checks/finding.ts';
import {
  type Drawn,
  type Item,
  type Label,
  type Mark,
  type Meaning,
  notDrawn,
  pen,
  type Row,
  type Words,
} from '../pictures/picture.ts';
import { printQuantity, unitChoice } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Shown } from '../working/working.ts';
import type { Planned } from './planned.ts';
import { passedOn, type Stop, stopsOf } from './wiring-stops.ts';

type Write = (quantity: Quantity) => Shown;

/** The horizontal axis is the time since the first bit left the controller; every branch has its rows. */
export function wiringMap(planned: Planned): Drawn {
  const { numbers, write } = pen();
  const { network } = planned;
  const title = `The wiring of network ${network.name}`;
  const stops = stopsOf(planned);
  const last_s = stops.reduce((latest, stop) => Math.max(latest, passedOn(stop) ?? 0), 0);
  // All times in the unit of the scale, so that they can be compared at a glance.
  const as = unitChoice(last_s * roomBehind, 's');
  const writeTime: Write = (time) => ({ ...write(time), text: printQuantity(time.value, time.unit, { as, digits }) });
  const text = stops.map((stop) => textOf(stop, write, writeTime));
  if (!(last_s > 0 && Number.isFinite(last_s))) {
    const why = network.wired instanceof Missing ? lackSentence(network.wired.lacks) : 'no time of arrival is known';
    return {
      picture: { ...notDrawn('wiring', title, `Not known: ${why}.`), text: [[`Not known: ${why}.`], ...text] },
      numbers,
    };
  }
  const to = last_s * roomBehind;
  const branches = 1 + stops.reduce((most, { branch }) => Math.max(most, branch), 0);
  const about = ({ device }: Stop): string => `${network.path}.nodes.${device.name}`;
  const drawable = stops.filter(({ there }) => !(there instanceof Missing));
  return {
    picture: {
      name: 'wiring',
      title,
      caption: captionOf(planned),
      scale: { from: 0, to, unit: 's' },
      rows: rowsOf(branches),
      marks: [
        ...drawable.flatMap(cableMarks),
        ...drawable.map((stop) => boxOf(stop, about(stop))),
        ...drawable.flatMap((stop) => labelsOf(stop, about(stop), writeTime)),
        ...drawable.flatMap((stop) => lengthMarks(stop, write)),
        controllerEdge(branches),
        { kind: 'paragraph', row: rowsIn(branches).above, items: keyOf(stops, writeTime) },
      ],
      legend,
      text,
    },
    numbers,
  };
}

/** Names may stand behind the last boxes (our judgement). */
const roomBehind = 1.06;

/** As many as numbers have elsewhere. */
const digits = 4;

const legend: readonly Meaning[] = [
  { fill: 'tinted', tone: 'traffic', means: 'station, for the time it takes to pass a frame on' },
  { fill: 'outlined', tone: 'traffic', means: 'station with nothing behind it' },
  { fill: 'tinted', tone: 'plain', means: 'hub, switch or coupling' },
];

function captionOf({ network, brokenAfter = network.devices.length }: Planned): string {
  const sentences = [
    'When the first bit of a command arrives, counted from its leaving the controller. A box is the time that a device takes to pass it on, a line is cable.',
  ];
  if (network.profile.line === 'shared') sentences.push('On a shared line stations take no time.');
  if (network.devices.some(({ passing }) => passing === 'frame'))
    sentences.push('A device that stores frames is drawn for the command to the first station behind it.');
  if (brokenAfter < network.devices.length) {
    const before = network.devices[brokenAfter - 1]?.name ?? 'the controller';
    sentences.push(`The ring is broken after ${before}, where it needs most.`);
  }
  return sentences.join(' ');
}

/** A branch has a row for arrival times and two for its boxes: numbers and cables above, names below. */
const rowsIn = (branch: number) => ({ above: 1 + 3 * branch, upper: 2 + 3 * branch, lower: 3 + 3 * branch });

function rowsOf(branches: number): readonly Row[] {
  const grid = true;
  const rows: Row[] = [{ height: 1.7, ticks: true }];
  for (let branch = 0; branch < branches; branch++) {
    const label = branch === 0 ? { label: ['controller'] } : {};
    rows.push({ height: 0.9, above: 0.4, grid }, { height: 1.1, grid, ...label }, { height: 0.5, grid });
  }
  return [...rows, { height: 0, above: 0.4 }];
}

const controllerEdge = (branches: number): Mark => ({
  kind: 'line',
  points: [
    { x: 0, row: rowsIn(0).upper, y: 1 },
    { x: 0, row: rowsIn(branches - 1).lower, y: 0 },
  ],
  weight: 'rail',
  tone: 'plain',
});

interface Cable {
  readonly from: number;
  readonly to: number;
  readonly row: number;
}

/** Nothing where it is not known when a command enters or leaves it. */
function cableTo({ before, there, branch }: Stop): Cable | undefined {
  const from = before === undefined ? 0 : passedOn(before);
  if (from === undefined || there instanceof Missing) return undefined;
  return { from, to: there.value, row: rowsIn(branch).upper };
}

function cableMarks(stop: Stop): readonly Mark[] {
  const cable = cableTo(stop);
  if (cable === undefined) return [];
  const points = [cable.from, cable.to].map((x) => ({ x, row: cable.row, y: 0 }));
  const about = stop.run === undefined ? {} : { about: stop.run.path };
  return [{ kind: 'line', points, weight: 'edge', tone: 'plain', ...about }];
}

/** How long a cable is, where there is room for it. */
function lengthMarks(stop: Stop, write: Write): readonly Mark[] {
  const cable = cableTo(stop);
  if (cable === undefined || stop.run === undefined || stop.run.length instanceof Missing) return [];
  const { from, to, row } = cable;
  const forms: readonly Words[] = [[write(stop.run.length)]];
  const about = stop.run.path;
  return [{ kind: 'label', row, x: (from + to) / 2, align: 'middle', within: [from, to], forms, tone: 'quiet', about }];
}

function boxOf(stop: Stop, about: string): Mark {
  const { device, there, behind, branch, lastBranch } = stop;
  const station = device.kind === 'station';
  const from = (there as Quantity).value;
  const to = passedOn(stop);
  return {
    kind: 'bar',
    row: rowsIn(branch).upper,
    downTo: rowsIn(lastBranch).lower,
    from,
    to: to ?? from,
    fill: to === undefined ? 'dashed' : station && behind.length === 0 ? 'outlined' : 'tinted',
    tone: to === undefined ? 'unknown' : station ? 'traffic' : 'plain',
    about,
  };
}

function labelsOf(stop: Stop, about: string, write: Write): readonly Mark[] {
  const { device, number, there, passing, behind, branch } = stop;
  if (there instanceof Missing) return [];
  const { above, upper, lower } = rowsIn(branch);
  const at = { kind: 'label', x: there.value, align: 'start', about } as const;
  // A name stands in the box of its device, or, where that takes no time, before the next device.
  const next = behind[0]?.there;
  const end = passing !== undefined ? passedOn(stop) : next instanceof Missing ? undefined : next?.value;
  const inside: Pick<Label, 'within'> = end === undefined ? {} : { within: [there.value, end] };
  const name: Mark = { ...at, ...inside, row: lower, forms: [[device.name], []], group: groupOf(stop), tone: 'plain' };
  const time = write(there);
  // The unit stands at the scale.
  const bare = { ...time, text: time.text.slice(0, time.text.lastIndexOf(' ')) };
  const arrival: Mark = { ...at, row: above, forms: [[bare]], tone: 'quiet' };
  if (device.kind === 'coupling') return [{ ...name, row: upper }];
  if (number === undefined) return [{ ...name, row: upper }, arrival];
  return [{ ...at, row: upper, forms: [[String(number)]], tone: 'traffic', strong: true }, name, arrival];
}

/** The names of a branch stand in its boxes or in the key; a device that only passes on is by itself. */
const groupOf = ({ number, branch, device }: Stop): string =>
  number === undefined ? `name of ${device.name}` : `names of branch ${branch}`;

const keyOf = (stops: readonly Stop[], write: Write): readonly Item[] =>
  stops
    .filter(({ there }) => !(there instanceof Missing))
    .sort((a, b) => (a.number ?? Infinity) - (b.number ?? Infinity) || 0)
    .map((stop) => ({
      words:
        stop.number === undefined
          ? [`${stop.device.name}, a ${stop.device.kind}, at `, write(stop.there as Quantity)]
          : [`${stop.number} ${stop.device.name}`],
      group: groupOf(stop),
    }));

function textOf({ device, number, before, run, there, passing }: Stop, write: Write, writeTime: Write): Words {
  const who = number === undefined ? `${device.name}, a ${device.kind}` : `${number} ${device.name}`;
  const cable: Words = run === undefined || run.length instanceof Missing ? [] : [', by a run of ', write(run.length)];
  const head: Words = [`${who}, behind ${before?.device.name ?? 'the controller'}`, ...cable, ': '];
  if (there instanceof Missing)
    return [...head, `when a command arrives is not known, since ${lackSentence(there.lacks)}.`];
  const after: Words =
    passing === undefined
      ? []
      : passing instanceof Missing
        ? [`; what it takes to pass it on is not known, since ${lackSentence(passing.lacks)}`]
        : [', and takes ', writeTime(passing), ' to pass on'];
  return [...head, 'the first bit arrives after ', writeTime(there), ...after, '.'];
}
