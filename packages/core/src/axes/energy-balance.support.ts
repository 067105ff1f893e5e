// The energy balance of a train as a second method: what each thing of it takes, by hand, against the work at the shaft.
// Of the library it takes only the torque at the shaft, which is what it checks, and the motion of the tool.
import { goingOf, shaftTorque } from './calc/drive-line.ts';
import { gaussLegendre } from './calc/integral.ts';
import { stateOf } from './calc/segment.ts';
import type { Case } from './demand.ts';
import { motionOf } from './phase.ts';
import { wayOf } from './steps.ts';

/** Of the tool, or of the shaft or way that an entry sits at; in m or rad and s. The acceleration is that of the motion. */
export interface Moved {
  readonly position: number;
  readonly velocity: number;
  readonly acceleration: number;
  readonly time_s: number;
}

/** One thing that takes energy. */
export interface Entry {
  readonly name: string;
  readonly kind: 'kinetic' | 'work' | 'loss';
  /** What it takes at an instant, in W. */
  readonly power: (at: Moved) => number;
  /** What it takes in a stretch without a turning point or edge, in J, where that is known in closed form. */
  readonly taken?: (from: Moved, to: Moved) => number;
  /** Positions from one to another, and times, at which its power has a jump or kink. */
  readonly edges?: (from: number, to: number) => readonly number[];
  readonly times?: readonly number[];
}

/** All that sits at one shaft or moves along one way, and what takes its share of the power on the way to the motor. */
export interface Station {
  /** Way here for each part of the tool's. */
  readonly ratio: number;
  readonly entries: readonly Entry[];
  readonly passes?: { readonly name: string; readonly driving: number; readonly driven: number };
}

export interface Train {
  readonly stations: readonly Station[];
  /** Whether efficiencies leave the power for acceleration alone. */
  readonly spareInertia?: boolean;
}

// ── entries ──────────────────────────────────────────────────────────────────────────────────────────────────────────

/** A mass in kg that goes along, or an inertia in kg·m² that turns. */
export const body = (name: string, inertia: number): Entry => ({
  name,
  kind: 'kinetic',
  power: ({ velocity, acceleration }) => inertia * velocity * acceleration,
  taken: (from, to) => (inertia * (to.velocity ** 2 - from.velocity ** 2)) / 2,
});

/** What hangs on the position alone, by its energy and the slope of it: a height, or a force along its way. */
export const stored = (
  name: string,
  energy: (position: number) => number,
  slope: (position: number) => number,
  edges: readonly number[] = [],
): Entry => ({
  name,
  kind: 'work',
  power: ({ position, velocity }) => slope(position) * velocity,
  taken: (from, to) => energy(to.position) - energy(from.position),
  edges: (from, to) => edges.filter((each) => each > from && each < to),
});

export const constant = (name: string, against: number): Entry =>
  stored(
    name,
    (x) => against * x,
    () => against,
  );

/** A force between two positions. */
export const window = (name: string, against: number, from: number, to: number): Entry =>
  stored(
    name,
    (x) => against * Math.min(Math.max(x, from), to),
    (x) => (x > from && x < to ? against : 0),
    [from, to],
  );

/** A force between two times of the cycle. */
export function timed(name: string, against: number, after: number, until: number): Entry {
  const acts = (time: number): number => (time > after && time < until ? against : 0);
  return {
    name,
    kind: 'work',
    power: ({ time_s, velocity }) => acts(time_s) * velocity,
    taken: (from, to) => acts((from.time_s + to.time_s) / 2) * (to.position - from.position),
    times: [after, until],
  };
}

/** What rubs along a way that grows with the position, whichever way it goes. */
const rubbed = (name: string, force: number, way: (position: number) => number, slope: (at: number) => number) => ({
  name,
  kind: 'loss' as const,
  power: ({ position, velocity }: Moved) => force * slope(position) * Math.abs(velocity),
  taken: (from: Moved, to: Moved) => force * Math.abs(way(to.position) - way(from.position)),
});

