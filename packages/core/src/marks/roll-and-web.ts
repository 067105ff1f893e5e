// Contributions of the measuring roll that a length is counted on, of the web between eye and tool, and of a web askew.
import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { assumed } from '../working/assumed.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { tensionStretch } from './calc/capture.ts';
import { diameterError, eccentricLength, lengthShare, thermalLength } from './calc/length.ts';
import { skewLimit, skewOffset, skewSpread } from './calc/skew.ts';
import type { PlacedMark } from './mark.ts';
import { type Maker, type Part, plainPart } from './part.ts';
import type { SpreadSection } from './spread-field.ts';

const oneKelvin = assumed('marks.roll.kelvin', 1, 'K', {
  source: 'definition',
  because: 'expansion is stated for one kelvin',
});

export function rollParts({ said, path }: PlacedMark, { within, about }: Maker): readonly Value<Part>[] {
  const { roll, length } = said;
  if (roll === undefined) return [];
  const l = length ?? missing(`${path}.length`, 'absent', 'a length', '250 mm');
  const at = (key: string): string => `${path}.roll.${key}`;
  const parts: Value<Part>[] = [];
  if (roll.count !== undefined)
    parts.push(
      within(
        'roll_count',
        at('count'),
        'triangular',
        given({ w: roll.count }, ({ w }) => w),
      ),
    ); // prettier-ignore
  if (roll.scale !== undefined) {
    const limit = given({ l, s: roll.scale }, (known) => lengthShare(known, `${about}.roll_scale`));
    parts.push(within('roll_scale', at('scale'), 'rectangular', limit));
  }
  if (roll.diameter_tolerance !== undefined) {
    const limit = given({ l, x: roll.diameter_tolerance, D: diameterOf(roll) }, (known) =>
      diameterError(known, `${about}.roll_diameter`),
    );
    parts.push(within('roll_diameter', at('diameter_tolerance'), 'rectangular', limit));
  }
  if (roll.eccentricity !== undefined) {
    const limit = given({ e: roll.eccentricity, l, D: diameterOf(roll) }, ({ e, l, D }) =>
      eccentricLength({ e, l, D }, `${about}.roll_eccentricity`),
    );
    parts.push(within('roll_eccentricity', at('eccentricity'), 'arcsine', limit));
  }
  if (roll.slip !== undefined) {
    const limit = given({ l, s: roll.slip }, (known) => lengthShare(known, `${about}.roll_slip`));
    parts.push(within('roll_slip', at('slip'), 'rectangular', limit));
  }
  if (roll.expansion !== undefined || roll.temperature !== undefined) {
    const x = roll.expansion ?? missing(at('expansion'), 'absent', 'a share', '12 ppm');
    const d = roll.temperature ?? missing(at('temperature'), 'absent', 'a temperature difference', '10 K');
    const limit = given({ l, x, d }, (known) => thermalLength({ ...known, k: oneKelvin }, `${about}.roll_expansion`));
    parts.push(within('roll_expansion', at('expansion'), 'rectangular', limit));
  }
  return parts;
}

const diameterOf = ({
  path,
  diameter,
}: {
  readonly path: string;
  readonly diameter?: Value<Quantity<'m'>> | undefined;
}) => diameter ?? missing(`${path}.diameter`, 'absent', 'a length', '100 mm');

export function webPart({ said: { web } }: PlacedMark, { made }: Maker): readonly Value<Part>[] {
  if (web === undefined) return [];
  const { between, tension, width, thickness, modulus } = web;
  return [
    made('web_stretch', tension as SpreadSection<Unit>, (size, about) =>
      given({ L: between, b: width, h: thickness, E: modulus }, (known) =>
        tensionStretch({ ...known, F: size as Quantity<'N'> }, about),
      ),
    ),
  ];
}

export function skewPart({ said: { skew } }: PlacedMark, prefix: string): readonly Value<Part>[] {
  if (skew === undefined) return [];
  const about = `${prefix}.skew`;
  return [
    given({ L: skew.over, φ: skew.angle, σ: skew.spread }, (known): Part => {
      const part = plainPart('skew', skew.path, 'askew', skewSpread(known, about), skewLimit(known, about));
      return { ...part, offset: skewOffset(known, about), skew: known };
    }),
  ];
}
