// Delays of chains against values that are passed on tick by tick, and bounds against each other.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { bestCase_ps, delayOf, type Link, safeBound_ps } from './chain.ts';
import { ageBoundOf, type BoundLink, bestCase, reactionBoundOf, safeBoundOf } from './chain-bounds.ts';
import { greatestAge_ps, longestReaction, reactionOf, scheduleOf, stretchesOf } from './reaction.ts';
import { latestBegin_ps, responseOf } from './response.ts';
import { loadOf, randomTasks, type TickJob, type TickTask, tickWalk } from './ticks.support.ts';

const tick = 1e6;

/**
 * Registers between tasks: each job takes the instant up to which causes are known as it begins, and hands it on as it
 * ends. The longest reaction to a cause just too late for a read, the shortest to one just in time, and the greatest ages,
 * over the causes and outputs of one hyperperiod.
 */
function passedOn(jobs: readonly TickJob[], order: readonly number[], period: number) {
  const known: { at: number; upTo: number; begin: number }[] = [];
  let before: typeof known = [];
  for (const [place, task] of order.entries()) {
    known.length = 0;
    for (const { begin, end } of jobs.filter((job) => job.task === task && job.end >= 0)) {
      const upTo = place === 0 ? begin : before.findLast(({ at }) => at <= begin)?.upTo;
      if (upTo !== undefined) known.push({ at: end, upTo, begin });
    }
    before = [...known];
  }
  const causes = jobs.filter((job) => job.task === order[0]).map((job) => job.begin);
  const inside = (instant: number): boolean => instant >= 2 * period && instant < 3 * period;
  const [most, least] = [Math.max, Math.min].map((choose, which) =>
    choose(
      ...causes
        .filter(inside)
        .map((cause) => before.find(({ upTo }) => (which === 0 ? upTo > cause : upTo >= cause))!.at - cause),
    ),
  );
  const outputs = before.map((output, at) => ({ ...output, replaced: before[at + 1]?.at ?? Number.NaN }));
  const shown = outputs.filter(({ at }) => inside(at));
  return {
    most,
    least,
    outputAge: Math.max(...shown.map(({ at, upTo }) => at - upTo)),
    age: Math.max(...shown.map(({ replaced, upTo }) => replaced - upTo)),
  };
}

