// Moves and dwells one behind another: each step becomes one phase or several, and hands on the speed that it ends with.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { masterTime } from './calc/dwell-rise.ts';
import { restOfCycle, timeTaken, wayTime } from './calc/follow.ts';
import { quintic } from './calc/join.ts';
import { smoothMove } from './calc/point-to-point.ts';
import { type Piece, stateOf } from './calc/segment.ts';
import { kits } from './motion-kit.ts';
import { masterOf } from './over-master.ts';
import type { Phase, PhasedMotion } from './phase.ts';
import { dwellPhase, inCycle, inUnit, lawPhase, quickeningPhase, slowingPhase, steadyPhase } from './phase-makers.ts';
import type { StepSection } from './section.ts';

/** How a step begins: nothing for rest. */
interface Begins {
  readonly speed: Quantity | undefined;
  readonly acceleration: Quantity | undefined;
}

interface Made extends Begins {
  readonly phases: readonly Phase[];
}

const atRest: Begins = { speed: undefined, acceleration: undefined };

export function stepPhases(axis: Axis, steps: readonly StepSection[], cycle: Quantity<'s'>): Value<PhasedMotion> {
  const unit = steps.some(({ kind }) => kind === 'turn') ? 'rad' : 'm';
  const phases: Phase[] = [];
  let begins = atRest;
  for (const [index, step] of steps.entries()) {
    if (step.kind instanceof Missing) return step.kind;
    if (step.kind === 'dwell' && begins.speed !== undefined)
      return missing(
        `${step.path}.dwell`,
        'problem',
        'a step before it that ends at rest',
        '{ move: 50 mm, in: 0.1 s, speed_after: 0 m/s }',
      );
    const resting = step.kind === 'dwell' && step.dwell === 'rest';
    const made = resting ? restPhase(axis, index, phases, cycle) : stepPhase({ axis, step, index, unit, begins });
    if (made instanceof Missing) return made;
    phases.push(...made.phases);
    begins = made;
  }
  if (begins.speed !== undefined)
    return missing(
      `${axis.motion.path}.steps`,
      'problem',
      'steps that end at rest',
      '{ move: 100 mm, in: 0.2 s, speed_after: 0 m/s }',
    );
  return inCycle(
    axis,
    unit,
    phases,
    cycle,
    steps.every(({ kind, over, dwell }) => (kind === 'dwell' ? dwell === 'rest' : over !== undefined)),
  );
}

/** Standing still for what the other steps leave of the cycle; nothing where they leave nothing. */
function restPhase(axis: Axis, index: number, before: readonly Phase[], cycle: Quantity<'s'>): Made {
  const about = `${axis.name}.${index + 1}`;
  const rest = restOfCycle({ c: cycle, t: timeTaken({ t: before.map(({ duration }) => duration) }, about) }, about);
  return {
    ...atRest,
    phases: rest.value > 0 ? [dwellPhase(`${index + 1}_rest`, `step ${index + 1}, standing still`, rest)] : [],
  };
}

interface At {
  readonly axis: Axis;
  readonly step: StepSection;
  readonly index: number;
  readonly unit: 'm' | 'rad';
  readonly begins: Begins;
}

function stepPhase(at: At): Value<Made> {
  const { step, index, begins, unit } = at;
  const name = String(index + 1);
  if (step.kind === 'dwell') {
    return given({ t: step.dwell as Value<Quantity<'s'>> }, ({ t }) => ({
      ...atRest,
      phases: [dwellPhase(`${name}_dwell`, `step ${name}, standing still`, t)],
    }));
  }
  if (step.kind === 'stay') {
    const { speed } = begins;
    if (speed === undefined)
      return missing(
        `${step.path}.stay`,
        'problem',
        'a step before it that ends at a speed',
        '{ move: 50 mm, in: 0.1 s, speed_after: 1 m/s }',
      );
    return given({ t: step.stay! }, ({ t }) => ({
      ...begins,
      acceleration: undefined,
      phases: [stayPhase(`${name}_stay`, `step ${name}, constant speed`, speed, t)],
    }));
  }
  const stroke = inUnit(step[step.kind as 'move' | 'turn']!, unit, `${step.path}.${String(step.kind)}`);
  return given({ stroke }, (known) => move(at, known.stroke as Quantity));
}

