// What a picture of the cycle shows against the walk: every frame, every part, for every discipline on every topology.
import { describe, expect, it } from 'vitest';
import { casesOf, differs, pairs } from './cycle-cases.support.ts';
import { framesOf } from './cycle-frames.ts';
import { cycleStrip } from './cycle-strip.ts';

const perPair = 60;

const named = ({ stations }: { readonly stations: readonly string[] }): readonly string[] => stations;

interface Span {
  readonly from_ps: number;
  readonly to_ps: number;
}

/** When the line is busy: frames with the gaps behind them, those that touch as one. */
function busyTimes(frames: readonly Span[], gap_ps: number): readonly Span[] {
  const busy: Span[] = [];
  for (const { from_ps, to_ps } of frames) {
    const last = busy.at(-1);
    if (last !== undefined && from_ps - last.to_ps < 1) busy[busy.length - 1] = { ...last, to_ps: to_ps + gap_ps };
    else busy.push({ from_ps, to_ps: to_ps + gap_ps });
  }
  return busy;
}

describe(`the drawn cycle and the walk, ${perPair} seeded networks for each of ${pairs.length} pairs`, () => {
  // In a tree or on a ring an answer can be held up on its way, so that another one comes in first; the line to the
  // controller is busy at the same times all the same. So it is when two commands could leave in either order.
  const orderMayDiffer = /^(pipelined_\d+ as a (tree|ring)|slotted_\d+ as a tree)$/;

  it.each(casesOf(perPair))(
    'every frame that a picture shows is where the walk has it, to a picosecond: $name',
    (result) => {
      let compared = 0;
      let otherOrders = 0;
      for (const { seed, made, planned, walked, breaks } of result.cases) {
        // Of a ring, frames that pass through all stations are planned with the break that needs most, whichever it is.
        const through = made.network.discipline === 'summation' || planned.brokenAfter === undefined;
        const { ends_ps, cycles } = through ? walked : breaks[planned.brokenAfter]!;
        const frames = framesOf(planned);
        const ends = [frames.started_s, frames.exchanged_s, frames.repeated_s, frames.spoken_s];
        for (const [part, end_s] of ends.entries()) {
          if (differs(end_s!, ends_ps[part]!)) expect(end_s! * 1e12, `seed ${seed}`).toBe(ends_ps[part]);
        }
        const gap_ps = made.network.gap * made.network.octet_ps;
        const bars = cycleStrip(planned, undefined).picture.marks.filter((mark) => mark.kind === 'bar');
        const { commands, answers } = cycles[planned.fullest]!;
        for (const [drawn, fill, expected] of [
          [frames.commands, 'solid', commands],
          [frames.answers, 'tinted', answers],
        ] as const) {
          const shown = bars
            .filter((bar) => bar.tone === 'traffic' && bar.fill === fill)
            .map(({ from, to }, index) => ({
              stations: drawn[index]!.exchanges.map(({ device }) => device.name),
              from_ps: from * 1e12,
              to_ps: to * 1e12,
            }));
          const sameOrder = JSON.stringify(shown.map(named)) === JSON.stringify(expected.map(named));
          if (!sameOrder) otherOrders++;
          const [left, right] = sameOrder ? [shown, expected] : [busyTimes(shown, gap_ps), busyTimes(expected, gap_ps)];
          expect(left.length, `seed ${seed}`).toBe(right.length);
          for (const [index, { from_ps, to_ps }] of right.entries()) {
            const span = left[index]!;
            if (Math.max(Math.abs(span.from_ps - from_ps), Math.abs(span.to_ps - to_ps)) > 1)
              expect(span, `seed ${seed}, ${fill} ${index}`).toEqual({ from_ps, to_ps });
            compared++;
          }
        }
      }
      expect(compared).toBeGreaterThan(perPair);
      expect(otherOrders).toBeLessThan(orderMayDiffer.test(result.name) ? perPair / 2 : 1);
    },
  );
});
