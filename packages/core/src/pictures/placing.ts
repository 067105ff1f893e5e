// Where the texts of a picture go when it is laid out at a given width: none runs into another. Labels that do not fit
// take a shorter form or are left out; the number of a measure that has no room between its ends is written below it.
import type { Item, Label, Measure, Picture, Tone, Words } from './picture.ts';

/** The width to lay out in, in whatever a printer counts: pixels or characters. */
export interface Room {
  /** Texts of the middle column stay between these. */
  readonly left: number;
  readonly right: number;
  readonly at: (x: number) => number;
  readonly widthOf: (words: Words, strong: boolean) => number;
  /** What is left free between two texts. */
  readonly apart: number;
  /** What is left free between a text and the place that it starts from or ends at. */
  readonly inset: number;
  /** What the two ends of a measure take of the room for its text. */
  readonly ends: number;
}

export interface Placed {
  readonly row: number;
  /** Which line of text of its row; 0 is the first. */
  readonly line: number;
  /** Its left end. */
  readonly x: number;
  readonly width: number;
  readonly words: Words;
  readonly kind: 'label' | 'measure' | 'paragraph';
  readonly tone: Tone;
  readonly strong: boolean;
  readonly about: string | undefined;
}

export interface Placing {
  readonly texts: readonly Placed[];
  /** How many lines of text each row has. */
  readonly lines: readonly number[];
}

export function placeTexts({ rows, marks }: Picture, room: Room): Placing {
  const texts: Placed[] = [];
  const taken = rows.map(() => new Taken(room.apart));
  const shortened = new Set<string>();
  for (const labels of groupsOf(marks.filter((mark) => mark.kind === 'label'))) {
    const { placed, whole } = placeGroup(labels, room, taken);
    texts.push(...placed);
    if (!whole && labels[0]!.group !== undefined) shortened.add(labels[0]!.group);
  }
  const below = rows.map((): Taken[] => []);
  for (const measure of marks.filter((mark) => mark.kind === 'measure')) {
    const { row } = measure;
    texts.push(placeMeasure(measure, room, taken[row]!) ?? placeBelow(measure, room, below[row]!));
  }
  const lines = rows.map(() => 0);
  for (const { row, line } of texts) lines[row] = Math.max(lines[row]!, line + 1);
  for (const { row, items } of marks.filter((mark) => mark.kind === 'paragraph')) {
    const written = items.filter(({ group }) => group === undefined || shortened.has(group));
    for (const words of linesOf(written, room)) {
      texts.push({ ...placedAt(row, room.left, words, room.widthOf(words, false)), line: lines[row]! });
      lines[row]! += 1;
    }
  }
  return { texts, lines };
}

/** Those of one group together, in the order in which the groups begin; a label without a group is its own. */
function groupsOf(labels: readonly Label[]): readonly (readonly Label[])[] {
  const groups = new Map<unknown, Label[]>();
  for (const label of labels) {
    const key = label.group ?? label;
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [label]);
    else known.push(label);
  }
  return [...groups.values()];
}

/** The first form in which all fit; in the shortest, as many as fit. */
function placeGroup(
  labels: readonly Label[],
  room: Room,
  taken: readonly Taken[],
): { readonly placed: readonly Placed[]; readonly whole: boolean } {
  const shortest = Math.max(...labels.map(({ forms }) => forms.length)) - 1;
  for (let form = 0; form < shortest; form++) {
    const placed = placeAll(labels, form, room, taken);
    if (placed !== undefined) return { placed, whole: form === 0 };
  }
  const wanted = labels
    .map((label) => ({ label, words: formOf(label, shortest) }))
    .filter(({ words }) => words.length > 0);
  const placed = wanted.flatMap(({ label, words }) => {
    const text = placeLabel(label, words, room);
    return text !== undefined && taken[label.row]!.take(text.x, text.x + text.width) ? [text] : [];
  });
  return { placed, whole: shortest <= 0 && placed.length === wanted.length };
}

/** All labels in one form, or nothing is taken. */
function placeAll(
  labels: readonly Label[],
  form: number,
  room: Room,
  taken: readonly Taken[],
): readonly Placed[] | undefined {
  const trial = new Map<number, Taken>();
  const placed: Placed[] = [];
  for (const label of labels) {
    const words = formOf(label, form);
    if (words.length === 0) continue;
    const row = trial.get(label.row) ?? taken[label.row]!.copy();
    trial.set(label.row, row);
    const text = placeLabel(label, words, room);
    if (text === undefined || !row.take(text.x, text.x + text.width)) return undefined;
    placed.push(text);
  }
  for (const [row, own] of trial) taken[row]!.become(own);
  return placed;
}

const formOf = ({ forms }: Label, form: number): Words => forms[Math.min(form, forms.length - 1)] ?? [];

