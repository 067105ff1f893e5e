// Which points sit where: each module of a location with its channels by number, and the name of the point on each.
import type { Drawn, Mark, Row, Words } from '../pictures/picture.ts';
import type { LaidChannel, LaidModule } from './laid-out.ts';
import type { PlannedLocation } from './planned.ts';
import { channelLegend, mostDrawn } from './rack-face.ts';
import { named } from './tables.ts';

/** Channels stand in so many columns, numbered down each of them (our judgement: names of twenty letters have room). */
const columns = 3;

export function channelsPicture(title: string, { racks, wrong }: PlannedLocation): Drawn {
  const bad = new Set(wrong.map(({ point }) => point));
  const modules = racks.flatMap((rack) => rack.modules).filter(({ channels }) => channels.length > 0);
  const rows: Row[] = [];
  const marks: Mark[] = [];
  for (const module of modules) {
    const { label } = module;
    const channels = module.channels.slice(0, mostDrawn);
    const down = Math.ceil(channels.length / columns);
    const first = rows.length;
    for (let line = 0; line < down; line++)
      rows.push({ height: 1, above: line === 0 && first > 0 ? 0.5 : 0, ...labelOf(module, line, label) });
    channels.forEach((channel, at) => {
      const [column, line] = [Math.floor(at / down), at % down];
      marks.push(...marksOf(channel, column, first + line, bad));
    });
  }
  return {
    picture: {
      name: 'channels',
      title,
      caption:
        'Channels by number, down each column, with the point on each. An open box is a spare channel, a hatched one does not suit its point.',
      scale: { from: 0, to: columns, unit: '1' },
      rows: rows.length === 0 ? [{ height: 0 }] : rows,
      marks,
      legend: channelLegend,
      text: modules.map(textOf),
    },
    numbers: [],
  };
}

const labelOf = ({ module }: LaidModule, line: number, label: string): Pick<Row, 'label'> =>
  line === 0 ? { label: [label] } : line === 1 ? { label: [named(module.part)] } : {};

function marksOf(channel: LaidChannel, column: number, row: number, bad: ReadonlySet<unknown>): readonly Mark[] {
  const { number, points } = channel;
  const isBad = points.length > 1 || points.some((point) => bad.has(point));
  const names = points.map(({ name }) => name).join(' + ');
  const about = points[0] === undefined ? {} : { about: points[0].path };
  const used = points.length > 0;
  return [
    {
      kind: 'bar',
      row,
      from: column + 0.01,
      to: column + 0.055,
      high: used ? [0.2, 0.8] : [0.3, 0.7],
      fill: isBad ? 'hatched' : used ? 'solid' : 'outlined',
      tone: isBad ? 'fails' : 'traffic',
      ...about,
    },
    {
      kind: 'label',
      row,
      x: column + 0.07,
      align: 'start',
      within: [column + 0.06, column + 1],
      forms: [...(used ? [[`${number} ${names}`], [`${number} ${names.slice(0, 12)}…`]] : []), [String(number)]],
      tone: isBad ? 'fails' : used ? 'plain' : 'quiet',
      ...about,
    },
  ];
}

function textOf({ label, module, channels }: LaidModule): Words {
  const used = channels.filter(({ points }) => points.length > 0);
  const spare = channels.length - used.length;
  const names = used.map(({ number, points }) => `${number} ${points.map(({ name }) => name).join(' and ')}`);
  const what = names.length === 0 ? 'no point' : names.join(', ');
  return [`${label}, ${named(module.part)}: ${what}; ${spare === 0 ? 'no channel' : spare} spare.`];
}
