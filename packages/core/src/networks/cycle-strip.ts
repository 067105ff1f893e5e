// The cycle strip: one network cycle to scale as the controller's port sees it, what leaves above, what comes in below.
import { lackSentence } from '../checks/finding.ts';
import { type Verdict, verdictOf } from '../checks/margin.ts';
import { barMarks } from '../pictures/margin-bars.ts';
import {
  type Drawn,
  type Fill,
  type Label,
  type Mark,
  notDrawn,
  pen,
  type Row,
  type Tone,
  type Words,
} from '../pictures/picture.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Shown } from '../working/working.ts';
import { type CycleFrames, type Frame, framesOf } from './cycle-frames.ts';
import { asShare, captionOf, keyOf, legend, numbersOf, textOf, type Write } from './cycle-strip-words.ts';
import type { Planned } from './planned.ts';

/** The rows of a strip, from top to bottom. */
const rowNames = [
  'wanted',
  'above',
  'commands',
  'answers',
  'below',
  'bar',
  'ticks',
  'parts',
  'whole',
  'lack',
  'key',
] as const;
type RowName = (typeof rowNames)[number];
const row = Object.fromEntries(rowNames.map((name, index) => [name, index])) as Readonly<Record<RowName, number>>;

/** The fullest cycle. `reserve` is the share of it that shall stay free. */
export function cycleStrip(planned: Planned, reserve: Value<Quantity<'1'>> | undefined): Drawn {
  const { numbers, write } = pen();
  const { network, used } = planned;
  const title = `The cycle of network ${network.name}`;
  const frames = framesOf(planned);
  const cycle_s = network.cycle instanceof Missing ? undefined : network.cycle.value;
  const to = Math.max(cycle_s ?? 0, frames.known_s);
  const lack = given({ used, T: network.cycle }, () => '');
  const missing = lack instanceof Missing ? `Not known: ${lackSentence(lack.lacks)}.` : '';
  if (!(to > 0 && Number.isFinite(to))) return { picture: notDrawn('cycle', title, missing), numbers };
  const wanted = cycle_s === undefined || reserve instanceof Missing ? undefined : reserve;
  const kept_s = wanted && cycle_s !== undefined ? cycle_s * (1 - wanted.value) : undefined;
  const { spoken_s } = frames;
  const verdict =
    spoken_s === undefined || cycle_s === undefined ? 'unknown' : verdictOf(spoken_s, cycle_s, wanted?.value ?? 0);
  const bounds = { demand: frames.known_s, notch: kept_s, rail: cycle_s ?? frames.known_s };
  return {
    picture: {
      name: 'cycle',
      title,
      caption: captionOf(planned),
      scale: { from: 0, to, unit: 's' },
      rows: rowsOf(planned, wanted !== undefined, verdict),
      marks: [
        ...windowMarks(frames),
        ...trafficMarks(planned, frames),
        ...repeatMarks(frames),
        ...(kept_s === undefined ? [] : [boundary(kept_s, row.wanted, 'fine')]),
        ...barMarks(row.bar, bounds, verdict, `networks.cycle@${network.name}`),
        ...(cycle_s === undefined ? [] : [boundary(cycle_s, wanted ? row.wanted : row.above, 'rail')]),
        ...measures(planned, frames, write),
        ...(wanted && kept_s !== undefined
          ? between(row.wanted, [kept_s, cycle_s], 'wanted free ', write(wanted))
          : []),
        {
          kind: 'paragraph',
          row: row.key,
          items: [...keyOf(planned), ...(missing === '' ? [] : [{ words: [missing] }])],
        },
      ],
      legend,
      text: textOf(planned, wanted, verdict, write),
    },
    numbers,
  };
}

function rowsOf({ network }: Planned, wanted: boolean, verdict: Verdict): readonly Row[] {
  const through = network.profile.discipline === 'summation';
  const fails = verdict === 'fails';
  const rows: Readonly<Record<RowName, Row>> = {
    wanted: { height: wanted ? 1.7 : 0 },
    above: { height: 0.6, above: 0.2 },
    commands: { height: 1.7, above: 0.2, label: [through ? 'frames out' : 'commands'], grid: true },
    answers: { height: 1.7, above: 0.5, label: [through ? 'frames back' : 'answers'], grid: true },
    below: { height: 0, above: 0.2, grid: true },
    bar: { height: 1, above: 0.2, grid: true },
    ticks: { height: 1.7, ticks: true },
    parts: { height: 1.7, above: 0.2 },
    whole: { height: 1.7, above: 0.2 },
    lack: { height: fails ? 1.7 : 0, above: fails ? 0.2 : 0 },
    key: { height: 0, above: 0.4 },
  };
  return rowNames.map((name) => rows[name]);
}

/** A line through the strip at the end of the cycle, or where the wanted reserve begins. */
const boundary = (x: number, from: number, weight: 'fine' | 'rail'): Mark => ({
  kind: 'line',
  points: [
    { x, row: from, y: weight === 'rail' ? 1 : 0.5 },
    { x, row: row.bar, y: 0 },
  ],
  weight,
  tone: 'plain',
  ...(weight === 'fine' && { dashed: true }),
});

export const bar = (on: number, { from_s, to_s }: Frame, fill: Fill, tone: Tone, about?: string): Mark => ({
  kind: 'bar',
  row: on,
  from: from_s,
  to: to_s,
  fill,
  tone,
  ...(about !== undefined && { about }),
});

export const label = (on: number, x: number, forms: readonly Words[], more: Partial<Label> = {}): Mark => ({
  kind: 'label',
  row: on,
  x,
  align: 'middle',
  forms,
  tone: 'quiet',
  ...more,
});

