// What pulls across the output shaft of a gear: said in the file, or the pull of the wheel that sits on it.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, type Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { acrossForPull, pullAcross } from './calc/gear-load.ts';
import type { ElementSection } from './section.ts';

export type AcrossShaft =
  | { readonly kind: 'said'; readonly force: Value<Quantity<'N'>> }
  /** So many times the pull at the circumference. */
  | { readonly kind: 'pull'; readonly share: Quantity<'1'>; readonly diameter: Value<Quantity<'m'>> }
  | { readonly kind: 'unknown'; readonly lacks: Missing };

const leadingKinds = ['screw', 'belt', 'conveyor', 'rack', 'drum', 'roll', 'gear'];
/** From one shaft or way to the next. */
export const leadsOn = ({ kind }: ElementSection): boolean => leadingKinds.includes(kind as string);
const withoutForce = ['friction', 'torque'];

/** Of the gear at a place of the train; nothing where a coupling keeps forces away. */
export function acrossShaft({ train }: Axis, index: number): AcrossShaft | undefined {
  const elements = train as readonly ElementSection[];
  const { gear, path } = elements[index]!;
  if (gear?.radial_force !== undefined) return { kind: 'said', force: gear.radial_force };
  const before = elements.slice(0, index);
  const first = before.findLastIndex(leadsOn);
  const [wheel, ...beside] = before.slice(Math.max(0, first));
  const kinds = (first === -1 ? before : beside).map(({ kind }) => kind as string);
  if (kinds.includes('coupling')) return undefined;
  const is = wheel?.kind;
  if (
    first !== -1 &&
    (is === 'belt' || is === 'rack' || is === 'drum') &&
    kinds.every((kind) => withoutForce.includes(kind))
  ) {
    const { share, because } = acrossForPull[is];
    return {
      kind: 'pull',
      share: assumed(`${wheel!.path}.${is}.across`, share, '1', { source: 'common-practice', because }),
      diameter: wheel![is]!.diameter,
    };
  }
  return {
    kind: 'unknown',
    lacks: missing(
      `${path}.gear.radial_force`,
      'absent',
      'the force across its output shaft, 0 N where what it turns has bearings of its own',
      '800 N',
    ),
  };
}

/** At the highest torque at the output of the gear. */
export function forceAcross(across: AcrossShaft, torque: Value<Quantity<'N·m'>>, about: string): Value<Quantity<'N'>> {
  if (across.kind === 'said') return across.force;
  if (across.kind === 'unknown') return across.lacks;
  return given({ s: across.share, T: torque, D: across.diameter }, (known) => pullAcross(known, about));
}
