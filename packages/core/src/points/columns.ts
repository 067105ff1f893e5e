// What the head of a column means: our keys, the usual words for each, and a unit behind them.
import type { Unit } from '../units/si.ts';
import { plainWords } from './plain-words.ts';
import { isQuantity } from './value-words.ts';

interface ColumnMeaning {
  readonly key: string;
  /** Earlier ones go before later ones where two columns say the same; from memory of lists of points. */
  readonly words: readonly string[];
  /** What it is measured in. */
  readonly units?: readonly Unit[];
}

/** In the order in which they are written. */
export const meanings = [
  {
    key: 'name',
    words: ['tag', 'name', 'tag name', 'point', 'point name', 'signal', 'signal name', 'symbol', 'variable', 'id'],
  },
  { key: 'like', words: ['like', 'same as'] },
  {
    key: 'kind',
    words: [
      ...['kind', 'signal type', 'point type', 'io type', 'i o type', 'kind of point', 'kind of signal', 'type'],
      ...['io', 'i o'],
    ],
  },
  { key: 'at', words: ['at', 'location', 'station', 'rack', 'node', 'remote', 'remote rack', 'where'] },
  { key: 'type', words: ['type', 'input type', 'iec type', 'type of input', 'iec 61131 2 type'] },
  { key: 'level', words: ['level', 'sink source', 'sink or source'] },
  { key: 'current', words: ['current', 'load current', 'output current'], units: ['A'] },
  { key: 'range', words: ['range', 'signal range', 'measuring range'], units: ['A', 'V'] },
  {
    key: 'range from',
    words: ['range from', 'range low', 'range min', 'range start'],
    units: ['A', 'V'],
  },
  {
    key: 'range to',
    words: ['range to', 'range high', 'range max', 'range end'],
    units: ['A', 'V'],
  },
  { key: 'sensor', words: ['sensor', 'thermocouple', 'sensor type', 'thermocouple type'] },
  {
    key: 'frequency',
    words: ['frequency', 'counting frequency', 'max frequency', 'highest frequency', 'input frequency'],
    units: ['Hz'],
  },
  { key: 'pulse', words: ['pulse', 'shortest pulse', 'pulse width', 'min pulse', 'pulse length'], units: ['s'] },
  { key: 'update', words: ['update', 'update time', 'refresh', 'refresh time', 'scan time'], units: ['s'] },
  { key: 'delay', words: ['delay', 'switching time', 'response time'], units: ['s'] },
  { key: 'filter', words: ['filter', 'filter time', 'input filter', 'debounce'], units: ['s'] },
  { key: 'jitter', words: ['jitter'], units: ['s'] },
  { key: 'pulse_every', words: ['pulse every', 'way per pulse', 'pulse distance'], units: ['m', 's'] },
  { key: 'pulse_on', words: ['pulse on', 'duty', 'duty cycle'] },
  { key: 'pulse_speed', words: ['pulse speed'], units: ['m/s'] },
  { key: 'pulse_of', words: ['pulse of'] },
  { key: 'read_by', words: ['read by', 'task'] },
  { key: 'fails_to', words: ['fails to', 'fail safe', 'failsafe', 'fail state', 'on failure', 'fault state'] },
  { key: 'together', words: ['together', 'together with', 'same module'] },
  { key: 'apart', words: ['apart', 'never together', 'separate module'] },
  { key: 'potential', words: ['potential', 'potential group', 'supply group'] },
  { key: 'cabinet', words: ['cabinet', 'box', 'enclosure', 'junction box', 'panel'] },
  { key: 'wire', words: ['wire', 'wire length', 'cable length', 'cable', 'length'], units: ['m'] },
  {
    key: 'title',
    words: ['title', 'description', 'comment', 'text', 'remark', 'remarks', 'meaning', 'note', 'notes'],
  },
  { key: 'designation', words: ['designation', 'reference designation'] },
  { key: 'function', words: ['function designation', 'function'] },
  { key: 'conductors', words: ['conductors', 'number of conductors'] },
  { key: 'section', words: ['section', 'cross section', 'wire section'], units: ['m²'] },
  { key: 'screen', words: ['screen', 'cable screen', 'shield', 'cable shield'] },
  { key: 'circuit', words: ['circuit'] },
  { key: 'status_of', words: ['status of'] },
  { key: 'voltage_at_least', words: ['voltage at least', 'lowest voltage'], units: ['V'] },
  { key: 'sensor_drop', words: ['sensor drop', 'voltage drop of the sensor'], units: ['V'] },
  { key: 'place', words: ['place', 'slot', 'module', 'card'] },
  { key: 'channel', words: ['channel', 'ch', 'address', 'channel no', 'channel number', 'terminal'] },
] as const satisfies readonly ColumnMeaning[];

export type ColumnKey = (typeof meanings)[number]['key'];

export interface Heading {
  readonly key: ColumnKey;
  /** How usual the word is for the key: 0 is the first of them. */
  readonly rank: number;
  readonly unit: string | undefined;
}

export const unitsOf = (key: ColumnKey): readonly Unit[] => {
  const found: ColumnMeaning = meanings.find((each) => each.key === key)!;
  return found.units ?? [];
};

/** A word that two keys have is that of the first: under 'type' stands the kind. */
const byWords: ReadonlyMap<string, Pick<Heading, 'key' | 'rank'>> = new Map(
  meanings.flatMap(({ key, words }) => words.map((each, rank) => [each, { key, rank }] as const)).reverse(),
);

/** `Wire length [m]`, `current, A`, `range in mA`: what stands before the unit, and the unit. */
const withUnit = [
  /^(.*?)\s*[[(]\s*([^\])]*?)\s*[\])]\s*$/,
  /^(.*\S)\s*,\s*(\S+)$/,
  /^(.*\S)\s+in\s+(\S+)$/i,
  /^(.*\S)\s*\/\s*(\S+)$/,
];

/** Longer ones are no heads (our judgement). */
const longestHead = 100;

/** What the head of a column means; nothing where no word of ours is in it. */
export function headingOf(text: string): Heading | undefined {
  if (text.length > longestHead) return undefined;
  const whole = byWords.get(plainWords(text));
  if (whole !== undefined) return { ...whole, unit: undefined };
  for (const form of withUnit) {
    const [, words, behind] = form.exec(text) ?? [];
    const found = words === undefined ? undefined : byWords.get(plainWords(words));
    if (found === undefined || behind === undefined) continue;
    if (isQuantity(`1 ${behind}`, unitsOf(found.key))) return { ...found, unit: behind };
    // What stands in brackets and is no unit explains a column of words.
    if (form === withUnit[0] && unitsOf(found.key).length === 0) return { ...found, unit: undefined };
  }
  return undefined;
}
