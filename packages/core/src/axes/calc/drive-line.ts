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
  /** Each changes its sign where the load has an edge. */
  readonly edges?: readonly ((position: number, time_s: number) => number)[];
}

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

/**
 * The torque at the motor shaft. At rest without acceleration it is what holds the load, neither friction nor losses
 * counted, since neither can be relied upon to help. `signs`, where it is given, takes up what changes its sign where the
 * torque has a kink: the torque through each stage with losses, then each edge; `powers` takes up what becomes of the
 * power, one after another.
 */
export function shaftTorque(
  { stages, lossOnInertia }: PlainLine,
  { position, velocity, acceleration }: State,
  time_s: number,
  going: Going,
  more: { readonly signs?: number[]; readonly powers?: Powers; readonly starting?: boolean } = {},
): number {
  const { signs, powers } = more;
  let load = 0;
  let inertial = 0;
  let at = 0;
  for (const stage of stages) {
    const speed = stage.ratio * velocity;
    let friction = stage.coulomb;
    if (more.starting === true && stage.breakaway > friction) friction = stage.breakaway;
    let steady = stage.constant;
    let inertia = stage.inertia;
    let swing = 0;
    for (const placed of stage.placed) {
      const found = placed.at(stage.ratio * position, time_s);
      steady += found.against;
      friction += found.friction;
      inertia += found.inertia;
      swing += found.swing;
      if (signs !== undefined)
        for (const edge of placed.edges ?? []) signs[at++] = edge(stage.ratio * position, time_s);
    }
    const braked = going * friction + stage.viscous * speed;
    const moved = inertia * stage.ratio * acceleration + swing * speed * speed;
    load += steady + braked;
    inertial += moved;
    if (powers !== undefined) {
      powers.process += steady * speed;
      powers.friction += braked * speed;
      powers.kinetic += moved * speed;
    }
    load *= stage.pass;
    inertial *= stage.pass;
    if (going !== 0 && (stage.driving !== 1 || stage.driven !== 1)) {
      const through = going * (lossOnInertia ? load + inertial : load);
      const loss = going * (Math.max(through / stage.driving, through * stage.driven) - through);
      load += loss;
      if (signs !== undefined) signs[at++] = through;
      if (powers !== undefined) powers.stages += (loss * speed) / stage.pass;
    }
  }
  const torque = load + inertial;
  if (powers !== undefined) {
    const last = stages.at(-1);
    powers.torque = torque;
    powers.speed = last === undefined ? 0 : (last.ratio * velocity) / last.pass;
  }
  return torque;
}

/** Speed of the motor for each part of the tool's. */
export function shaftRatio({ stages }: PlainLine): number {
  const last = stages.at(-1);
  return last === undefined ? 1 : last.ratio / last.pass;
}