/** From the end of a command to the start of its answer. */
const wait = (command: Frame, answer: Frame): Mark => ({
  kind: 'line',
  points: [
    { x: command.to_s, row: row.commands, y: 0 },
    { x: answer.from_s, row: row.answers, y: 1 },
  ],
  weight: 'fine',
  tone: 'traffic',
});

function trafficMarks(planned: Planned, { start, commands, answers }: CycleFrames): readonly Mark[] {
  const { network } = planned;
  const { discipline } = network.profile;
  const numbers = numbersOf(planned);
  const about = ({ exchanges }: Frame): string =>
    exchanges.length === 1 ? `${network.path}.nodes.${exchanges[0]!.device.name}` : network.path;
  const answerTo = new Map(answers.map((answer) => [answer.exchanges[0], answer]));
  const marks: Mark[] = [];
  if (discipline === 'polled' || discipline === 'pipelined') {
    for (const command of commands) {
      const answer = answerTo.get(command.exchanges[0]);
      if (answer !== undefined) marks.push(wait(command, answer));
    }
  }
  if (start !== undefined) marks.push(bar(row.commands, start, 'solid', 'plain'));
  for (const command of commands) marks.push(bar(row.commands, command, 'solid', 'traffic', about(command)));
  for (const answer of answers) marks.push(bar(row.answers, answer, 'tinted', 'traffic', about(answer)));
  const named = (on: number, frame: Frame, x: number): Mark => {
    const [exchange] = frame.exchanges;
    const forms = exchange ? [[exchange.device.name], [String(numbers.get(exchange))]] : [];
    return label(on, x, forms, { group: 'stations', about: about(frame) });
  };
  const middle = ({ from_s, to_s }: Frame): number => (from_s + to_s) / 2;
  if (discipline === 'summation') {
    for (const [index, frame] of commands.entries())
      marks.push(label(row.above, middle(frame), [[`frame ${index + 1}`], [String(index + 1)]], { group: 'frames' }));
  } else {
    for (const command of discipline === 'chained' ? [] : commands) {
      const answer = discipline === 'polled' ? answerTo.get(command.exchanges[0]) : undefined;
      marks.push(named(row.above, command, answer ? (command.from_s + answer.to_s) / 2 : middle(command)));
    }
    for (const answer of discipline === 'polled' ? [] : answers) marks.push(named(row.below, answer, middle(answer)));
  }
  return marks;
}

function repeatMarks({ repeats, exchanged_s, repeated_s }: CycleFrames): readonly Mark[] {
  if (exchanged_s === undefined || repeated_s === undefined || repeated_s === exchanged_s) return [];
  const block = { kind: 'bar', row: row.commands, downTo: row.answers, from: exchanged_s, to: repeated_s } as const;
  return [
    ...(repeats.length === 0 ? [{ ...block, fill: 'hatched', tone: 'traffic' } as const] : []),
    ...repeats.flatMap(({ command, answer }) => [
      wait(command, answer),
      bar(row.commands, command, 'hatched', 'traffic'),
      bar(row.answers, answer, 'hatched', 'traffic'),
    ]),
    label(row.above, (exchanged_s + repeated_s) / 2, [['repeats']]),
  ];
}

/** Who sends the non-cyclic frame is not said: it stands in both rows. What opens and closes the window, the controller sends. */
function windowMarks({ windowFrames, repeated_s, spoken_s }: CycleFrames): readonly Mark[] {
  if (repeated_s === undefined || spoken_s === undefined) return [];
  const [opens, frame, closes] = windowFrames;
  const over = { kind: 'bar', row: row.commands, downTo: row.answers } as const;
  return [
    ...(opens ? [bar(row.commands, opens, 'outlined', 'plain')] : []),
    ...(frame ? [{ ...over, from: frame.from_s, to: frame.to_s, fill: 'outlined', tone: 'plain' } as const] : []),
    ...(closes ? [bar(row.commands, closes, 'outlined', 'plain')] : []),
    { ...over, from: repeated_s, to: spoken_s, fill: 'dotted', tone: 'quiet' },
    label(row.above, (repeated_s + spoken_s) / 2, [['non-cyclic']]),
  ];
}

/** Nothing is written between places that are not known, or that are the same. */
function between(
  on: number,
  [from, to]: readonly [number | undefined, number | undefined],
  words: string,
  number: Shown | undefined,
  after: Words = [],
): readonly Mark[] {
  if (from === undefined || to === undefined || from === to || number === undefined) return [];
  return [{ kind: 'measure', row: on, from, to, forms: [[words, number, ...after], [words, number], [number]] }];
}

function measures(planned: Planned, frames: CycleFrames, write: Write): readonly Mark[] {
  const { network, busy, repeats, window, free, used } = planned;
  const { started_s, exchanged_s, repeated_s, spoken_s } = frames;
  const cycle_s = network.cycle instanceof Missing ? undefined : network.cycle.value;
  const written = (value: Value<Quantity>): Shown | undefined => (value instanceof Missing ? undefined : write(value));
  // What is missing lies beyond the end of the cycle, below what takes it.
  const left = spoken_s === undefined || cycle_s === undefined || spoken_s <= cycle_s ? row.parts : row.lack;
  const share = { free: asShare(planned, free, 'free', write), used: asShare(planned, used, 'used', write) };
  return [
    ...between(row.parts, [started_s, exchanged_s], 'exchanges ', written(busy)),
    ...between(row.parts, [exchanged_s, repeated_s], 'repeats ', written(repeats)),
    ...between(row.parts, [repeated_s, spoken_s], 'non-cyclic ', written(window)),
    ...between(left, [spoken_s, cycle_s], 'free ', written(free), share.free),
    ...between(row.whole, [0, spoken_s], 'spoken for ', written(used), share.used),
  ];
}
