// The face of racks: places to scale, modules at their places, each channel with a point on it or without.
import { type Drawn, type Item, type Mark, type Meaning, pen, type Row, type Words } from '../pictures/picture.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { LaidChannel, LaidModule } from './laid-out.ts';
import type { PlannedLocation, PlannedRack } from './planned.ts';
import { named } from './tables.ts';

/** A place of one that says neither width nor places is drawn as wide as this, 31 mm (our judgement). */
const usualPlace_m = 0.031;
/** Channels stand in two columns, in so many rows at least, so that faces of small modules look like faces (our judgement). */
const fewestRows = 6;
const columns = 2;

/** More channels of a module, or free places of a rack, than these are no drawing any more (our judgement). */
export const mostDrawn = 128;

export const channelLegend: readonly Meaning[] = [
  { fill: 'solid', tone: 'traffic', means: 'channel with a point' },
  { fill: 'outlined', tone: 'traffic', means: 'spare channel' },
  { fill: 'hatched', tone: 'fails', means: 'channel that does not suit its point, or has two' },
];

const legend: readonly Meaning[] = [
  ...channelLegend,
  { fill: 'tinted', tone: 'plain', means: 'supply, controller, station, joint' },
  { fill: 'dashed', tone: 'quiet', means: 'free place' },
  { fill: 'hatched', tone: 'thin', means: 'beyond the last place' },
];

/** The racks of these locations below each other, all to one scale. */
export function rackFace(title: string, locations: readonly PlannedLocation[]): Drawn {
  const { numbers, write } = pen();
  const faces = locations.flatMap((location) => location.racks.map((rack) => faceOf(rack, location)));
  const high = Math.max(fewestRows, ...faces.flatMap(({ modules }) => modules.map((each) => rowsOf(each.channels))));
  const isInPlaces = faces.every(({ rack }) => rack.rack.width instanceof Missing);
  const isOver = faces.some(({ end, taken }) => taken > end * 1.000001);
  const widest = Math.max(...faces.map(({ end, taken }) => Math.max(end, taken))) || usualPlace_m;
  const rows: Row[] = [];
  const marks: Mark[] = [];
  for (const face of faces) {
    const row = rows.length;
    const { rack } = face;
    for (let line = 0; line < high; line++)
      rows.push({ height: 1, ...(line === 0 && { label: [rack.label], above: row === 0 ? 0 : 0.6 }) });
    rows.push({ height: 1 }, { height: 0 });
    marks.push(...marksOf(face, row, high), ...namesOf(face, row + high), {
      kind: 'paragraph',
      row: row + high + 1,
      items: keyOf(face),
    });
  }
  rows.push({ height: 1.7, above: 0.3, ticks: true });
  return {
    picture: {
      name: 'face',
      title,
      caption: `${isInPlaces ? 'Places from left to right; no rack says how wide it is.' : 'Widths are to scale, heights are not.'} A filled box is a channel with a point, an open one a spare channel, a hatched one does not suit its point; a dashed frame is a free place${isOver ? ', a hatched frame is beyond the last one' : ''}. Channels are numbered down the left column, then down the right one.`,
      scale: { from: 0, to: isInPlaces ? widest / usualPlace_m : widest, unit: isInPlaces ? '1' : 'm' },
      rows,
      marks: isInPlaces ? marks.map(inPlaces) : marks,
      legend,
      text: faces.flatMap((face) => textOf(face, write)),
    },
    numbers,
  };
}

interface Face {
  readonly rack: PlannedRack;
  readonly path: string;
  readonly wrong: ReadonlySet<unknown>;
  /** Width of a place. */
  readonly place: number;
  /** Where the last place ends, and where what is put in ends. */
  readonly end: number;
  readonly taken: number;
  /** The free places, before the joint where there is one. */
  readonly free: { readonly from: number; readonly count: number };
  readonly beside: readonly Box[];
  readonly modules: readonly (Box & { readonly channels: readonly LaidChannel[]; readonly module: LaidModule })[];
}

