// From what the file says of a motion to its phases, with the quantities that they rest on.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { productsTime, shareTime, timeTaken, turnsEverySpeed } from './calc/follow.ts';
import { lawPieces } from './calc/motion-law.ts';
import { kits } from './motion-kit.ts';
import { cam, cut, masterOf, shear, speedIn, toAndFro } from './over-master.ts';
import type { Phase, PhasedMotion } from './phase.ts';
import { dwellPhase, inCycle, lawPhase, quickeningPhase, slowingPhase, steadyPhase } from './phase-makers.ts';
import type { MotionSection } from './section.ts';
import { stepPhases } from './steps.ts';

/** The phases of an axis, or what lacks for them. */
export function phasesOf(axis: Axis): Value<PhasedMotion> {
  const { motion } = axis;
  const { kind } = motion;
  if (kind instanceof Missing) return kind;
  switch (kind) {
    case 'gear':
    case 'turns':
    case 'winds':
    case 'unwinds':
      return constantSpeed(axis);
    case 'steps':
      return withCycle(axis, (cycle) => given({ steps: motion.steps! }, ({ steps }) => stepPhases(axis, steps, cycle)));
    case 'kicks':
      return withCycle(axis, (cycle) => kick(axis, motion.kicks!, cycle));
    case 'feeds':
      return withCycle(axis, (cycle) => feed(axis, motion.feeds!, cycle));
    case 'runs':
      return run(axis, motion.runs!);
    case 'cuts':
      return cut(axis, motion.cuts!);
    case 'shears':
      return shear(axis, motion.shears!);
    case 'traverses':
      return toAndFro(axis, motion.traverses!);
    case 'cam':
      return cam(axis, motion.cam!);
  }
}

// ── the cycle ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The cycle of the axis: its own, or so many products of its master. */
function cycleOf(axis: Axis): Value<Quantity<'s'>> {
  const { motion, name, master } = axis;
  if (motion.cycle !== undefined) return motion.cycle;
  if (master === undefined) return missing(`${motion.path}.cycle`, 'absent', 'a time', '2 s');
  const product = given({ master }, (known) => known.master.product);
  return motion.every === undefined
    ? product
    : given({ n: motion.every, t: product }, (known) => productsTime(known, name));
}

const withCycle = (axis: Axis, make: (cycle: Quantity<'s'>) => Value<PhasedMotion>): Value<PhasedMotion> =>
  given({ cycle: cycleOf(axis) }, ({ cycle }) => make(cycle));

// ── constant speed ───────────────────────────────────────────────────────────────────────────────────────────────────

function constantSpeed(axis: Axis): Value<PhasedMotion> {
  const { motion, name } = axis;
  const found = cycleOf(axis);
  const path = `${motion.path}.cycle`;
  const cycle = found instanceof Missing && found.lacks.every(({ why }) => why === 'absent') ? span(path) : found;
  const speed = constantSpeedOf(axis);
  return given({ cycle, speed }, (known) => ({
    unit: known.speed.unit === 'm/s' ? ('m' as const) : ('rad' as const),
    phases: [steadyPhase('at_speed', 'constant speed', known.speed, known.cycle)],
    cycle: known.cycle,
    taken: undefined,
    scales: false,
  }));

  function constantSpeedOf({ motion: { gear, turns } }: Axis): Value<Quantity> {
    if (gear !== undefined) {
      return given({ gear, master: masterOf(axis) }, ({ gear: { turns: z, of: n }, master }) =>
        given({ v: master.speed, z, n, unit: master.unit }, ({ v, z, n, unit }) =>
          kits[unit].geared({ v, z, n }, name),
        ),
      );
    }
    if (turns !== undefined)
      return given({ v: speedIn(axis, 'm/s') as Value<Quantity<'m/s'>>, l: turns.every }, (known) =>
        turnsEverySpeed(known, name),
      );
    // A winder runs at the speed of the web; its train turns that into a speed at a diameter.
    return speedIn(axis, 'm/s');
  }
}

/** Any span will do. */
const span = (path: string): Quantity<'s'> =>
  assumed(path, 1, 's', { source: 'judgement', because: 'a constant speed looks the same over any time' });

function run(
  axis: Axis,
  { speed, for: t, ramp_up, ramp_down }: NonNullable<MotionSection['runs']>,
): Value<PhasedMotion> {
  const { name } = axis;
  return given({ speed, t, up: ramp_up, down: ramp_down }, (known) => {
    const v: Quantity = known.speed;
    const unit = v.unit === 'm/s' ? 'm' : 'rad';
    const kit = kits[unit];
    const [u, d] = [known.up, known.down] as readonly (Quantity<'s'> | undefined)[];
    const ramp = (t: Quantity<'s'>, acceleration: Quantity) => ({ v, t, acceleration, backwards: false });
    const up = u && quickeningPhase('up', 'speeding up', ramp(u, kit.up({ v, t: u }, `${name}.up`)));
    const down = d && slowingPhase('down', 'slowing down', ramp(d, kit.down({ v, t: d }, `${name}.down`)));
    const steady = steadyPhase('at_speed', 'constant speed', v, known.t);
    const phases = [...(up ? [up] : []), steady, ...(down ? [down] : [])];
    if (axis.motion.cycle === undefined)
      return {
        unit,
        phases,
        cycle: timeTaken({ t: phases.map(({ duration }) => duration) }, name),
        taken: undefined,
        scales: false,
      };
    return given({ cycle: axis.motion.cycle }, ({ cycle }) => inCycle(axis, unit, phases, cycle));
  }) as Value<PhasedMotion>;
}

// ── intermittent ─────────────────────────────────────────────────────────────────────────────────────────────────────

function kick(
  axis: Axis,
  { turn, in: t, hold, law, path }: NonNullable<MotionSection['kicks']>,
  cycle: Quantity<'s'>,
): Value<PhasedMotion> {
  return given({ turn, t, hold, law }, (known) => {
    const out = lawPhase({ name: 'out', title: 'swinging out', about: path }, known.turn, known.t, known.law);
    const back: Phase = {
      ...out,
      name: 'back',
      title: `swinging back, ${known.law}`,
      build: (h = 0, T = 0) => lawPieces(known.law, -h, T),
    };
    return inCycle(axis, 'rad', [out, dwellPhase('hold', 'held out', known.hold), back], cycle);
  });
}

function feed(
  axis: Axis,
  { length, share, law, path }: NonNullable<MotionSection['feeds']>,
  c: Quantity<'s'>,
): Value<PhasedMotion> {
  return given({ length, share, law }, (known) => {
    const T = shareTime({ c, s: known.share }, axis.name);
    return inCycle(
      axis,
      'm',
      [lawPhase({ name: 'feed', title: 'feeding', about: path }, known.length, T, known.law)],
      c,
      axis.master !== undefined,
    );
  });
}