describe('chains of tasks that are released together', () => {
  const random = seeded(30);
  const cases = Array.from({ length: 2000 }, () => {
    let ticks: readonly TickTask[];
    do ticks = randomTasks(random);
    while (loadOf(ticks) > 1);
    // In half of them two and two have one priority.
    const alike = 1 + Math.floor(2 * random());
    ticks = ticks.map((task) => ({ ...task, priority: Math.floor(task.priority / alike) }));
    const order = ticks.map((_, at) => ({ at, by: random() })).sort((a, b) => a.by - b.by);
    return { ticks, order: order.slice(0, 1 + Math.floor(random() * order.length)).map(({ at }) => at) };
  });
  const inPicoseconds = (ticks: readonly TickTask[]) =>
    ticks.map(({ priority, period, longest }) => ({ priority, period_ps: period * tick, longest_ps: longest * tick }));

  it('forwards, backwards and tick by tick are one and the same, in 2,000 chains', () => {
    for (const { ticks, order } of cases) {
      const { stages, period_ps } = scheduleOf(inPicoseconds(ticks))!;
      const chain = order.map((at) => stages[at]!);
      const seen = passedOn(tickWalk(ticks, 120 * 8), order, 120);
      const found = reactionOf(chain, period_ps);
      expect(
        {
          most: found.most_ps / tick,
          least: found.least_ps / tick,
          outputAge: found.outputAge_ps / tick,
          age: greatestAge_ps(chain, period_ps) / tick,
        },
        JSON.stringify({ ticks, order }),
      ).toEqual(seen);
    }
  });

  it('Davare is at least Dürr, Dürr at least exact, and the longest reaction is the greatest age (Günzel and others 2023)', () => {
    let [closer, reached] = [0, 0];
    for (const { ticks, order } of cases) {
      const tasks = inPicoseconds(ticks).map((task) => ({
        ...task,
        jitter_ps: 0,
        blocking_ps: 0,
        deadline_ps: task.period_ps,
      }));
      const links = order.map((at): BoundLink => {
        const response = responseOf(tasks, at);
        if (!response.bounded) throw new Error('a set over its load');
        const { period_ps, priority } = tasks[at]!;
        const runs = { on: 'cpu', priority, jitter: q(0, 's') };
        return { period: q(period_ps, 's'), most: q(response.response_ps, 's'), runs };
      });
      const { stages, period_ps } = scheduleOf(tasks)!;
      const chain = order.map((at) => stages[at]!);
      const exact = reactionOf(chain, period_ps);
      const davare = safeBoundOf(links, 'test').value;
      const duerr = reactionBoundOf(links, 'test').value;
      const age = ageBoundOf(links, 'test').value;
      expect(duerr).toBeLessThanOrEqual(davare);
      expect(exact.most_ps).toBeLessThanOrEqual(duerr);
      expect(greatestAge_ps(chain, period_ps)).toBe(exact.most_ps);
      expect(exact.outputAge_ps).toBeLessThanOrEqual(age);
      expect(age).toBeLessThanOrEqual(davare);
      const shortest = bestCase({ d: order.map((at) => q(tasks[at]!.longest_ps, 's')) }, 'test').value;
      expect(exact.least_ps).toBeGreaterThanOrEqual(shortest);
      if (duerr < davare) closer++;
      if (exact.most_ps === duerr) reached++;
    }
    expect(closer).toBeGreaterThan(400);
    expect(reached).toBeGreaterThan(100);
  });

  it('delays of causes at any instant make up the whole hyperperiod, from the least to the longest', () => {
    for (const { ticks, order } of cases.slice(0, 200)) {
      const { stages, period_ps } = scheduleOf(inPicoseconds(ticks))!;
      const chain = order.map((at) => stages[at]!);
      const stretches = stretchesOf(chain, period_ps);
      const { least_ps, most_ps } = reactionOf(chain, period_ps);
      expect(stretches.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      for (const each of stretches) expect(each.share).toBeCloseTo((each.most_ps - each.least_ps) / period_ps, 12);
      expect(Math.min(...stretches.map((each) => each.least_ps))).toBe(least_ps);
      expect(Math.max(...stretches.map((each) => each.most_ps))).toBe(most_ps);
    }
  });

  it('have no exact value where they ask for more than the whole time, or repeat too late', () => {
    const second = 1e12;
    expect(scheduleOf([{ priority: 0, period_ps: 2, longest_ps: 3 }])).toBeUndefined();
    const late = [second, second - 1].map((period_ps, priority) => ({ priority, period_ps, longest_ps: 1 }));
    expect(scheduleOf(late)).toBeUndefined();
    const all = { C: [q(2, 's')], T: [q(1, 's')], p: [q(1, '1')] };
    expect(longestReaction({ ...all, n: [q(1, '1')] }, 'test').value).toBeNaN();
    expect(longestReaction({ ...all, C: [q(0.5, 's')], n: [q(2, '1')] }, 'test').value).toBeNaN();
    expect(() => reactionOf([], 1)).toThrow(RangeError);
    const nothing = { reads_ps: new Float64Array(), writes_ps: new Float64Array() };
    expect(() => reactionOf([nothing], 1)).toThrow(RangeError);
  });
});

describe('links on one clock', () => {
  const random = seeded(31);
  const whole = (most: number): number => Math.floor(random() * (most + 1));
  const periods = [2, 3, 4, 6, 12];
  const locked = (): Link => {
    const period_ps = periods[whole(4)]!;
    const least_ps = whole(5);
    return {
      kind: 'sampled',
      period_ps,
      phase_ps: whole(30) - 10,
      least_ps,
      most_ps: least_ps + whole(3),
    };
  };
  const direct = (): Link => {
    const least_ps = whole(4);
    return { kind: 'direct', least_ps, most_ps: least_ps + whole(2) };
  };
  /** When the effect is there of a cause at an instant, link by link. */
  const effectOf = (links: readonly Link[], cause: number, which: 'least_ps' | 'most_ps'): number =>
    links.reduce((now, link) => {
      if (link.kind === 'direct') return now + link[which];
      let look = link.phase_ps! - 20 * link.period_ps;
      while (look < now) look += link.period_ps;
      return look + link[which];
    }, cause);

  it('delay a cause as if it went from look to look, 2,000 chains at every instant', () => {
    for (let at = 0; at < 2000; at++) {
      const links = Array.from({ length: 1 + whole(4) }, () => (random() < 0.7 ? locked() : direct()));
      const instants = Array.from({ length: 12 }, (_, instant) => instant);
      const soon = 1e-6;
      const delays = delayOf(links);
      expect(delays.least_ps).toBe(Math.min(...instants.map((t) => effectOf(links, t, 'least_ps') - t)));
      const most = Math.max(...instants.map((t) => effectOf(links, t + soon, 'most_ps') - t));
      expect(Math.abs(delays.most_ps - most)).toBeLessThan(2 * soon);
      expect(delays.most_ps).toBeLessThanOrEqual(safeBound_ps(links));
      expect(delays.least_ps).toBeGreaterThanOrEqual(bestCase_ps(links));
    }
  });

  it('delay no more than with a phase of their own, and free ones by a period each', () => {
    for (let at = 0; at < 300; at++) {
      const links = [locked(), direct(), locked(), direct()];
      const free = links.map((link): Link => (link.kind === 'sampled' ? { ...link, phase_ps: undefined } : link));
      expect(delayOf(free)).toEqual({ least_ps: bestCase_ps(links), most_ps: safeBound_ps(links) });
      expect(delayOf(links).most_ps).toBeLessThanOrEqual(safeBound_ps(links));
      const split = [...links, free[0]!, ...links];
      const [one, all] = [delayOf(links), delayOf(split)];
      expect(all.most_ps).toBe(2 * one.most_ps + safeBound_ps([free[0]!]));
      expect(all.least_ps).toBe(2 * one.least_ps + bestCase_ps([free[0]!]));
    }
  });

  it('that repeat too late are bounded as if they were free', () => {
    const [a, b] = [1e12, 1e12 - 1].map(
      (period_ps): Link => ({ kind: 'sampled', period_ps, phase_ps: 0, least_ps: 1, most_ps: 2 }),
    );
    expect(delayOf([a!, b!])).toEqual({ least_ps: 2, most_ps: 2e12 - 1 + 4 });
  });
});

describe('chains of tasks with instants of their own', () => {
  const random = seeded(32);
  const whole = (most: number): number => Math.floor(random() * (most + 1));

  /** The delays of causes just in time and just too late for each job of the first task, job by job. */
  function seenDelays(jobs: readonly TickJob[], order: readonly number[], from: number, until: number) {
    const lines = order.map((task) => jobs.filter((job) => job.task === task && job.end >= 0));
    const effectOf = (cause: number, isMissed: boolean): number =>
      lines.reduce((now, line, place) => {
        const next = line.find(({ begin }) => (place === 0 && isMissed ? begin > now : begin >= now));
        return next === undefined ? Number.NaN : next.end;
      }, cause);
    const causes = lines[0]!.map(({ begin }) => begin).filter((begin) => begin >= from && begin < until);
    const [least, most] = [causes.map((at) => effectOf(at, false) - at), causes.map((at) => effectOf(at, true) - at)];
    /** When the first task read what a job of the last one writes. */
    const causeOf = (begin: number): number =>
      lines.slice(0, -1).reduceRight((now, line) => line.findLast(({ end }) => end <= now)?.begin ?? Number.NaN, begin);
    const ages = lines.at(-1)!.flatMap(({ begin, end }) => (end >= from && end < until ? [end - causeOf(begin)] : []));
    return { least: Math.min(...least), most: Math.max(...most), outputAge: Math.max(...ages) };
  }

  it('no cause takes less than the least or more than the longest delay, 1,000 sets with offsets, late releases, parts that hold on and shorter runs', () => {
    let [compared, low, high, nominal] = [0, 0, 0, 0];
    while (compared < 1000) {
      const plain = randomTasks(random);
      if (loadOf(plain) > 0.95) continue;
      const isSteady = random() < 0.5;
      const lates = plain.map(({ period }) => (isSteady ? 0 : whole(period / 3)));
      const shorts = plain.map(({ longest }) => (isSteady ? longest : 1 + whole(longest - 1)));
      const ticks = plain.map((task, at): TickTask => {
        const drawn = Array.from({ length: 200 }, () => [
          whole(lates[at]!),
          shorts[at]! + whole(task.longest - shorts[at]!),
        ]);
        return {
          ...task,
          phase: whole(1) * whole(task.period - 1),
          lateBy: (job) => drawn[job % 200]![0]!,
          takes: (job) => drawn[job % 200]![1]!,
          holds: isSteady ? 0 : whole(2),
        };
      });
      const tasks = ticks.map((task, at) => ({
        priority: task.priority,
        period_ps: task.period * tick,
        longest_ps: task.longest * tick,
        jitter_ps: lates[at]! * tick,
        blocking_ps: Math.max(0, ...ticks.flatMap((b) => (b.priority > task.priority ? [b.holds! * tick] : []))),
        deadline_ps: task.period * tick,
      }));
      const order = ticks.map((_, at) => at).filter(() => random() < 0.7);
      const links = order.flatMap((at): readonly Link[] => {
        const response = responseOf(tasks, at);
        if (!response.bounded) return [];
        const { period_ps } = tasks[at]!;
        const most_ps = response.response_ps;
        const [phase_ps, least_ps] = [ticks[at]!.phase! * tick, shorts[at]! * tick];
        return [{ kind: 'sampled', period_ps, phase_ps, late_ps: latestBegin_ps(tasks, at)!, least_ps, most_ps }];
      });
      if (links.length === 0 || links.length < order.length) continue;
      const seen = seenDelays(tickWalk(ticks, 840), order, 240, 480);
      const found = delayOf(links);
      expect(seen.least * tick, JSON.stringify({ ticks, order })).toBeGreaterThanOrEqual(found.least_ps);
      expect(seen.most * tick, JSON.stringify({ ticks, order })).toBeLessThanOrEqual(found.most_ps);
      const bounds = order.map((at, place): BoundLink => {
        const { priority, period_ps, jitter_ps } = tasks[at]!;
        const runs = { on: 'cpu', priority, jitter: q(jitter_ps, 's') };
        return { period: q(period_ps, 's'), most: q(links[place]!.most_ps, 's'), runs };
      });
      expect(seen.most * tick).toBeLessThanOrEqual(reactionBoundOf(bounds, 'test').value);
      expect(seen.outputAge * tick).toBeLessThanOrEqual(ageBoundOf(bounds, 'test').value);
      compared++;
      if (seen.least * tick === found.least_ps) low++;
      if (seen.most * tick === found.most_ps) high++;
      // As if each looked just as it is released.
      if (delayOf(links.map((link) => ({ ...link, late_ps: 0 }))).least_ps > seen.least * tick) nominal++;
    }
    // They are no wide bounds either, and without late looks the least one would be wrong.
    expect(low / compared).toBeGreaterThan(0.3);
    expect(high / compared).toBeGreaterThan(0.1);
    expect(nominal).toBeGreaterThan(50);
  });

  it('a task that waits behind the one that hands over reads what that has just written: not a period later', () => {
    const a: Link = { kind: 'sampled', period_ps: 10, phase_ps: 0, least_ps: 1, most_ps: 1 };
    const b: Link = { kind: 'sampled', period_ps: 10, phase_ps: 0, late_ps: 1, least_ps: 2, most_ps: 3 };
    expect(delayOf([a, b])).toEqual({ least_ps: 3, most_ps: 23 });
    expect(delayOf([a, { ...b, late_ps: 0 }])).toEqual({ least_ps: 12, most_ps: 23 });
  });
});

it('a hand-over to a less urgent task counts one wait only on the same processor with nothing between, and its jitter', () => {
  const s = (value: number) => q(value, 's');
  const link = (on: string, priority: number): BoundLink => ({
    period: s(100),
    most: s(30),
    runs: { on, priority, jitter: s(7) },
  });
  const reaction = (links: readonly BoundLink[]): number => reactionBoundOf(links, 'test').value;
  const age = (links: readonly BoundLink[]): number => ageBoundOf(links, 'test').value;
  const safe = (links: readonly BoundLink[]): number => safeBoundOf(links, 'test').value;
  const wire: BoundLink = { period: undefined, most: s(5), runs: undefined };
  const near = [link('cpu', 1), link('cpu', 2)];
  expect(reaction(near)).toBe(100 + (100 + 7) + 30);
  expect(age(near)).toBe(100 + 7 + 30);
  for (const far of [
    [link('cpu', 1), link('other', 2)],
    [link('cpu', 2), link('cpu', 1)],
    [link('cpu', 1), link('cpu', 1)],
  ]) {
    expect(reaction(far)).toBe(safe(far));
    expect(age(far)).toBe(100 + 30 + 30);
  }
  const apart = [link('cpu', 1), wire, link('cpu', 2)];
  expect(reaction(apart)).toBe(safe(apart));
  expect(reaction([wire, wire])).toBe(10);
  expect(age([wire])).toBe(5);
});
