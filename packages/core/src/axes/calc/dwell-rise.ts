// Strokes and dwells one behind the other, as a cam or an index table goes through them while its master turns.
import { formula } from '../../working/formula.ts';
import { type LawName, lawPieces } from './motion-law.ts';
import { dwell, type Piece } from './segment.ts';

/** A stroke in m or rad by a motion law, or a dwell where no stroke is said. */
export type Stroke =
  | { readonly duration_s: number; readonly stroke: number; readonly law: LawName }
  | { readonly duration_s: number };

/** The pieces of all strokes, each from where the one before has ended. */
export function dwellRise(strokes: readonly Stroke[], from = 0): readonly Piece[] {
  const pieces: Piece[] = [];
  let position = from;
  for (const each of strokes) {
    if ('law' in each) {
      pieces.push(...lawPieces(each.law, each.stroke, each.duration_s, position));
      position += each.stroke;
    } else pieces.push(dwell(each.duration_s, position));
  }
  return pieces;
}

/** What a part of the master's turn takes while it turns at constant speed. */
export const masterTime = formula({
  id: 'axes.master.time',
  title: 'time in which the master turns through an angle',
  text: 'φ/ω',
  gives: 's',
  symbols: { φ: 'rad', ω: 'rad/s' },
  means: { φ: 'angle of the master', ω: 'its speed' },
  try: { φ: [0, 7], ω: [0.1, 700] },
  source: 'definition',
  proof: 'M2',
  of: (φ: number, ω: number) => φ / ω,
});
