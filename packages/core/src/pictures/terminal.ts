// The one printer of pictures as characters: every row is a line of cells with its texts in it, and below stands what the
// cells mean.
import type { Area, Bar, Dots, Fill, Line, Mark, Measure, Picture, Row, Tone, Words } from './picture.ts';
import { plainText } from './picture.ts';
import { cutTo, linesOf, placeTexts, type Room } from './placing.ts';
import { ticksOf } from './ticks.ts';

/** The picture in lines of at most so many characters; title and caption are left to the caller. */
export function printLines(picture: Picture, columns: number): readonly string[] {
  const { room, cells } = roomIn(picture.rows, columns, picture.scale);
  const sheet = new Sheet(picture, room, columns);
  for (const mark of picture.marks) sheet.draw(mark);
  for (const [index, row] of picture.rows.entries()) {
    if (row.ticks) drawTicks(picture, index, sheet, cells);
    if (row.label) sheet.write(index, 0, 0, plainText(cutTo(row.label, room.left - 1, widthOf)));
    if (row.end) sheet.write(index, 0, columns - widthOf(row.end), plainText(row.end));
  }
  for (const { row, line, x, words } of sheet.placing.texts)
    sheet.write(row, line + sheet.textsFrom(row), Math.round(x), plainText(words));
  return [...sheet.lines(), ...legendOf(picture, columns)];
}

/** They let what is behind them be seen. */
const dots = ':';

/** One of these for each fill, so that a picture is read without colours. */
function cellOf(fill: Fill, tone: Tone): string {
  if (fill === 'tinted') return tone === 'traffic' ? '▓' : '░';
  return { solid: '█', hatched: '▒', dotted: dots, outlined: '═', dashed: '╌' }[fill];
}

function legendOf({ legend, marks }: Picture, columns: number): readonly string[] {
  const used = new Set(
    marks.map((mark) => ('fill' in mark && mark.kind !== 'dots' ? `${mark.fill} ${mark.tone}` : '')),
  );
  const meanings = new Map<string, string[]>();
  for (const { fill, tone, means } of legend) {
    if (!used.has(`${fill} ${tone}`)) continue;
    const cell = cellOf(fill, tone);
    meanings.set(cell, [...(meanings.get(cell) ?? []), means]);
  }
  const items = [...meanings].map(([cell, means]) => ({ words: [`${cell} ${means.join('; ')}`] }));
  return linesOf(items, { left: 0, right: columns, widthOf }).map(plainText);
}

/** Letters that stand in whole squares take two cells. */
const widthOf = (words: Words): number => {
  let width = 0;
  for (const character of plainText(words)) width += wide(character) ? 2 : 1;
  return width;
};

const wide = (character: string): boolean =>
  (character.codePointAt(0) ?? 0) >= 0x1100 && !/[\u2000-\u2bff]/.test(character);

/** A column of cells for the picture, one more for a rail at its end, and columns for what stands beside the rows. */
function roomIn(
  rows: readonly Row[],
  columns: number,
  scale: { readonly from: number; readonly to: number },
): { readonly room: Room; readonly cells: number } {
  const widest = (words: readonly (Words | undefined)[]): number =>
    words.reduce((most, each) => (each === undefined ? most : Math.max(most, widthOf(each) + 1)), 0);
  const end = widest(rows.map((row) => row.end));
  const left = Math.min(widest(rows.map((row) => row.label)), Math.floor((columns - end) / 2));
  const cells = Math.max(columns - left - end - 1, 1);
  const at = (x: number): number => {
    const share = (x - scale.from) / (scale.to - scale.from);
    return left + cells * (Number.isNaN(share) ? 0 : Math.min(Math.max(share, 0), 1));
  };
  return { room: { left, right: left + cells + 1, at, widthOf, apart: 1, inset: 0, ends: 2 }, cells };
}

