// The one printer of pictures as SVG. It lays a picture out at its real width and writes plain attributes only: no style,
// no script, nothing that a strict content security policy would stop.
import {
  type Bar,
  type Mark,
  type Measure,
  type Picture,
  type Point,
  plainText,
  type Row,
  type Words,
} from './picture.ts';
import { cutTo, type Placed } from './placing.ts';
import { labelRoom, layOut, rowTicks, type Sheet, type SvgOptions, titleSize } from './svg-sheet.ts';
import { textWidth } from './text-width.ts';
import { edgeColour, filled, type PatternName, patternOf, stroked, textColour } from './tones.ts';
import { type Attributes, element, escapeXml, tenth } from './xml.ts';

/** The picture as one SVG element. Same picture and options, same text. */
export function printSvg(picture: Picture, options: SvgOptions): string {
  const sheet = layOut(picture, options);
  const { width, height, id, paint, text_px, standalone } = sheet;
  const body = [
    element('title', { id: `${id}-title` }, escapeXml(picture.title)),
    element('desc', { id: `${id}-text` }, picture.text.map((words) => escapeXml(plainText(words))).join('&#10;')),
    patterns(picture, sheet),
    standalone ? element('rect', { width, height, fill: paint('paper') }) + headAndCaption(sheet) : '',
    ...scaleMarks(picture, sheet),
    ...picture.marks.map((mark) => drawn(mark, sheet)),
    ...picture.rows.map((row, index) => besideRow(row, index, sheet)),
    ...sheet.placing.texts.map((placed) => placedText(placed, sheet)),
  ];
  return element(
    'svg',
    {
      xmlns: standalone ? 'http://www.w3.org/2000/svg' : undefined,
      width,
      height,
      viewBox: `0 0 ${tenth(width)} ${tenth(height)}`,
      role: 'img',
      'aria-labelledby': `${id}-title`,
      'aria-describedby': `${id}-text`,
      'font-size': tenth(text_px),
      'font-family': standalone ? fonts : undefined,
    },
    body.filter((each) => each !== '').join('\n'),
  );
}

const fonts =
  "'Source Sans 3', 'Source Sans Pro', 'Noto Sans', 'Segoe UI', 'Liberation Sans', Arial, 'DejaVu Sans Condensed', sans-serif";

/** Grid, ticks and the numbers at them. */
function scaleMarks({ rows }: Picture, sheet: Sheet): readonly string[] {
  const { ticks, tops, bottoms, room, paint, text_px } = sheet;
  const grid = rows.flatMap((row, index) => {
    if (!row.grid) return [];
    const top = rows[index - 1]?.grid ? bottoms[index - 1]! : tops[index]!;
    return ticks
      .filter(({ text }) => text !== undefined)
      .map(({ at }) => `M${tenth(room.at(at))} ${tenth(top)}V${tenth(bottoms[index]!)}`);
  });
  const firstGrid = rows.findIndex((row) => row.grid);
  return [
    grid.length === 0 ? '' : element('path', { d: grid.join(''), stroke: paint('rule-2'), fill: 'none' }),
    ...rows.flatMap((row, index) => {
      if (!row.ticks) return [];
      const above = index < firstGrid;
      const start = above ? bottoms[index]! : tops[index]!;
      const marks = ticks.map(({ at, text }) => {
        const length = (text === undefined ? 3 : 6) * (above ? -1 : 1);
        return `M${tenth(room.at(at))} ${tenth(start)}v${tenth(length)}`;
      });
      return [
        element('path', { d: marks.join(''), stroke: paint('ink-3'), 'stroke-width': '0.75', fill: 'none' }),
        ...ticks.map(({ at, text }) => {
          if (text === undefined) return '';
          const half = (textWidth(text) * text_px) / 2;
          const x = Math.min(Math.max(room.at(at), half), sheet.width - half);
          const y = above ? start - 9 : start + 7 + 0.8 * text_px;
          return element('text', { x, y, fill: paint('ink-3'), 'text-anchor': 'middle' }, escapeXml(text));
        }),
      ];
    }),
  ];
}

