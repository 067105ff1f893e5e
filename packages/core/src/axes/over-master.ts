// Motions over the way of the master: a knife, a flying shear, a traverse, a cam.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis, Master } from './axis.ts';
import { camTable } from './calc/cam-table.ts';
import { flyingShear } from './calc/flying-shear.ts';
import { anglesTime, positionsTime, strokesTime, strokesTurningTime, wayTime } from './calc/follow.ts';
import { knifeMotion } from './calc/knife-motion.ts';
import { scaled } from './calc/segment.ts';
import { traverse } from './calc/traverse.ts';
import { motionOf, type Phase, type PhasedMotion } from './phase.ts';
import { inUnit } from './phase-makers.ts';
import type { MotionSection } from './section.ts';

export const masterOf = ({ master, motion }: Axis): Value<Master> =>
  master ?? missing(`${motion.path}.follow`, 'absent', 'a master', 'line');

export const speedIn = (axis: Axis, unit: 'm/s' | 'rad/s'): Value<Quantity> =>
  given({ master: masterOf(axis) }, ({ master }) => inUnit(master.speed, unit, `${master.path}.speed`));

/** A motion over the way of the master, which runs at constant speed V: one phase, the last input that speed. */
function overMaster(
  axis: Axis,
  unit: 'm' | 'rad',
  V: Quantity,
  { name, title, duration, inputs, means, build }: Phase,
): Value<PhasedMotion> {
  const phase: Phase = {
    name,
    title,
    duration,
    inputs: { ...inputs, V },
    means: { ...means, V: 'speed of the master' },
    build: (...values) => scaled(build(...values.slice(0, -1)), { stroke: 1, time: 1 / values.at(-1)! }),
  };
  const refusal = refusalOf(phase, axis.motion.path);
  return refusal ?? { unit, phases: [phase], cycle: duration, taken: undefined, scales: true };
}

/** Why a motion cannot be, where it cannot; the calculation says it. */
function refusalOf(phase: Phase, path: string): Missing | undefined {
  try {
    motionOf(phase);
    return undefined;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return missing(path, 'problem', `a motion that can be (${error.message})`, '');
  }
}

export function cut(
  axis: Axis,
  { length: l, circumference: U, blades: n, working: w, recover }: NonNullable<MotionSection['cuts']>,
): Value<PhasedMotion> {
  const v = speedIn(axis, 'm/s') as Value<Quantity<'m/s'>>;
  return given({ l, U, n, w, law: recover, v }, ({ law, v, ...inputs }) =>
    overMaster(axis, 'rad', v, {
      name: 'cut',
      title: `from cut to cut, recovering by ${law}`,
      duration: wayTime({ l: inputs.l, v }, `${axis.name}.cut`),
      inputs,
      means: {
        l: 'length from cut to cut',
        U: 'circumference over the blades',
        n: 'blades',
        w: 'angle at the speed of the web',
      },
      build: (cutLength = 0, circumference = 0, blades = 0, working_rad = 0) =>
        knifeMotion({ cutLength, circumference, blades, working_rad, recover: law }),
    }),
  );
}

export function shear(
  axis: Axis,
  { length: l, working: w, accelerate: a, back }: NonNullable<MotionSection['shears']>,
): Value<PhasedMotion> {
  const v = speedIn(axis, 'm/s') as Value<Quantity<'m/s'>>;
  return given({ l, w, a, law: back, v }, ({ law, v, ...inputs }) =>
    overMaster(axis, 'm', v, {
      name: 'cut',
      title: `from cut to cut, returning by ${law}`,
      duration: wayTime({ l: inputs.l, v }, `${axis.name}.cut`),
      inputs,
      means: { l: 'length from cut to cut', w: 'way at the speed of the web', a: 'way of the web for getting there' },
      build: (cutLength = 0, working = 0, accelerate = 0) => flyingShear({ cutLength, working, accelerate, law }),
    }),
  );
}

export function toAndFro(
  axis: Axis,
  { width: b, stroke: s, reversal: r, path }: NonNullable<MotionSection['traverses']>,
): Value<PhasedMotion> {
  return given({ b, s, r, master: masterOf(axis) }, ({ b, s, r, master }) => {
    const speed = master.unit === 'rad' ? ('rad/s' as const) : ('m/s' as const);
    const unit = master.unit === 'rad' ? ('rad' as const) : ('m' as const);
    return given(
      {
        s: inUnit(s, unit, `${path}.stroke`),
        r: inUnit(r, unit, `${path}.reversal`),
        v: inUnit(master.speed, speed, `${master.path}.speed`),
      },
      (known) =>
        overMaster(axis, 'm', known.v, {
          name: 'stroke',
          title: 'to and fro',
          duration:
            unit === 'rad'
              ? strokesTurningTime({ l: known.s as Quantity<'rad'>, v: known.v as Quantity<'rad/s'> }, axis.name)
              : strokesTime({ l: known.s as Quantity<'m'>, v: known.v as Quantity<'m/s'> }, axis.name),
          inputs: { b, s: known.s, r: known.r },
          means: {
            b: 'way from turning point to turning point',
            s: 'way of the master for one stroke',
            r: 'way of the master for turning round',
          },
          build: (width = 0, wayPerStroke = 0, reversal = 0) => traverse({ width, wayPerStroke, reversal }),
        }),
    );
  }) as Value<PhasedMotion>;
}

export function cam(axis: Axis, { points, ends, path }: NonNullable<MotionSection['cam']>): Value<PhasedMotion> {
  return given({ points: points as Value<readonly Quantity[]>, ends, master: masterOf(axis) }, ({ ends, master }) => {
    const rows = points as readonly { readonly master: Value<Quantity>; readonly tool: Value<Quantity> }[];
    const masterUnit = master.unit === 'rad' ? ('rad' as const) : ('m' as const);
    const first = rows[0]?.tool;
    const toolUnit =
      first !== undefined && !(first instanceof Missing) && first.unit === 'rad' ? ('rad' as const) : ('m' as const);
    const asked = {
      x: rows.map((row, at) => inUnit(row.master, masterUnit, `${path}.points.${at}.master`)),
      y: rows.map((row, at) => inUnit(row.tool, toolUnit, `${path}.points.${at}.tool`)),
      v: master.speed,
    };
    return given(asked, ({ x, y, v }) => {
      const [from, to] = [x[0], x.at(-1)];
      if (from === undefined || to === undefined)
        return missing(`${path}.points`, 'absent', 'points', '[[0°, 0 mm], [90°, 12 mm]]');
      const inputs = Object.fromEntries([
        ...x.map((each, at) => [`x_${at + 1}`, each]),
        ...y.map((each, at) => [`y_${at + 1}`, each]),
      ]);
      const means = Object.fromEntries(
        Object.keys(inputs).map((key) => [
          key,
          key.startsWith('x') ? 'position of the master' : 'position of the axis',
        ]),
      );
      return overMaster(axis, toolUnit, v, {
        name: 'cam',
        title: 'the cam',
        duration:
          masterUnit === 'rad'
            ? anglesTime({ a: from as Quantity<'rad'>, b: to as Quantity<'rad'>, v: v as Quantity<'rad/s'> }, axis.name)
            : positionsTime({ a: from as Quantity<'m'>, b: to as Quantity<'m'>, v: v as Quantity<'m/s'> }, axis.name),
        inputs,
        means,
        build: (...values) =>
          camTable(
            values.slice(0, x.length).map((each, at) => [each, values[x.length + at]!] as const),
            ends,
          ),
      });
    });
  }) as Value<PhasedMotion>;
}
