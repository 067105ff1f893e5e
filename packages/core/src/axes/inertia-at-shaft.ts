// The inertia of the load, and the speed of its tool, as they are at the motor shaft.
import type { Quantity } from '../working/quantity.ts';
import { inertiaAtScrew, inertiaOnWheel, reflectedInertia, totalInertia } from './calc/inertia.ts';
import type { Line, PlacedElement } from './line.ts';
import { type TransformKind, transforms } from './line-kit.ts';
import { placedInertia } from './phase-methods.ts';

/** From the tool on, stage by stage; of a crank its largest in one turn. */
export function loadInertia({ stages }: Line, name: string): Quantity<'kg·m²'> {
  let seen: readonly Quantity<'kg·m²'>[] = [];
  stages.forEach(({ inertias, placed, transform, side }, index) => {
    const about = `${name}.s${index + 1}`;
    const own = [...seen, ...inertias, ...placed.flatMap((each) => largestOf(each, `${about}.${each.about}`))];
    if (transform === undefined) {
      seen = own as Quantity<'kg·m²'>[];
      return;
    }
    const through = reflect[transform.kind];
    seen =
      side === 'm'
        ? own.map((each, at) => through(each, transform.by, `${about}.${at + 1}`))
        : own.length === 0
          ? []
          : [through(totalInertia({ J: own as Quantity<'kg·m²'>[] }, about), transform.by, about)];
  });
  return totalInertia({ J: seen }, name);
}

const reflect: Readonly<Record<TransformKind, (what: Quantity, by: Quantity, about: string) => Quantity<'kg·m²'>>> = {
  screw: (m, p, about) => inertiaAtScrew({ m, p } as never, about),
  wheel: (m, D, about) => inertiaOnWheel({ m, D } as never, about),
  gear: (J, i, about) => reflectedInertia({ J, i } as never, about),
};

/** What a load that depends on the position brings at its largest; nothing where it brings none. */
function largestOf({ inputs, means, plain }: PlacedElement, about: string): readonly Quantity<'kg·m²'>[] {
  const of = (...values: readonly number[]): number => {
    const load = plain(...values);
    let most = 0;
    for (let at = 0; at < turnSteps; at++) most = Math.max(most, load.at((2 * Math.PI * at) / turnSteps, 0).inertia);
    return most;
  };
  const found = placedInertia({ inputs, means, of }, about);
  return found.value === 0 ? [] : [found];
}

/** Samples of a turn: near the largest, inertia falls by the square of the distance, so this leaves less than 1e-5 of it. */
const turnSteps = 1440;

/** A speed of the tool as it is at the motor. */
export function speedAtShaft({ stages }: Line, speed: Quantity, about: string): Quantity {
  return stages.reduce(
    (found, { transform }, index) =>
      transform === undefined ? found : transforms[transform.kind].speed(found, transform.by, `${about}.s${index + 1}`),
    speed,
  );
}
