// What a stretch of a motion asks of the motor: highest and effective torque, speed, power and energy.
// Integrals are Gauss quadratures on each piece, cut where the speed, the torque through a stage, an edge of a load or the
// torque itself changes its sign, since there the integrand has a kink.
import { type Going, goingOf, type PlainLine, shaftRatio, shaftTorque } from './drive-line.ts';
import { gaussLegendre } from './integral.ts';
import { end_s, type Motion, type Segment, stateOf } from './segment.ts';

export interface PhaseDemand {
  readonly lasts_s: number;
  /** The highest torque, with the sign that it has, and when it is asked for, from the start of the phase. */
  readonly peakTorque_Nm: number;
  readonly peakAt_s: number;
  /** Which way friction acts there: at a turning point, as in the stretch that the peak belongs to. */
  readonly peakGoing: Going;
  /** The same value from end to end, but for rounding. */
  readonly constant: boolean;
  /** Square of the torque over time, N²·m²·s. */
  readonly squared: number;
  /** Angle that the motor turns, whichever way. */
  readonly turned_rad: number;
  /** What the motor gives, and what it takes back, both over 0. */
  readonly given_J: number;
  readonly returned_J: number;
  readonly peakPower_W: number;
  readonly peakSpeed_rad_per_s: number;
}

export interface Stretch {
  readonly motion: Motion;
  /** Where the phase begins, in the tool's position and in the time of the cycle. */
  readonly from: number;
  readonly start_s: number;
  /** What the master's ramp adds to the acceleration for each part of the speed, in 1/s. */
  readonly rising_per_s: number;
}

const rule = gaussLegendre(7);
/** Between these a peak is looked for, and a sign that changes. */
const samples = 4;
const longestArc_rad = Math.PI / 2;

/** Goes through a phase. The loads are those of `line`; a motion without duration asks for nothing. */
export function phaseDemand(line: PlainLine, stretch: Stretch): PhaseDemand {
  const sum = new Sum(line, stretch);
  for (const segment of stretch.motion) sum.add(segment);
  return sum.result();
}

/** What the loops hand from one point to the next. */
interface Point {
  torque: number;
  speed: number;
}

class Sum {
  readonly #line: PlainLine;
  readonly #stretch: Stretch;
  readonly #ratio: number;
  readonly #curved: boolean;
  #going: Going = 0;
  #peak = 0;
  #peakAt = 0;
  #peakGoing: Going = 0;
  #least = Infinity;
  #most = -Infinity;
  #squared = 0;
  #turned = 0;
  #given = 0;
  #returned = 0;
  #power = 0;
  #speed = 0;

  constructor(line: PlainLine, stretch: Stretch) {
    this.#line = line;
    this.#stretch = stretch;
    this.#ratio = shaftRatio(line);
    this.#curved = line.stages.some(({ placed }) => placed.length > 0);
  }

  result(): PhaseDemand {
    return {
      lasts_s: lasts_s(this.#stretch.motion),
      peakTorque_Nm: this.#peak,
      peakAt_s: this.#peakAt,
      peakGoing: this.#peakGoing,
      constant: this.#most - this.#least <= 1e-12 * Math.max(Math.abs(this.#most), Math.abs(this.#least)),
      squared: this.#squared,
      turned_rad: this.#turned,
      given_J: this.#given,
      returned_J: this.#returned,
      peakPower_W: this.#power,
      peakSpeed_rad_per_s: this.#speed,
    };
  }

  add(segment: Segment): void {
    const straight = segment.sine === undefined && segment.polynomial.length <= 3 && !this.#curved;
    const steps = straight ? 1 : samples * this.#panels(segment);
    let before = 0;
    for (let step = 1; step <= steps; step++) {
      const to = (segment.duration_s * step) / steps;
      this.#between(segment, before, to, 0);
      before = to;
    }
  }

  /** A sine is cut into quarter turns, and so is what depends on the position of a shaft. */
  #panels(segment: Segment): number {
    const own = segment.sine === undefined ? 0 : Math.abs(segment.sine.rate_rad_per_s) * segment.duration_s;
    if (!this.#curved) return Math.max(1, Math.ceil(own / longestArc_rad));
    const turned = Math.abs(stateOf(segment, segment.duration_s).position - stateOf(segment, 0).position);
    const here = Math.max(...this.#line.stages.map(({ placed, ratio }) => (placed.length > 0 ? ratio : 0)));
    return Math.max(1, Math.ceil(Math.max(own, Math.min(turned * here, mostArcs_rad)) / longestArc_rad));
  }

  /** A stretch that is cut where anything in it changes its sign, then integrated. */
  #between(segment: Segment, from: number, to: number, depth: number): void {
    this.#going = this.#goingIn(segment, from, to);
    const before = this.#signsAt(segment, from);
    const after = this.#signsAt(segment, to);
    if (depth < deepest) {
      for (let at = 0; at < before.length; at++) {
        if (before[at]! * after[at]! >= 0) continue;
        const cut = this.#root(segment, from, to, at, before[at]!);
        if (!(cut > from && cut < to)) continue;
        this.#between(segment, from, cut, depth + 1);
        this.#between(segment, cut, to, depth + 1);
        return;
      }
    }
    this.#integrate(segment, from, to);
  }

  #goingIn(segment: Segment, from: number, to: number): Going {
    const state = stateOf(segment, (from + to) / 2);
    return goingOf(state.velocity, state.acceleration + this.#stretch.rising_per_s * state.velocity);
  }

  /** Speed, torque, and what `shaftTorque` names. */
  #signsAt(segment: Segment, t: number): readonly number[] {
    const signs: number[] = [];
    const { torque, speed } = this.#pointAt(segment, t, signs);
    signs.push(speed, torque);
    return signs;
  }

