// What an axis demands at the motor shaft: case by case, phase by phase, each number with its working.
// A case is one motion of the master: the cycle at full speed, its ramps, its stops; a winder has them for each diameter.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isUnsaid, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis, Master } from './axis.ts';
import {
  highestPower,
  highestSpeed,
  highestTorque,
  highestTurningSpeed,
  meanPower,
  totalEnergy,
} from './calc/cycle-demand.ts';
import { mostEdges, type PlainLine, TooManyEdges } from './calc/drive-line.ts';
import { timeTaken } from './calc/follow.ts';
import { meanSpeed, peakTorque, rmsTorque, rmsTorqueByCooling } from './calc/rms.ts';
import { loadInertia, speedAtShaft } from './inertia-at-shaft.ts';
import { type Line, type PlainForm, plainForm, plainLine } from './line.ts';
import { kits } from './motion-kit.ts';
import { phasesOf } from './motions.ts';
import { motionOf, type Phase, type PhasedMotion } from './phase.ts';
import { quickeningPhase, slowingPhase } from './phase-makers.ts';
import { type CaseAsked, type PhaseResult, phaseOf, type Ramp, risingOf } from './phase-result.ts';
import { wayOf } from './steps.ts';
import { torqueAt } from './torque-at.ts';
import { lineOf } from './train.ts';
import { rollsOf } from './winder.ts';

/** A cycle goes on for so long that the motor gets warm by it; a ramp and a stop of the master do not. */
export type CaseKind = 'cycle' | 'ramp' | 'stop';

export interface Case {
  readonly name: string;
  readonly title: string;
  readonly kind: CaseKind;
  readonly phases: readonly PhaseResult[];
  readonly peak: Quantity<'N·m'>;
  readonly rms: Quantity<'N·m'>;
  readonly speed: Quantity<'rad/s'> | undefined;
  readonly meanSpeed: Quantity<'rad/s'>;
  readonly power: Quantity<'W'>;
  readonly meanPower: Quantity<'W'>;
  /** What it rests on, and what curves are drawn of. */
  readonly form: PlainForm;
  readonly ramp: Ramp | undefined;
  readonly line: PlainLine;
  readonly rising_per_s: number;
}

export interface AxisDemand {
  readonly axis: Axis;
  readonly motion: Value<PhasedMotion>;
  /** Without the motor; of a winder, the line of the full roll. */
  readonly line: Value<Line>;
  /** Of the load, at the motor shaft. */
  readonly inertia: Value<Quantity<'kg·m²'>>;
  readonly cases: Value<readonly Case[]>;
  /** Of the inertia of the rotor, where it is said to be unknown; where it is not said, cases are without it. */
  readonly rotor: Missing | undefined;
  /** Times of the master that are unknown, so that cases leave out the ramp or the stop. */
  readonly untold: { readonly ramps: readonly Missing[]; readonly stops: readonly Missing[] };
  readonly peak: Value<Quantity<'N·m'>>;
  readonly rms: Value<Quantity<'N·m'>>;
  readonly speed: Value<Quantity<'rad/s'>>;
  /** In m/s or rad/s; missing where the axis never moves. */
  readonly toolSpeed: Value<Quantity>;
  /** What holds the load at standstill; nothing where nothing pulls at it. */
  readonly holding: Value<Quantity<'N·m'>> | undefined;
}

/** The demand of one axis. */
export function demandOf(axis: Axis, gravity: Value<Quantity<'m/s²'>>): AxisDemand {
  const motion = phasesOf(axis);
  const variants = given({ motion, gravity }, (known) => variantsOf(axis, known.motion, known.gravity));
  const line = given({ variants }, (known) => known.variants.at(-1)!.line);
  const cases = given({ motion, variants }, (known) =>
    walkedThrough(axis, () => casesOf(axis, known.motion, known.variants)),
  );
  const { name } = axis;
  const { inertia } = axis.motor;
  const rotor = inertia instanceof Missing && !isUnsaid(inertia) ? inertia : undefined;
  const untold = untoldOf(axis.master, motion);
  return {
    axis,
    motion,
    line,
    rotor,
    untold,
    inertia: given({ line }, (known) => loadInertia(known.line, name)),
    cases,
    peak: given({ cases, rotor, ...untold }, (known) =>
      highestTorque({ x: known.cases.map(({ peak }) => peak) }, `${name}.peak`),
    ),
    rms: given({ cases, rotor }, (known) =>
      highestTorque({ x: known.cases.filter(({ kind }) => kind === 'cycle').map(({ rms }) => rms) }, `${name}.rms`),
    ),
    speed: given({ cases }, (known) =>
      highestTurningSpeed({ x: known.cases.flatMap(({ speed }) => speed ?? []) }, name),
    ),
    toolSpeed: given({ motion, cases }, (known) => fastestTool(known.motion, known.cases, name)),
    holding: line instanceof Missing ? line : holdingOf(line, name),
  };
}

