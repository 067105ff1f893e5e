// What a stretch of a motion asks of the motor: highest and effective torque, speed, power and energy.
// Integrals are Gauss quadratures on each piece, cut where the tool turns round, where a load has an edge, and where the
// torque or what passes through a stage changes its sign, since there the integrand has a kink.
import { type Between, betweenPoints } from './between-points.ts';
import { type Going, goingOf, type PlainLine, shaftRatio, shaftTorque } from './drive-line.ts';
import { gaussLegendre, type Rule } from './integral.ts';
import { rootBetween } from './root.ts';
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
/** On a piece of degree 3, as a cam has thousands, torque and speed are parabolas, and its power has three tops at most. */
const samplesOfCubic = 2;
/** A stretch that was cut so often is integrated as it stands: what its signs hide then lasts 1/4000 of it. */
const deepest = 12;
/** So much beside the largest of a torque is what rounding leaves of none, at a root above all. */
const rounding = 1e-10;
/** A top between the points that are met is higher than the highest of them by less than this. */
const near = 0.98;

/**
 * The torque of a polynomial of degree n has the degree n − 1 at most, so that its square is exact with n points. A sine is
 * cut into sixteenths of a turn; 5 points integrate its square there to 2e-14, by the remainder term of the rule.
 */
const rules = [3, 5, 7].map((points): Ruled => {
  const rule = gaussLegendre(points);
  return { ...rule, between: betweenPoints(rule) };
}) as [Ruled, Ruled, Ruled];

interface Ruled extends Rule {
  readonly between: Between;
}