  #root(segment: Segment, from: number, to: number, at: number, before: number): number {
    let [low, high] = [from, to];
    for (let step = 0; step < 60 && high - low > 1e-15 * segment.duration_s; step++) {
      const middle = (low + high) / 2;
      if (this.#signsAt(segment, middle)[at]! * before > 0) low = middle;
      else high = middle;
    }
    // At the end of a stretch that is beyond the root, so that the rest does not find it again.
    return high;
  }

  #pointAt(segment: Segment, t: number, signs?: number[]): Point {
    const { from, start_s, motion, rising_per_s } = this.#stretch;
    const state = stateOf(segment, t);
    const moved = {
      position: from + state.position,
      velocity: state.velocity,
      acceleration: rising_per_s === 0 ? state.acceleration : state.acceleration + rising_per_s * state.velocity,
    };
    const time = start_s + segment.start_s - motion[0]!.start_s + t;
    const torque = shaftTorque(this.#line, moved, time, this.#going, signs === undefined ? {} : { signs });
    return { torque, speed: this.#ratio * state.velocity };
  }

  #integrate(segment: Segment, from: number, to: number): void {
    const half = (to - from) / 2;
    const middle = (from + to) / 2;
    let [squared, work, angle] = [0, 0, 0];
    for (let at = 0; at < rule.nodes.length; at++) {
      const point = this.#pointAt(segment, middle + half * rule.nodes[at]!);
      const weight = half * rule.weights[at]!;
      squared += weight * point.torque * point.torque;
      work += weight * point.torque * point.speed;
      angle += weight * point.speed;
      this.#meet(segment, middle + half * rule.nodes[at]!, point);
    }
    this.#squared += squared;
    this.#turned += Math.abs(angle);
    if (work > 0) this.#given += work;
    else this.#returned -= work;
    // The ends are taken from inside: an edge of a load stands at one of them.
    const inside = 1e-12 * (to - from);
    this.#meet(segment, from, this.#pointAt(segment, from + inside));
    this.#meet(segment, to, this.#pointAt(segment, to - inside));
    if (segment.sine === undefined && segment.polynomial.length <= 3 && !this.#curved) return;
    this.#refine(segment, from, to);
  }

  #meet(segment: Segment, t: number, { torque, speed }: Point): void {
    const { motion } = this.#stretch;
    if (torque < this.#least) this.#least = torque;
    if (torque > this.#most) this.#most = torque;
    if (Math.abs(torque) > Math.abs(this.#peak)) {
      this.#peak = torque;
      this.#peakAt = segment.start_s - motion[0]!.start_s + t;
      this.#peakGoing = this.#going;
    }
    if (Math.abs(speed) > this.#speed) this.#speed = Math.abs(speed);
    const power = torque * speed;
    if (power > this.#power) this.#power = power;
  }

  /** Near a top that is met inside, the top itself, by the golden section; of the torque either way, speed and power. */
  #refine(segment: Segment, from: number, to: number): void {
    const tops: readonly ((point: Point) => number)[] = [
      ({ torque }) => Math.abs(torque),
      ({ speed }) => Math.abs(speed),
      ({ torque, speed }) => torque * speed,
    ];
    const met = [Math.abs(this.#peak), this.#speed, this.#power];
    const points = [from, (from + to) / 2, to].map((t) => this.#pointAt(segment, t));
    tops.forEach((of, index) => {
      const [first, inner, last] = points.map(of) as [number, number, number];
      if (inner < first && inner < last) return;
      if (Math.max(first, inner, last) < met[index]! * near) return;
      // Where it stays the same there is no top to look for.
      if (first === inner && inner === last) return;
      const t = golden((at) => of(this.#pointAt(segment, at)), from, to);
      this.#meet(segment, t, this.#pointAt(segment, t));
    });
  }
}

/** A top between two samples, an eighth of a quarter turn apart, is higher than they are by less than this. */
const near = 0.98;
/** A piece with so many signs that change is integrated as it stands. */
const deepest = 12;
/** More turns within one piece are not followed finer (our judgement: such a piece turns more than 200 times). */
const mostArcs_rad = 400 * Math.PI;

const share = (Math.sqrt(5) - 1) / 2;

function golden(of: (t: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [left, right] = [high - share * (high - low), low + share * (high - low)];
  let [atLeft, atRight] = [of(left), of(right)];
  for (let step = 0; step < 40; step++) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - share * (high - low);
      atLeft = of(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + share * (high - low);
      atRight = of(right);
    }
  }
  return (low + high) / 2;
}

/** The length of a phase. */
export const lasts_s = (motion: Motion): number =>
  motion.length === 0 ? 0 : end_s(motion.at(-1)!) - motion[0]!.start_s;
