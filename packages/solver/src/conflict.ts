// Which needs cannot be met together: a set of them of which none can be left out, by asking about parts of it.

/** Whether there is no solution where these needs and no others must be met; undefined where it was not found out. */
export type Contradicts = (needs: readonly string[]) => boolean | undefined;

export interface Conflict {
  readonly needs: readonly string[];
  /** Whether each answer that a need rests on was found out. */
  readonly irreducible: boolean;
}

/**
 * `needs` contradict each other as a whole. A need is left out only where what remains was shown to contradict itself, so
 * that the set is a conflict in any case. By halves, as described by Junker, 'QuickXplain', AAAI 2004 (from memory): few
 * questions where few of many needs are to blame.
 */
export function conflictAmong(needs: readonly string[], contradicts: Contradicts): Conflict {
  let irreducible = true;
  const areContradicting = (some: readonly string[]): boolean => {
    const answer = contradicts(some);
    irreducible &&= answer !== undefined;
    return answer === true;
  };
  /** What of `among` is to blame beside `kept`; both together contradict. */
  const blamed = (kept: readonly string[], among: readonly string[], isNew: boolean): readonly string[] => {
    if (isNew && areContradicting(kept)) return [];
    if (among.length <= 1) return among;
    const [first, second] = [among.slice(0, among.length >> 1), among.slice(among.length >> 1)];
    const ofSecond = blamed([...kept, ...first], second, true);
    return [...blamed([...kept, ...ofSecond], first, ofSecond.length > 0), ...ofSecond];
  };
  return { needs: blamed([], needs, true), irreducible };
}
