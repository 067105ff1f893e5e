// The roll of a winder at the diameters that are looked at: tension and inertia that stand before the train of the file.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { wayTime } from './calc/follow.ts';
import { opposedForce } from './calc/load.ts';
import { rollInertia, rollLength, rollTurns, taperTension } from './calc/winder.ts';
import type { Before } from './train.ts';

export interface Roll {
  readonly name: string;
  readonly title: string;
  readonly before: Before;
}

/** What is on the full roll, and how long its web takes at the speed of the line; nothing for an axis that is no winder. */
export function fullRollOf({ motion, name, master }: Axis) {
  const roll = motion.winds ?? motion.unwinds;
  if (roll === undefined) return undefined;
  const sizes = { D: roll.full, d: roll.core, h: roll.thickness };
  const length = given(sizes, (known) => rollLength(known, name));
  const speed = given({ master }, (known) => known.master?.speed ?? noMaster(motion.path));
  return {
    length,
    turns: given(sizes, (known) => rollTurns(known, name)),
    time: given({ l: length, v: speed as Value<Quantity<'m/s'>> }, (known) => wayTime(known, `${name}.roll`)),
  };
}

const noMaster = (path: string): Missing => missing(`${path}.follow`, 'absent', 'a master', 'line');

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
