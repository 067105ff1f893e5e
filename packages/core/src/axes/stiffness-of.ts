// How a train gives way between motor and load: the stiffness of all of it at the motor shaft, and what a loop may do there.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { antiresonance, resonance, seriesStiffness, turningAtShaft } from './calc/stiffness.ts';
import type { AxisDemand } from './demand.ts';
import type { Line } from './line.ts';

export interface GivingWay {
  /** At the motor shaft. */
  readonly stiffness: Quantity<'N·m/rad'>;
  readonly antiresonance: Value<Quantity<'Hz'>>;
  readonly resonance: Value<Quantity<'Hz'>>;
}

/** Nothing where the train says no stiffness. */
export function givingWayOf({ line, inertia, axis }: AxisDemand): GivingWay | undefined {
  if (line instanceof Missing) return undefined;
  const stiffness = stiffnessAtMotor(line, axis.name);
  if (stiffness === undefined) return undefined;
  return {
    stiffness,
    antiresonance: given({ J: inertia }, ({ J }) => antiresonance({ K: stiffness, J }, axis.name)),
    resonance: given({ J: inertia, M: axis.motor.inertia }, ({ J, M }) => resonance({ K: stiffness, M, J }, axis.name)),
  };
}

/** At the motor shaft; nothing where the train says no stiffness. */
export function stiffnessAtMotor({ stages }: Line, name: string): Quantity<'N·m/rad'> | undefined {
  const springs = stages.flatMap(({ springs: own }, index) => {
    if (own.length === 0) return [];
    const r = stages
      .slice(index)
      .reduce<Quantity<'1'>>(
        (turned, { transform }, at) =>
          transform?.kind === 'gear'
            ? turningAtShaft({ r: turned, i: transform.by as Quantity<'1'> }, `${name}.s${index + 1}.${at + 1}`)
            : turned,
        asTheMotor,
      );
    return own.map((K) => ({ K, r }));
  });
  if (springs.length === 0) return undefined;
  return seriesStiffness({ K: springs.map(({ K }) => K), r: springs.map(({ r }) => r) }, name);
}

const asTheMotor = assumed('axes.turning', 1, '1', {
  source: 'definition',
  because: 'a shaft without a gear turns as the motor does',
});
