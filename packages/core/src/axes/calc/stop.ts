// How far and how long a stop goes: on a ramp behind a reaction time, and without power by friction, load and brake.
import { formula } from '../../working/formula.ts';
import { mustBeOverZero } from './over-zero.ts';

/** A shaft that loses its drive. Torques and inertia are all at this shaft, losses of the train counted in them. */
export interface Coasting {
  readonly inertia_kg_m2: number;
  /** At least 0: its direction is the one that way and load are counted in. 0 where the shaft stands, as a hoist may. */
  readonly speed_rad_per_s: number;
  /** Over 0, against the motion whichever way it goes; at rest it holds against a load up to as much. */
  readonly friction_Nm: number;
  readonly viscous_Nms_per_rad: number;
  /** Over 0 against the first motion, below 0 with it; it stays as the motion turns round. */
  readonly load_Nm: number;
  /** Once it has taken hold, as friction. 0 where there is none. */
  readonly brake_Nm: number;
  /** From the loss of the drive until the brake holds. */
  readonly delay_s: number;
}

export interface Stop {
  readonly lasts_s: number;
  /** Angle turned in the direction of the first motion, and against it where the load turns it round. */
  readonly forth_rad: number;
  readonly back_rad: number;
  /** Speed as the brake takes hold, below 0 against the first motion; 0 where the shaft stands by then. */
  readonly atBrake_rad_per_s: number;
}

/**
 * The stop, or undefined where the shaft does not come to rest: the load drives it as much as friction and brake hold, or
 * more. Throws a RangeError for a measure that cannot be.
 */
export function coast(shaft: Coasting): Stop | undefined {
  const { inertia_kg_m2: J, viscous_Nms_per_rad: b, friction_Nm, brake_Nm, load_Nm, delay_s } = shaft;
  mustBePossible(shaft);
  let speed = shaft.speed_rad_per_s;
  let [lasts_s, forth_rad, back_rad] = [0, 0, 0];
  let atBrake_rad_per_s = 0;
  for (const [holding, until_s] of [
    [friction_Nm, delay_s],
    [friction_Nm + brake_Nm, Infinity],
  ] as const) {
    if (until_s === Infinity) atBrake_rad_per_s = speed;
    while (lasts_s < until_s) {
      const direction = speed === 0 ? (Math.abs(load_Nm) > holding ? -Math.sign(load_Nm) : 0) : Math.sign(speed);
      if (direction === 0) return { lasts_s, forth_rad, back_rad, atBrake_rad_per_s };
      const [from, M] = [Math.abs(speed), holding + direction * load_Nm];
      const rest_s = restTime(J, from, M, b);
      const t = Math.min(rest_s, until_s - lasts_s);
      if (t === Infinity) return undefined;
      const angle = angleIn(J, from, M, b, t);
      if (direction > 0) forth_rad += angle;
      else back_rad += angle;
      speed = t === rest_s ? 0 : direction * speedAfter(J, from, M, b, t);
      lasts_s = t === rest_s ? lasts_s + t : until_s;
    }
  }
  return undefined;
}

function mustBePossible({ inertia_kg_m2, load_Nm, ...rest }: Coasting): void {
  mustBeOverZero({ 'the inertia': inertia_kg_m2 });
  if (!Number.isFinite(load_Nm)) throw new RangeError(`a load of ${load_Nm} N·m`);
  for (const [name, value] of Object.entries(rest))
    if (!(value >= 0 && value < Infinity)) throw new RangeError(`${name} must be at least 0, and is ${value}`);
}

/** Time to rest under a torque M against the motion; infinite where it does not brake. */
function restTime(J: number, omega: number, M: number, b: number): number {
  if (!(M > 0)) return Infinity;
  return b > 0 ? (J / b) * Math.log1p((b * omega) / M) : (J * omega) / M;
}

function speedAfter(J: number, omega: number, M: number, b: number, t: number): number {
  const x = (b * t) / J;
  return omega * Math.exp(-x) - ((M * t) / J) * meanOfDecay(x);
}

function angleIn(J: number, omega: number, M: number, b: number, t: number): number {
  const x = (b * t) / J;
  return omega * t * meanOfDecay(x) - ((M * t * t) / J) * meanOfMean(x);
}

/** (1 − e⁻ˣ)/x. */
const meanOfDecay = (x: number): number => (x === 0 ? 1 : -Math.expm1(-x) / x);

/** (x − 1 + e⁻ˣ)/x², by its series where the difference would lose digits. */
function meanOfMean(x: number): number {
  if (x > 0.5) return (1 - meanOfDecay(x)) / x;
  let [sum, term] = [0, 0.5];
  for (let n = 3; n < 16; n++) {
    sum += term;
    term *= -x / n;
  }
  return sum;
}

