// What `show` tells of a chain from a cause to its effect.

import { moved } from '../checks/moved-input.ts';
import type { Cell, Table, View } from '../checks/view.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { goneIn } from './calc/lead.ts';
import { chainPictures } from './chain-pictures.ts';
import type { ChainTimes, PlannedChain } from './chains.ts';
import type { PlannedLink } from './links.ts';
import { isNamed, type PointSection } from './section.ts';

/** `points` are those of the file: the ends of the chain are moved where they are described. */
export function chainView(chain: PlannedChain, points: readonly PointSection[]): View {
  const { name, path, section, links, times } = chain;
  return {
    address: path,
    title: `Chain ${name}`,
    says: result(chain),
    inputs: [
      ...moved(`${path}.within`, 'Allowed', section.within),
      ...moved(`${path}.speed`, 'Speed', section.speed),
      ...endInputs(chain, 'from', points),
      ...endInputs(chain, 'to', points),
    ],
    pictures: chainPictures(chain),
    tables: [
      ...(links instanceof Missing ? [] : [linksTable(links, times)]),
      ...(times instanceof Missing ? [] : [delaysTable(chain, times)]),
    ],
    later: [],
  };
}

/** The chain in a few words. */
export function chainGist({ name, times }: PlannedChain): readonly Cell[] {
  return times instanceof Missing ? [`${name} is not known`] : [`${name} takes up to `, times.most];
}

function result({ name, links, times, section, demand }: PlannedChain): readonly Cell[] {
  if (links instanceof Missing || times instanceof Missing) return [`How long ${name} takes is not known yet.`];
  const allowed = section.within === undefined || section.within instanceof Missing ? undefined : section.within;
  const against: readonly Cell[] =
    allowed === undefined || demand === undefined || demand instanceof Missing
      ? []
      : [
          `; ${section.lead === 'constant_part' ? 'behind a lead for what is always there ' : ''}`,
          demand,
          ' count against the ',
          allowed,
          ' that are allowed',
        ];
  return ['From cause to effect it takes ', times.least, ' at least and ', times.most, ' at most', ...against, '.'];
}

function endInputs({ section, path }: PlannedChain, end: 'from' | 'to', points: readonly PointSection[]) {
  const found = section[end];
  if (found instanceof Missing) return [];
  const signal = isNamed(found) ? points.find(({ name }) => name === found.name) : found;
  const at = isNamed(found) ? signal && `points.${found.name}` : `${path}.${end}`;
  if (signal === undefined || at === undefined) return [];
  const which = end === 'from' ? 'cause' : 'effect';
  return [
    ...(signal.delay === undefined ? [] : moved(`${at}.delay`, `Delay of the ${which}`, signal.delay)),
    ...moved(`${at}.filter`, `Filter of the ${which}`, signal.filter),
  ];
}

function linksTable(links: readonly PlannedLink[], times: PlannedChain['times']): Table {
  return {
    name: 'links',
    title: 'The links, from the cause to the effect',
    note: 'adds: by how much the longest delay is longer than without the link; a link without a period passes on at once; one with a clock of its own has no instant at which it looks, those of a network with one count from its cycle; stations that its points hang on are links whether it names them or not',
    columns: ['link', 'looks every', 'looks at', 'takes at least', 'takes at most', 'adds at most'],
    rows: links.map(({ title, period, phase, least, most }, at) => [
      title,
      period ?? '',
      phase ?? '',
      least,
      most,
      times instanceof Missing ? '' : times.adds(at),
    ]),
  };
}

function delaysTable({ name, speed, seen }: PlannedChain, times: ChainTimes): Table {
  const way = (t: Quantity<'s'>, about: string): Cell =>
    speed === undefined ? '' : given({ v: speed }, ({ v }) => goneIn(v, t, `${name}.${about}`));
  const row = (words: string, t: Quantity<'s'>, about: string): readonly Cell[] =>
    speed === undefined ? [words, t] : [words, t, way(t, about)];
  return {
    name: 'delays',
    title: 'How long it takes',
    note: 'the phases of clocks of their own count as equally likely, and what a link takes as even from least to most',
    columns: speed === undefined ? ['delay', 'time'] : ['delay', 'time', 'way of the product'],
    rows: [
      row('at least', times.least, 'way_at_least'),
      ...shares.flatMap((share) => {
        const found = times.upTo(share);
        return found === undefined
          ? []
          : [row(`${share.value * 100} % stay within`, found, `way_of_${share.value * 100}`)];
      }),
      row(times.isWalked ? 'at most, reached' : 'at most', times.most, 'way_at_most'),
      row('safe bound: each has just looked (Davare)', times.safe, 'way_of_bound'),
      row('bound with hand-overs between tasks of one core (Dürr)', times.reaction, 'way_of_reaction'),
      row('age of data as they come out, bound (Dürr)', times.age, 'way_of_age'),
      ...(seen === undefined || seen instanceof Missing
        ? []
        : [row('as it was seen at two speeds', seen, 'way_as_seen')]),
      row('the part that varies', times.varies, 'way_that_varies'),
      row('constant lead that leaves least', times.lead, 'way_of_lead'),
      row('left by it, early or late', times.leftByLead, 'way_left'),
    ],
  };
}

const shares = [0.5, 0.95, 0.99].map((share) =>
  assumed(`timing.share_${share * 100}`, share, '1', {
    source: 'judgement',
    because: 'half, nearly all and all but few',
    as: '%',
  }),
);