/** Goes through a phase. The loads are those of `line`; a motion without duration asks for nothing. */
export function phaseDemand(line: PlainLine, stretch: Stretch): PhaseDemand {
  const sum = new Sum(line, stretch);
  for (const segment of stretch.motion) sum.add(segment);
  return sum.result();
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

/** What is met at the points of a stretch: both ends and the nodes of its rule. */
class Points {
  readonly torque = new Float64Array(9);
  readonly speed = new Float64Array(9);
  /** The torque through each stage, point by point. */
  readonly through = Array.from({ length: 9 }, () => ({ signs: [] as number[] }));
}

/** What the loops look at stands in its fields, so that no point is an object of its own. */
class Sum {
  readonly #line: PlainLine;
  readonly #stretch: Stretch;
  readonly #ratio: number;
  /** Stages that lose something. */
  readonly #lossy: readonly number[];
  readonly #placed: boolean;
  readonly #cutting: Cutting;
  /** The tool at the point that was looked at last, the torque and the speed of the motor there. */
  readonly #state: MovingState = { position: 0, velocity: 0, acceleration: 0, jerk: 0 };
  #torque = 0;
  #speed = 0;
  readonly #points = new Points();
  /** One column of the points. */
  readonly #values = new Float64Array(9);
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
    const { stages } = line;
    this.#line = line;
    this.#stretch = stretch;
    this.#ratio = shaftRatio(line);
    this.#lossy = stages.flatMap(({ driving, driven }, at) => (driving !== 1 || driven !== 1 ? [at] : []));
    this.#placed = stages.some(({ placed }) => placed.length > 0);
    this.#cutting = cuttingOf(line);
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
    const { from, start_s, motion, rising_per_s } = this.#stretch;
    const begun_s = start_s + segment.start_s - motion[0]!.start_s;
    const { polynomial, sine } = segment;
    const isCubic = sine === undefined && polynomial.length <= 4 && this.#cutting.turning === 0;
    const bent = isCubic ? samplesOfCubic : samples;
    const ends = stepEnds(segment, this.#cutting, { from, begun_s, bent, straight: 1 });
    const rule = this.#ruleFor(segment);
    for (let at = 1; at < ends.length; at++) {
      const [before, after] = [ends[at - 1]!, ends[at]!];
      const { velocity, acceleration } = moveTo(this.#state, segment, (before + after) / 2);
      this.#going = goingOf(velocity, acceleration + rising_per_s * velocity);
      this.#cut(segment, before, after, rule, 0);
    }
  }

  #ruleFor({ sine, polynomial }: Segment): Ruled {
    const degree = Math.max(polynomial.length - 1, sine === undefined ? 0 : 5);
    return rules[this.#cutting.turning > 0 || degree > 5 ? 2 : degree > 3 ? 1 : 0];
  }

  /** A stretch that is cut where anything in it changes its sign, then integrated. */
  #cut(segment: Segment, from: number, to: number, rule: Ruled, depth: number): void {
    this.#lookAll(segment, from, to, rule);
    const at = depth < deepest ? this.#change(segment, from, to, rule) : undefined;
    if (at === undefined || !(at > from && at < to)) {
      this.#integrate(segment, from, to, rule);
      return;
    }
    this.#cut(segment, from, at, rule, depth + 1);
    this.#cut(segment, at, to, rule, depth + 1);
  }

  #lookAll(segment: Segment, from: number, to: number, { between: { points: places } }: Ruled): void {
    const { torque, speed, through } = this.#points;
    const half = (to - from) / 2;
    // Where a load begins or ends, it is looked at from inside.
    const inside = this.#placed ? 1 - 2e-10 : 1;
    for (let at = 0; at < places.length; at++) {
      const place = at === 0 || at === places.length - 1 ? places[at]! * inside : places[at]!;
      this.#look(segment, from + half * (1 + place), this.#lossy.length === 0 ? undefined : through[at]);
      torque[at] = this.#torque;
      speed[at] = this.#speed;
    }
  }

  /** Where the torque through a stage that loses something, or the torque itself, changes its sign; or may do so. */
  #change(segment: Segment, from: number, to: number, rule: Ruled): number | undefined {
    const count = rule.nodes.length + 2;
    const values = this.#values;
    for (const stage of this.#lossy) {
      for (let at = 0; at < count; at++) values[at] = this.#points.through[at]!.signs[stage]!;
      const found = this.#changeOf(segment, from, to, rule, stage);
      if (found !== undefined) return found;
    }
    values.set(this.#points.torque);
    return this.#changeOf(segment, from, to, rule, undefined);
  }

  #changeOf(segment: Segment, from: number, to: number, rule: Ruled, stage: number | undefined): number | undefined {
    const values = this.#values;
    const { points: places, swelling, mayFall } = rule.between;
    let [least, most] = [Infinity, -Infinity];
    for (let at = 0; at < places.length; at++) {
      if (values[at]! < least) least = values[at]!;
      if (values[at]! > most) most = values[at]!;
    }
    const little = rounding * Math.max(most, -least);
    if (least < -little && most > little) return this.#root(segment, from, to, places, little, stage);
    if (Math.abs(least + most) >= swelling * (most - least)) return undefined;
    if (-least > most) for (let at = 0; at < places.length; at++) values[at]! *= -1;
    return mayFall(values, 10 * little) ? (from + to) / 2 : undefined;
  }

  /** Between the first two points at which the sign is not the same. */
  #root(
    segment: Segment,
    from: number,
    to: number,
    places: readonly number[],
    little: number,
    stage: number | undefined,
  ): number {
    const half = (to - from) / 2;
    const values = this.#values;
    let before = 0;
    while (Math.abs(values[before]!) <= little) before++;
    let at = before + 1;
    while (Math.abs(values[at]!) <= little || values[at]! * values[before]! > 0) {
      if (Math.abs(values[at]!) > little) before = at;
      at++;
    }
    const more = { signs: [] as number[] };
    return rootBetween(
      (t) => {
        this.#look(segment, t, stage === undefined ? undefined : more);
        return stage === undefined ? this.#torque : more.signs[stage]!;
      },
      [from + half * (1 + places[before]!), from + half * (1 + places[at]!)],
      [values[before]!, values[at]!],
    );
  }

  #look(segment: Segment, t: number, more?: { readonly signs: number[] }): void {
    const { from, start_s, motion, rising_per_s } = this.#stretch;
    const state = this.#state;
    moveTo(state, segment, t);
    this.#speed = this.#ratio * state.velocity;
    state.position += from;
    if (rising_per_s !== 0) state.acceleration += rising_per_s * state.velocity;
    const time = start_s + segment.start_s - motion[0]!.start_s + t;
    this.#torque = shaftTorque(this.#line, state, time, this.#going, more);
  }

  /** From what was met at its points. */
  #integrate(segment: Segment, from: number, to: number, { nodes, weights }: Ruled): void {
    const { torque: torques, speed: speeds } = this.#points;
    const half = (to - from) / 2;
    const last = nodes.length + 1;
    let squared = 0;
    let work = 0;
    let angle = 0;
    let innerTorque = 0;
    let innerSpeed = 0;
    let innerPower = -Infinity;
    for (let at = 0; at < nodes.length; at++) {
      const torque = torques[at + 1]!;
      const speed = speeds[at + 1]!;
      const weight = half * weights[at]!;
      squared += weight * torque * torque;
      work += weight * torque * speed;
      angle += weight * speed;
      this.#meet(segment, from + half * (1 + nodes[at]!), torque, speed);
      if (Math.abs(torque) > innerTorque) innerTorque = Math.abs(torque);
      if (Math.abs(speed) > innerSpeed) innerSpeed = Math.abs(speed);
      if (torque * speed > innerPower) innerPower = torque * speed;
    }
    this.#squared += squared;
    this.#turned += Math.abs(angle);
    if (work > 0) this.#given += work;
    else this.#returned -= work;
    // A jump of the acceleration, or of a load, may stand at an end: it is noted inside.
    const inside = (this.#placed ? 1e-10 : 1e-12) * (to - from);
    this.#meet(segment, from + inside, torques[0]!, speeds[0]!);
    this.#meet(segment, to - inside, torques[last]!, speeds[last]!);
    const middle = last / 2;
    const note = (what: Top['what'], before: number, between: number, after: number, inner: number): void => {
      if (!mayTop(before, between, after, inner)) return;
      const highest = Math.max(before, inner, after);
      if (highest >= near * this.#highest(what))
        this.#tops.push({ what, segment, from, to, going: this.#going, highest });
    };
    const power = (at: number): number => torques[at]! * speeds[at]!;
    note('torque', Math.abs(torques[0]!), Math.abs(torques[middle]!), Math.abs(torques[last]!), innerTorque);
    note('speed', Math.abs(speeds[0]!), Math.abs(speeds[middle]!), Math.abs(speeds[last]!), innerSpeed);
    note('power', power(0), power(middle), power(last), innerPower);
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