function drawn(mark: Mark, sheet: Sheet): string {
  const { paint, pattern, room, y } = sheet;
  switch (mark.kind) {
    case 'bar':
      return bar(mark, sheet);
    case 'line': {
      const d = through(mark.points.map((point) => placeOf(point, sheet)));
      return element('path', { d, ...stroked(mark, paint), 'data-about': mark.about });
    }
    case 'area': {
      const { row, points, fill, tone } = mark;
      if (points.length === 0) return '';
      const outline = [
        ...points.map(([x, , high]) => [room.at(x), y(row, high)] as const),
        ...[...points].reverse().map(([x, low]) => [room.at(x), y(row, low)] as const),
      ];
      return element('path', { d: `${through(outline)}Z`, ...filled(fill, tone, paint, pattern) });
    }
    case 'dots':
      return mark.points
        .map(([x, high]) => {
          const [cx, cy] = [room.at(x), y(mark.row, high)];
          return element('circle', { cx, cy, r: 2.2, ...filled(mark.fill, mark.tone, paint, pattern) });
        })
        .join('');
    case 'notch': {
      const tip = mark.y === undefined ? sheet.tops[mark.row]! : y(mark.row, mark.y);
      return element('path', { d: `M${tenth(room.at(mark.x))} ${tenth(tip)}l-4 -6h8z`, fill: paint('ink') });
    }
    case 'measure':
      return dimension(mark, sheet);
    default:
      return '';
  }
}

const placeOf = ({ x, row, y }: Point, sheet: Sheet): readonly [number, number] => [sheet.room.at(x), sheet.y(row, y)];

