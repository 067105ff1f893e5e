// Where a yes turns into a no: the change nearest to a present place, on a row of places that are asked one by one.

export type Outcome = 'yes' | 'no' | 'unknown' | 'impossible';

export interface Row {
  /** Where the search starts; it may lie between two whole numbers, which are the other places. */
  readonly present: number;
  readonly lowest: number;
  readonly highest: number;
}

export type Change =
  /** Two neighbours, one with a yes, the other without. */
  | { readonly kind: 'found'; readonly yes: number; readonly no: number }
  /** All places that were asked between these two are as the present one. */
  | { readonly kind: 'none'; readonly from: number; readonly upTo: number }
  /** The budget was used up on the way to two neighbours. */
  | { readonly kind: 'stopped'; readonly yes: number; readonly no: number };

/**
 * Goes outwards from the present place on both sides in turn, in steps that double, until an answer differs, then halves
 * the way back. What is unknown is passed over on the way out and is no yes on the way back; what is impossible ends its
 * side, and the last possible place is looked for. The present place answers yes or no; `mayAsk` is the budget.
 */
export function nearestChange(row: Row, ask: (place: number) => Outcome, mayAsk: () => boolean): Change {
  const { present } = row;
  const now = ask(present);
  const below: Side = { direction: -1, end: row.lowest - 1, reached: present, known: present, step: 1, walled: false };
  const above: Side = { ...below, direction: 1, end: row.highest + 1 };
  for (let moved = true; moved && mayAsk(); ) {
    moved = false;
    for (const side of [above, below]) {
      const place = next(side);
      if (place === undefined || !mayAsk()) continue;
      moved = true;
      const outcome = ask(place);
      if ((outcome === 'yes' || outcome === 'no') && outcome !== now)
        return now === 'yes' ? halved(side.known, place, ask, mayAsk) : halved(place, side.known, ask, mayAsk);
      go(side, place, outcome);
    }
  }
  return { kind: 'none', from: below.known, upTo: above.known };
}

interface Side {
  readonly direction: 1 | -1;
  /** The nearest place that cannot be asked: outside the row, or impossible. */
  end: number;
  /** The farthest place that is possible. */
  reached: number;
  /** The farthest place with an answer. */
  known: number;
  step: number;
  /** Whether something impossible was met: from then on the way to it is halved. */
  walled: boolean;
}

function next({ direction, end, reached, step, walled }: Side): number | undefined {
  const first = neighbour(reached, direction);
  const left = (end - first) * direction;
  if (left <= 0) return undefined;
  return first + direction * (walled ? Math.floor((left - 1) / 2) : Math.min(step, left) - 1);
}

function go(side: Side, place: number, outcome: Outcome): void {
  if (outcome === 'impossible') {
    side.end = place;
    side.walled = true;
    return;
  }
  side.reached = place;
  side.step *= 2;
  if (outcome !== 'unknown') side.known = place;
}

/** The next whole number in a direction. */
const neighbour = (place: number, direction: 1 | -1): number =>
  direction > 0 ? Math.floor(place) + 1 : Math.ceil(place) - 1;

function halved(yes: number, no: number, ask: (place: number) => Outcome, mayAsk: () => boolean): Change {
  for (;;) {
    const first = neighbour(Math.min(yes, no), 1);
    const last = neighbour(Math.max(yes, no), -1);
    if (first > last) break;
    if (!mayAsk()) return { kind: 'stopped', yes, no };
    const middle = Math.floor((first + last) / 2);
    if (ask(middle) === 'yes') yes = middle;
    else no = middle;
  }
  // A present place between two whole numbers gives way to the one behind it, where that has the same answer.
  const behind = (place: number, other: number): number => neighbour(place, other > place ? -1 : 1);
  if (!Number.isInteger(yes) && mayAsk() && ask(behind(yes, no)) === 'yes') yes = behind(yes, no);
  if (!Number.isInteger(no) && mayAsk() && ask(behind(no, yes)) === 'no') no = behind(no, yes);
  return { kind: 'found', yes, no };
}