export const coulomb = (name: string, force: number): Entry =>
  rubbed(
    name,
    force,
    (x) => x,
    () => 1,
  );

export const viscous = (name: string, slope: number): Entry => ({
  name,
  kind: 'loss',
  power: ({ velocity }) => slope * velocity ** 2,
});

/** Cuts `over` an angle around each of the positions that blades, so many on a turn, are down at. */
export function cuts(name: string, torque: number, over: number, blades: number): Entry {
  const pitch = (2 * Math.PI) / blades;
  const nearest = (x: number): number => Math.round(x / pitch);
  const beyond = (x: number): number => x - nearest(x) * pitch;
  return {
    ...rubbed(
      name,
      torque,
      (x) => nearest(x) * over + Math.min(Math.max(beyond(x), -over / 2), over / 2),
      (x) => (Math.abs(beyond(x)) < over / 2 ? 1 : 0),
    ),
    edges: (from, to) => {
      const found: number[] = [];
      for (let cut = nearest(from); cut <= nearest(to); cut++)
        found.push(
          ...[-over / 2, over / 2].map((side) => cut * pitch + side).filter((each) => each > from && each < to),
        );
      return found;
    },
  };
}

/** A slider that a crank of this radius moves by a rod of this length, which may be endless. */
export function slider(name: string, mass: number, force: number, radius: number, rod: number): readonly Entry[] {
  /** Of the rod: its angle to the line of the slider, by the height of the pin. */
  const rodOf = (φ: number) => {
    const sin = (radius / rod) * Math.sin(φ);
    return { sin, cos: Math.sqrt(1 - sin ** 2) };
  };
  // A rod that is endless stays level: then the last term, its length by its cosine, does not change.
  const out = (φ: number): number => radius * Math.cos(φ) + (rod === Infinity ? 0 : rod * rodOf(φ).cos);
  const slope = (φ: number): number => -radius * (Math.sin(φ) + Math.cos(φ) * (rodOf(φ).sin / rodOf(φ).cos));
  const acceleration = ({ position: φ, velocity: ω, acceleration: α }: Moved): number => {
    const pin = -radius * (Math.cos(φ) * ω ** 2 + Math.sin(φ) * α);
    if (rod === Infinity) return pin;
    const { sin, cos } = rodOf(φ);
    const turning = ((radius / rod) * Math.cos(φ) * ω) / cos;
    const quickening = ((radius / rod) * (Math.cos(φ) * α - Math.sin(φ) * ω ** 2) + sin * turning ** 2) / cos;
    return pin - rod * (cos * turning ** 2 + sin * quickening);
  };
  const speed = ({ position, velocity }: Moved): number => slope(position) * velocity;
  // From dead point to dead point it is twice the radius.
  const way = (φ: number): number => {
    const strokes = Math.floor(φ / Math.PI);
    return 2 * radius * strokes + Math.abs(out(φ) - out(strokes * Math.PI));
  };
  const moved: Entry = {
    name: `${name}, mass`,
    kind: 'kinetic',
    power: (at) => mass * speed(at) * acceleration(at),
    taken: (from, to) => (mass * (speed(to) ** 2 - speed(from) ** 2)) / 2,
  };
  const rubs: Entry = {
    ...rubbed(`${name}, force`, force, way, (φ) => Math.abs(slope(φ))),
    edges: (from, to) => {
      const found: number[] = [];
      for (let dead = Math.floor(from / Math.PI) + 1; dead * Math.PI < to; dead++) found.push(dead * Math.PI);
      return found;
    },
  };
  return force === 0 ? [moved] : [moved, rubs];
}

// ── the balance ──────────────────────────────────────────────────────────────────────────────────────────────────────

/** A stretch in which nothing changes its sign and no load begins or ends. */
interface Stretch {
  readonly at: (t: number) => Moved;
  readonly torque: (t: number) => number;
  readonly from: number;
  readonly to: number;
}

