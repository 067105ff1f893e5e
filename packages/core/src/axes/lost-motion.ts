// How far the tool is free of its motor: the play of gears and couplings, and how far the train winds up.
import type { KnownLostMotion, LostMotion } from '../physics/lost-motion.ts';
import type { Value } from '../reading/values.ts';
import { resultsOf } from '../working/formula.ts';
import { given, isUnsaid, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { torqueEnds } from './calc/course.ts';
import {
  backlashAngle,
  backlashWay,
  lostAngle,
  lostWay,
  torqueRange,
  turningForAngle,
  turningForWay,
  wayOfAngle,
  windUpAngle,
  windUpWay,
} from './calc/stiffness.ts';
import { highestThrough, lowestThrough } from './case-methods.ts';
import { courseOf } from './course.ts';
import type { AxisDemand, Case } from './demand.ts';
import { speedAtShaft } from './inertia-at-shaft.ts';
import { type Line, plainForm } from './line.ts';
import { leadsOn } from './radial-force.ts';
import type { ElementSection } from './section.ts';
import { givingWayOf } from './stiffness-of.ts';

interface AtTool {
  /** Whether the tool goes along a way, and does not turn. */
  readonly along: boolean;
  /** How far a shaft turns for the tool, by how many elements lead on to it. */
  readonly turning: (stages: number, at: string) => Quantity;
  /** Nothing where the train says none. */
  readonly play: Value<Quantity> | undefined;
  /** At the motor shaft; nothing where the train says none. */
  readonly stiffness: Quantity<'N·m/rad'> | undefined;
}

/** Nothing where that is not known, and for the changing roll of a winder. */
const atTool = onceForEach((demand: AxisDemand): AtTool | undefined => {
  const { axis, line, toolSpeed } = demand;
  if (line instanceof Missing || toolSpeed instanceof Missing || axis.train instanceof Missing) return undefined;
  if (winds(demand)) return undefined;
  const along = line.stages[0]!.side === 'm';
  const about = `${axis.name}.lost`;
  const turning = (stages: number, at: string): Quantity => {
    const speeds = { ω: speedAtShaft({ ...line, stages: line.stages.slice(0, stages) }, toolSpeed, at), v: toolSpeed };
    return (along ? turningForWay : turningForAngle)(speeds as never, at);
  };
  const plays = playsOf(axis.train);
  const play =
    plays.length === 0
      ? undefined
      : given({ β: plays.map(({ backlash }) => backlash) }, ({ β }) => {
          const r = plays.map(({ stages }, at) => turning(stages, `${about}.${at + 1}`));
          return (along ? backlashWay : backlashAngle)({ β, r } as never, axis.name) as Quantity;
        });
  return { along, turning, play, stiffness: givingWayOf(demand)?.stiffness };
});

const winds = ({ axis: { motion } }: AxisDemand): boolean => motion.unwinds !== undefined || motion.winds !== undefined;

/** How far the tool gives way to a torque at the motor shaft. */
function windUpBy(
  { along, turning }: AtTool,
  stiffness: Quantity<'N·m/rad'>,
  torque: Quantity<'N·m'>,
  { demand, about }: { readonly demand: AxisDemand; readonly about: string },
): Quantity {
  const r = turning((demand.line as Line).stages.length, `${demand.axis.name}.lost.motor`);
  return (along ? windUpWay : windUpAngle)({ T: [torque], K: [stiffness], r: [r] } as never, about) as Quantity;
}

const bothOf = (along: boolean, w: Quantity, β: Quantity, about: string): Quantity =>
  (along ? lostWay : lostAngle)({ w, β } as never, about) as Quantity;

/** Rows of a data sheet, at the tool; none where the train says neither play nor stiffness. */
export function lostMotionRows(demand: AxisDemand): readonly (readonly [string, Value<Quantity>])[] {
  const { axis, peak } = demand;
  const found = atTool(demand);
  if (found === undefined) return [];
  const { along, play, stiffness } = found;
  const windUp =
    stiffness === undefined
      ? undefined
      : given({ T: peak }, ({ T }) => windUpBy(found, stiffness, T, { demand, about: axis.name }));
  return [
    ...(play === undefined ? [] : [['play at the tool', play] as const]),
    ...(windUp === undefined ? [] : [['wind-up at the tool at the highest torque', windUp] as const]),
    ...(play === undefined || windUp === undefined
      ? []
      : [
          [
            'lost motion at the tool, both together',
            given({ w: windUp, β: play }, (known) => bothOf(along, known.w, known.β, axis.name)),
          ] as const,
        ]),
  ];
}

/** What the torque of a cycle at full speed makes of it, for those who act on a web. */
export const lostInCycle = onceForEach((demand: AxisDemand): LostMotion => {
  const { axis, cases, line } = demand;
  if (winds(demand)) return { axis: axis.name, counts: 'changing', known: undefined };
  if (!saysIt(demand)) return { axis: axis.name, counts: 'unsaid', known: undefined };
  const known = given({ cases, line, speed: demand.toolSpeed }, (all) =>
    knownOf(demand, (all.cases as readonly Case[]).find(({ kind }) => kind === 'cycle')!, all.line),
  );
  return { axis: axis.name, counts: 'yes', known };
});

const saysIt = ({ axis: { train } }: AxisDemand): boolean =>
  train instanceof Missing ? !isUnsaid(train) : train.some((element) => saysPlay(element) || saysStiffness(element));

function knownOf(demand: AxisDemand, cycle: Case, line: Line): Value<KnownLostMotion> {
  const { name } = demand.axis;
  const about = `${name}.cycle.train`;
  const found = atTool(demand)!;
  const { inputs, means, build } = courseOf({ phases: cycle.phases, form: plainForm(line), ramp: undefined });
  const { call } = resultsOf({ inputs, means }, (values) => torqueEnds(build(values)));
  const [lowest, highest] = [
    lowestThrough(
      call(({ lowest_Nm }) => lowest_Nm),
      about,
    ),
    highestThrough(
      call(({ highest_Nm }) => highest_Nm),
      about,
    ),
  ];
  const little = nothing * Math.max(-lowest.value, highest.value);
  const reverses = lowest.value < -little && highest.value > little;
  const changes = highest.value - lowest.value > little;
  return given({ play: found.play }, ({ play }): KnownLostMotion => {
    const windUp =
      found.stiffness === undefined
        ? undefined
        : windUpBy(found, found.stiffness, torqueRange({ H: highest, L: lowest }, about), { demand, about });
    const both =
      windUp !== undefined && reverses && play !== undefined ? bothOf(found.along, windUp, play, about) : undefined;
    const span = both ?? (changes ? windUp : undefined) ?? (reverses ? play : undefined);
    return {
      lowest,
      highest,
      reverses,
      windUp: windUp && alongWeb(demand, windUp, `${about}.wind_up`),
      play: play && alongWeb(demand, play, `${about}.play`),
      span: span && alongWeb(demand, span, about),
    };
  }) as Value<KnownLostMotion>;
}

/** So much beside the largest torque is what rounding makes of one that does not change (our judgement). */
const nothing = 1e-9;

/** A turn of the tool is so much web, where the motion says it; else an angle stays one. */
function alongWeb({ axis }: AxisDemand, lost: Quantity, about: string): Quantity<'m' | 'rad'> {
  const l = axis.motion.turns?.every ?? axis.motion.cuts?.circumference;
  if (lost.unit === 'm' || l === undefined || l instanceof Missing) return lost as Quantity<'m' | 'rad'>;
  return wayOfAngle({ φ: lost as Quantity<'rad'>, l }, about);
}

interface Play {
  readonly backlash: Value<Quantity<'rad'>>;
  /** How many elements lead on before it. */
  readonly stages: number;
}

/** Play counts at the output of a gear, and at the shaft of a coupling. */
const playsOf = (train: readonly ElementSection[]): readonly Play[] =>
  train.flatMap((element, index) => {
    const stages = train.slice(0, index).filter(leadsOn).length;
    return saysPlay(element) ? [{ backlash: playOf(element)!, stages }] : [];
  });

const playOf = ({ gear, coupling }: ElementSection) => gear?.backlash ?? coupling?.backlash;
const said = (value: unknown): boolean => value !== undefined && !isUnsaid(value);
const saysPlay = (element: ElementSection): boolean => said(playOf(element));
const saysStiffness = ({ kind, ...element }: ElementSection): boolean =>
  !(kind instanceof Missing) && said((element[kind] as { readonly stiffness?: unknown } | undefined)?.stiffness);