/** Going on at a speed that has its sign; backwards, its instants are told by the motion, which knows the direction. */
function stayPhase(name: string, title: string, speed: Quantity, t: Quantity<'s'>): Phase {
  const { even, ...phase } = steadyPhase(name, title, speed, t);
  return speed.value > 0 && even !== undefined ? { ...phase, even } : phase;
}

/** Which of the ways to tell a move the step takes. */
function move(at: At, stroke: Quantity): Value<Made> {
  const { step, begins } = at;
  const rests = begins.speed === undefined && begins.acceleration === undefined;
  if (step.speed_after !== undefined || !rests) return joined(at, stroke);
  const time = timeFor(at);
  if (step.law !== undefined)
    return given({ law: step.law, T: time }, ({ law, T }) => ({
      ...atRest,
      phases: [
        lawPhase({ name: String(at.index + 1), title: `step ${at.index + 1}`, about: step.path }, stroke, T, law),
      ],
    }));
  if (step.in !== undefined || step.over !== undefined) return inTime(at, stroke, time);
  return byLimits(at, stroke);
}

/** The time that the file gives a step, or that the master takes for its way. */
function timeFor({ axis, step, index }: At): Value<Quantity<'s'>> {
  if (step.in !== undefined) return step.in;
  const { over, path } = step;
  if (over === undefined) return missing(`${path}.in`, 'absent', 'a time', '180 ms');
  const about = `${axis.name}.${index + 1}`;
  return given({ master: masterOf(axis), over }, (known) =>
    known.master.unit === 'rad'
      ? given({ φ: inUnit(over, 'rad', `${path}.over`), ω: known.master.speed as Value<Quantity<'rad/s'>> }, (all) =>
          masterTime(all, about),
        )
      : given({ l: inUnit(over, 'm', `${path}.over`), v: known.master.speed as Value<Quantity<'m/s'>> }, (all) =>
          wayTime(all, about),
        ),
  );
}

/** Speeding up, constant speed and slowing down in a given time. */
function inTime({ axis, step, index, unit }: At, stroke: Quantity, time: Value<Quantity<'s'>>): Value<Made> {
  const up =
    step.ramp_up ??
    step.ramp ??
    missing(`${step.path}.ramp`, 'absent', 'a motion law, or a time of speeding up', '100 ms');
  const down =
    step.ramp_down ?? step.ramp ?? missing(`${step.path}.ramp_down`, 'absent', 'a time of slowing down', '100 ms');
  return given({ T: time, u: up, d: down }, ({ T, u, d }) => {
    if (u.value + d.value > T.value * (1 + 1e-9))
      return missing(
        `${step.path}.ramp`,
        'problem',
        'times of speeding up and slowing down that the step has',
        '100 ms',
      );
    const about = `${axis.name}.${index + 1}`;
    const kit = kits[unit];
    const L = kit.length({ L: stroke }, about);
    const v = kit.timedSpeed({ L, T, u, d }, about);
    const t = restOfCycle({ c: T, t: timeTaken({ t: [u, d] }, about) }, about);
    return trapezoid(index, {
      v,
      up: kit.up({ v, t: u }, about),
      down: kit.down({ v, t: d }, about),
      u,
      t,
      d,
      whole: T,
      backwards: stroke.value < 0,
    });
  });
}

interface Trapezoid {
  readonly v: Quantity;
  readonly up: Quantity;
  readonly down: Quantity;
  readonly u: Quantity<'s'>;
  readonly t: Quantity<'s'>;
  readonly d: Quantity<'s'>;
  /** What rounding is small beside. */
  readonly whole: Quantity<'s'>;
  readonly backwards: boolean;
}

function trapezoid(index: number, { v, up, down, u, t, d, whole, backwards }: Trapezoid): Made {
  const name = String(index + 1);
  const step = `step ${name}`;
  const steady =
    t.value > 1e-9 * whole.value ? [steadyPhase(`${name}_steady`, `${step}, constant speed`, v, t, backwards)] : [];
  return {
    ...atRest,
    phases: [
      quickeningPhase(`${name}_up`, `${step}, speeding up`, { v, acceleration: up, t: u, backwards }),
      ...steady,
      slowingPhase(`${name}_down`, `${step}, slowing down`, { v, acceleration: down, t: d, backwards }),
    ],
  };
}

