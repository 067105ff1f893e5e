// What a stretch of a motion asks of the motor: highest and effective torque, speed, power and energy.
// Integrals are Gauss quadratures on each piece, cut where the tool turns round, where a load has an edge, and where the
// torque or what passes through a stage changes its sign, since there the integrand has a kink.
import { type Going, goingOf, type PlainLine, shaftRatio, shaftTorque } from './drive-line.ts';
import { gaussLegendre, type Rule } from './integral.ts';
import { end_s, type Motion, type MovingState, moveTo, type Segment } from './segment.ts';
import { type Cutting, cuttingOf, stepEnds } from './step-ends.ts';

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

/** Even steps in a quarter turn: between these a peak is looked for, and a sign that changes. */
const samples = 4;
/** A piece with so many signs that change is integrated as it stands. */
const deepest = 12;
/** A top between the points that are met is higher than the highest of them by less than this. */
const near = 0.98;

/**
 * The torque of a polynomial of degree n has the degree n − 1 at most, so that its square is exact with n points. A sine is
 * cut into sixteenths of a turn; 5 points integrate its square there to 2e-14, by the remainder term of the rule.
 */
const rules = [3, 5, 7].map(gaussLegendre) as [Rule, Rule, Rule];

/** Goes through a phase. The loads are those of `line`; a motion without duration asks for nothing. */
export function phaseDemand(line: PlainLine, stretch: Stretch): PhaseDemand {
  const sum = new Sum(line, stretch);
  for (const segment of stretch.motion) sum.add(segment);
  return sum.result();
}

/** What is looked at together where a stretch begins or ends. */
interface End {
  /** What `shaftTorque` names, 0 for what it leaves out. */
  readonly signs: number[];
  torque: number;
  speed: number;
}

/** Where the torque either way, the speed or the power may have its top between the points that were met. */
interface Top {
  readonly what: 'torque' | 'speed' | 'power';
  readonly segment: Segment;
  readonly from: number;
  readonly to: number;
  readonly going: Going;
  /** The highest that was met in it. */
  readonly highest: number;
}

/** What the loops look at stands in its fields, so that no point is an object of its own. */
class Sum {
  readonly #line: PlainLine;
  readonly #stretch: Stretch;
  readonly #ratio: number;
  readonly #cutting: Cutting;
  readonly #curved: boolean;
  /** Whether a load depends on where the tool is, or on when. */
  readonly #placed: boolean;
  /** The tool at the point that was looked at last, the torque and the speed of the motor there. */
  readonly #state: MovingState = { position: 0, velocity: 0, acceleration: 0, jerk: 0 };
  #torque = 0;
  #speed = 0;
  readonly #before: End = { signs: [], torque: 0, speed: 0 };
  readonly #after: End = { signs: [], torque: 0, speed: 0 };
  readonly #middle: End = { signs: [], torque: 0, speed: 0 };
  #going: Going = 0;
  readonly #tops: Top[] = [];
  #peak = 0;
  #peakAt = 0;
  #peakGoing: Going = 0;
  #least = Infinity;
  #most = -Infinity;
  #squared = 0;
  #turned = 0;
  #given = 0;
  #returned = 0;
  #highestPower = 0;
  #highestSpeed = 0;

  constructor(line: PlainLine, stretch: Stretch) {
    this.#line = line;
    this.#stretch = stretch;
    this.#ratio = shaftRatio(line);
    this.#cutting = cuttingOf(line);
    this.#curved = this.#cutting.turning > 0;
    this.#placed = line.stages.some(({ placed }) => placed.length > 0);
  }

  result(): PhaseDemand {
    for (const top of this.#tops) this.#refine(top);
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
      peakPower_W: this.#highestPower,
      peakSpeed_rad_per_s: this.#highestSpeed,
    };
  }

