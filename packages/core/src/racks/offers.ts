// What the catalogues offer for racks, in plain numbers; a part that lacks one of them is left out by name.
import type { Part } from '../reading/parts.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { sumOver } from '../working/total.ts';
import { accessoriesIn } from './parts.ts';
import type { ChannelGroup } from './rack.ts';

interface Common {
  readonly part: string;
  /** What is made as small as can be: its cost, or its width in mm. */
  readonly weight: number;
  readonly places: number;
}

export interface OfferedModule extends Common {
  readonly draws_A: number;
  readonly groups: readonly ChannelGroup[];
}

export type OfferedRack = Common;

export interface OfferedPower extends Common {
  readonly gives_A: number;
  readonly feed: string;
  readonly lowest_V: number;
  readonly highest_V: number;
}

export interface OfferedExtender extends Common {
  readonly draws_A: number;
  readonly most: number;
}

export interface RackOffers {
  readonly modules: readonly OfferedModule[];
  readonly racks: readonly OfferedRack[];
  readonly powers: readonly OfferedPower[];
  readonly extenders: readonly OfferedExtender[];
  /** Parts that do not say all that is weighed. */
  readonly leftOut: readonly string[];
}

export type Preference = 'cost' | 'width';

/** `ofKind` gives all parts of a kind. */
export function offersOf(ofKind: (kind: string) => readonly Part[], prefer: Preference): RackOffers {
  const leftOut: string[] = [];
  const take = <T>(kind: string, make: (number: (key: string) => number, part: Part) => T): readonly T[] =>
    ofKind(kind).flatMap((part) => {
      const number = (key: string): number => {
        const value = key === 'cost' ? part.cost : part.values[key];
        return value instanceof Quantity ? value.value : Number.NaN;
      };
      const made = make(number, part);
      const lacks = Object.values(made as object).some((value) => typeof value === 'number' && Number.isNaN(value));
      if (!lacks) return [made];
      leftOut.push(part.name);
      return [];
    });
  // Of the same width, the cheaper one.
  const cost = (number: (key: string) => number): number => number('cost') * (prefer === 'cost' ? 1 : 1e-6);
  const accessories = new Map(
    take('accessory', (number, { name }) => ({ name, weight: cost(number) })).map((each) => [each.name, each.weight]),
  );
  return {
    modules: take('module', (number, part) => ({
      part: part.name,
      weight: cost(number) + sumOver(accessoriesOf(part), (each) => accessories.get(each) ?? Number.NaN),
      places: number('places'),
      draws_A: number('draws'),
      groups: groupsOf(part, leftOut),
    })).filter(({ groups }) => groups.length > 0),
    racks: take('rack', (number, part) => ({
      part: part.name,
      weight: cost(number) + (prefer === 'cost' ? 0 : number('width') * 1e3),
      places: number('places'),
    })),
    powers: take('power', (number, part) => ({
      part: part.name,
      weight: cost(number),
      places: number('places'),
      gives_A: number('gives'),
      feed: String(part.values.feed),
      lowest_V: number('lowest'),
      highest_V: number('highest'),
    })),
    extenders: take('extender', (number, part) => ({
      part: part.name,
      weight: cost(number),
      places: number('places'),
      draws_A: number('draws'),
      most: number('racks_at_most'),
    })),
    leftOut,
  };
}

const accessoriesOf = ({ values: { comes_with: names } }: Part): readonly string[] =>
  accessoriesIn(names as Parameters<typeof accessoriesIn>[0]);

function groupsOf(part: Part, leftOut: string[]): readonly ChannelGroup[] {
  const groups = part.values.channels;
  const whole =
    Array.isArray(groups) &&
    (groups as readonly ChannelGroup[]).every(
      ({ kinds, count }) => !(kinds instanceof Missing || count instanceof Missing),
    );
  if (!whole) leftOut.push(part.name);
  return whole ? (groups as readonly ChannelGroup[]) : [];
}
