// Torque at the motor shaft of a whole train in plain numbers: what the loops over a motion call.
// Positions, speeds and accelerations are the tool's, in m or rad; torques are in the direction of a positive motion.

/** What a load asks for that depends on where the tool is or when. `against` is over 0 against a positive motion. */
export interface Placed {
  readonly against: number;
  /** Over 0; against the motion whichever way it goes. */
  readonly friction: number;
  readonly inertia: number;
  /** Torque for each part of the square of the speed: the inertia changes with the position. */
  readonly swing: number;
}

export interface PlacedLoad {
  readonly at: (position: number, time_s: number) => Placed;
  /** Whether it changes all along, as the torque of a crank does; else it is the same from edge to edge. */
  readonly bends: boolean;
  /** The positions between two where it jumps or has a kink. */
  readonly edges?: (low: number, high: number) => readonly number[];
  /** The times in the cycle at which it jumps, in s. */
  readonly times?: readonly number[];
}

/** Loads that begin and end more often in one piece of a motion are not walked through: it takes minutes (our judgement). */
export const mostEdges = 100_000;

export class TooManyEdges extends RangeError {}

/** All that sits at one shaft or moves along one way, up to what leads to the next. */
export interface PlainStage {
  /** Speed here for each part of the tool's. */
  readonly ratio: number;
  /** kg or kg·m². */
  readonly inertia: number;
  /** N or N·m, over 0 against a positive motion. */
  readonly constant: number;
  readonly coulomb: number;
  readonly viscous: number;
  /** Friction at rest; at least the Coulomb friction counts. */
  readonly breakaway: number;
  readonly placed: readonly PlacedLoad[];
  /** Torque at the next shaft for each part of the force or torque here. */
  readonly pass: number;
  /** Efficiency when the motor drives, and when the load does. */
  readonly driving: number;
  readonly driven: number;
}

export interface PlainLine {
  readonly stages: readonly PlainStage[];
  /** Whether efficiencies act on the torque for acceleration too. */
  readonly lossOnInertia: boolean;
}

/** Which way friction and losses act: as the tool goes, or as it begins to; neither where it stands still. */
export type Going = 1 | -1 | 0;

export const goingOf = (speed: number, acceleration: number): Going =>
  speed > 0 ? 1 : speed < 0 ? -1 : acceleration > 0 ? 1 : acceleration < 0 ? -1 : 0;

/** What becomes of the power at the motor shaft, in W; `torque` and `speed` are the motor's. */
export interface Powers {
  torque: number;
  speed: number;
  /** Into kinetic energy. */
  kinetic: number;
  /** Against weights, webs and forces. */
  process: number;
  friction: number;
  /** In gears, screws and belts. */
  stages: number;
}

interface State {
  readonly position: number;
  readonly velocity: number;
  readonly acceleration: number;
}

/** What a caller wants besides the torque. */
export interface More {
  /** Takes up the torque through each stage, where the torque has a kink as it changes its sign; 0 where nothing is lost. */
  readonly signs?: number[];
  /** Takes up what becomes of the power, one after another. */
  readonly powers?: Powers;
  readonly starting?: boolean;
  /** Takes up the two that the torque is the sum of. */
  readonly parts?: { load: number; inertial: number };
}

/**
 * The torque at the motor shaft. At rest without acceleration it is what holds the load, neither friction nor losses
 * counted, since neither can be relied upon to help. It is kept short, with what is seldom asked for below it, so that
 * a compiler sets it into the loops that call it (V8: up to 460 octets of its code), which saves a third of their time.
 */
export function shaftTorque(line: PlainLine, tool: State, time_s: number, going: Going, more?: More): number {
  const stages = line.stages;
  let load = 0;
  let inertial = 0;
  for (let at = 0; at < stages.length; at++) {
    const stage = stages[at]!;
    const speed = stage.ratio * tool.velocity;
    let steady = stage.constant;
    let friction = stage.coulomb;
    let inertia = stage.inertia;
    let swing = 0;
    if (stage.placed.length > 0 || more?.starting) {
      const loads = loadsAt(stage, stage.ratio * tool.position, time_s, more);
      steady = loads.against;
      friction = loads.friction;
      inertia = loads.inertia;
      swing = loads.swing;
    }
    const braked = going * friction + stage.viscous * speed;
    const moved = inertia * stage.ratio * tool.acceleration + swing * speed * speed;
    load = (load + (steady + braked)) * stage.pass;
    inertial = (inertial + moved) * stage.pass;
    let through = 0;
    let loss = 0;
    if (going !== 0 && (stage.driving !== 1 || stage.driven !== 1)) {
      through = going * (line.lossOnInertia ? load + inertial : load);
      loss = going * (Math.max(through / stage.driving, through * stage.driven) - through);
      load += loss;
    }
    if (more !== undefined) tell(more, at, stage, { speed, steady, braked, moved, through, loss });
  }
  if (more !== undefined) finish(more, load, inertial);
  return load + inertial;
}

/** What a stage asks for where it depends on where the tool is, on when, or on whether it stands. */
function loadsAt(stage: PlainStage, position: number, time_s: number, more: More | undefined) {
  let { constant: against, coulomb: friction, inertia } = stage;
  let swing = 0;
  if (more?.starting === true && stage.breakaway > friction) friction = stage.breakaway;
  for (const placed of stage.placed) {
    const found = placed.at(position, time_s);
    against += found.against;
    friction += found.friction;
    inertia += found.inertia;
    swing += found.swing;
  }
  return { against, friction, inertia, swing };
}

interface AtStage {
  readonly speed: number;
  readonly steady: number;
  readonly braked: number;
  readonly moved: number;
  readonly through: number;
  readonly loss: number;
}

function tell({ signs, powers }: More, at: number, { pass }: PlainStage, found: AtStage): void {
  if (signs !== undefined) signs[at] = found.through;
  if (powers === undefined) return;
  const { speed, steady, braked, moved, loss } = found;
  powers.process += steady * speed;
  powers.friction += braked * speed;
  powers.kinetic += moved * speed;
  powers.stages += (loss * speed) / pass;
  powers.speed = speed / pass;
}

function finish({ powers, parts }: More, load: number, inertial: number): void {
  if (powers !== undefined) powers.torque = load + inertial;
  if (parts !== undefined) [parts.load, parts.inertial] = [load, inertial];
}

/** Speed of the motor for each part of the tool's. */
export function shaftRatio({ stages }: PlainLine): number {
  const last = stages.at(-1);
  return last === undefined ? 1 : last.ratio / last.pass;
}
