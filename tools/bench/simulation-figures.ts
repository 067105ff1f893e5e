// Figures of the bench about the simulation of a network: events of a polled line against plain C and against general event
// simulators, and cycles that are jumped over.
import { spawnSync } from 'node:child_process';
import { mergeSimulation, splitSimulation } from '../../packages/core/src/networks/calc/simulate/job.ts';
import type { Exchanged, Hop, SimulationPlan } from '../../packages/core/src/networks/calc/simulate/plan.ts';
import { runSimulation } from '../../packages/core/src/networks/calc/simulate/run.ts';
import type { Figure } from './figures.ts';
import { median, three } from './measure.ts';
import { inCpp, inPlainC, type PlainC } from './plain-c.ts';

interface Line {
  readonly stations: number;
  readonly cycle_ps: number;
  /** Hops that are played in one round. */
  readonly events: number;
}

/** A frame of 32 octets of data and 26 around them is 64 octets long, and this long on the line with its preamble. */
const frame_ps = 5_760_000;
/** The way over a run and through a station. */
const hop_ps = 500_000;
const [frameLoss, repeats, repeat_ps] = [1e-3, 2, 70_000_000];
const lines: readonly Line[] = [
  { stations: 48, cycle_ps: 1_600_000_000, events: 200_000_000 },
  { stations: 7, cycle_ps: 400_000_000, events: 200_000_000 },
];
/** How often each is timed, in turn with the baseline, after once that does not count. */
const rounds = 5;
const mostTimesC = 2;

export function* simulationFigures(): Generator<Figure> {
  for (const line of lines) yield* inPlainC('polled-events.c', (program) => [againstC(line, program)]) ?? [];
  yield* againstGeneral(lines[0]!);
  yield jumpedOver(lines[0]!);
}

/** Exchange by exchange, each frame lost with the same chance whatever its way. */
export function polledLine({ stations, cycle_ps }: Line, loss: number): SimulationPlan {
  const exchanges = Array.from({ length: stations }, (_, at): Exchanged => {
    const runs = Array.from({ length: at + 1 }, (_, run) => run);
    const spoils = -Math.expm1(Math.log1p(-loss) / runs.length);
    const way = (order: readonly number[], from_ps: number): readonly Hop[] =>
      order.map((run, passed) => ({
        run,
        from_ps: from_ps + passed * hop_ps,
        lasts_ps: frame_ps,
        open_ps: frame_ps,
        spoils,
      }));
    const begin_ps = (at * cycle_ps) / (4 * stations);
    const hops = (from_ps: number) => [
      ...way(runs, from_ps),
      ...way(runs.toReversed(), from_ps + runs.length * hop_ps + 2 * frame_ps),
    ];
    return { stations: [at], behind: -1, hops: hops(begin_ps), again: hops(0) };
  });
  return {
    cycle_ps,
    cycles: [
      {
        branches: [],
        exchanges,
        repeatsFrom_ps: Array.from({ length: repeats }, (_, at) => cycle_ps / 2 + at * repeat_ps),
      },
    ],
    runs: stations,
    stations: exchanges.map(() => ({ every: 1, tripAfter: 3 })),
    pulses: [],
  };
}

interface Played {
  readonly each_s: number;
  readonly repeatsInCycle: number;
}

const cyclesOf = ({ stations, events }: Line): number => Math.round(events / (stations * (stations + 1)));

function played(line: Line, plan: SimulationPlan): Played {
  const cycles = cyclesOf(line);
  const start = process.cpuUsage();
  const counts = mergeSimulation(splitSimulation({ plan, cycles, seed: 1 }).map((chunk) => runSimulation(chunk)));
  const taken_s = process.cpuUsage(start).user / 1e6;
  const made = counts.stations.reduce((sum, each) => sum + each.repeats, 0);
  return { each_s: taken_s / counts.events, repeatsInCycle: made / cycles };
}

/** Repeats are what both count often enough to tell that they play the same. */
function mustAgree(...counts: readonly number[]): void {
  const [most, least] = [Math.max(...counts), Math.min(...counts)];
  if (!(most / least < 1.06)) throw new Error(`the repeats in a cycle differ: ${counts.join(', ')}`);
}

