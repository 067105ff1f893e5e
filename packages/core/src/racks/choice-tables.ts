// A choice of racks as tables: the racks, the parts with their cost, and what one more point would take.
import { lackSentence } from '../checks/finding.ts';
import type { Cell, Table } from '../checks/view.ts';
import type { PointKind } from '../physics/point.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import type { Chosen, RackAnswer } from './choose.ts';
import type { Layout } from './choose-layout.ts';
import { kindNames } from './kind-names.ts';
import type { Preference } from './offers.ts';

/** The names of the tables. */
export const chosenRacks = 'chosen_racks';
export const oneMorePoint = 'one_more';

export interface Located {
  readonly location: string;
  readonly answer: RackAnswer | Missing;
}

const chosen = (choices: readonly Located[]) =>
  choices.flatMap(({ location, answer }) =>
    !(answer instanceof Missing) && answer.kind === 'chosen' ? [{ location, answer }] : [],
  );

/** Cost in the currency of the parts, or the width of the racks. */
export const weightOf = (weight: number, prefer: Preference): string =>
  prefer === 'cost' ? printQuantity(weight, 'cost') : printQuantity(weight / 1e3, 'm');

export function chosenRacksTable(choices: readonly Located[], prefer: Preference): Table {
  return {
    name: chosenRacks,
    title: `Racks of the least ${prefer}`,
    note: 'what is in the file already costs nothing here and stays where it is',
    columns: ['rack', 'part', 'supply', 'modules that are put in', prefer, 'none is below'],
    rows: chosen(choices).flatMap(({ location, answer }) =>
      answer.layout.racks.flatMap((rack, at): readonly Cell[][] =>
        rack === undefined
          ? []
          : [
              [
                at === 0 ? location : `${location}/${at + 1}`,
                rack.rack,
                rack.power,
                modulesIn(answer.layout, at),
                ...(at === 0 ? [weightOf(answer.weight, prefer), boundOf(answer, prefer)] : ['', '']),
              ],
            ],
      ),
    ),
  };
}

function boundOf({ isBest, bound }: Chosen, prefer: Preference): string {
  if (isBest) return 'the same';
  return Number.isFinite(bound) ? weightOf(bound, prefer) : 'not known';
}

function modulesIn({ modules }: Layout, slot: number): string {
  const parts = modules.flatMap((each) => (each.slot === slot ? [each.part] : []));
  const counts = new Map<string, number>();
  for (const part of parts) counts.set(part, (counts.get(part) ?? 0) + 1);
  return [...counts].map(([part, count]) => (count === 1 ? part : `${count} × ${part}`)).join(', ');
}

/** Needs that cannot be met together, in sentences; none where every location has its racks. */
export const conflictsOf = (choices: readonly Located[]): readonly string[] => [
  ...new Set(choices.flatMap(conflictAt)),
];

function conflictAt({ location, answer }: Located): readonly string[] {
  if (answer instanceof Missing) return [`Nothing can be chosen at ${location} yet: ${lackSentence(answer.lacks)}.`];
  if (answer.kind === 'chosen' || answer.kind === 'none found') return [];
  if (answer.kind === 'refused') return [answer.why];
  const { needs, irreducible, room } = answer;
  if (needs.length === 0) return [`No racks of the catalogues carry what is at ${location} already. ${room}`];
  const without = irreducible
    ? ' Without any one of these there is a way.'
    : ' There may be fewer that stand against each other.';
  return [
    `At ${location} these cannot be had together: ${needs.join('; ')}.${needs.length > 1 ? without : ''} ${room}`,
  ];
}

/** What one point more of a kind would take. */
export interface OneMore {
  readonly location: string;
  readonly kind: PointKind;
  /** More than the choice; nothing where it does not go. */
  readonly more: number | undefined;
  /** Whether it was not found only because the time was over. */
  readonly timeOver: boolean;
  /** Whether both choices are proven to be the least, so that this is what it takes. */
  readonly isProven: boolean;
  /** Parts that come in addition, and parts that fall away. */
  readonly adds: readonly string[];
  readonly drops: readonly string[];
  readonly needs: readonly string[];
}

export function oneMoreTable(found: readonly OneMore[], prefer: Preference): Table {
  return {
    name: oneMorePoint,
    title: 'One more point of each kind, with the spare that it asks for',
    columns: ['rack', 'kind', `more ${prefer}`, 'comes in', 'falls away'],
    rows: found.map(({ location, kind, more, timeOver, isProven, adds, drops, needs }) => [
      location,
      kindNames[kind],
      more === undefined
        ? timeOver
          ? 'not found in time'
          : 'does not fit'
        : `${weightOf(more, prefer)}${isProven ? '' : ', not proven'}`,
      more === undefined ? needs.join('; ') : adds.length === 0 ? 'nothing: a channel is free' : adds.join(', '),
      drops.join(', '),
    ]),
  };
}

/** All parts that an answer puts in, one after another. */
export const partsIn = ({ layout }: Chosen): readonly string[] => [
  ...layout.racks.flatMap((each) => (each === undefined ? [] : [each.rack, each.power, each.extender ?? []])).flat(),
  ...layout.modules.map(({ part }) => part),
];