export interface Balance {
  /** What the motor gives, and what it takes back, in J. */
  readonly given_J: number;
  readonly returned_J: number;
  /** The largest difference over any stretch, in parts of the peak energy; without one thing on the train's side, where it is named. */
  readonly off: (without?: string) => number;
}

const rule = gaussLegendre(8);
const panelsOfSegment = 48;
const longestArc_rad = 0.1;

export function balanceOf(each: Case, train: Train): Balance {
  const stretches = stretchesOf(each, train);
  const ratio = train.stations.at(-1)!.ratio;
  const works = stretches.map(({ at, torque, from, to }) =>
    integrated(from, to, (t) => torque(t) * ratio * at(t).velocity),
  );
  const peak = widest(works);
  return {
    given_J: works.reduce((sum, work) => sum + Math.max(work, 0), 0),
    returned_J: works.reduce((sum, work) => sum - Math.min(work, 0), 0),
    off: (without) => {
      const taken = stretches.map((stretch) => takenIn(stretch, train, each.rising_per_s, without));
      return widest(works.map((work, index) => work - taken[index]!)) / peak;
    },
  };
}

/** The largest sum over any stretch of neighbours, whatever its sign. */
function widest(values: readonly number[]): number {
  let [sum, least, most] = [0, 0, 0];
  for (const value of values) {
    sum += value;
    least = Math.min(least, sum);
    most = Math.max(most, sum);
  }
  return most - least;
}

/** What all that is on the train takes in a stretch, in J. */
function takenIn({ at, from, to }: Stretch, train: Train, rising_per_s: number, without?: string): number {
  const [first, last] = [at(from), at(to)];
  let sum = 0;
  for (const { ratio, entries } of train.stations) {
    for (const { name, kind, power, taken } of entries) {
      if (name === without) continue;
      sum += taken?.(seen(first, ratio), seen(last, ratio)) ?? integrated(from, to, (t) => power(seen(at(t), ratio)));
      // Where a ramp of the master adds to each speed in its proportion, it adds twice the kinetic energy.
      if (kind === 'kinetic' && rising_per_s !== 0)
        sum += integrated(from, to, (t) => power(seen(raised(at(t), rising_per_s), ratio)) - power(seen(at(t), ratio)));
    }
  }
  const lossy = train.stations.some(({ passes }) => passes !== undefined && passes.name !== without);
  return lossy ? sum + integrated(from, to, (t) => walk(at(t), train, rising_per_s, without).lost) : sum;
}

/** With what a ramp of the master adds to the acceleration. */
const raised = (at: Moved, rising_per_s: number): Moved => ({
  ...at,
  acceleration: at.acceleration + rising_per_s * at.velocity,
});

/** The power from the tool to the motor, and what is left of it on the way: in each element that it passes, and in sum. */
function walk(at: Moved, { stations, spareInertia }: Train, rising_per_s: number, without?: string) {
  const through: number[] = [];
  let [load, moving, lost] = [0, 0, 0];
  for (const { ratio, entries, passes } of stations) {
    const here = seen(raised(at, rising_per_s), ratio);
    for (const { name, kind, power } of entries) {
      if (name === without) continue;
      if (kind === 'kinetic') moving += power(here);
      else load += power(here);
    }
    if (passes === undefined || passes.name === without) continue;
    const passing = spareInertia === true ? load : load + moving;
    // Driven, that share of what the load gives gets lost; driving, of what the motor gives.
    const driving = without === `${passes.name}, driving` ? 1 : passes.driving;
    const driven = without === `${passes.name}, driven` ? 1 : passes.driven;
    const loss = passing > 0 ? (passing / driving) * (1 - driving) : -passing * (1 - driven);
    load += loss;
    lost += loss;
    through.push(passing);
  }
  return { lost, through };
}

