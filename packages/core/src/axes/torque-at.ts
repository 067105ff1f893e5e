// The torque at the motor shaft at one instant, step by step through the train, so that each of its numbers is explained.
import type { Quantity } from '../working/quantity.ts';
import { lossOfLoad, stageLoss } from './calc/efficiency.ts';
import { totalTorque } from './calc/load.ts';
import type { Friction, Line, Stage, Transform } from './line.ts';
import { sides, transforms } from './line-kit.ts';

/** The tool at an instant, in the direction in which it goes; what is nothing is left out. */
export interface Instant {
  /** Without its sign. */
  readonly speed: Quantity | undefined;
  /** Along the motion: below 0 where it slows down. */
  readonly acceleration: Quantity | undefined;
  readonly backwards: boolean;
  /** Moving off from rest, where friction at rest counts; or standing still, where neither friction nor losses do. */
  readonly state: 'moving' | 'starting' | 'standing';
  /** Only where a load depends on it. */
  readonly position: Quantity | undefined;
  readonly time_s: number;
}

/** Over 0 against the motion; with nothing in the train, no torque. */
export function torqueAt(line: Line, instant: Instant, about: string): Quantity<'N·m'> {
  let load: readonly Quantity[] = [];
  let inertial: readonly Quantity[] = [];
  let { speed, acceleration } = instant;
  line.stages.forEach((stage, index) => {
    const at = `${about}.s${index + 1}`;
    const own = loadsOf(stage, { ...instant, speed, acceleration }, at);
    load = [...load, ...own.load];
    inertial = [...inertial, ...own.inertial];
    const { transform, side } = stage;
    if (transform === undefined) return;
    const kit = transforms[transform.kind];
    const carry = (list: readonly Quantity[], name: string): readonly Quantity[] =>
      list.length === 0 ? [] : [kit.torque(one(list, side, `${at}.${name}`), transform.by, `${at}.${name}`)];
    load = carry(load, 'load');
    inertial = carry(inertial, 'acceleration');
    const loss = instant.state === 'standing' ? undefined : lossOf(line, transform, load[0], inertial[0], at);
    if (loss !== undefined) load = [...load, loss];
    speed = speed && kit.speed(speed, transform.by, at);
    acceleration = acceleration && kit.acceleration(acceleration, transform.by, at);
  });
  return totalTorque({ x: [...load, ...inertial] as Quantity<'N·m'>[] }, about);
}

/** What the stage loses, both torques at its side of the motor; nothing where no loss is said. */
function lossOf(
  { lossesOn }: Line,
  { driving: η, driven: ζ }: Transform,
  load: Quantity | undefined,
  inertial: Quantity | undefined,
  about: string,
): Quantity<'N·m'> | undefined {
  if (η === undefined || ζ === undefined) return undefined;
  if (load !== undefined && inertial !== undefined)
    return stageLoss({ T: load as Quantity<'N·m'>, A: inertial as Quantity<'N·m'>, η, ζ }, lossesOn, about);
  const alone = load ?? (lossesOn === 'load_and_inertia' ? inertial : undefined);
  return alone && lossOfLoad({ T: alone as Quantity<'N·m'>, η, ζ }, about);
}

const one = (list: readonly Quantity[], side: Stage['side'], about: string): Quantity =>
  list.length === 1 ? list[0]! : sides[side].total({ x: list }, about);

/** What one stage asks for by itself, in its own coordinate. */
function loadsOf(
  stage: Stage,
  instant: Instant,
  about: string,
): { readonly load: readonly Quantity[]; readonly inertial: readonly Quantity[] } {
  const kit = sides[stage.side];
  const { acceleration, backwards, state, position } = instant;
  const turned = (list: readonly Quantity[], name: string): readonly Quantity[] =>
    backwards ? list.map((F, index) => kit.opposed({ F }, `${about}.${name}_${index + 1}`)) : list;
  const placed =
    position === undefined
      ? []
      : stage.placed.map((element) => element.at({ ...instant, position }, `${about}.${element.about}`));
  const moving = state !== 'standing';
  return {
    load: [
      ...turned([...stage.constants, ...placed.flatMap(({ against }) => against)], 'constant'),
      ...(moving ? stage.frictions.flatMap((each) => frictionOf(each, stage, instant, about)) : []),
      ...(moving ? placed.flatMap(({ friction }) => friction) : []),
    ],
    inertial: [
      ...(acceleration === undefined
        ? []
        : stage.inertias.map((J, index) => kit.accelerate({ J, α: acceleration }, `${about}.${index + 1}`))),
      ...placed.flatMap(({ inertial }) => inertial),
    ],
  };
}

function frictionOf(
  { coulomb, breakaway, viscous, about: name }: Friction,
  { side }: Stage,
  { speed, state }: Instant,
  about: string,
): readonly Quantity[] {
  const kit = sides[side];
  const at = `${about}.${name}`;
  if (state === 'starting') {
    if (breakaway === undefined) return coulomb === undefined ? [] : [coulomb];
    return [coulomb === undefined ? breakaway : kit.starting({ B: breakaway, C: coulomb }, at)];
  }
  if (viscous === undefined || speed === undefined) return coulomb === undefined ? [] : [coulomb];
  return [
    coulomb === undefined
      ? kit.viscous({ b: viscous, v: speed }, at)
      : kit.running({ C: coulomb, b: viscous, v: speed }, at),
  ];
}