  add(segment: Segment): void {
    const { from, start_s, motion } = this.#stretch;
    const begun_s = start_s + segment.start_s - motion[0]!.start_s;
    const ends = stepEnds(segment, this.#cutting, { from, begun_s, bent: samples, straight: 1 });
    const rule = this.#ruleFor(segment);
    for (let at = 1; at < ends.length; at++) this.#cut(segment, ends[at - 1]!, ends[at]!, rule, 0);
  }

  #ruleFor({ sine, polynomial }: Segment): Rule {
    const degree = Math.max(polynomial.length - 1, sine === undefined ? 0 : 5);
    return rules[this.#curved || degree > 5 ? 2 : degree > 3 ? 1 : 0];
  }

  /** A stretch that is cut where anything in it changes its sign, then integrated. */
  #cut(segment: Segment, from: number, to: number, rule: Rule, depth: number): void {
    const { velocity, acceleration } = moveTo(this.#state, segment, (from + to) / 2);
    this.#going = goingOf(velocity, acceleration + this.#stretch.rising_per_s * velocity);
    const before = this.#lookFrom(this.#before, segment, from);
    const after = this.#lookFrom(this.#after, segment, to);
    for (let at = 0; at <= before.signs.length && depth < deepest; at++) {
      if (signOf(before, at) * signOf(after, at) >= 0) continue;
      const root = this.#root(segment, from, to, at);
      if (!(root > from && root < to)) continue;
      this.#cut(segment, from, root, rule, depth + 1);
      this.#cut(segment, root, to, rule, depth + 1);
      return;
    }
    const apart = this.#integrate(segment, from, to, rule, depth < deepest);
    if (apart === undefined) return;
    this.#cut(segment, from, apart, rule, depth + 1);
    this.#cut(segment, apart, to, rule, depth + 1);
  }

  #lookFrom(end: End, segment: Segment, t: number): End {
    for (let at = 0; at < end.signs.length; at++) end.signs[at] = 0;
    this.#look(segment, t, end);
    end.torque = this.#torque;
    end.speed = this.#speed;
    return end;
  }

