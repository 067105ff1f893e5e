// The roll of a winder at the diameters that are looked at: tension and inertia that stand before the train of the file.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Axis } from './axis.ts';
import { opposedForce } from './calc/load.ts';
import { rollInertia, taperTension } from './calc/winder.ts';
import type { Before } from './train.ts';

export interface Roll {
  readonly name: string;
  readonly title: string;
  readonly before: Before;
}

/** The rolls of a winder, from core to full; nothing for an axis that is none. */
export function rollsOf({ motion, name }: Axis): Value<readonly Roll[]> | undefined {
  const roll = motion.winds ?? motion.unwinds;
  if (roll === undefined) return undefined;
  const { core: d, full, width: w, thickness, density: ρ, tension: F, taper, diameters, path } = roll;
  const between = diameters instanceof Missing ? [] : diameters;
  return given(
    {
      d,
      full,
      w,
      thickness,
      ρ,
      F,
      K: taper ?? assumed(`${path}.taper`, 0, '1', { source: 'judgement', because: 'none unless said', as: '%' }),
      between,
    },
    ({ d, full, w, ρ, F, K, between }): Value<readonly Roll[]> => {
      const outside = between.findIndex((each) => each.value < d.value || each.value > full.value);
      if (d.value >= full.value)
        return missing(`${path}.full`, 'problem', 'a full roll larger than its core', '800 mm');
      if (outside >= 0)
        return missing(`${path}.diameters.${outside}`, 'problem', 'a diameter from core to full roll', '400 mm');
      return [d, ...between, full].map((D, index, all): Roll => {
        const [called, title] =
          index === 0
            ? ['core', 'at the core']
            : index === all.length - 1
              ? ['full', 'full roll']
              : [`diameter_${index}`, `diameter ${index}`];
        const about = `${name}.${called}`;
        const tension = taperTension({ F, K, d, D }, about);
        return {
          name: called!,
          title: title!,
          before: {
            // A web that is wound up pulls against the motion, one that is unwound along with it.
            constants: [motion.winds === undefined ? opposedForce({ F: tension }, about) : tension],
            transform: { kind: 'wheel', by: D, driving: undefined, driven: undefined, about },
            inertias: [rollInertia({ ρ, w, D, d }, about)],
          },
        };
      });
    },
  );
}