/** Where a label would stand; moved to keep it within its bounds, and nowhere when it is too wide for them. */
function placeLabel(label: Label, words: Words, room: Room): Placed | undefined {
  const width = room.widthOf(words, label.strong === true);
  const low = Math.max(room.left, label.within === undefined ? room.left : room.at(label.within[0]) + room.inset);
  const high = Math.min(room.right, label.within === undefined ? room.right : room.at(label.within[1]));
  if (!(width <= high - low)) return undefined;
  const at = room.at(label.x);
  const wanted = { start: at + room.inset, middle: at - width / 2, end: at - room.inset - width }[label.align];
  return {
    ...placedAt(label.row, Math.min(Math.max(wanted, low), high - width), words, width),
    kind: 'label',
    tone: label.tone,
    strong: label.strong === true,
    about: label.about,
  };
}

function placeMeasure({ row, from, to, forms }: Measure, room: Room, taken: Taken): Placed | undefined {
  const [start, end] = [room.at(Math.min(from, to)), room.at(Math.max(from, to))];
  for (const words of forms) {
    const width = room.widthOf(words, true);
    const x = (start + end - width) / 2;
    if (width <= end - start - room.ends && taken.take(x, x + width))
      return { ...placedAt(row, x, words, width), kind: 'measure' };
  }
  return undefined;
}

/** In the first line below in which there is room. */
function placeBelow({ row, from, to, forms }: Measure, room: Room, below: Taken[]): Placed {
  const words = forms[0] ?? [];
  const width = room.widthOf(words, true);
  const wanted = (room.at(from) + room.at(to) - width) / 2;
  const x = Math.max(room.left, Math.min(wanted, room.right - width));
  let line = 0;
  for (;;) {
    below[line] ??= new Taken(room.apart);
    if (below[line]!.take(x, x + width)) return { ...placedAt(row, x, words, width), kind: 'measure', line: line + 1 };
    line++;
  }
}

const placedAt = (row: number, x: number, words: Words, width: number): Placed => ({
  row,
  line: 0,
  x,
  width,
  words,
  kind: 'paragraph',
  tone: 'quiet',
  strong: false,
  about: undefined,
});

/** Stands between the items of a paragraph. */
const between = ' · ';

/** Items in lines; one stays whole where a line can hold it, else it breaks between words. */
export function linesOf(
  items: readonly Item[],
  { left, right, widthOf }: Pick<Room, 'left' | 'right' | 'widthOf'>,
): readonly Words[] {
  const lines: Words[number][][] = [];
  const fits = (words: Words): boolean => widthOf(words, false) <= right - left;
  const append = (words: Words, gap: string): boolean => {
    const line = lines.at(-1);
    if (line === undefined || !fits([...line, gap, ...words])) return false;
    line.push(gap, ...words);
    return true;
  };
  for (const { words } of items) {
    if (append(words, between)) continue;
    if (fits(words)) lines.push([...words]);
    else {
      for (const [index, piece] of pieces(words).entries()) {
        if (!append(piece, index === 0 ? between : ' ')) lines.push([...piece]);
      }
    }
  }
  return lines;
}

/** Broken at every space; a number stays whole. */
function pieces(words: Words): readonly Words[] {
  const all: Words[number][][] = [[]];
  for (const each of words) {
    if (typeof each !== 'string') all.at(-1)!.push(each);
    else {
      for (const [index, word] of each.split(' ').entries()) {
        if (index > 0) all.push([]);
        if (word !== '') all.at(-1)!.push(word);
      }
    }
  }
  return all.filter((piece) => piece.length > 0);
}

/** The parts of a line of text that are taken already, in order. */
class Taken {
  readonly #apart: number;
  #spans: (readonly [start: number, end: number])[] = [];

  constructor(apart: number) {
    this.#apart = apart;
  }

  copy(): Taken {
    const own = new Taken(this.#apart);
    own.#spans = [...this.#spans];
    return own;
  }

  become(other: Taken): void {
    this.#spans = other.#spans;
  }

  /** Takes a span unless another one, or what is left free beside it, is in its way. */
  take(start: number, end: number): boolean {
    let index = this.#spans.length;
    while (index > 0 && this.#spans[index - 1]![0] > start) index--;
    const before = this.#spans[index - 1];
    const after = this.#spans[index];
    if (before !== undefined && before[1] + this.#apart > start) return false;
    if (after !== undefined && end + this.#apart > after[0]) return false;
    this.#spans.splice(index, 0, [start, end]);
    return true;
  }
}

/** The words up to a width; what is cut off is shown by an ellipsis. */
export function cutTo(words: Words, width: number, widthOf: Room['widthOf']): Words {
  if (widthOf(words, false) <= width) return words;
  const kept = [...words];
  while (kept.length > 0) {
    const last = kept.pop()!;
    if (typeof last !== 'string') continue;
    for (let letters = [...last]; letters.length > 0; letters = letters.slice(0, -1)) {
      const cut = [...kept, `${letters.join('')}…`];
      if (widthOf(cut, false) <= width) return cut;
    }
  }
  return [];
}
