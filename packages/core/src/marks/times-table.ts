// Times of a capture kept apart, each with the way that the web makes in it: what is by chance, what a lead takes out.
import type { Cell, Table } from '../checks/view.ts';
import { given } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { timeAllowed } from './calc/capture.ts';
import { wayOfTime } from './calc/contribution.ts';
import type { PlacedMark } from './mark.ts';
import { type SpreadSection, sizeOf } from './spread-field.ts';

/** Nothing where the mark has no times. */
export function timesTable({ said, name, speed: v }: PlacedMark): readonly Table[] {
  const { eye, capture, tolerance } = said;
  const size = (spread: SpreadSection | undefined): unknown => spread && sizeOf(spread);
  const times: readonly (readonly [key: string, title: string, time: unknown, becomes: string])[] = [
    ['eye_delay', 'delay of the eye', eye?.delay, 'the same each time: a lead takes it out'],
    ['input_delay', 'delay of the input', capture?.delay, 'the same each time: a lead takes it out'],
    ['input_filter', 'filter of the input', capture?.filter, 'the same each time: a lead takes it out'],
    ['eye_jitter', 'jitter of the eye', size(eye?.jitter), 'by chance: stays'],
    ['input_jitter', 'jitter of the input', size(capture?.jitter), 'by chance: stays'],
    ['poll', 'period of the polling', capture?.polled, 'anywhere in it: stays; half of it is a delay'],
    ['stamp', 'step of the stamp', capture?.stamped, 'anywhere in it: stays'],
    ['clock', 'clocks apart', size(capture?.clock), 'stays'],
    ['difference', 'off later than on', eye?.rise_fall_difference, 'moves a length, not a mark'],
  ];
  const rows = times.flatMap(([key, title, time, becomes]): readonly (readonly Cell[])[] => {
    if (!(time instanceof Quantity) || time.unit !== 's') return [];
    const t = time as Quantity<'s'>;
    return [[title, t, given({ v }, (known) => wayOfTime({ v: known.v, t }, `${name}.times.${key}`)), becomes]];
  });
  if (rows.length === 0) return [];
  const allowed = given({ e: tolerance, v }, (known) => timeAllowed(known, name));
  return [
    {
      name: 'times',
      title: 'Times kept apart',
      note: 'sizes as the file tells them: standard deviations, half widths, steps',
      columns: ['what', 'time', 'way at the speed of the web', 'what becomes of it'],
      rows: [...rows, ['the tolerance as a time', allowed, tolerance, 'what all of them may have together']],
    },
  ];
}