interface Box {
  readonly from: number;
  readonly to: number;
  readonly places: number;
  readonly number: number;
  readonly name: string;
  readonly what: string;
  /** The address of a module. */
  readonly about?: string;
}

const numberOf = (value: Value<Quantity<'1'>>): number | undefined =>
  value instanceof Missing ? undefined : value.value;

const isJoint = ({ beside: { what } }: PlannedRack['beside'][number]): boolean => what === 'extender';

/** What does not say how many places it takes is drawn in one. */
function faceOf(rack: PlannedRack, { location, wrong }: PlannedLocation): Face {
  const { places, width } = rack.rack;
  const count = numberOf(places);
  const place = count !== undefined && count > 0 && !(width instanceof Missing) ? width.value / count : usualPlace_m;
  let next = 0;
  const boxOf = (takes: Value<Quantity<'1'>>, name: string, what: string): Box => {
    const own = numberOf(takes) ?? 1;
    const box = { from: next * place, to: (next + own) * place, places: own, number: next + 1, name, what };
    next += own;
    return box;
  };
  const joints = rack.beside.filter(isJoint);
  const besideOf = (all: PlannedRack['beside']): readonly Box[] =>
    all.map(({ beside: { places: takes, part, what } }) => boxOf(takes, named(part), what));
  const before = besideOf(rack.beside.filter((each) => !isJoint(each)));
  const modules = rack.modules.map((module) => ({
    ...boxOf(module.module.places, named(module.module.part), 'module'),
    channels: module.channels,
    module,
    ...(module.channels.length > 0 && { about: module.module.path }),
  }));
  // A joint stands in the last places.
  const freeFrom = next;
  const behind = joints.reduce((sum, { beside }) => sum + (numberOf(beside.places) ?? 1), 0);
  next = Math.max(next, (count ?? 0) - behind);
  const freeTo = next;
  const beside = [...before, ...besideOf(joints)];
  return {
    rack,
    path: location.path,
    wrong: new Set(wrong.map(({ point }) => point)),
    place,
    end: (count ?? next) * place,
    taken: next * place,
    free: { from: freeFrom * place, count: freeTo - freeFrom },
    beside,
    modules,
  };
}

const rowsOf = (channels: readonly LaidChannel[]): number => Math.ceil(Math.min(channels.length, mostDrawn) / columns);

function marksOf(face: Face, row: number, high: number): readonly Mark[] {
  const { place, end, beside, modules, path, wrong } = face;
  const gap = place * 0.04;
  const last = row + high - 1;
  const whole = ({ from, to }: Pick<Box, 'from' | 'to'>) => ({ row, downTo: last, from: from + gap, to: to - gap });
  const isBeyond = ({ to }: Box): boolean => to > end * 1.000001;
  const hatched = (box: Box): Mark => ({ kind: 'bar', ...whole(box), fill: 'hatched', tone: 'thin' });
  const free = Array.from({ length: Math.min(face.free.count, mostDrawn) }, (_, at) => face.free.from + at * place);
  return [
    ...free.map((from): Mark => ({ kind: 'bar', ...whole({ from, to: from + place }), fill: 'dashed', tone: 'quiet' })),
    ...beside
      .filter(({ places }) => places > 0)
      .map(
        (box): Mark =>
          isBeyond(box) ? hatched(box) : { kind: 'bar', ...whole(box), fill: 'tinted', tone: 'plain', about: path },
      ),
    ...modules.flatMap((box): readonly Mark[] => [
      isBeyond(box) ? hatched(box) : edgeOf(box, row, gap, last),
      ...box.channels.slice(0, mostDrawn).map((channel, at) => cellOf(channel, at, box, row, wrong, gap)),
    ]),
    {
      kind: 'line',
      points: [
        { x: end, row, y: 1 },
        { x: end, row: last, y: 0 },
      ],
      weight: 'rail',
      tone: 'plain',
    },
  ];
}