/** The characters, line by line. */
class Sheet {
  readonly placing;
  readonly #picture: Picture;
  readonly room: Room;
  readonly #columns: number;
  /** The first line of each row, and how many of its lines are for marks. */
  readonly #top: number[] = [];
  readonly #high: number[] = [];
  readonly #cells: (string | undefined)[][] = [];
  /** How much of a cell is covered by what is drawn in it. */
  readonly #covered: number[][] = [];

  constructor(picture: Picture, room: Room, columns: number) {
    this.#picture = picture;
    this.room = room;
    this.#columns = columns;
    this.placing = placeTexts(picture, room);
    let top = 0;
    for (const [index, row] of picture.rows.entries()) {
      const texts = this.placing.lines[index]!;
      const high = row.ticks
        ? 2
        : row.scale
          ? Math.max(Math.round(row.height), 1)
          : row.height >= 1 || texts > 0
            ? 1
            : 0;
      this.#top.push(top);
      this.#high.push(high);
      top += high + Math.max(texts - 1, 0);
    }
    for (let line = 0; line < top; line++) {
      this.#cells.push([]);
      this.#covered.push([]);
    }
  }

  /** Texts of a row stand in the last of its lines for marks, and below. */
  textsFrom(row: number): number {
    return Math.max(this.#high[row]! - 1, 0);
  }

  write(row: number, line: number, column: number, text: string): void {
    const cells = this.#cells[this.#top[row]! + line];
    if (cells === undefined) return;
    let at = Math.max(column, 0);
    for (const character of text) {
      if (at >= this.#columns) return;
      cells[at++] = character;
      if (wide(character)) cells[at++] = '';
    }
  }

  lines(): readonly string[] {
    return this.#cells.map((cells) =>
      Array.from(cells, (cell) => cell ?? ' ')
        .join('')
        .trimEnd(),
    );
  }

  draw(mark: Mark): void {
    if (mark.kind === 'bar') this.#bar(mark);
    else if (mark.kind === 'line') this.#line(mark);
    else if (mark.kind === 'area') this.#area(mark);
    else if (mark.kind === 'dots') this.#dots(mark);
    else if (mark.kind === 'measure') this.#measure(mark);
    else if (mark.kind === 'notch') this.write(mark.row, 0, this.#column(mark.x), '▼');
  }

  #column(x: number): number {
    return Math.floor(this.room.at(x));
  }

  /** Which line of a row a height on its scale is in. */
  #lineAt(row: number, y: number): number {
    const { from, to } = this.#picture.rows[row]!.scale ?? { from: 0, to: 1 };
    const high = this.#high[row]!;
    const share = (y - from) / (to - from);
    return Math.min(Math.max(Math.floor((1 - (Number.isNaN(share) ? 0 : share)) * high), 0), Math.max(high - 1, 0));
  }