function fastestTool({ unit }: PhasedMotion, cases: readonly Case[], name: string): Value<Quantity> {
  const speeds = cases.flatMap(({ phases }) => phases.flatMap(({ toolSpeed }) => toolSpeed ?? []));
  if (speeds.length === 0) return missing(`axes.${name}.motion`, 'problem', 'a motion that moves', '');
  return unit === 'm'
    ? highestSpeed({ x: speeds as Quantity<'m/s'>[] }, `${name}.highest`)
    : highestTurningSpeed({ x: speeds as Quantity<'rad/s'>[] }, `${name}.tool.highest`);
}

interface Variant {
  readonly name: string;
  readonly title: string;
  readonly line: Line;
}

function variantsOf(axis: Axis, { unit }: PhasedMotion, gravity: Quantity<'m/s²'>): Value<readonly Variant[]> {
  const rolls = rollsOf(axis);
  if (rolls === undefined)
    return given({ line: lineOf(axis, unit, gravity) }, ({ line }) => [{ name: '', title: '', line }]);
  return given({ rolls }, (known) =>
    given({ lines: known.rolls.map(({ before }) => lineOf(axis, unit, gravity, before)) }, ({ lines }) =>
      known.rolls.map(({ name, title }, index) => ({
        name: `${name}_`,
        title: `${title}, `,
        line: lines[index] as Line,
      })),
    ),
  ) as Value<readonly Variant[]>;
}

function holdingOf(line: Line, name: string): Quantity<'N·m'> | undefined {
  if (line.stages.every(({ constants }) => constants.length === 0)) return undefined;
  const instant = { speed: undefined, acceleration: undefined, backwards: false, position: undefined, time_s: 0 };
  return torqueAt(line, { ...instant, state: 'standing' }, `${name}.holding`);
}

// ── cases ────────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Ramps and stops of the master that are told; the drive does nothing in a stop of category 0. */
function rampsOf(master: Value<Master> | undefined): readonly Ramp[] {
  if (master === undefined || master instanceof Missing) return [];
  const ramp = (head: Omit<Ramp, 't'>, t: Value<Quantity<'s'>> | undefined): readonly Ramp[] =>
    t === undefined || t instanceof Missing ? [] : [{ ...head, t }];
  return [
    ...ramp({ kind: 'ramp', name: 'ramp_up', title: 'the master gets up to speed', falling: false }, master.ramp_up),
    ...ramp({ kind: 'ramp', name: 'ramp_down', title: 'the master comes to rest', falling: true }, master.ramp_down),
    ...master.stops.flatMap(({ name, within, category }) =>
      category === '0'
        ? []
        : ramp({ kind: 'stop', name: `stop_${name}`, title: `stop ${name}`, falling: true }, within),
    ),
  ];
}

/** What takes minutes to walk through is told instead. */
function walkedThrough(axis: Axis, walk: () => readonly Case[]): Value<readonly Case[]> {
  try {
    return walk();
  } catch (error) {
    if (!(error instanceof TooManyEdges)) throw error;
    const due = `a cycle, and ramps of its master, in which a load begins less than ${mostEdges} times`;
    return missing(axis.motion.path, 'problem', due, '');
  }
}

/** At constant speed an axis gets up to it, and comes to rest, with its master; else it may go quicker and slower with it. */
const goesAlong = (motion: PhasedMotion): boolean => steadyOf(motion) !== undefined || motion.scales;

const steadyOf = ({ phases }: PhasedMotion): Phase | undefined =>
  phases.length === 1 && phases[0]!.even?.before !== undefined ? phases[0] : undefined;

function untoldOf(master: Value<Master> | undefined, motion: Value<PhasedMotion>): AxisDemand['untold'] {
  if (master === undefined || master instanceof Missing || motion instanceof Missing || !goesAlong(motion))
    return { ramps: [], stops: [] };
  const untold = (times: readonly unknown[]) => times.filter((each) => each instanceof Missing);
  return {
    ramps: untold([master.ramp_up, master.ramp_down]),
    stops: untold(master.stops.flatMap(({ within, category }) => (category === '0' ? [] : [within]))),
  };
}

