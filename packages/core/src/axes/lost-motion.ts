// How far the tool is free of its motor: the play of gears and couplings, and how far the train winds up.
import type { Value } from '../reading/values.ts';
import { given, isUnsaid, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  backlashAngle,
  backlashWay,
  lostAngle,
  lostWay,
  turningForAngle,
  turningForWay,
  windUpAngle,
  windUpWay,
} from './calc/stiffness.ts';
import type { AxisDemand } from './demand.ts';
import { speedAtShaft } from './inertia-at-shaft.ts';
import { leadsOn } from './radial-force.ts';
import type { ElementSection } from './section.ts';
import { givingWayOf } from './stiffness-of.ts';

/** Rows of a data sheet, at the tool; none where the train says neither play nor stiffness, and for the changing roll of a winder. */
export function lostMotionRows(demand: AxisDemand): readonly (readonly [string, Value<Quantity>])[] {
  const { axis, line, toolSpeed, peak } = demand;
  if (line instanceof Missing || toolSpeed instanceof Missing || axis.train instanceof Missing) return [];
  if (axis.motion.unwinds !== undefined || axis.motion.winds !== undefined) return [];
  const along = line.stages[0]!.side === 'm';
  const about = `${axis.name}.lost`;
  /** Turning of a shaft for the tool, by how many elements lead on to it. */
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
  const stiffness = givingWayOf(demand)?.stiffness;
  const windUp =
    stiffness === undefined
      ? undefined
      : given({ T: peak }, ({ T }) => {
          const r = turning(line.stages.length, `${about}.motor`);
          return (along ? windUpWay : windUpAngle)({ T: [T], K: [stiffness], r: [r] } as never, axis.name) as Quantity;
        });
  return [
    ...(play === undefined ? [] : [['play at the tool', play] as const]),
    ...(windUp === undefined ? [] : [['wind-up at the tool at the highest torque', windUp] as const]),
    ...(play === undefined || windUp === undefined
      ? []
      : [
          [
            'lost motion at the tool, both together',
            given(
              { w: windUp, β: play },
              (known) => (along ? lostWay : lostAngle)(known as never, axis.name) as Quantity,
            ),
          ] as const,
        ]),
  ];
}

interface Play {
  readonly backlash: Value<Quantity<'rad'>>;
  /** How many elements lead on before it. */
  readonly stages: number;
}

/** Play counts at the output of a gear, and at the shaft of a coupling. */
const playsOf = (train: readonly ElementSection[]): readonly Play[] =>
  train.flatMap(({ gear, coupling }, index) => {
    const backlash = gear?.backlash ?? coupling?.backlash;
    const stages = train.slice(0, index).filter(leadsOn).length;
    return backlash === undefined || isUnsaid(backlash) ? [] : [{ backlash, stages }];
  });
