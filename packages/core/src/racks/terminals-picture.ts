// The terminals of a module by number, as they stand on its front: what is wired to each of them, what is spare, what is free.
import {
  type Drawn,
  type Fill,
  type Mark,
  type Meaning,
  pen,
  type Row,
  type Tone,
  type Words,
} from '../pictures/picture.ts';
import { Missing } from '../working/missing.ts';
import type { LaidModule } from './laid-out.ts';
import { named } from './tables.ts';
import { type Terminal, terminalsOf } from './terminals.ts';
import type { Wire } from './wire-list.ts';
import type { WiredLocation } from './wiring.ts';

/** Where box, wire and words stand, on a scale without a unit (our judgement). */
const box = { from: 0, to: 0.3 };
const wireTo = 0.9;
const wordsFrom = 1;
const width = 6;

/** More terminals than these are no drawing any more (our judgement). */
const mostDrawn = 128;

type Is = 'wired' | 'spare' | 'not wired' | 'shared' | 'wrong';

const looks: Readonly<Record<Is, { readonly fill: Fill; readonly tone: Tone; readonly means: string }>> = {
  wired: { fill: 'solid', tone: 'traffic', means: 'terminal with the wire of a point' },
  shared: { fill: 'tinted', tone: 'plain', means: 'terminal that channels share, connected to a line of the supply' },
  spare: { fill: 'outlined', tone: 'traffic', means: 'terminal of a spare channel' },
  'not wired': { fill: 'dashed', tone: 'quiet', means: 'terminal that nothing is wired to' },
  wrong: { fill: 'hatched', tone: 'fails', means: 'terminal of a channel that does not suit its point, or has two' },
};
const legend: readonly Meaning[] = Object.values(looks);

export const titleOfTerminals = ({ label, module: { title } }: LaidModule): string =>
  `Terminals of ${label}${title instanceof Missing ? '' : ` (${title})`}`;

/** Nothing where it is not known how many terminals there are. */
export function terminalsPicture(module: LaidModule, wired: WiredLocation): Drawn | undefined {
  const terminals = terminalsOf(module);
  if (terminals instanceof Missing) return undefined;
  const { numbers, write } = pen();
  const wires = new Map(wired.wires().map((wire) => [wire.onTerminal, wire]));
  const told = terminals
    .slice(0, mostDrawn)
    .map((terminal) => ({ terminal, ...toldOf(terminal, wires.get(terminal), wired, write) }));
  const rows: Row[] = [];
  const marks: Mark[] = [];
  let group = -1;
  for (const { terminal, is, words, about } of told) {
    const row = rows.length;
    rows.push({ height: 1, label: [String(terminal.number)], above: terminal.groupAt !== group && row > 0 ? 0.6 : 0 });
    group = terminal.groupAt;
    const of = about === undefined ? {} : { about };
    marks.push({ kind: 'bar', row, ...box, high: [0.12, 0.88], fill: looks[is].fill, tone: looks[is].tone, ...of });
    if (is === 'wired' || is === 'shared')
      marks.push({
        kind: 'line',
        points: [
          { x: box.to, row, y: 0.5 },
          { x: wireTo, row, y: 0.5 },
        ],
        weight: is === 'wired' ? 'edge' : 'fine',
        tone: looks[is].tone,
      });
    marks.push({
      kind: 'label',
      row,
      x: wordsFrom,
      align: 'start',
      within: [wordsFrom, width],
      forms: words.map((_, at) => words.slice(0, words.length - at).flat()),
      tone: is === 'wrong' ? 'fails' : is === 'wired' ? 'plain' : 'quiet',
      ...of,
    });
  }
  return {
    picture: {
      name: 'terminals',
      title: titleOfTerminals(module),
      caption: `Terminals by number, from top to bottom; a gap stands between groups of channels. A filled box has the wire of a point, an open one belongs to a spare channel, a dashed one has no wire, a hatched one is of a channel that does not suit its point. Behind it: the channel or what it is connected to, the point, what the wire carries, its colour in words and where it comes from.`,
      scale: { from: 0, to: width, unit: '1' },
      rows: rows.length === 0 ? [{ height: 0 }] : rows,
      marks,
      legend: legend.filter((_, at) => told.some(({ is }) => is === Object.keys(looks)[at])),
      text: [
        [`${titleOfTerminals(module)}, ${named(module.module.part)}.`],
        ...told.map(({ terminal, words }): Words => [`Terminal ${terminal.number}, `, ...words.flat(), '.']),
      ],
    },
    numbers,
  };
}

interface Told {
  readonly is: Is;
  /** In pieces, the last of which is left out first where there is no room. */
  readonly words: readonly Words[];
  readonly about?: string | undefined;
}

function toldOf(
  terminal: Terminal,
  /** That ends on it. */
  wire: Wire | undefined,
  wired: WiredLocation,
  write: ReturnType<typeof pen>['write'],
): Told {
  if (terminal.is === 'common') {
    const line = terminal.line instanceof Missing ? 'a line that is not known' : terminal.line;
    const words: readonly Words[] = [['shared: ', line]];
    return wire === undefined
      ? { is: 'not wired', words: [...words, [', not wired']] }
      : { is: 'shared', words: [...words, ...wireWords(wire, write)] };
  }
  const { channel, ofChannel } = terminal;
  const { terminals } = channel.group;
  const several = !(terminals instanceof Missing) && terminals.value > 1;
  const where = `channel ${channel.number}${several ? ` (${ofChannel} of ${terminals.value})` : ''}: `;
  const names = channel.points.map(({ name }) => name).join(' and ');
  const about = channel.points[0]?.path;
  const wrong = wired.location.wrong.find(({ point }) => channel.points.includes(point));
  if (wrong !== undefined)
    return {
      is: 'wrong',
      words: [[where, wrong.why]],
      about,
    };
  if (channel.points.length === 0) return { is: 'spare', words: [[where, 'spare']] };
  if (wire === undefined) return { is: 'not wired', words: [[where, names], [', not wired']], about };
  return { is: 'wired', words: [[where, names], [', ', carried(wire)], ...wireWords(wire, write)], about };
}

const carried = ({ carries }: Wire): string => (carries instanceof Missing ? 'not known' : carries);

/** Its colour in words, how thick it is and where it comes from. */
function wireWords({ colour, section, from }: Wire, write: ReturnType<typeof pen>['write']): readonly Words[] {
  return [
    [', ', colour instanceof Missing ? 'colour not known' : colour],
    section === undefined || section instanceof Missing ? [] : [' ', write(section)],
    from instanceof Missing ? [] : [', from ', from],
  ];
}