const seen = ({ position, velocity, acceleration, time_s }: Moved, ratio: number): Moved => ({
  position: ratio * position,
  velocity: ratio * velocity,
  acceleration: ratio * acceleration,
  time_s,
});

function integrated(from: number, to: number, of: (t: number) => number): number {
  const half = (to - from) / 2;
  let sum = 0;
  for (let at = 0; at < rule.nodes.length; at++) sum += rule.weights[at]! * of(from + half * (1 + rule.nodes[at]!));
  return half * sum;
}

// ── stretches ────────────────────────────────────────────────────────────────────────────────────────────────────────

function stretchesOf(each: Case, train: Train): readonly Stretch[] {
  const found: Stretch[] = [];
  const { entries } = train.stations[0]!;
  const placed = entries.some(({ edges }) => edges !== undefined);
  let [way, start_s] = [0, 0];
  for (const { phase } of each.phases) {
    const motion = motionOf(phase);
    for (const segment of motion) {
      const [from, begun_s] = [way, start_s + segment.start_s];
      const at = (t: number): Moved => {
        const { position, velocity, acceleration } = stateOf(segment, t);
        return { position: from + position, velocity, acceleration, time_s: begun_s + t };
      };
      const torqueIn = (middle: number) => {
        const inside = at(middle);
        const going = goingOf(inside.velocity, inside.acceleration);
        return (t: number): number => {
          const now = raised(at(t), each.rising_per_s);
          return shaftTorque(each.line, now, now.time_s, going);
        };
      };
      const panels = Math.max(
        panelsOfSegment,
        placed ? Math.ceil(Math.abs(at(segment.duration_s).position - at(0).position) / longestArc_rad) : 0,
      );
      const grid = Array.from({ length: panels + 1 }, (_, index) => (segment.duration_s * index) / panels);
      const turned = cutAt(grid, (t) => [at(t).velocity]);
      const edged = pairs(turned).flatMap(([one, other]) => [one, ...edgesIn(one, other)]);
      const smooth = [...edged, segment.duration_s];
      for (const [one, other] of pairs(smooth)) {
        const torque = torqueIn((one + other) / 2);
        const cut = cutAt([one, other], (t) => [torque(t), ...walk(at(t), train, each.rising_per_s).through]);
        for (const [first, last] of pairs(cut)) found.push({ at, torque, from: first, to: last });
      }

      /** Where the tool passes an edge or the time is that of one, in order. */
      function edgesIn(one: number, other: number): readonly number[] {
        const ends = [at(one).position, at(other).position];
        const passed = entries.flatMap(({ edges, times = [] }) => [
          ...(edges?.(Math.min(...ends), Math.max(...ends)) ?? []).map((edge) =>
            root(one, other, (t) => at(t).position - edge),
          ),
          ...times.map((time) => time - begun_s).filter((t) => t > one && t < other),
        ]);
        return passed.sort((a, b) => a - b);
      }
    }
    way += wayOf(motion);
    start_s += phase.duration.value;
  }
  return found;
}

/** Points in order, with those between at which one of the signs changes. */
function cutAt(points: readonly number[], signs: (t: number) => readonly number[]): readonly number[] {
  return [
    ...pairs(points).flatMap(([from, to]) => {
      // From inside: at the ends themselves there may be rest, or the edge of a load.
      const inside = 1e-9 * (to - from);
      const [before, after] = [signs(from + inside), signs(to - inside)];
      const roots = before.flatMap((sign, index) =>
        sign * after[index]! < 0 ? [root(from + inside, to - inside, (t) => signs(t)[index]!)] : [],
      );
      return [from, ...roots.sort((a, b) => a - b)];
    }),
    points.at(-1)!,
  ];
}

/** By bisection. */
function root(from: number, to: number, of: (t: number) => number): number {
  const before = of(from);
  let [low, high] = [from, to];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (of(middle) * before > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const pairs = (points: readonly number[]): readonly (readonly [number, number])[] =>
  points.slice(1).map((to, index) => [points[index]!, to] as const);