const through = (places: readonly (readonly [number, number])[]): string =>
  places.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`).join('');

/** However short, a bar is seen, and an arrow has its head. */
const leastBar_px = 1.5;
const leastArrow_px = 10;

function bar(mark: Bar, sheet: Sheet): string {
  const { room, tops, bottoms, y } = sheet;
  const { row, downTo = row, high } = mark;
  const start = room.at(Math.min(mark.from, mark.to));
  const length = Math.max(room.at(Math.max(mark.from, mark.to)) - start, mark.arrow ? leastArrow_px : leastBar_px);
  const top = high === undefined ? tops[row]! : y(row, Math.max(...high));
  const bottom = high === undefined ? bottoms[downTo]! : y(row, Math.min(...high));
  const style: Attributes = {
    ...filled(mark.fill, mark.tone, sheet.paint, sheet.pattern),
    'data-about': mark.about,
  };
  if (mark.arrow) {
    const [neck, head, tip] = [start + length - 7, 0.3 * (bottom - top), start + length];
    const d = `M${tenth(start)} ${tenth(top)}H${tenth(neck)}v${tenth(-head)}L${tenth(tip)} ${tenth((top + bottom) / 2)}L${tenth(neck)} ${tenth(bottom + head)}V${tenth(bottom)}H${tenth(start)}Z`;
    return element('path', { d, ...style });
  }
  // An edge lies half outside its rectangle.
  const edge = style.stroke === undefined ? 0 : 0.5;
  return element('rect', {
    x: start + edge,
    y: top + edge,
    width: Math.max(length - 2 * edge, 0.5),
    height: Math.max(bottom - top - 2 * edge, 0.5),
    ...style,
  });
}

/** A dimension line needs this much for its two arrows. */
const arrows_px = 20;

function dimension({ row, from, to }: Measure, { room, bottoms, paint, line }: Sheet): string {
  const [start, end] = [room.at(Math.min(from, to)), room.at(Math.max(from, to))];
  const y = bottoms[row]! - 0.3 * line;
  const [top, low] = [tenth(y - 0.4 * line), tenth(y + 0.3 * line)];
  const [x1, x2] = [tenth(start), tenth(end)];
  const d = `M${x1} ${top}V${low}M${x2} ${top}V${low}M${x1} ${tenth(y)}H${x2}`;
  const lines = element('path', { d, stroke: paint('ink-3'), 'stroke-width': '0.75', fill: 'none' });
  if (end - start < arrows_px) return lines;
  const tips = `M${x1} ${tenth(y)}l7 -2.2v4.4zM${x2} ${tenth(y)}l-7 -2.2v4.4z`;
  return lines + element('path', { d: tips, fill: paint('ink-3') });
}

/** Label, end and vertical scale of a row. */
function besideRow(row: Row, index: number, sheet: Sheet): string {
  const { tops, bottoms, room, width, text_px, paint } = sheet;
  const y = (tops[index]! + bottoms[index]!) / 2 + 0.35 * text_px;
  const label =
    row.label &&
    writing(cutTo(row.label, labelRoom(row, sheet), room.widthOf), {
      x: 0,
      y,
      fill: paint('ink-2'),
    });
  const end = row.end && writing(row.end, { x: width, y, fill: paint('ink-2'), 'text-anchor': 'end' });
  const scale = rowTicks(row).map(({ at, text }) => {
    const place = sheet.y(index, at);
    const mark = { d: `M${tenth(room.left - 4)} ${tenth(place)}h4`, stroke: paint('ink-3'), 'stroke-width': '0.75' };
    if (text === undefined) return element('path', mark);
    const where = { x: room.left - 6, y: place + 0.35 * text_px, fill: paint('ink-3'), 'text-anchor': 'end' };
    return element('path', mark) + element('text', where, escapeXml(text));
  });
  return [label, end, ...scale].filter((each) => each !== undefined).join('');
}

function placedText(placed: Placed, sheet: Sheet): string {
  const { tops, bottoms, text_px, line, paint } = sheet;
  const { row, line: at, kind, words, tone, strong } = placed;
  const middle = (tops[row]! + bottoms[row]!) / 2 + 0.35 * text_px;
  const first = kind === 'measure' ? tops[row]! + 0.78 * line : middle;
  const y = at === 0 ? first : bottoms[row]! + (at - 0.25) * line;
  const x = kind === 'measure' ? placed.x + placed.width / 2 : placed.x;
  return writing(
    words,
    {
      x,
      y,
      fill: paint(kind === 'measure' ? 'ink-2' : textColour(tone)),
      'text-anchor': kind === 'measure' ? 'middle' : undefined,
      'font-weight': strong ? '650' : undefined,
      'data-about': placed.about,
    },
    kind === 'measure' ? { 'font-weight': '600', fill: paint('ink') } : {},
  );
}

/** A text in which each number has its address. */
const writing = (words: Words, where: Attributes, number: Attributes = {}): string =>
  element(
    'text',
    where,
    words
      .map((each) =>
        typeof each === 'string'
          ? escapeXml(each)
          : element('tspan', { 'data-address': each.address, ...number }, escapeXml(each.text)),
      )
      .join(''),
  );

function headAndCaption(sheet: Sheet): string {
  const { head, caption, line, text_px, height, paint } = sheet;
  const title = head.map((words, index) =>
    element(
      'text',
      {
        x: 0,
        y: (index + 0.85) * titleSize * line,
        fill: paint('ink'),
        'font-size': tenth(titleSize * text_px),
        'font-weight': '600',
      },
      escapeXml(plainText(words)),
    ),
  );
  const below = caption.map((words, index) =>
    element(
      'text',
      { x: 0, y: height - (caption.length - 1 - index) * line - 0.5 * line, fill: paint('ink-3') },
      escapeXml(plainText(words)),
    ),
  );
  return [...title, ...below].join('');
}

/** Those patterns that the picture uses. */
function patterns({ marks }: Picture, { id, paint }: Sheet): string {
  const used = new Map<PatternName, string>();
  for (const mark of marks) {
    const name = mark.kind === 'bar' || mark.kind === 'area' ? patternOf(mark.fill, mark.tone) : undefined;
    if (name === undefined || !('tone' in mark) || used.has(name)) continue;
    const colour = paint(edgeColour(mark.tone));
    const [size, turned, inside] = name.startsWith('hatched')
      ? ['4', 'rotate(45)', element('path', { d: 'M0 0V4', stroke: colour, 'stroke-width': '1.5' })]
      : ['5', undefined, element('circle', { cx: '1.5', cy: '1.5', r: '0.7', fill: colour })];
    const grid = { width: size, height: size, patternUnits: 'userSpaceOnUse', patternTransform: turned };
    used.set(name, element('pattern', { id: `${id}-${name}`, ...grid }, inside));
  }
  return used.size === 0 ? '' : element('defs', {}, [...used.values()].join(''));
}
