// Two pictures of noise: how rare a lost update gets with repeats, and which burst is bridged at which cycle.
import { type Drawn, type Mark, notDrawn, pen, type Row, type Words } from '../pictures/picture.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import type { CycleRow, RepeatsRow } from './noise-tables.ts';

/** Over powers of ten: to the right a lost update is rarer. */
export function repeatsPicture(station: string, rows: readonly RepeatsRow[]): Drawn {
  const name = 'repeats';
  const title = `How rare a lost update of ${station} gets with repeats`;
  const { numbers, write } = pen();
  const known = rows.flatMap(({ repeats, own, shared }) =>
    own instanceof Missing || shared instanceof Missing ? [] : [{ repeats, own, shared }],
  );
  const tens = ({ value }: Quantity): number => Math.max(0, -Math.log10(Math.max(value, Number.MIN_VALUE)));
  const to = Math.max(0, ...known.map(({ own, shared }) => Math.max(tens(own), tens(shared))));
  if (to === 0) return { picture: notDrawn(name, title, 'Nothing is lost, or the losses are not known yet.'), numbers };
  const marks = known.flatMap(({ own, shared }, row): readonly Mark[] => [
    { kind: 'bar', row, from: 0, to: tens(own), high: [0.55, 0.95], fill: 'outlined', tone: 'quiet' },
    { kind: 'bar', row, from: 0, to: tens(shared), high: [0.05, 0.45], fill: 'solid', tone: 'traffic' },
  ]);
  return {
    picture: {
      name,
      title,
      caption:
        'Open bars: repeats of its own; full bars: repeats that all stations share. Each step to the right is a power of ten: at 6, one update in a million is lost. Random bit errors only; in a burst all repeats are lost together.',
      scale: { from: 0, to, unit: '1' },
      rows: [
        ...known.map(
          ({ repeats, shared }): Row => ({
            height: 1.5,
            above: 0.25,
            label: [write(repeats), repeats.value === 1 ? ' repeat' : ' repeats'],
            end: [write(shared)],
            grid: true,
          }),
        ),
        { height: 1, ticks: true },
      ],
      marks,
      legend: [
        { fill: 'outlined', tone: 'quiet', means: 'repeats of its own' },
        { fill: 'solid', tone: 'traffic', means: 'repeats that all stations share' },
      ],
      text: known.map(
        ({ repeats, own, shared }): Words => [
          'With ',
          write(repeats),
          ' shared, ',
          write(shared),
          ' of the updates are lost; with as many of its own, ',
          write(own),
          '.',
        ],
      ),
    },
    numbers,
  };
}

/** The rail is the longest burst of the file: what reaches it or ends before it trips. */
export function cyclesPicture(network: string, rows: readonly CycleRow[], longest: Quantity<'s'> | undefined): Drawn {
  const name = 'bridged';
  const title = `The burst that network ${network} bridges at each cycle`;
  const { numbers, write } = pen();
  const known = rows.flatMap(({ cycle, bridging, station }) =>
    bridging?.bridged instanceof Quantity && station !== undefined
      ? [{ cycle, bridged: bridging.bridged, station }]
      : [],
  );
  const to = Math.max(0, longest?.value ?? 0, ...known.map(({ bridged }) => bridged.value));
  if (known.length === 0 || to === 0)
    return {
      picture: notDrawn(name, title, 'The cycles of the controller or the losses that trip are not known yet.'),
      numbers,
    };
  const marks = known.map(({ bridged }, row): Mark => {
    const short = longest !== undefined && bridged.value <= longest.value;
    return {
      kind: 'bar',
      row,
      from: 0,
      to: bridged.value,
      high: [0.15, 0.85],
      fill: short ? 'hatched' : 'tinted',
      tone: short ? 'fails' : 'holds',
    };
  });
  const meanOf = ({ station }: (typeof known)[number]): Words =>
    station.meanToTrip instanceof Quantity ? [write(station.meanToTrip)] : ['not known'];
  return {
    picture: {
      name,
      title,
      caption:
        'A bar is the burst that the weakest station lives through, hatched where the longest burst of the file trips it; the rail is that burst. At the right: the mean time to a trip by random losses.',
      scale: { from: 0, to: to * 1.05, unit: 's' },
      rows: [
        ...known.map(
          (each): Row => ({ height: 1, above: 0.25, label: [write(each.cycle)], end: meanOf(each), grid: true }),
        ),
        { height: 1, ticks: true },
      ],
      marks: [
        ...marks,
        ...(longest === undefined
          ? []
          : [
              {
                kind: 'line',
                weight: 'rail',
                tone: 'plain',
                points: [
                  { x: longest.value, row: 0, y: 1.1 },
                  { x: longest.value, row: known.length - 1, y: -0.1 },
                ],
              } as const,
            ]),
      ],
      legend: [
        { fill: 'tinted', tone: 'holds', means: 'bridges the longest burst' },
        { fill: 'hatched', tone: 'fails', means: 'trips in it' },
      ],
      text: [
        ...(longest === undefined ? [] : [['The longest burst lasts ', write(longest), '.'] as Words]),
        ...known.map(
          (each): Words => [
            'At a cycle of ',
            write(each.cycle),
            ' a burst shorter than ',
            write(each.bridged),
            ' is bridged; random losses trip after ',
            ...meanOf(each),
            ' in the mean.',
          ],
        ),
      ],
    },
    numbers,
  };
}
