// Figures of the bench about axes: demands of many against plain C, and of the large example with its working.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { demonstration } from '@layshaft/catalogue';
import { choicesFor, read, resolve } from '@layshaft/core';
import { parseDocument } from 'yaml';
import { camTable } from '../../packages/core/src/axes/calc/cam-table.ts';
import { goingOf, type PlainLine, shaftTorque } from '../../packages/core/src/axes/calc/drive-line.ts';
import { phaseDemand } from '../../packages/core/src/axes/calc/phase-torque.ts';
import { chain, type Motion, type MovingState, moveTo } from '../../packages/core/src/axes/calc/segment.ts';
import { demandOf } from '../../packages/core/src/axes/demand.ts';
import { exampleMachines } from '../../tests/support/examples.ts';
import type { Figure } from './figures.ts';
import { compare, median, three } from './measure.ts';
import { openAxes } from './open-axes.ts';
import { inPlainC, type PlainC } from './plain-c.ts';

const large = 'print-line';
const axes = 1000;
const points = 1000;
/** How often each is timed, in turn with C, after once that does not count. */
const rounds = 7;

/** To be asked for first: what loops take depends on what V8 has seen of the shapes of lines before. */
export function* axisFigures(): Generator<Figure> {
  yield* inPlainC('demand.c', (program) => [...againstC(program)]) ?? [];
  yield demandOfExample();
  yield choosing();
}

/** Motor, gear and drive of each of many axes, from the whole catalogue. */
function choosing(): Figure {
  const count = 44;
  const text = openAxes(count);
  const design = resolve(read(text), [demonstration()]);
  if (design.problems.length > 0) throw new Error(design.problems[0]!.message);
  const { subject_s, ratio } = compare(
    () => design.axes.map(({ name }) => choicesFor(design, name)),
    () => read(text),
    { batches: 9, batch_s: 0.1 },
  );
  const most_ms = 200;
  return {
    what: `choosing motor, gear and drive of ${count} axes from the whole catalogue`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'reading their file',
    ratio,
    aim: { text: `under ${most_ms} ms`, kept: subject_s * 1e3 < most_ms },
  };
}

/** From what the file says of the axes to their demands. */
function demandOfExample(): Figure {
  const text = exampleMachines().find(({ name }) => name === large)!.text;
  const design = resolve(read(text), [demonstration()]);
  const { subject_s, ratio } = compare(
    () => design.axes.map((axis) => demandOf(axis, design.gravity)),
    () => parseDocument(text),
    { batches: 31, batch_s: 0.02 },
  );
  const most_ms = 8;
  return {
    what: `demand of the axes of ${large}, working kept`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'parsing its YAML',
    ratio,
    aim: { text: `under ${most_ms} ms`, kept: subject_s * 1e3 < most_ms },
  };
}

// ── many axes ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Invented, each a little different: a slide on a screw, which a motor drives by a gear. */
const trains: readonly PlainLine[] = Array.from({ length: axes }, (_, axis) => {
  const screw = 0.01 / (2 * Math.PI);
  return {
    stages: [
      {
        ratio: 1,
        inertia: 20 + axis / 100,
        constant: 50,
        coulomb: 8,
        breakaway: 0,
        viscous: 3,
        placed: [],
        pass: screw,
        driving: 0.9,
        driven: 0.8,
      },
      {
        ratio: 1 / screw,
        inertia: 2e-4,
        constant: 0,
        coulomb: 0.05,
        breakaway: 0,
        viscous: 1e-4,
        placed: [],
        pass: 1 / 3,
        driving: 0.95,
        driven: 0.93,
      },
    ],
    lossOnInertia: true,
  };
});

/** To and fro once a second, by so many points. */
function cam(axis: number): Motion {
  const table = Array.from({ length: points }, (_, at) => {
    const turn = at / (points - 1);
    const angle = 2 * Math.PI * turn;
    return [turn, 0.1 * (1 - Math.cos(angle)) + (0.01 + axis * 1e-6) * Math.sin(2 * angle)] as const;
  });
  return chain(camTable(table, 'periodic'));
}