/** Only its left edge, so that the channels stand out. */
const edgeOf = ({ from }: Box, row: number, gap: number, last: number): Mark => ({
  kind: 'line',
  points: [
    { x: from + gap / 2, row, y: 1 },
    { x: from + gap / 2, row: last, y: 0 },
  ],
  weight: 'fine',
  tone: 'quiet',
});

/** A channel with a point fills its box, one without is small and open. */
function cellOf(
  channel: LaidChannel,
  at: number,
  { from, to, channels }: Face['modules'][number],
  row: number,
  wrong: ReadonlySet<unknown>,
  gap: number,
): Mark {
  const down = rowsOf(channels);
  const [column, line] = [Math.floor(at / down), at % down];
  const room = (to - from - 3 * gap) / columns;
  const left = from + gap * 2 + column * room;
  const isBad = channel.points.length > 1 || channel.points.some((point) => wrong.has(point));
  const isUsed = channel.points.length > 0;
  const inset = isUsed || isBad ? 0.12 : 0.24;
  const about = channel.points[0]?.path;
  return {
    kind: 'bar',
    row: row + line,
    from: left + room * (isUsed ? 0.08 : 0.2),
    to: left + room * (isUsed ? 0.92 : 0.8),
    high: [inset, 1 - inset],
    fill: isBad ? 'hatched' : isUsed ? 'solid' : 'outlined',
    tone: isBad ? 'fails' : 'traffic',
    ...(about !== undefined && { about }),
  };
}

const boxesOf = ({ beside, modules }: Face): readonly Box[] =>
  [...beside, ...modules].filter(({ places }) => places > 0);

/** The names below where all have room, else the numbers of the places. */
const namesOf = (face: Face, row: number): readonly Mark[] =>
  boxesOf(face).map(({ from, to, number, name, about }) => ({
    kind: 'label',
    row,
    x: (from + to) / 2,
    align: 'middle',
    within: [from, to],
    forms: [[name], [String(number)]],
    group: face.rack.label,
    tone: 'quiet',
    ...(about !== undefined && { about }),
  }));

const keyOf = (face: Face): readonly Item[] =>
  boxesOf(face).map(({ number, name }) => ({ words: [`${number} ${name}`], group: face.rack.label }));

function inPlaces(mark: Mark): Mark {
  const by = (x: number): number => x / usualPlace_m;
  switch (mark.kind) {
    case 'bar':
      return { ...mark, from: by(mark.from), to: by(mark.to) };
    case 'line':
      return { ...mark, points: mark.points.map((point) => ({ ...point, x: by(point.x) })) };
    case 'label':
      return { ...mark, x: by(mark.x), ...(mark.within && { within: [by(mark.within[0]), by(mark.within[1])] }) };
    default:
      return mark;
  }
}

function textOf(face: Face, write: ReturnType<typeof pen>['write']): readonly Words[] {
  const { rack, beside, modules } = face;
  const { places } = rack.rack;
  const known = (value: Value<Quantity>, of: string): Words =>
    value instanceof Missing ? [`an unknown number of ${of}`] : [write(value)];
  const head: Words = [
    `Rack ${rack.label}, ${named(rack.rack.part)}: `,
    ...known(rack.taken, 'places'),
    ' of ',
    ...known(places, 'places'),
    ' places are taken.',
  ];
  const stands = beside
    .filter((box) => box.places > 0)
    .map((box): Words => [`Place ${box.number}: ${box.what} ${box.name}.`]);
  return [
    head,
    ...stands,
    ...modules.map((box): Words => [`Place ${box.number}: ${box.name}, ${usedOf(box.channels)}.`]),
  ];
}

function usedOf(channels: readonly LaidChannel[]): string {
  if (channels.length === 0) return 'its channels are not known';
  const used = channels.filter(({ points }) => points.length > 0).length;
  const spare = channels.length - used;
  return `${used} of ${channels.length} channels ${used === 1 ? 'has' : 'have'} a point, ${spare} ${spare === 1 ? 'is' : 'are'} spare`;
}
