// Densities of what rolls and discs are made of.
import type { SourceId } from '../working/sources.ts';

interface Material {
  readonly density_kg_per_m3: number;
  readonly source: SourceId;
}

/** Usual values of structural grades; who has a better one writes `density`. From memory. */
const materials = {
  steel: { density_kg_per_m3: 7850, source: 'common-practice' },
  aluminium: { density_kg_per_m3: 2700, source: 'common-practice' },
  cast_iron: { density_kg_per_m3: 7200, source: 'common-practice' },
  brass: { density_kg_per_m3: 8500, source: 'common-practice' },
  rubber: { density_kg_per_m3: 1200, source: 'common-practice' },
  carbon_fibre: { density_kg_per_m3: 1600, source: 'common-practice' },
} as const satisfies Record<string, Material>;

export type MaterialName = keyof typeof materials;
export const materialNames = Object.keys(materials) as readonly MaterialName[];
export const densityOf: Readonly<Record<MaterialName, Material>> = materials;