interface Found {
  readonly peak: number;
  readonly squared: number;
}

/** One instant at the start of each piece. */
function atPoints(line: PlainLine, motion: Motion): Found {
  const state: MovingState = { position: 0, velocity: 0, acceleration: 0, jerk: 0 };
  let [peak, squared] = [0, 0];
  for (const segment of motion) {
    moveTo(state, segment, 0);
    const torque = shaftTorque(line, state, segment.start_s, goingOf(state.velocity, state.acceleration));
    peak = Math.max(peak, Math.abs(torque));
    squared += torque * torque * segment.duration_s;
  }
  return { peak, squared };
}

function asPhase(line: PlainLine, motion: Motion): Found {
  const { peakTorque_Nm, squared } = phaseDemand(line, { motion, from: 0, start_s: 0, rising_per_s: 0 });
  return { peak: Math.abs(peakTorque_Nm), squared };
}

function* againstC({ folder, run }: PlainC): Generator<Figure> {
  const motions = Array.from({ length: axes }, (_, axis) => cam(axis));
  const pieces = motions[0]!.length;
  const data = join(folder, 'data');
  writeFileSync(data, Float64Array.from([...numbersOf(trains), ...motions.flatMap(coefficientsOf)]));
  const nsPerPoint = (seconds: number): string => `${three((seconds * 1e9) / pieces)} ns a point`;
  const many = `${axes} axes, each with a cam of ${points} points and two stages with friction and losses`;

  const bare = inTurn(atPoints, 1, 1e-12);
  const most = 2;
  yield {
    what: `torque at each point of ${many}: the highest and the effective`,
    measured: nsPerPoint(bare.subject_s),
    baseline: 'the same arithmetic in plain C (-O2)',
    ratio: bare.ratio,
    aim: { text: `at most ${most} times`, kept: bare.ratio <= most },
  };
  // C does not cut where friction turns round, and looks for no tops between its points.
  const whole = inTurn(asPhase, 20, 1e-3);
  yield {
    what: 'demand of the same, integrated, cut at kinks, tops looked for, power and energy too',
    measured: nsPerPoint(whole.subject_s),
    baseline: 'torque and its square alone in plain C (-O2), 20 instants on each piece',
    ratio: whole.ratio,
  };

  /** The time of the axis in the middle. Throws when C finds something else. */
  function inTurn(of: typeof asPhase, instants: number, tolerance: number) {
    const subject: number[] = [];
    const baseline: number[] = [];
    for (let round = -1; round < rounds; round++) {
      const taken: number[] = [];
      let [peaks, sums] = [0, 0];
      for (const [axis, line] of trains.entries()) {
        const start = performance.now();
        const { peak, squared } = of(line, motions[axis]!);
        taken.push((performance.now() - start) / 1000);
        peaks += peak;
        sums += squared;
      }
      const [c_s = 0, peaksInC = 0, sumsInC = 0] = run(data, axes, pieces, instants);
      mustAgree(peaks, peaksInC, tolerance);
      mustAgree(sums, sumsInC, tolerance);
      if (round < 0) continue;
      subject.push(median(taken));
      baseline.push(c_s);
    }
    return { subject_s: median(subject), ratio: median(subject) / median(baseline) };
  }
}

function mustAgree(found: number, inC: number, tolerance: number): void {
  if (!(Math.abs(found - inC) <= tolerance * Math.abs(inC))) throw new Error(`${found} here, and ${inC} in C`);
}

const numbersOf = (lines: readonly PlainLine[]): readonly number[] =>
  lines.flatMap(({ stages }) =>
    stages.flatMap(({ ratio, inertia, constant, coulomb, viscous, pass, driving, driven }) => [
      ratio,
      inertia,
      constant,
      coulomb,
      viscous,
      pass,
      driving,
      driven,
    ]),
  );

const coefficientsOf = (motion: Motion): readonly number[] =>
  motion.flatMap(({ duration_s, polynomial }) => [duration_s, ...polynomial]);