const ramped = {
  title: 'way of a stop on a ramp, the reaction before it counted',
  text: 'v*(r + t/2)',
  means: { v: 'speed before', r: 'reaction time, at that speed', t: 'duration of the ramp' },
  source: 'common-practice',
  proof: 'ramps stop within the distance of the rule',
  of: (v: number, r: number, t: number) => v * (r + t / 2),
} as const;

/** Of a ramp of constant deceleration, or of one that is rounded alike at both ends. */
export const stopWay = formula({
  ...ramped,
  id: 'axes.stop.way',
  gives: 'm',
  symbols: { v: 'm/s', r: 's', t: 's' },
  try: { v: [0.01, 10], r: [0, 0.5], t: [0.01, 5] },
});

export const stopAngle = formula({
  ...ramped,
  id: 'axes.stop.angle',
  gives: 'rad',
  symbols: { v: 'rad/s', r: 's', t: 's' },
  try: { v: [0.1, 600], r: [0, 0.5], t: [0.01, 5] },
});

export const stopTime = formula({
  id: 'axes.stop.time',
  title: 'time of a stop on a ramp, the reaction before it counted',
  text: 'r + t',
  gives: 's',
  symbols: { r: 's', t: 's' },
  means: { r: 'reaction time', t: 'duration of the ramp' },
  try: { r: [0, 0.5], t: [0.01, 5] },
  source: 'definition',
  proof: 'ramps stop within the distance of the rule',
  of: (r: number, t: number) => r + t,
});

const inertia = 'inertia at the shaft';
const before = 'speed before, without its sign';
const viscousShare = 'viscous friction for each part of the speed';
/** The first equation of this file: J·dω/dt = −(M + b·ω), from its start to rest or for a while. */
const decaying = { source: 'definition', proof: 'coasting integrated step by step' } as const;

/** To rest, for a braking torque over 0; others do not stop. */
const toRest = {
  ...decaying,
  symbols: { J: 'kg·m²', ω: 'rad/s', M: 'N·m', b: 'N·m·s/rad' },
  means: {
    J: inertia,
    ω: before,
    M: 'torque that brakes at every speed: friction, brake and load, over 0',
    b: viscousShare,
  },
  try: { J: [0.01, 10], ω: [50, 400], M: [0.5, 20], b: [0, 0.5] },
} as const;

export const coastTime = formula({
  ...toRest,
  id: 'axes.coast.time',
  title: 'time until a shaft without drive stands',
  cases: [{ when: 'b > 0', text: 'J/b*log(1 + b*ω/M)' }, { text: 'J*ω/M' }],
  gives: 's',
  of: restTime,
});

export const coastAngle = formula({
  ...toRest,
  id: 'axes.coast.angle',
  title: 'angle until a shaft without drive stands',
  cases: [{ when: 'b > 0', text: 'J/b*(ω - M/b*log(1 + b*ω/M))' }, { text: 'J*ω^2/(2*M)' }],
  gives: 'rad',
  of: (J: number, omega: number, M: number, b: number) => angleIn(J, omega, M, b, restTime(J, omega, M, b)),
});

/** While the motion keeps its direction: until a brake holds, also of a load that drives, from rest or on the way. */
const forAWhile = {
  ...decaying,
  symbols: { ...toRest.symbols, t: 's' },
  means: {
    J: inertia,
    ω: before,
    M: 'torque that brakes at every speed: friction and load; below 0 where the load drives more',
    b: viscousShare,
    t: 'time without drive',
  },
  try: { J: [0.5, 10], ω: [0, 400], M: [-20, 20], b: [0, 0.5], t: [0.1, 2] },
} as const;

export const coastSpeedAfter = formula({
  ...forAWhile,
  id: 'axes.coast.speed_after',
  title: 'speed of a shaft after a while without drive',
  cases: [{ when: 'b > 0', text: 'ω*exp(-b*t/J) - M/b*(1 - exp(-b*t/J))' }, { text: 'ω - M*t/J' }],
  gives: 'rad/s',
  as: 'rpm',
  of: speedAfter,
});

export const coastAngleAfter = formula({
  ...forAWhile,
  id: 'axes.coast.angle_after',
  title: 'angle of a shaft in a while without drive',
  cases: [{ when: 'b > 0', text: 'J/b*(ω + M/b)*(1 - exp(-b*t/J)) - M*t/b' }, { text: 'ω*t - M*t^2/(2*J)' }],
  gives: 'rad',
  of: angleIn,
});
