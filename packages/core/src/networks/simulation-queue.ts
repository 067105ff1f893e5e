// Answers that come up together: each waits where the run before it is taken. Events are taken in the order of time.
import type { Hop } from './calc/simulate/plan.ts';

interface Event {
  readonly at_ps: number;
  readonly answer: number;
  readonly leg: number;
}

/** The hops of answers that leave their stations when they are ready, with what each waits for others on its way. */
export function answersTogether(answers: readonly (readonly Hop[])[], gap_ps: number): readonly (readonly Hop[])[] {
  const free_ps = new Map<number, number>();
  const sent: Hop[][] = answers.map(() => []);
  const events: Event[] = [];
  const isSooner = (a: Event, b: Event): boolean => a.at_ps < b.at_ps || (a.at_ps === b.at_ps && a.answer < b.answer);
  /** Kept with the soonest last. */
  const add = (event: Event): void => {
    let [low, high] = [0, events.length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (isSooner(event, events[middle]!)) low = middle + 1;
      else high = middle;
    }
    events.splice(low, 0, event);
  };
  for (const [answer, hops] of answers.entries()) if (hops.length > 0) add({ at_ps: hops[0]!.from_ps, answer, leg: 0 });
  while (events.length > 0) {
    const { at_ps, answer, leg } = events.pop()!;
    const [hop, next] = [answers[answer]![leg]!, answers[answer]![leg + 1]];
    const from_ps = Math.max(at_ps, free_ps.get(hop.run) ?? 0);
    free_ps.set(hop.run, from_ps + hop.lasts_ps + gap_ps);
    sent[answer]!.push({ ...hop, from_ps });
    if (next !== undefined) add({ at_ps: from_ps + next.from_ps - hop.from_ps, answer, leg: leg + 1 });
  }
  return sent;
}