  #root(segment: Segment, from: number, to: number, at: number): number {
    const before = signOf(this.#before, at);
    let low = from;
    let high = to;
    for (let step = 0; step < 60 && high - low > 1e-15 * segment.duration_s; step++) {
      const middle = (low + high) / 2;
      if (signOf(this.#lookFrom(this.#middle, segment, middle), at) * before > 0) low = middle;
      else high = middle;
    }
    // At the end of a stretch that is beyond the root, so that the rest does not find it again.
    return high;
  }

  #look(segment: Segment, t: number, more?: End): void {
    const { from, start_s, motion, rising_per_s } = this.#stretch;
    const state = this.#state;
    moveTo(state, segment, t);
    this.#speed = this.#ratio * state.velocity;
    state.position += from;
    if (rising_per_s !== 0) state.acceleration += rising_per_s * state.velocity;
    const time = start_s + segment.start_s - motion[0]!.start_s + t;
    this.#torque = shaftTorque(this.#line, state, time, this.#going, more);
  }

  /** Adds what a stretch asks for; or tells where the torque has another sign than at both ends, and adds nothing yet. */
  #integrate(
    segment: Segment,
    from: number,
    to: number,
    { nodes, weights }: Rule,
    mayCut: boolean,
  ): number | undefined {
    const first = this.#before;
    const last = this.#after;
    const sign = Math.sign(first.torque + last.torque);
    let apart: number | undefined;
    const half = (to - from) / 2;
    const middle = (from + to) / 2;
    let squared = 0;
    let work = 0;
    let angle = 0;
    let innerTorque = 0;
    let innerSpeed = 0;
    let innerPower = -Infinity;
    let middleTorque = 0;
    let middleSpeed = 0;
    for (let at = 0; at < nodes.length; at++) {
      const t = middle + half * nodes[at]!;
      this.#look(segment, t);
      const torque = this.#torque;
      const speed = this.#speed;
      if (torque * sign < 0) apart = t;
      const weight = half * weights[at]!;
      squared += weight * torque * torque;
      work += weight * torque * speed;
      angle += weight * speed;
      this.#meet(segment, t, torque, speed);
      if (Math.abs(torque) > innerTorque) innerTorque = Math.abs(torque);
      if (Math.abs(speed) > innerSpeed) innerSpeed = Math.abs(speed);
      if (torque * speed > innerPower) innerPower = torque * speed;
      if (2 * at + 1 === nodes.length) {
        middleTorque = torque;
        middleSpeed = speed;
      }
    }
    if (mayCut) {
      apart ??= this.#dip(segment, middle, half, middleTorque);
      if (apart !== undefined) return apart;
    }
    this.#squared += squared;
    this.#turned += Math.abs(angle);
    if (work > 0) this.#given += work;
    else this.#returned -= work;
    // An edge of a load, or a jump of the acceleration, may stand at an end: it is looked at from inside, and noted there.
    const inside = 1e-12 * (to - from);
    if (this.#placed) {
      this.#lookFrom(first, segment, from + inside);
      this.#lookFrom(last, segment, to - inside);
    }
    this.#meet(segment, from + inside, first.torque, first.speed);
    this.#meet(segment, to - inside, last.torque, last.speed);
    const note = (what: Top['what'], before: number, middle: number, after: number, inner: number): void => {
      if (!mayTop(before, middle, after, inner)) return;
      const highest = Math.max(before, inner, after);
      if (highest >= near * this.#highest(what))
        this.#tops.push({ what, segment, from, to, going: this.#going, highest });
    };
    note('torque', Math.abs(first.torque), Math.abs(middleTorque), Math.abs(last.torque), innerTorque);
    note('speed', Math.abs(first.speed), Math.abs(middleSpeed), Math.abs(last.speed), innerSpeed);
    note('power', first.torque * first.speed, middleTorque * middleSpeed, last.torque * last.speed, innerPower);
    return undefined;
  }

  /** Where the torque changes its sign twice between the points that were met, as the parabola through three of them says. */
  #dip(segment: Segment, middle: number, half: number, middleTorque: number): number | undefined {
    const [before, after] = [this.#before.torque, this.#after.torque];
    const bend = (before + after) / 2 - middleTorque;
    const slope = (after - before) / 2;
    if (bend === 0 || Math.abs(slope) >= 2 * Math.abs(bend)) return undefined;
    const lowest = middleTorque - (slope * slope) / (4 * bend);
    if (!(lowest * middleTorque < 0)) return undefined;
    const t = middle - (half * slope) / (2 * bend);
    this.#look(segment, t);
    return this.#torque * middleTorque < 0 ? t : undefined;
  }

  #meet(segment: Segment, t: number, torque: number, speed: number): void {
    if (torque < this.#least) this.#least = torque;
    if (torque > this.#most) this.#most = torque;
    if (Math.abs(torque) > Math.abs(this.#peak)) {
      this.#peak = torque;
      this.#peakAt = segment.start_s - this.#stretch.motion[0]!.start_s + t;
      this.#peakGoing = this.#going;
    }
    if (Math.abs(speed) > this.#highestSpeed) this.#highestSpeed = Math.abs(speed);
    const power = torque * speed;
    if (power > this.#highestPower) this.#highestPower = power;
  }

  #highest(what: Top['what']): number {
    return what === 'torque' ? Math.abs(this.#peak) : what === 'speed' ? this.#highestSpeed : this.#highestPower;
  }

  /** Near the highest of all that was met, the top itself by the golden section. */
  #refine({ what, segment, from, to, going, highest }: Top): void {
    if (highest < near * this.#highest(what)) return;
    this.#going = going;
    const t = golden((at) => this.#sizeAt(what, segment, at), from, to);
    this.#look(segment, t);
    this.#meet(segment, t, this.#torque, this.#speed);
  }

  #sizeAt(what: Top['what'], segment: Segment, t: number): number {
    this.#look(segment, t);
    if (what === 'power') return this.#torque * this.#speed;
    return Math.abs(what === 'torque' ? this.#torque : this.#speed);
  }
}

/** What changes its sign: first what `shaftTorque` names, then the torque itself. */
const signOf = ({ signs, torque }: End, at: number): number => (at < signs.length ? signs[at]! : torque);

/** Whether a top may lie between: a point inside is over both ends, or the parabola through three turns near by. */
function mayTop(first: number, middle: number, last: number, inner: number): boolean {
  const bend = first + last - 2 * middle;
  return (inner > first && inner > last) || Math.abs(last - first) < -4 * bend;
}

const share = (Math.sqrt(5) - 1) / 2;

function golden(of: (t: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let left = high - share * (high - low);
  let right = low + share * (high - low);
  let atLeft = of(left);
  let atRight = of(right);
  for (let step = 0; step < 40; step++) {
    if (atLeft > atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - share * (high - low);
      atLeft = of(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + share * (high - low);
      atRight = of(right);
    }
  }
  return (low + high) / 2;
}

/** The length of a phase. */
export const lasts_s = (motion: Motion): number =>
  motion.length === 0 ? 0 : end_s(motion.at(-1)!) - motion[0]!.start_s;