  /** Covers cells in lines counted from the top of the picture. */
  #cover(lines: readonly [number, number], from: number, to: number, cell: string): void {
    const widest = Math.floor(to - from >= 1 ? Math.ceil(from) : (from + to) / 2);
    for (let column = Math.floor(from); column < to || column === widest; column++) {
      const covered = Math.min(to, column + 1) - Math.max(from, column);
      if (covered < 0.5 && column !== widest) continue;
      for (let line = lines[0]; line <= lines[1]; line++) {
        const before = this.#covered[line]![column] ?? 0;
        if (cell === dots ? before > 0 : before > covered) continue;
        this.#cells[line]![column] = cell;
        this.#covered[line]![column] = covered;
      }
    }
  }

  #bar({ row, downTo = row, from, to, high, fill, tone, arrow }: Bar): void {
    const [start, end] = [this.room.at(Math.min(from, to)), this.room.at(Math.max(from, to))];
    const standing = high !== undefined && this.#picture.rows[row]!.scale !== undefined;
    const first = this.#top[row]! + (standing ? this.#lineAt(row, Math.max(...high)) : 0);
    const last = this.#top[downTo]! + (standing ? this.#lineAt(row, Math.min(...high)) : this.#high[downTo]! - 1);
    this.#cover([first, last], start, end, cellOf(fill, tone));
    if (arrow) this.#cover([first, last], Math.max(Math.ceil(end) - 1, Math.floor(start)), Math.ceil(end), '►');
  }

  #line({ points, weight, dashed }: Line): void {
    const [first, last] = [points[0], points.at(-1)];
    if (first === undefined || last === undefined) return;
    const columns = points.map(({ x }) => this.#column(x));
    if (points.every(({ x }) => x === first.x)) {
      const cell = weight === 'rail' ? '┃' : dashed ? '╎' : '│';
      const end = this.#top[last.row]! + this.#high[last.row]! - 1;
      for (let line = this.#top[first.row]!; line <= end; line++) this.#cells[line]![columns[0]!] = cell;
    } else if (points.every(({ row, y }) => row === first.row && y === first.y)) {
      const line = this.#top[first.row]! + this.#lineAt(first.row, first.y);
      const [start, end] = [first.x, last.x].map((x) => Math.round(this.room.at(x)));
      for (let column = start!; column < end!; column++) this.#cells[line]![column] ??= '─';
    } else if (points.every(({ row }) => row === first.row)) {
      this.#along(
        points.map(({ x, y }) => [x, y, y] as const),
        (column, y) => {
          this.#cells[this.#top[first.row]! + this.#lineAt(first.row, y)]![column] = '*';
        },
      );
    }
  }

  #area({ row, points, fill, tone }: Area): void {
    this.#along(points, (column, low, high) => {
      const top = this.#top[row]!;
      const lines = [top + this.#lineAt(row, high), top + this.#lineAt(row, low)] as const;
      this.#cover(lines, column, column + 1, cellOf(fill, tone));
    });
  }

  /** For each column between the points, the two heights in the middle of it. */
  #along(
    points: readonly (readonly [number, number, number])[],
    visit: (column: number, low: number, high: number) => void,
  ): void {
    for (const [index, [x, low, high]] of points.entries()) {
      const [nextX, nextLow, nextHigh] = points[index + 1] ?? [x, low, high];
      const [from, to] = [this.room.at(x), this.room.at(nextX)];
      for (let column = Math.floor(from); column < to; column++) {
        const share = Math.min(Math.max((column + 0.5 - from) / (to - from), 0), 1);
        visit(column, low + share * (nextLow - low), high + share * (nextHigh - high));
      }
    }
  }

  #dots({ row, points, fill }: Dots): void {
    for (const [x, y] of points) this.write(row, this.#lineAt(row, y), this.#column(x), fill === 'solid' ? '●' : '○');
  }

  #measure({ row, from, to }: Measure): void {
    const start = this.#column(Math.min(from, to));
    const end = Math.max(Math.ceil(this.room.at(Math.max(from, to))) - 1, start);
    const follows = this.#cells[this.#top[row]!]?.[start] === '┤';
    this.write(row, 0, start, start === end ? '┼' : `├${'─'.repeat(end - start - 1)}┤`);
    if (follows) this.write(row, 0, start, '┼');
  }
}

/** A ruler with its numbers; they stand above it when the picture is below. */
function drawTicks({ rows, scale }: Picture, row: number, sheet: Sheet, cells: number): void {
  const above = row < rows.findIndex((each) => each.grid);
  const { left, right, at } = sheet.room;
  const ticks = ticksOf(scale, (text) => (widthOf([text]) + 2) / cells, 2);
  sheet.write(row, above ? 1 : 0, left, '─'.repeat(cells));
  for (const tick of ticks) {
    const text = tick.text ?? '';
    const column = Math.min(Math.floor(at(tick.at)), right - 1);
    sheet.write(row, above ? 1 : 0, column, above ? '┴' : '┬');
    sheet.write(
      row,
      above ? 0 : 1,
      Math.min(Math.max(column - Math.floor(text.length / 2), left), right - text.length),
      text,
    );
  }
}