function againstC(line: Line, { run }: PlainC): Figure {
  const plan = polledLine(line, frameLoss);
  const [own, theirs]: [number[], number[]] = [[], []];
  for (let round = -1; round < rounds; round++) {
    const mine = played(line, plan);
    const cycles = cyclesOf(line);
    const [taken_s = Number.NaN, events = 0, made = 0] = run(
      line.stations,
      line.cycle_ps,
      frameLoss,
      repeats,
      repeat_ps,
      cycles,
    );
    mustAgree(mine.repeatsInCycle, made / cycles);
    if (round < 0) continue;
    own.push(mine.each_s);
    theirs.push(taken_s / events);
  }
  const ratio = median(own) / median(theirs);
  return {
    what: whatOf(line, median(own)),
    measured: `${three(median(own) * 1e9)} ns`,
    baseline: `the same events in plain C (-O2), which draws a whole word for each hop, ${three(median(theirs) * 1e9)} ns`,
    ratio,
    aim: { text: `at most ${mostTimesC} times`, kept: ratio <= mostTimesC },
  };
}

function whatOf({ stations, cycle_ps }: Line, each_s: number): string {
  const perCycle = stations * (stations + 1);
  return `a hop of a simulated polled line of ${stations}, cycle ${three(cycle_ps / 1e6)} µs, frame loss ${frameLoss}, ${repeats} repeats: ${Math.round(1e-6 / each_s)} million hops and ${three(1 / (each_s * perCycle))} cycles a second`;
}

/** What others take for the same line: seconds, hops, repeats. */
type Others = readonly number[];

/** In C++ an event is scheduled for each hop; in a scripting language a process waits for it. */
function* againstGeneral(line: Line): Generator<Figure> {
  const asked = (cycles: number) => [line.stations, line.cycle_ps, frameLoss, repeats, repeat_ps, cycles];
  const library = { link: '-lns3-core', header: 'ns3/core-module.h' };
  const cycles = 2000;
  const cpp = inCpp('polled-events.cc', library, ({ run }) => run(...asked(cycles)));
  if (cpp !== undefined) yield againstOthers(line, cpp, cycles, 'a general event simulator in C++', 10);
  const scripted = inScript(asked(cycles));
  if (scripted !== undefined)
    yield againstOthers(line, scripted, cycles, 'a general event simulator in a scripting language', 30);
}

/** As Debian has it, for Debian's own interpreter; where it is not there, says so and gives nothing. */
function inScript(asked: readonly number[]): Others | undefined {
  const script = 'polled-events.py';
  const { status, stdout, stderr, error } = spawnSync(
    '/usr/bin/python3',
    ['-W', 'ignore', `tools/bench/${script}`, ...asked.map(String)],
    { encoding: 'utf8' },
  );
  if (error !== undefined || status === 3) {
    console.log(`There is no python3-simpy here, so nothing is compared with ${script}.`);
    return undefined;
  }
  if (status !== 0) throw new Error(stderr);
  return stdout.trim().split(' ').map(Number);
}

function againstOthers(line: Line, others: Others, cycles: number, baseline: string, least: number): Figure {
  const [taken_s = Number.NaN, events = 0, made = 0] = others;
  const mine = played(line, polledLine(line, frameLoss));
  const deviation = Math.sqrt(made) / cycles;
  if (!(Math.abs(made / cycles - mine.repeatsInCycle) < 4 * deviation))
    throw new Error(`the repeats in a cycle differ: ${made / cycles} of ${baseline}, ${mine.repeatsInCycle}`);
  const each_s = taken_s / events;
  const times = each_s / mine.each_s;
  return {
    what: `the same hop of the line of ${line.stations}, ${Math.round(times)} times as quick`,
    measured: `${three(mine.each_s * 1e9)} ns`,
    baseline: `${baseline}, ${three(each_s * 1e9)} ns`,
    ratio: 1 / times,
    aim: { text: `at least ${least} times as quick`, kept: times >= least },
  };
}

/** Errors so rare that nearly every cycle is jumped over. */
function jumpedOver(line: Line): Figure {
  const cycles = 1e10;
  const most_s = 10;
  const plan = polledLine(line, 1e-7);
  const start = performance.now();
  const counts = mergeSimulation(
    splitSimulation({ plan, cycles, seed: 1, skipAhead: true }).map((chunk) => runSimulation(chunk)),
  );
  const taken_s = (performance.now() - start) / 1000;
  const hops = cycles * line.stations * (line.stations + 1);
  const byHop_s = played(line, plan).each_s * hops;
  return {
    what: `${three(cycles)} cycles of the line of ${line.stations} at a frame loss of 1e-7, those without an error jumped over, ${counts.stations.reduce((sum, each) => sum + each.repeats, 0)} repeats counted`,
    measured: `${three(taken_s)} s`,
    baseline: 'playing each hop',
    ratio: taken_s / byHop_s,
    aim: { text: `under ${most_s} s`, kept: taken_s < most_s },
  };
}
