// What each discipline loses by chance, of whole files, against plain counting: every outcome of every try.
import { describe, expect, it } from 'vitest';
import { cell, lossesIn, sound, stationIn, tableIn, textOf } from '../assess/noise.support.ts';
import { known } from '../working/testing.support.ts';

const frame_bit = (payload: number): number => 8 * Math.max(64, 28 + payload);
const lostAmong = (bits: number, ratio: number): number => -Math.expm1(bits * Math.log1p(-ratio));

/** Every outcome of every try: the first of those that failed is tried again, as long as repeats are left. */
function unserved(tries: readonly number[], repeats: number): readonly number[] {
  const lost = tries.map(() => 0);
  const again = (left: readonly number[], spare: number, chance: number): void => {
    const [first, ...others] = left;
    if (first === undefined || spare === 0) for (const at of left) lost[at]! += chance;
    else {
      again(others, spare - 1, chance * (1 - tries[first]!));
      again(left, spare - 1, chance * tries[first]!);
    }
  };
  for (let outcome = 0; outcome < 2 ** tries.length; outcome++) {
    const failed = tries.flatMap((_, at) => ((outcome >> at) % 2 === 1 ? [at] : []));
    again(
      failed,
      repeats,
      tries.reduce((all, p, at) => all * (failed.includes(at) ? p : 1 - p), 1),
    );
  }
  return lost;
}

/** On a line: a command for all that is lost on one run misses all behind it; the first that lacks an answer is asked again. */
function unservedBehind(onRun: number, answers: readonly number[], again: readonly number[], repeats: number) {
  const count = answers.length;
  const lost = answers.map(() => 0);
  for (let reached = 0; reached <= count; reached++) {
    const command = (1 - onRun) ** reached * (reached === count ? 1 : onRun);
    for (let pattern = 0; pattern < 2 ** reached; pattern++) {
      const failed = answers.flatMap((_, at) => (at >= reached || (pattern >> at) % 2 === 1 ? [at] : []));
      let chance = command;
      for (let at = 0; at < reached; at++) chance *= failed.includes(at) ? answers[at]! : 1 - answers[at]!;
      const play = (left: readonly number[], spare: number, share: number): void => {
        const [first, ...others] = left;
        if (first === undefined || spare === 0) for (const at of left) lost[at]! += share;
        else {
          play(others, spare - 1, share * (1 - again[first]!));
          play(left, spare - 1, share * again[first]!);
        }
      };
      play(failed, repeats, chance);
    }
  }
  return lost;
}

describe('what a discipline loses on a line of four stations', () => {
  const [stations, command, answer, ratio] = [4, 50, 90, 2e-5];
  const file = (profile: string, repeats: number, laid: 'line' | 'ring' = 'line') =>
    sound(
      textOf({
        stations,
        profile,
        repeats,
        command,
        answer,
        laid,
        cycle: '2 ms',
        noise: [`bit_errors: ${ratio}`, 'trip_after: 3'],
      }),
    );
  /** Frames out and back over as many runs as lie before each station. */
  const tries = Array.from({ length: stations }, (_, at) =>
    lostAmong((at + 1) * (frame_bit(command) + frame_bit(answer)), ratio),
  );
  const lostIn = (profile: string, repeats: number): readonly number[] =>
    lossesIn(file(profile, repeats)).stations.map(({ lost }) => known(lost));
  const near = (found: readonly number[], due: readonly number[]): void => {
    expect(found).toHaveLength(due.length);
    for (const [at, each] of found.entries()) expect(each / due[at]!).toBeCloseTo(1, 9);
  };

  it.each(['polled_100', 'pipelined_100'])('%s: repeats that all share, every outcome counted', (profile) => {
    for (const repeats of [0, 1, 2, 3]) near(lostIn(profile, repeats), unserved(tries, repeats));
  });
  it('slotted_100: a frame that is lost is not sent again', () => {
    for (const repeats of [0, 2]) near(lostIn('slotted_100', repeats), tries);
  });
  it('summation_100: one frame over every run, out and back, for all; repeated whole', () => {
    const bits = 8 * Math.max(64, 32 + stations * (command + answer));
    const p = lostAmong(2 * stations * bits, ratio);
    for (const repeats of [0, 1, 3])
      near(
        lostIn('summation_100', repeats),
        tries.map(() => p ** (repeats + 1)),
      );
  });
  it('chained_100: one command for all; its loss silences all behind the run, and repeats are short of it', () => {
    const all = frame_bit(stations * command);
    const [onRun, answers] = [
      lostAmong(all, ratio),
      tries.map((_, at) => lostAmong((at + 1) * frame_bit(answer), ratio)),
    ];
    for (const repeats of [0, 1, 3])
      near(lostIn('chained_100', repeats), unservedBehind(onRun, answers, tries, repeats));
    const own = lossesIn(file('chained_100', 1)).stations.map(({ withOwn }) => known(withOwn));
    near(
      own,
      answers.map((each, at) => (1 - (1 - onRun) ** (at + 1) * (1 - each)) * tries[at]!),
    );
  });
  it('a ring is counted where it is broken, and whole beside it', () => {
    const assessment = file('polled_100', 2, 'ring');
    const table = tableIn(assessment, 'ring');
    const whole = table.rows.map((_, row) => cell(table, row, 'one try, whole'));
    near(whole, tries);
    const worst = lossesIn(assessment).stations.map((station) => known(station.try));
    expect(Math.max(...worst)).toBeCloseTo(Math.max(...tries), 12);
  });
  it('a whole ring that sends both ways loses a frame with both its copies', () => {
    const assessment = file('slotted_100', 0, 'ring');
    const table = tableIn(assessment, 'ring');
    const frame = (payload: number, at: number) =>
      lostAmong((at + 1) * frame_bit(payload), ratio) * lostAmong((stations - at) * frame_bit(payload), ratio);
    const due = tries.map((_, at) => 1 - (1 - frame(command, at)) * (1 - frame(answer, at)));
    near(
      table.rows.map((_, row) => cell(table, row, 'one try, whole, both ways')),
      due,
    );
    near(
      table.rows.map((_, row) => cell(table, row, 'one try, whole')),
      tries,
    );
    expect(table.note).toContain('lost with both copies');
    for (const profile of ['polled_100', 'summation_100'])
      expect(tableIn(file(profile, 1, 'ring'), 'ring').columns).not.toContain('one try, whole, both ways');
  });
  it('a run and a station may differ from their network', () => {
    const plain = file('polled_100', 0);
    const own = sound(
      textOf({ stations, command, answer, cycle: '2 ms', noise: [`bit_errors: ${ratio}`, 'runs: [[s2, s1, 1e-3]]'] }),
    );
    const better = (name: string): number => known(stationIn(own, name).try) / known(stationIn(plain, name).try);
    expect(better('s1')).toBe(1);
    const bits = frame_bit(command) + frame_bit(answer);
    const due = 1 - (1 - lostAmong(bits, ratio)) * (1 - lostAmong(bits, 1e-3));
    expect(known(stationIn(own, 's2').try)).toBeCloseTo(due, 12);
    const text = textOf({ stations: 2, noise: ['trip_after: 3'] }).replace('s2: {', 's2: { trip_after: 5,');
    expect(lossesIn(sound(text)).stations.map(({ device }) => known(device.tripAfter))).toEqual([3, 5]);
  });
});