function casesOf(axis: Axis, motion: PhasedMotion, variants: readonly Variant[]): readonly Case[] {
  const ramps = rampsOf(axis.master);
  // A dwell of 0 s is written, and asks for nothing.
  const phases = motion.phases.filter(({ duration }) => duration.value > 0);
  return variants.flatMap(({ name, title, line }) => {
    const withRotor = withMotor(line, axis);
    const common = { axis, motion, line: withRotor };
    const steady = steadyOf(motion);
    return [
      caseOf({
        ...common,
        kind: 'cycle',
        name: `${name}cycle`,
        title: `${title}cycle at full speed`,
        phases,
        ramp: undefined,
      }),
      ...ramps.flatMap((ramp): readonly Case[] => {
        const told = { ...common, kind: ramp.kind, name: `${name}${ramp.name}`, title: `${title}${ramp.title}` };
        if (steady !== undefined)
          return [caseOf({ ...told, phases: [rampPhase(axis, motion, steady, ramp)], ramp: undefined })];
        return motion.scales ? [caseOf({ ...told, phases, ramp })] : [];
      }),
    ];
  });
}

/** An axis at constant speed gets up to it, and comes to rest, with its master. */
function rampPhase(
  { name }: Axis,
  { unit }: PhasedMotion,
  { even }: Phase,
  { name: ramp, title, falling, t }: Ramp,
): Phase {
  const v = even!.before!;
  const { backwards } = even!;
  const about = `${name}.${ramp}`;
  return falling
    ? slowingPhase('down', title, { v, acceleration: kits[unit].down({ v, t }, about), t, backwards })
    : quickeningPhase('up', title, { v, acceleration: kits[unit].up({ v, t }, about), t, backwards });
}

/** The rotor turns with the last stage, where it is known. */
function withMotor(line: Line, { motor }: Axis): Line {
  const { inertia } = motor;
  if (inertia instanceof Missing) return line;
  const last = line.stages.at(-1)!;
  return {
    ...line,
    stages: [
      ...line.stages.slice(0, -1),
      { ...last, inertias: [...last.inertias, inertia], name: `${last.name}, motor` },
    ],
  };
}

interface Asked extends CaseAsked {
  readonly axis: Axis;
  readonly kind: CaseKind;
  readonly name: string;
  readonly title: string;
  readonly phases: readonly Phase[];
}

function caseOf(asked: Asked): Case {
  const { axis, motion, line, kind, name, title, ramp } = asked;
  const form = plainForm(line);
  const plain = plainLine(form);
  const about = `${axis.name}.${name}`;
  let from = 0;
  let start_s = 0;
  const phases = asked.phases.map((phase, index) => {
    const result = phaseOf({
      ...asked,
      form,
      plain,
      phase,
      from,
      start_s,
      before: asked.phases.slice(0, index),
      about: `${about}.${phase.name}`,
    });
    from += wayOf(motionOf(phase));
    start_s += phase.duration.value;
    return result;
  });
  const t = phases.map(({ phase }) => phase.duration);
  const cooling = axis.motor.cooling_at_rest;
  const T = phases.map(({ effective }) => effective);
  const fan = !(cooling instanceof Missing) && cooling.value < 1 && phases.some(({ standing }) => standing);
  const speeds = phases.flatMap(({ toolSpeed }) => toolSpeed ?? []);
  const fastest =
    speeds.length === 0
      ? undefined
      : motion.unit === 'm'
        ? highestSpeed({ x: speeds as Quantity<'m/s'>[] }, about)
        : highestTurningSpeed({ x: speeds as Quantity<'rad/s'>[] }, `${about}.tool`);
  return {
    name,
    title,
    kind,
    phases,
    peak: peakTorque(
      { T: phases.flatMap(({ torque, starting }) => (starting ? [torque, starting] : [torque])) },
      about,
    ),
    rms: fan
      ? rmsTorqueByCooling(
          { T, t, k: phases.map(({ standing }) => (standing ? (cooling as Quantity<'1'>) : running)) },
          about,
        )
      : rmsTorque({ T, t }, about),
    speed: fastest && (speedAtShaft(line, fastest, about) as Quantity<'rad/s'>),
    meanSpeed: meanSpeed({ ω: phases.map((each) => each.meanSpeed), t }, about),
    power: highestPower({ x: phases.map(({ power }) => power) }, about),
    meanPower: meanPower(
      {
        E: totalEnergy({ E: phases.map((each) => each.given) }, `${about}.given`),
        R: totalEnergy({ E: phases.map(({ returned }) => returned) }, `${about}.returned`),
        t: timeTaken({ t }, about),
      },
      about,
    ),
    form,
    ramp,
    line: plain,
    rising_per_s: risingOf(ramp),
  };
}

const running = assumed('axes.cooling_while_running', 1, '1', {
  source: 'definition',
  because: 'while the motor runs, all of its cooling counts',
  as: '%',
});