/** The quickest move that keeps the limits. */
function byLimits({ axis, step, index, unit }: At, stroke: Quantity): Value<Made> {
  const [speeds, quickenings] = unit === 'm' ? (['m/s', 'm/s²'] as const) : (['rad/s', 'rad/s²'] as const);
  const lack = (key: string, due: string, example: string): Missing =>
    missing(`${step.path}.${key}`, 'absent', due, example);
  const speed = step.speed ?? lack('speed', 'a law with a time, or a speed', '0.5 m/s');
  const quickening = step.acceleration ?? lack('acceleration', 'an acceleration', '5 m/s²');
  const limits = {
    speed: inUnit(speed, speeds, `${step.path}.speed`) as Value<Quantity>,
    a: inUnit(quickening, quickenings, `${step.path}.acceleration`) as Value<Quantity>,
    d: inUnit(step.deceleration ?? quickening, quickenings, `${step.path}.deceleration`) as Value<Quantity>,
    j:
      step.jerk === undefined
        ? undefined
        : (inUnit(step.jerk, unit === 'm' ? 'm/s³' : 'rad/s³', `${step.path}.jerk`) as Value<Quantity>),
  };
  return given(limits, ({ speed: most, a, d, j }) => {
    const about = `${axis.name}.${index + 1}`;
    const kit = kits[unit];
    const L = kit.length({ L: stroke }, about);
    if (L.value === 0) return { ...atRest, phases: [] };
    const backwards = stroke.value < 0;
    if (j === undefined) {
      const v = kit.steppedVelocity({ L, v: most, a, d }, about);
      const [u, t, s] = [
        kit.rampTime({ v, a }, `${about}.up`),
        kit.cruise({ L, v, a, d }, about),
        kit.rampTime({ v, a: d }, `${about}.down`),
      ];
      return trapezoid(index, { v, up: a, down: kit.braking({ d }, about), u, t, d: s, whole: u, backwards });
    }
    const p = kit.smoothAcceleration({ L, v: most, a, j }, about);
    const w = kit.smoothVelocity({ L, v: most, p, j }, about);
    const phase: Phase = {
      name: String(index + 1),
      title: `step ${index + 1}, with limited jerk`,
      duration: kit.smoothTime({ L, w, p, j }, about),
      inputs: { L: stroke, v: most, a, j },
      means: { L: 'stroke', v: 'velocity allowed', a: 'acceleration allowed', j: 'jerk allowed' },
      build: (length = 0, velocity = 0, acceleration = 0, jerk = 0) =>
        smoothMove(length, { velocity, acceleration, jerk }),
    };
    return { ...atRest, phases: [phase] };
  }) as Value<Made>;
}

/** From any speed and acceleration to any other: the one polynomial of degree 5. */
function joined(at: At, stroke: Quantity): Value<Made> {
  const { step, index, unit, begins } = at;
  const [speeds, quickenings] = unit === 'm' ? (['m/s', 'm/s²'] as const) : (['rad/s', 'rad/s²'] as const);
  const asked = {
    T: timeFor(at),
    w:
      step.speed_after === undefined
        ? undefined
        : (inUnit(step.speed_after, speeds, `${step.path}.speed_after`) as Value<Quantity>),
    b:
      step.acceleration_after === undefined
        ? undefined
        : (inUnit(step.acceleration_after, quickenings, `${step.path}.acceleration_after`) as Value<Quantity>),
  };
  return given(asked, ({ T, w, b }) => {
    const inputs = {
      h: stroke,
      T,
      ...(begins.speed && { v: begins.speed }),
      ...(begins.acceleration && { a: begins.acceleration }),
      ...(w && { w }),
      ...(b && { b }),
    };
    const keys = Object.keys(inputs);
    const phase: Phase = {
      name: String(index + 1),
      title: `step ${index + 1}, a join of degree 5`,
      duration: T,
      inputs,
      means: {
        h: 'stroke',
        T: 'time for it',
        v: 'speed before',
        a: 'acceleration before',
        w: 'speed after',
        b: 'acceleration after',
      },
      build: (...values) => {
        const of = (key: string): number => (keys.includes(key) ? values[keys.indexOf(key)]! : 0);
        return [
          quintic(
            of('T'),
            { position: 0, velocity: of('v'), acceleration: of('a') },
            { position: of('h'), velocity: of('w'), acceleration: of('b') },
          ),
        ];
      },
    };
    return { speed: w === undefined || w.value === 0 ? undefined : w, acceleration: b, phases: [phase] };
  }) as Value<Made>;
}

/** Where pieces end, from where they begin. */
export function wayOf(pieces: readonly Piece[]): number {
  const last = pieces.at(-1);
  return last === undefined ? 0 : stateOf(last, last.duration_s).position;
}
