// The kinds of points in the words that lists of points use, and what such a word says beside the kind.
import { type PointKind, pointKinds } from '../physics/point.ts';
import { plainWords } from './plain-words.ts';
import { rangeIn, sensorIn } from './value-words.ts';

/** Usual words for each kind; its own name with blanks is one of them. From memory of lists of points. */
export const kindWords: { readonly [K in PointKind]: readonly string[] } = {
  digital_in: [
    ...['di', 'digital input', 'discrete in', 'discrete input', 'dig in', 'dc in', 'dc input'],
    ...['24v in', '24v input', '24 v in', '24 v input', '24vdc input', '24 vdc input', '24v dc input', '24 v dc input'],
  ],
  digital_out: [
    ...['do', 'dq', 'digital output', 'discrete out', 'discrete output', 'dig out', 'dc out', 'dc output'],
    ...['24v out', '24v output', '24 v out', '24 v output', '24vdc output', '24 vdc output', '24v dc output'],
    '24 v dc output',
  ],
  analogue_in: ['ai', 'analog in', 'analog input', 'analogue input'],
  analogue_out: ['ao', 'aq', 'analog out', 'analog output', 'analogue output'],
  capture: ['capture input', 'latch', 'latch input'],
  counter: ['count', 'counter input', 'counter in', 'pulse counter'],
  encoder: ['encoder input', 'encoder in', 'incremental encoder'],
  fast_in: ['fast input', 'fast digital input', 'fast digital in', 'fast di'],
  thermocouple: ['tc', 'thermo couple', 'thermocouple input'],
  resistance: ['rtd', 'resistance thermometer', 'resistance input', 'rtd input'],
  relay: ['ro', 'relay out', 'relay output'],
  serial: ['serial line', 'rs232', 'rs 232', 'rs422', 'rs 422', 'rs485', 'rs 485'],
};

const kindOf: ReadonlyMap<string, PointKind> = new Map(
  pointKinds.flatMap((kind) => [kind.replaceAll('_', ' '), ...kindWords[kind]].map((words) => [words, kind] as const)),
);

export interface KindRead {
  readonly kind: PointKind;
  /** `TC type K` and `Pt100` say the sensor as well. */
  readonly sensor?: string;
  /** `AI 4-20 mA` says the range as well. */
  readonly range?: readonly [string, string];
}

/** What a cell says of the kind; nothing where it says something else. */
export function kindIn(text: string): KindRead | undefined {
  const words = plainWords(text);
  const kind = kindOf.get(words);
  if (kind !== undefined) return { kind };
  const alone = sensorIn(text);
  if (alone?.startsWith('pt')) return { kind: 'resistance', sensor: alone };
  // The longest beginning that names a kind; what follows must be understood, too.
  const parts = text.trim().split(/[\s,;:/]+/);
  for (let count = parts.length - 1; count > 0; count--) {
    const head = kindOf.get(plainWords(parts.slice(0, count).join(' ')));
    if (head === undefined) continue;
    const tail = parts
      .slice(count)
      .join(' ')
      .replace(/^\(|\)$/g, '');
    const sensor = sensorIn(tail);
    if (sensor !== undefined && sensor.startsWith('pt') === (head === 'resistance')) {
      return head === 'thermocouple' || head === 'resistance' ? { kind: head, sensor } : undefined;
    }
    const range = rangeIn(tail, undefined);
    return range !== undefined && head.startsWith('analogue') ? { kind: head, range } : undefined;
  }
  return undefined;
}
