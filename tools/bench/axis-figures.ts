// Figures of the bench about axes: demands of many against plain C, of the large example with its working, and the choice of parts.
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

/** Invented, of four kinds and many sizes; motor, gear and drive of each are open. */
function openAxes(count: number): string {
  const kinds: readonly ((size: number) => string)[] = [
    (size) =>
      `motion: { cycle: 1 s, steps: [{ turn: 60°, in: ${0.15 + 0.02 * size} s, law: modified_sine }, { dwell: rest }] }, train: [{ disc: { mass: ${2 + 2 * size} kg, diameter: 0.4 m } }, { friction: { torque: 1 N·m } }, { gear: { part: open, radial_force: 0 N } }]`,
    (size) =>
      `motion: { cycle: 2 s, steps: [{ move: 0.3 m, in: 0.6 s, ramp: 0.2 s }, { move: -0.1 m, speed: 0.4 m/s, acceleration: 3 m/s² }, { dwell: rest }] }, train: [{ slide: { mass: ${3 + 5 * size} kg, friction: 0.1, inclination: 90° } }, { belt: { diameter: 80 mm, wheel_mass: 0.8 kg } }, { gear: open }]`,
    (size) =>
      `motion: { follow: line, gear: [1, 1] }, train: [{ web: { tension_in: 90 N, tension_out: ${100 + 40 * size} N } }, { roll: { diameter: 120 mm, inertia: 90 kg·cm² } }, { gear: { part: open, radial_force: 0 N } }]`,
    (size) =>
      `motion: { follow: line, cuts: { length: 400 mm, circumference: 500 mm, blades: 1, working: 30°, recover: modified_sine } }, train: [{ inertia: ${10 + 30 * size} kg·cm² }, { gear: { part: open, radial_force: 0 N } }]`,
  ];
  return `layshaft: 1
machine: { ambient: 45 °C, altitude: 1500 m }
cabinet: { supply: { mains: 400 V, low: 360 V } }
masters: { line: { speed: 60 m/min, repeat: 500 mm, ramp_up: 2 s, stops: { quick: { within: 0.4 s, category: 1 } } } }
axes:
${Array.from({ length: count }, (_, at) => `  a_${at + 1}: { ${kinds[at % kinds.length]!(Math.floor(at / kinds.length))}, motor: open, drive: open }\n`).join('')}`;
}

/** All combinations of motor, gear and drive of the whole catalogue, for every axis. */
function choosing(): Figure {
  const many = 44;
  const text = openAxes(many);
  const design = resolve(read(text), [demonstration()]);
  const { subject_s, ratio } = compare(
    () => design.axes.map(({ name }) => choicesFor(design, name)),
    () => parseDocument(text),
    { batches: 15, batch_s: 0.02 },
  );
  const most_ms = 200;
  return {
    what: `choosing parts for ${many} axes from the whole catalogue`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'parsing their YAML',
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
