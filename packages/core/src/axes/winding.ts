// The winding of a motor in the cycle that warms it most: how warm it gets in the long run, and how soon.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isUnsaid } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { type Heating, type HeatPhase, highestSettledRise, timeToWarmUp, windingTemperature } from './calc/heat.ts';
import { warmest } from './checks/limits.ts';
import type { AxisDemand, Case } from './demand.ts';

/** Whether the motor says by how much its winding warms up. */
export const saysWarmth = ({ axis: { motor } }: AxisDemand): boolean =>
  !motor.absent && !isUnsaid(motor.temperature_rise);

interface HeatInputs {
  readonly T: readonly Quantity<'N·m'>[];
  readonly t: readonly Quantity<'s'>[];
  readonly C: Quantity<'N·m'>;
  readonly θ: Quantity<'K'>;
  readonly s: Quantity<'1'>;
  readonly w: Quantity<'s'>;
  readonly f: Quantity<'s'>;
}

function heatOf(demand: AxisDemand): Value<HeatInputs> {
  const { motor } = demand.axis;
  return given(
    {
      each: warmest(demand),
      C: motor.torque,
      θ: motor.temperature_rise,
      s: motor.rise_in_winding,
      w: motor.time_winding,
      f: motor.time_frame,
    },
    ({ each, ...heating }) => {
      const { phases } = each as Case;
      return { T: phases.map(({ effective }) => effective), t: phases.map(({ phase }) => phase.duration), ...heating };
    },
  );
}

/** The highest rise once the cycle repeats itself. */
export const settledRiseOf = (demand: AxisDemand): Value<Quantity<'K'>> =>
  given({ heat: heatOf(demand) }, ({ heat }) => highestSettledRise(heat as HeatInputs, demand.axis.name));

export interface Winding {
  readonly hottest: Quantity<'K abs'>;
  /** Until it has 95 % of its rise. */
  readonly warmAfter: Quantity<'s'>;
  readonly ambient: Quantity<'K abs'>;
  /** In plain numbers, for a curve. */
  readonly heating: Heating;
  readonly phases: readonly HeatPhase[];
}

export function windingOf(demand: AxisDemand): Value<Winding> {
  const { name, site } = demand.axis;
  return given({ heat: heatOf(demand), θ: settledRiseOf(demand), A: site.ambient }, ({ heat: known, θ, A }) => {
    const heat = known as HeatInputs;
    return {
      hottest: windingTemperature({ A, θ }, name),
      warmAfter: timeToWarmUp({ ...heat, q: nearly }, name),
      ambient: A,
      heating: { rise_K: heat.θ.value, windingShare: heat.s.value, winding_s: heat.w.value, frame_s: heat.f.value },
      phases: heat.t.map(({ value: lasts_s }, at) => ({ lasts_s, torque: heat.T[at]!.value / heat.C.value })),
    };
  });
}

export const nearly = assumed('axes.nearly_warm', 0.95, '1', {
  source: 'common-practice',
  because: 'three time constants of one body',
  as: '%',
});