describe('a pool of stations that are not served in every cycle', () => {
  const [command, answer, ratio] = [50, 90, 4e-5];
  const every = [1, 2, 4, 2];
  const loss = lostAmong(frame_bit(command) + frame_bit(answer), ratio);
  const fileOf = (profile: string, laid: 'line' | 'star') => {
    const text = textOf({
      stations: 4,
      profile,
      repeats: 1,
      command,
      answer,
      laid,
      cycle: '2 ms',
      noise: [`bit_errors: ${ratio}`, 'trip_after: 3'],
    });
    return sound(
      every.reduce(
        (all, n, at) => (n === 1 ? all : all.replace(`s${at + 1}: {`, `s${at + 1}: { every: ${n} cycles,`)),
        text,
      ),
    );
  };
  const cyclesOf = ({ networks }: ReturnType<typeof fileOf>) => {
    const { phases, pattern } = networks[0]!;
    const cycles = Array.from({ length: pattern }, (_, cycle) =>
      every.flatMap((n, at) => (cycle % n === phases[at] ? [at] : [])),
    );
    return (station: number) => cycles.filter((served) => served.includes(station));
  };
  const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;

  it('is shared with those that are polled before it in each of its cycles', () => {
    const file = fileOf('polled_100', 'line');
    const cycles = cyclesOf(file);
    const tries = every.map((_, at) => -Math.expm1((at + 1) * Math.log1p(-loss)));
    const due = every.map((_, at) =>
      mean(
        cycles(at).map(
          (served) =>
            unserved(
              served.map((each) => tries[each]!),
              1,
            )[served.indexOf(at)]!,
        ),
      ),
    );
    const found = lossesIn(file).stations.map(({ lost }) => known(lost));
    for (const [at, each] of found.entries()) expect(each / due[at]!).toBeCloseTo(1, 9);
    expect(new Set(cycles(0).map((served) => served.length)).size).toBeGreaterThan(1);
  });

  it('has frames as long as what each of its cycles carries', () => {
    for (const profile of ['summation_100', 'chained_100'] as const) {
      const file = fileOf(profile, 'star');
      const cycles = cyclesOf(file);
      const due = every.map((_, at) =>
        mean(
          cycles(at).map((served) => {
            if (profile === 'summation_100')
              return lostAmong(2 * 5 * 8 * Math.max(64, 32 + served.length * (command + answer)), ratio) ** 2;
            const all = lostAmong(2 * frame_bit(served.length * command), ratio);
            return 1 - (1 - all) * (1 - lostAmong(2 * frame_bit(answer), ratio));
          }),
        ),
      );
      const found = lossesIn(file).stations.map((each) => known(profile === 'summation_100' ? each.lost : each.try));
      for (const [at, each] of found.entries()) expect(each / due[at]!, profile).toBeCloseTo(1, 9);
    }
  });
});
