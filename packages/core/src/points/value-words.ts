// What stands in the cells of a list of points beside names and kinds, turned into what a machine file says.
import { sensors } from '../racks/parts.ts';
import { readQuantity } from '../units/read-quantity.ts';
import { plainWords } from './plain-words.ts';

/** `K`, `type K`, `Pt 100` */
export function sensorIn(text: string): string | undefined {
  const words = plainWords(text)
    .replace(/^(?:type|typ) /, '')
    .replace(/^pt (?=10)/, 'pt');
  return sensors.find((each) => each === words);
}

const number = '[+-]?\\d+(?:\\.\\d+)?';
const between = '\\s*(?:\\.\\.\\.?|…|–|—|-|\\bto\\b|/)\\s*';
const rangeForm = new RegExp(`^(${number})\\s*([a-zµμ]*)${between}(${number})\\s*([a-zµμ]*)$`, 'i');
const eitherSide = /^(?:±|\+\/-|\+-)\s*(\d+(?:\.\d+)?)\s*([a-zµμ]*)$/i;

/** `4-20 mA`, `0 V to 10 V`, `±10 V`; `unit` is what the head of the column says. */
export function rangeIn(text: string, unit: string | undefined): readonly [string, string] | undefined {
  const [, size, of] = eitherSide.exec(text.trim()) ?? [];
  const [, from, ofFrom, to, ofTo] =
    size === undefined ? (rangeForm.exec(text.trim()) ?? []) : ['', `-${size}`, of, size, of];
  const last = ofTo || unit;
  const ends = [`${from} ${ofFrom || last}`, `${to} ${last}`] as const;
  if (from === undefined || last === undefined) return undefined;
  return isQuantity(ends[0], ['A', 'V']) && isQuantity(ends[1], ['A', 'V']) ? ends : undefined;
}

type Unit = Parameters<typeof readQuantity>[1];

export const isQuantity = (text: string, units: readonly Unit[]): boolean =>
  units.some((unit) => readQuantity(text, unit).ok);

/** A number without its unit. */
export const bareNumber = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

/** A number with its unit, of the head where the cell gives none. */
export function quantityIn(text: string, unit: string | undefined): string {
  return unit !== undefined && bareNumber.test(text) ? `${text} ${unit}` : text;
}

/** One comma between digits, and not what could be a thousand: that is left for the reader of the number to ask about. */
const decimalComma = /^([+-]?(?:\d+(?=,(?:\d{1,2}|\d{4,})(?!\d))|0)),(\d+)(?![\d,.])/;

/** The same with a point for the decimal comma, where there is one. */
export const withPoint = (text: string): string => text.replace(decimalComma, '$1.$2');

const fewWords: Readonly<Record<'level' | 'fails_to' | 'type' | 'screen', Readonly<Record<string, string>>>> = {
  level: { sink: 'sink', sinking: 'sink', source: 'source', sourcing: 'source' },
  fails_to: { off: 'off', '0': 'off', hold: 'hold', last: 'hold', 'last value': 'hold', on: 'on', '1': 'on' },
  screen: {
    none: 'none',
    no: 'none',
    rack: 'rack',
    'at the rack': 'rack',
    'one end': 'rack',
    both: 'both',
    'both ends': 'both',
  },
  type: { '1': '1', '2': '2', '3': '3', 'type 1': '1', 'type 2': '2', 'type 3': '3' },
};

export const wordIn = (key: keyof typeof fewWords, text: string): string | undefined => {
  const words = plainWords(text);
  return Object.hasOwn(fewWords[key], words) ? fewWords[key][words] : undefined;
};

/** A channel by its own name, or by place and number, or by its number alone where the place has a column of its own. */
export function channelIn(text: string, at: string, place: string | undefined): string | undefined {
  const bare = text.trim().toLowerCase();
  const [, location, slot, channel] =
    /^([a-z][a-z0-9_]*(?:\/[1-9]\d?)?)[.:/ -](\d{1,3})[.:/ -](\d{1,3})$/.exec(bare) ?? [];
  if (location !== undefined) return `${location}.${Number(slot)}.${Number(channel)}`;
  const [, ofPlace, ofChannel] = /^(\d{1,3})[.:/ ](\d{1,3})$/.exec(bare) ?? [];
  if (ofPlace !== undefined) return `${at}.${Number(ofPlace)}.${Number(ofChannel)}`;
  const [, alone] = /^(?:ch|channel|point)?[ .]*(\d{1,3})$/.exec(bare) ?? [];
  return alone === undefined || place === undefined ? undefined : `${at}.${place}.${Number(alone)}`;
}

/** `slot 3`, `3` */
export const placeIn = (text: string): string | undefined =>
  /^(?:slot|module|place|card)?[ .]*0*([1-9]\d{0,2})$/.exec(text.trim().toLowerCase())?.[1];
