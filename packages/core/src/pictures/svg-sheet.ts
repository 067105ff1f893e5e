// A picture laid out at a width in pixels: where its rows, ticks and texts are. What is drawn there is for the printer.
import type { Picture, Row, Words } from './picture.ts';
import { linesOf, type Placing, placeTexts, type Room } from './placing.ts';
import { textWidth } from './text-width.ts';
import { type Tick, ticksOf } from './ticks.ts';
import { colours, type Paint, type PatternName } from './tones.ts';

export interface SvgOptions {
  readonly width_px: number;
  /** Size of the letters; 11.5 where it is left out. */
  readonly text_px?: number;
  /** What the ids in the picture begin with, so that several can stand on one page; the name of the picture. */
  readonly id?: string;
  /** For a file of its own: with name space, background, fonts, title and caption, and colours that need no page around. */
  readonly standalone?: boolean;
}

/** A picture at a width: where everything is, in pixels. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly id: string;
  readonly standalone: boolean;
  readonly text_px: number;
  /** From one line of text to the next. */
  readonly line: number;
  readonly paint: Paint;
  readonly pattern: (name: PatternName) => string;
  readonly room: Room;
  readonly placing: Placing;
  /** Of each row; texts that need more lines stand below its bottom. */
  readonly tops: readonly number[];
  readonly bottoms: readonly number[];
  readonly ticks: readonly Tick[];
  /** Title and caption of a file of its own. */
  readonly head: readonly Words[];
  readonly caption: readonly Words[];
  /** A height on the vertical scale of a row. */
  readonly y: (row: number, value: number) => number;
}

/** The title of a file of its own is set larger by this. */
export const titleSize = 1.3;

/** Sizes that the eye asks for (our judgement). */
const usualText_px = 11.5;
const lineHeight = 1.3;
const rowOfText = 1.15;
/** A dimension line has its number above it. */
const rowOfMeasure = 1.7;
const columnGap_px = 12;
const edge_px = 6;
const tickGap_px = 14;
const leastTick_px = 8;

export function layOut(picture: Picture, options: SvgOptions): Sheet {
  const { text_px = usualText_px, standalone = false } = options;
  const line = text_px * lineHeight;
  const id = (options.id ?? picture.name).replace(/[^\w-]/g, '_');
  const width = Math.max(options.width_px, 8 * text_px);
  const room = roomIn(picture, width, text_px);
  const placing = placeTexts(picture, room);
  const wide = { ...room, left: 0, right: width };
  const head = standalone ? linesOf([{ words: [picture.title] }], { ...wide, right: width / titleSize }) : [];
  const caption = standalone ? linesOf([{ words: [picture.caption] }], wide) : [];
  const start = standalone ? head.length * titleSize * line + line : 0.5 * text_px;
  const { tops, bottoms, end } = rowsFrom(start, picture, placing, line);
  return {
    width,
    height: Math.ceil(end + 0.4 * text_px + (standalone ? (caption.length + 1) * line : 0)),
    id,
    standalone,
    text_px,
    line,
    paint: (colour) => (standalone ? colours[colour] : `var(--${colour}, ${colours[colour]})`),
    pattern: (name) => `url(#${id}-${name})`,
    room,
    placing,
    tops,
    bottoms,
    ticks: picture.rows.some((row) => row.ticks) ? ticksIn(picture, room, text_px) : [],
    head,
    caption,
    y: (row, value) => {
      const { from, to } = picture.rows[row]?.scale ?? { from: 0, to: 1 };
      return positions(from, to, bottoms[row] ?? 0, tops[row] ?? 0)(value);
    },
  };
}

/** What the label of a row may take of the column at the left, beside the numbers of its vertical scale. */
export const labelRoom = (row: Row, { room, text_px }: Sheet): number =>
  room.left - scaleWidth(row, text_px) - columnGap_px / 2;

/** The ticks of the vertical scale of a row, as many as there are lines of text for. */
export const rowTicks = ({ scale, height }: Row): readonly Tick[] =>
  scale === undefined ? [] : ticksOf(scale, () => 1.6 / Math.max(height, 1.6), 1);

function scaleWidth(row: Row, text_px: number): number {
  const widest = Math.max(0, ...rowTicks(row).map(({ text = '' }) => textWidth(text) * text_px));
  return widest === 0 ? 0 : widest + columnGap_px;
}

/** A column at the left for labels, one at the right for what ends a row, the picture between. */
function roomIn({ rows, scale }: Picture, width: number, text_px: number): Room {
  const widthOf = (words: Words, strong: boolean): number =>
    words.reduce((sum, each) => sum + textWidth(typeof each === 'string' ? each : each.text, strong), 0) * text_px;
  const column = (widest: number): number => (widest === 0 ? edge_px : widest + columnGap_px);
  const labels = rows.map((row) => widthOf(row.label ?? [], false) + scaleWidth(row, text_px));
  const ends = rows.map(({ end = [] }) => widthOf(end, false));
  const left = Math.min(column(largest(labels)), width / 2);
  const right = width - Math.min(column(largest(ends)), width / 3);
  return {
    left,
    right: largest(ends) === 0 ? width : right,
    at: positions(scale.from, scale.to, left, right),
    widthOf,
    apart: 6,
    inset: 3,
    ends: 6,
  };
}

const largest = (widths: readonly number[]): number => widths.reduce((most, each) => Math.max(most, each), 0);

/** From values to places; nothing is drawn outside the two ends. */
function positions(from: number, to: number, start: number, end: number): (value: number) => number {
  return (value) => {
    const share = (value - from) / (to - from);
    return start + (end - start) * (Number.isNaN(share) ? 0 : Math.min(Math.max(share, 0), 1));
  };
}

function rowsFrom(start: number, { rows, marks }: Picture, placing: Placing, line: number) {
  const measured = new Set(marks.flatMap((mark) => (mark.kind === 'measure' ? [mark.row] : [])));
  const tops: number[] = [];
  const bottoms: number[] = [];
  let end = start;
  for (const [index, { height, above = 0 }] of rows.entries()) {
    const lines = placing.lines[index]!;
    const top = end + above * line;
    const least = measured.has(index) ? rowOfMeasure : lines > 0 ? rowOfText : 0;
    const bottom = top + Math.max(height, least) * line;
    tops.push(top);
    bottoms.push(bottom);
    end = bottom + Math.max(lines - 1, 0) * line;
  }
  return { tops, bottoms, end };
}

function ticksIn({ scale }: Picture, { at }: Room, text_px: number): readonly Tick[] {
  const whole = at(scale.to) - at(scale.from);
  return ticksOf(scale, (text) => (textWidth(text) * text_px + tickGap_px) / whole, leastTick_px / whole);
}
