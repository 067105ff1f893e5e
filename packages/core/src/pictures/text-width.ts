// How wide a text will be, without a font at hand: an estimate from above, so that what is laid out by it does not collide.

/**
 * The width in parts of the size of the letters. Widths of Helvetica (Adobe font metrics, from memory); the fonts that
 * the pictures ask for are as wide or narrower.
 */
export function textWidth(text: string, strong = false): number {
  let thousandths = 0;
  for (const character of text)
    thousandths += widths.get(character) ?? widths.get(plain(character)) ?? otherWidth(character);
  return (thousandths / 1000) * (strong ? strongIsWider : 1);
}

/** Of Helvetica bold the widest letters of running text are a tenth wider (from memory). */
const strongIsWider = 1.1;

const classes: readonly (readonly [thousandths: number, characters: string])[] = [
  [191, "'"],
  [222, 'ijl'],
  [260, '|'],
  [278, ' !,./:;I[\\]ft·'],
  [333, '()-`r{}'],
  [355, '"'],
  [389, '*'],
  [400, '°'],
  [469, '^'],
  [500, 'Jckvsxyz'],
  [556, '#$0123456789?L_abdeghnopqu–'],
  [584, '+<=>~−'],
  [611, 'FTZ'],
  [667, '&ABEKPSVXYµΩ'],
  [722, 'CDHNRUw'],
  [778, 'GOQ'],
  [833, 'Mm'],
  [889, '%'],
  [944, 'W'],
  [1000, '…—'],
  [1015, '@'],
];

const widths: ReadonlyMap<string, number> = new Map(
  classes.flatMap(([width, characters]) => [...characters].map((character): [string, number] => [character, width])),
);

/** A letter without its accents. */
const plain = (character: string): string => character.normalize('NFD').charAt(0);

/** Letters beyond Latin are taken as wide as the widest Latin ones, what stands in whole squares as such. */
const otherWidth = (character: string): number => ((character.codePointAt(0) ?? 0) >= 0x1100 ? 1100 : 950);
