// Where the marks of a scale stand, and what is written at them: round numbers, as close as there is room for.
import { printNumberIn, unitChoice } from '../units/print-quantity.ts';
import { scaleOf } from '../units/resolve-unit.ts';
import type { Scale } from './picture.ts';

export interface Tick {
  /** In SI. */
  readonly at: number;
  /** Written at the larger ones; the last of these has the unit. */
  readonly text?: string;
}

/**
 * The ticks of a scale on which `room(text)` says which share of the whole a text needs; those at the ends are moved in.
 * Between two that are written, there are as many more as leave each the share `least`.
 */
export function ticksOf(scale: Scale, room: (text: string) => number, least: number): readonly Tick[] {
  const { from, to, unit } = scale;
  if (!(to > from) || !Number.isFinite(to - from)) return [];
  const as = unitChoice(Math.max(Math.abs(from), Math.abs(to)), unit);
  const { before, times, over } = scaleOf(as, unit) ?? { before: 0, times: 1, over: 1 };
  const inUnit = (si: number): number => (si * over) / times - before;
  const inSi = (number: number): number => ((number + before) * times) / over;
  const [low, high] = [inUnit(from), inUnit(to)];
  const textAt = (number: number): string => printNumberIn(inSi(number), unit, as);
  const withUnit = (text: string): string => (as === '1' ? text : as === '°' ? `${text}°` : `${text} ${as}`);
  for (const { step, parts } of steps(high - low)) {
    const written = multiples(step, low, high).map((number) => ({ number, text: textAt(number) }));
    const last = written.at(-1);
    if (last !== undefined) last.text = withUnit(last.text);
    const texts = written.map(({ number, text }) => {
      const half = room(text) / 2;
      return { half, middle: Math.min(Math.max((number - low) / (high - low), half), 1 - half) };
    });
    const fits = texts.every(({ middle, half }, index) => {
      const next = texts[index + 1];
      return next === undefined || half + next.half <= next.middle - middle;
    });
    if (!fits && written.length > 1) continue;
    const fine = parts.find((count) => step / count / (high - low) >= least) ?? 1;
    const between = multiples(step / fine, low, high).filter(
      (number) => !written.some((each) => Math.abs(each.number - number) < step / fine / 2),
    );
    return [
      ...written.map(({ number, text }) => ({ at: inSi(number), text })),
      ...between.map((number) => ({ at: inSi(number) })),
    ];
  }
  return [];
}

/** Steps of 1, 2 and 5 with powers of ten, from a fortieth of the span up, and into how many parts each may be divided. */
function steps(span: number): readonly { readonly step: number; readonly parts: readonly number[] }[] {
  const power = 10 ** Math.floor(Math.log10(span / 40));
  return [1, 10, 100].flatMap((decade) => [
    { step: decade * power, parts: [10, 5, 2] },
    { step: 2 * decade * power, parts: [10, 4, 2] },
    { step: 5 * decade * power, parts: [10, 5] },
  ]);
}

/** What of a span may be lost to rounding (our judgement). */
const slack = 1e-9;

function multiples(step: number, low: number, high: number): number[] {
  const first = Math.ceil(low / step - slack);
  const count = Math.floor(high / step + slack) - first + 1;
  return Array.from({ length: Math.max(count, 0) }, (_, index) => (first + index) * step);
}
