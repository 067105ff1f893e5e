// The colours of the pictures: names that a page gives its own values, and what holds where there is no page around.
import type { Fill, Line, Tone } from './picture.ts';
import type { Attributes } from './xml.ts';

/** Colours of a light page. Text has a contrast of at least 4.5 on `paper`, marks one of 3 (WCAG 2.2, 1.4.3 and 1.4.11). */
export const colours = {
  paper: '#fcfdfb',
  wash: '#f3f6f1',
  ink: '#16201d',
  'ink-2': '#43504b',
  'ink-3': '#5d6964',
  rule: '#c6d0c8',
  'rule-2': '#dfe6df',
  blue: '#174a86',
  'blue-mid': '#5c89bb',
  'blue-tint': '#d6e3f2',
  holds: '#51635c',
  'holds-fill': '#d5dfd8',
  thin: '#8a5300',
  'thin-fill': '#b4730e',
  fails: '#a92a14',
  'fails-fill': '#b3301a',
  unknown: '#43504b',
  ghost: '#7d8a84',
} as const;

export type Colour = keyof typeof colours;

/** How a colour is written: by its name, with its light value where nothing is said of it. */
export type Paint = (colour: Colour) => string;

interface Hues {
  readonly edge: Colour;
  readonly solid: Colour;
  readonly tint: Colour;
  readonly text: Colour;
}

const hues: Readonly<Record<Tone, Hues>> = {
  traffic: { edge: 'blue', solid: 'blue', tint: 'blue-tint', text: 'blue' },
  plain: { edge: 'ink-2', solid: 'ink', tint: 'wash', text: 'ink' },
  quiet: { edge: 'ink-3', solid: 'rule', tint: 'wash', text: 'ink-3' },
  holds: { edge: 'holds', solid: 'holds', tint: 'holds-fill', text: 'holds' },
  thin: { edge: 'thin-fill', solid: 'thin-fill', tint: 'wash', text: 'thin' },
  fails: { edge: 'fails-fill', solid: 'fails-fill', tint: 'wash', text: 'fails' },
  unknown: { edge: 'unknown', solid: 'unknown', tint: 'paper', text: 'unknown' },
  before: { edge: 'ghost', solid: 'ghost', tint: 'paper', text: 'ink-3' },
};

export const textColour = (tone: Tone): Colour => hues[tone].text;

/** The pattern of a hatched or dotted area, if that is what a fill is. */
export type PatternName = `${'hatched' | 'dotted'}-${Tone}`;
export const patternOf = (fill: Fill, tone: Tone): PatternName | undefined =>
  fill === 'hatched' || fill === 'dotted' ? `${fill}-${tone}` : undefined;

/** Inside and edge of an area. */
export function filled(fill: Fill, tone: Tone, paint: Paint, pattern: (name: PatternName) => string): Attributes {
  const { edge, solid, tint } = hues[tone];
  switch (fill) {
    case 'solid':
      return { fill: paint(solid) };
    case 'tinted':
      return { fill: paint(tint), stroke: paint(edge), 'stroke-width': '1' };
    case 'outlined':
      return { fill: paint('paper'), stroke: paint(edge), 'stroke-width': '1' };
    case 'dashed':
      return { fill: paint('paper'), stroke: paint(edge), 'stroke-width': '1', 'stroke-dasharray': '3 2.5' };
    case 'hatched':
      return { fill: pattern(`hatched-${tone}`), stroke: paint(edge), 'stroke-width': '1' };
    case 'dotted':
      return { fill: pattern(`dotted-${tone}`) };
  }
}

export const edgeColour = (tone: Tone): Colour => hues[tone].edge;

/** A line; a fine one of traffic is lighter than the frames that it joins. */
export function stroked({ weight, tone, dashed }: Line, paint: Paint): Attributes {
  const colour =
    tone === 'traffic' && weight === 'fine' ? 'blue-mid' : weight === 'rail' ? hues[tone].solid : hues[tone].edge;
  return {
    fill: 'none',
    stroke: paint(colour),
    'stroke-width': { fine: '0.9', edge: '1.5', rail: '2' }[weight],
    'stroke-dasharray': dashed ? '3 2.5' : undefined,
  };
}
