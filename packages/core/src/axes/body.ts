// The inertia of a body of revolution from what the file says of it: itself, or mass and shape, or shape and material.

import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  cylinderBore,
  cylinderMass,
  hollowCylinderInertia,
  inertiaAtRadius,
  solidCylinderInertia,
} from './calc/inertia.ts';
import { densityOf, type MaterialName } from './material.ts';

type Said<T> = Value<T> | undefined;

export interface Body {
  readonly inertia?: Said<Quantity<'kg·m²'>>;
  readonly mass?: Said<Quantity<'kg'>>;
  readonly length?: Said<Quantity<'m'>>;
  readonly wall?: Said<Quantity<'m'>>;
  readonly bore?: Said<Quantity<'m'>>;
  readonly material?: Said<MaterialName>;
  readonly density?: Said<Quantity<'kg/m³'>>;
  readonly gyration?: Said<Quantity<'m'>>;
}

export function bodyInertia(
  body: Body,
  diameter: Said<Quantity<'m'>>,
  path: string,
  about: string,
): Value<Quantity<'kg·m²'>> {
  if (body.inertia !== undefined) return body.inertia;
  const m = bodyMass(body, diameter, path, about);
  if (body.gyration !== undefined) return given({ m, r: body.gyration }, (known) => inertiaAtRadius(known, about));
  const D = diameter ?? missing(`${path}.diameter`, 'absent', 'a length', '120 mm');
  const d = boreOf(body, diameter, path, about);
  return d === undefined
    ? given({ m, D }, (known) => solidCylinderInertia(known, about))
    : given({ m, D, d }, (known) => hollowCylinderInertia(known, about));
}

/** What it weighs: said, or its volume by its density. */
export function bodyMass(
  body: Body,
  diameter: Said<Quantity<'m'>>,
  path: string,
  about: string,
): Value<Quantity<'kg'>> {
  if (body.mass !== undefined) return body.mass;
  const { length, material, density } = body;
  if (length === undefined && material === undefined && density === undefined)
    return missing(`${path}.inertia`, 'absent', 'an inertia, a mass, or a length with a material', '1.2 kg·cm²');
  const D = diameter ?? missing(`${path}.diameter`, 'absent', 'a length', '120 mm');
  const l = length ?? missing(`${path}.length`, 'absent', 'a length', '420 mm');
  const ρ =
    density ??
    given(
      { material: material ?? missing(`${path}.material`, 'absent', 'a material, or a density', 'steel') },
      (known) => densityLeaf(known.material, `${path}.density`),
    );
  const d = boreOf(body, diameter, path, about) ?? noBore(`${path}.bore`);
  return given({ ρ, l, D, d }, (known) => cylinderMass(known, about));
}

function boreOf({ bore, wall }: Body, diameter: Said<Quantity<'m'>>, path: string, about: string): Said<Quantity<'m'>> {
  if (diameter === undefined || (bore === undefined && wall === undefined)) return bore;
  if (bore !== undefined)
    return given({ d: bore, D: diameter }, ({ d, D }) =>
      d.value < D.value ? d : missing(`${path}.bore`, 'problem', 'a bore smaller than the diameter', '30 mm'),
    );
  return given({ D: diameter, w: wall! }, ({ D, w }) =>
    2 * w.value < D.value
      ? cylinderBore({ D, w }, about)
      : missing(`${path}.wall`, 'problem', 'a wall thinner than half of the diameter', '8 mm'),
  );
}

const noBore = (path: string): Quantity<'m'> =>
  assumed(path, 0, 'm', { source: 'judgement', because: 'solid unless said' });

function densityLeaf(material: MaterialName, path: string): Quantity<'kg/m³'> {
  const { density_kg_per_m3, source } = densityOf[material];
  return assumed(path, density_kg_per_m3, 'kg/m³', { source, because: `${material}, from memory` });
}
