// A picture is plain data in physical units: rows from top to bottom over one horizontal scale, and marks in the rows.
// A printer lays it out for its own width; nothing here knows of pixels, characters, fonts or colours.
import type { Unit } from '../units/si.ts';
import type { Quantity } from '../working/quantity.ts';
import { type Shown, shown } from '../working/working.ts';

/** Words and numbers in turn; a number is opened by its address. */
export type Words = readonly (string | Shown)[];

export interface Picture {
  /** Unique among the pictures of one view: the name under which a picture is asked for alone. */
  readonly name: string;
  readonly title: string;
  /** How the picture is read, in a sentence or two. */
  readonly caption: string;
  readonly scale: Scale;
  readonly rows: readonly Row[];
  /** In the order in which they are drawn. */
  readonly marks: readonly Mark[];
  /** What the fills stand for, where that is not written beside them. */
  readonly legend: readonly Meaning[];
  /** All that is drawn, as sentences. */
  readonly text: readonly Words[];
}

/** From left to right, in SI; of the vertical scale of a row, from bottom to top. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly unit: Unit;
}

export interface Row {
  /** At the left of the row, and at its right. */
  readonly label?: Words;
  readonly end?: Words;
  /** In lines of text; a row grows when its texts need more. */
  readonly height: number;
  /** Lines of text left empty above it. */
  readonly above?: number;
  /** For curves and for bars that stand on a base line; 0 at the bottom and 1 at the top where it is left out. */
  readonly scale?: Scale;
  /** The horizontal scale is written in this row. */
  readonly ticks?: true;
  /** The lines of the horizontal scale run behind this row. */
  readonly grid?: true;
}

/** What a mark is about; a printer gives each a colour, and never a colour alone. */
export type Tone = 'traffic' | 'plain' | 'quiet' | 'holds' | 'thin' | 'fails' | 'unknown' | 'before';

export type Fill = 'solid' | 'tinted' | 'hatched' | 'dotted' | 'outlined' | 'dashed';

export interface Meaning {
  readonly fill: Fill;
  readonly tone: Tone;
  readonly means: string;
}

export type Mark = Bar | Line | Area | Dots | Notch | Measure | Label | Paragraph;

/** A rectangle in one row, or down to another. */
export interface Bar {
  readonly kind: 'bar';
  readonly row: number;
  readonly downTo?: number;
  readonly from: number;
  readonly to: number;
  /** Bottom and top on the vertical scale of the row; the whole of it where it is left out. */
  readonly high?: readonly [number, number];
  readonly fill: Fill;
  readonly tone: Tone;
  /** It ends in an arrow: through a rail, or on beyond the picture. */
  readonly arrow?: true;
  /** An address: what the bar stands for. */
  readonly about?: string;
}

/** Through points, each in a row, at a height of the row's vertical scale. */
export interface Line {
  readonly kind: 'line';
  readonly points: readonly Point[];
  /** A rail is a capacity: what is beyond it is not there. */
  readonly weight: 'fine' | 'edge' | 'rail';
  readonly tone: Tone;
  readonly dashed?: true;
  readonly about?: string;
}

export interface Point {
  readonly x: number;
  readonly row: number;
  readonly y: number;
}

/** Between a curve and a base line, in one row. */
export interface Area {
  readonly kind: 'area';
  readonly row: number;
  /** x, bottom, top. */
  readonly points: readonly (readonly [number, number, number])[];
  readonly fill: Fill;
  readonly tone: Tone;
}

export interface Dots {
  readonly kind: 'dots';
  readonly row: number;
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly fill: 'solid' | 'outlined';
  readonly tone: Tone;
}

/** Points down to the place where what is wanted begins. */
export interface Notch {
  readonly kind: 'notch';
  readonly row: number;
  readonly x: number;
  /** Where its tip is; the top of the row where it is left out. */
  readonly y?: number;
}

/** A dimension line between two places with its number; what does not fit between them is written below. */
export interface Measure {
  readonly kind: 'measure';
  readonly row: number;
  readonly from: number;
  readonly to: number;
  /** From the longest to the shortest; the first that fits is taken. */
  readonly forms: readonly Words[];
}

/** A text at a place. One that would run into another is left out. */
export interface Label {
  readonly kind: 'label';
  readonly row: number;
  readonly x: number;
  readonly align: 'start' | 'middle' | 'end';
  /** The text must stay between these places. */
  readonly within?: readonly [number, number];
  /** From the longest to the shortest; nothing is written for one that is empty. */
  readonly forms: readonly Words[];
  /** Labels of one group all take the same form: the first in which all of them fit. */
  readonly group?: string;
  readonly tone: Tone;
  readonly strong?: true;
  readonly about?: string;
}

/** Texts one behind another over as many lines as they need. */
export interface Paragraph {
  readonly kind: 'paragraph';
  readonly row: number;
  readonly items: readonly Item[];
}

export interface Item {
  readonly words: Words;
  /** Written only when the labels of this group could not be written in full. */
  readonly group?: string;
}

/** A picture with the quantities behind its numbers, by which each of them is explained. */
export interface Drawn {
  readonly picture: Picture;
  readonly numbers: readonly Quantity[];
}

/** Writes quantities into a picture and remembers them. */
export function pen(): { readonly numbers: Quantity[]; readonly write: (quantity: Quantity) => Shown } {
  const numbers: Quantity[] = [];
  const write = (quantity: Quantity): Shown => {
    numbers.push(quantity);
    return shown(quantity);
  };
  return { numbers, write };
}

export const plainText = (words: Words): string =>
  words.map((each) => (typeof each === 'string' ? each : each.text)).join('');

/** A picture that cannot be drawn: it says why. */
export const notDrawn = (name: string, title: string, why: string): Picture => ({
  name,
  title,
  caption: 'It cannot be drawn yet.',
  scale: { from: 0, to: 1, unit: '1' },
  rows: [{ height: 0 }],
  marks: [{ kind: 'paragraph', row: 0, items: [{ words: [why] }] }],
  legend: [],
  text: [[why]],
});
