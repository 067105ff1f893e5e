// The words of a cycle strip: what its fills mean, how it is read, whose numbers stand in it, and all of it as sentences.
import { lackSentence } from '../checks/finding.ts';
import type { Verdict } from '../checks/margin.ts';
import type { Item, Meaning, Words } from '../pictures/picture.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Shown } from '../working/working.ts';
import { shareOfCycle } from './calc/cycle.ts';
import type { Discipline } from './parts.ts';
import type { Planned } from './planned.ts';
import type { Slot } from './timetable.ts';
import type { Exchange } from './ways.ts';

/** Writes a quantity into the picture. */
export type Write = (quantity: Quantity) => Shown;

export const legend: readonly Meaning[] = [
  { fill: 'solid', tone: 'plain', means: 'start of the cycle' },
  { fill: 'solid', tone: 'traffic', means: 'command' },
  { fill: 'tinted', tone: 'traffic', means: 'answer' },
  { fill: 'hatched', tone: 'traffic', means: 'kept in hand for a repeat' },
  { fill: 'dotted', tone: 'quiet', means: 'non-cyclic window' },
  { fill: 'outlined', tone: 'plain', means: 'non-cyclic frame, and what opens or closes its window' },
  { fill: 'tinted', tone: 'holds', means: 'free' },
  { fill: 'solid', tone: 'thin', means: 'free' },
  { fill: 'hatched', tone: 'thin', means: 'taken of the reserve' },
  { fill: 'hatched', tone: 'fails', means: 'the reserve, all taken' },
  { fill: 'solid', tone: 'fails', means: 'more than the cycle holds' },
  { fill: 'dashed', tone: 'unknown', means: 'not known' },
];

const lanes: Readonly<Record<Discipline, string>> = {
  polled: 'commands above, answers below',
  pipelined: 'commands above, answers below, both directions at once',
  chained: 'one command for all above, the chain of answers below',
  summation: 'frames that leave above, the same frames coming back below',
  slotted: 'commands above, answers below, both directions at once by a timetable',
};

const whichCycle = ({ pattern, fullest }: Planned): string =>
  pattern === 1 ? 'Every cycle' : `The fullest cycle, number ${fullest + 1} of ${pattern}`;

export function captionOf(planned: Planned): string {
  const { network, brokenAfter = network.devices.length } = planned;
  const { discipline } = network.profile;
  const before = network.devices[brokenAfter - 1]?.name ?? 'the controller';
  const ring = brokenAfter === network.devices.length ? '' : ` with the ring broken after ${before},`;
  const read = discipline instanceof Missing ? '' : `: ${lanes[discipline]}`;
  const order =
    discipline === 'pipelined' && (network.topology === 'tree' || network.topology === 'ring')
      ? ' Answers stand in the order in which each would come in alone; one that is held up on its way may change places with another, the line is busy at the same times.'
      : '';
  return `${whichCycle(planned)},${ring} to scale${read}. Hatched exchanges are kept in hand; the dotted window is for non-cyclic frames.${order}`;
}

/** The same as a share of the cycle, where that is known. */
export const asShare = ({ network }: Planned, time: Value<Quantity<'s'>>, of: string, write: Write): Words => {
  const share = given({ t: time, T: network.cycle }, (known) => shareOfCycle(known, `${network.name}.${of}`));
  return share instanceof Missing ? [] : [' = ', write(share)];
};

/** The order in which the stations are reached gives them numbers, from 1. */
export const numbersOf = ({ exchanges }: Planned): ReadonlyMap<Exchange, number> =>
  new Map(exchanges.map((exchange, index) => [exchange, index + 1]));

/** Whose numbers stand in the picture, or in which frame whose data are. */
export function keyOf(planned: Planned): readonly Item[] {
  if (planned.network.profile.discipline === 'summation') {
    return planned.timetable().commands.map(({ exchanges }, index) => ({
      words: [`frame ${index + 1}: ${exchanges.map(({ device }) => device.name).join(', ')}`],
    }));
  }
  const numbers = numbersOf(planned);
  return planned.served.map((exchange) => ({
    words: [`${numbers.get(exchange)} ${exchange.device.name}`],
    group: 'stations',
  }));
}

const verdictSays: Readonly<Record<Verdict, string>> = {
  holds: 'What is wanted free is free.',
  thin: 'The cycle suffices, but what is wanted free is not.',
  fails: 'The cycle does not suffice.',
  unknown: 'Whether the cycle suffices is not known.',
};

export function textOf(
  planned: Planned,
  wanted: Quantity | undefined,
  verdict: Verdict,
  write: Write,
): readonly Words[] {
  const { network, start, busy, repeats, window, used, free } = planned;
  const { commands, answers } = planned.timetable();
  const numbers = numbersOf(planned);
  const says = (words: string, value: Value<Quantity>, after: Words = []): Words =>
    value instanceof Missing
      ? [`${words} not known: ${lackSentence(value.lacks)}.`]
      : [`${words} `, write(value), ...after, '.'];
  const slot = (words: string, { exchanges, end }: Slot): Words =>
    says(`${words} ${exchanges.map((each) => `${numbers.get(each)} ${each.device.name}`).join(', ')}: until`, end);
  return [
    [`${whichCycle(planned)} of network ${network.name}, to scale.`],
    says('The length of the cycle is', network.cycle),
    says('The start-of-cycle frame takes', start),
    ['At the controller’s port, counted from the first command, gaps included:'],
    ...commands.map((each) => slot('Command to', each)),
    ...answers.map((each) => slot('Answer of', each)),
    says('All exchanges together take', busy),
    says('The number of repeats kept in hand is', network.repeats),
    says('The time kept for them is', repeats),
    says('The non-cyclic window takes', window),
    says('Spoken for are', used, asShare(planned, used, 'used', write)),
    says('Free are', free, asShare(planned, free, 'free', write)),
    ...(wanted ? [says('Wanted free are', wanted)] : []),
    [verdictSays[verdict]],
  ];
}
