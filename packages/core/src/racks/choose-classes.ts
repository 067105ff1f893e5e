// Points that are alike for every channel, counted together: the fewer there are, the sooner racks are chosen for them.

import type { PointKind } from '../physics/point.ts';
import { listed, plural } from '../problems/wording.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { kindNames } from './kind-names.ts';
import { nameOf } from './laid-out.ts';
import type { ChannelGroup, Point } from './rack.ts';
import { whyNot } from './suits.ts';

export interface PointClass {
  readonly kind: PointKind;
  readonly points: readonly Point[];
  /** 0 where none is said. */
  readonly current_A: number;
  readonly potential: string;
  readonly together: string | undefined;
  readonly apart: string | undefined;
  /** In words of the file: '12 digital inputs of type 3'. */
  readonly says: string;
}

/** In the order in which their first points stand in the file. Points whose kind is not known are left out. */
export function classesOf(points: readonly Point[]): readonly PointClass[] {
  const classes = new Map<string, Point[]>();
  for (const point of points) {
    if (point.kind instanceof Missing) continue;
    const key = keyOf(point);
    const known = classes.get(key);
    if (known === undefined) classes.set(key, [point]);
    else known.push(point);
  }
  return [...classes.values()].map((alike) => {
    const [first] = alike as [Point, ...Point[]];
    const { kind, current, potential, together, apart } = first;
    return {
      kind: kind as PointKind,
      points: alike,
      current_A: current instanceof Quantity ? current.value : 0,
      potential: nameOf(potential) ?? '',
      together: nameOf(together),
      apart: nameOf(apart),
      says: saysOf(first, alike.length),
    };
  });
}

export const suitsClass = ({ points }: PointClass, group: ChannelGroup): boolean =>
  whyNot(points[0]!, group) === undefined;

function keyOf(point: Point): string {
  const plain = (value: unknown): unknown => {
    if (value instanceof Quantity) return value.value;
    if (value instanceof Missing) return null;
    return typeof value === 'object' && value !== null && 'name' in value ? value.name : value;
  };
  const { kind, type, level, current, range, sensor, frequency, pulse, filter, fails_to } = point;
  const { potential, together, apart } = point;
  const ends = range === undefined || range instanceof Missing ? [] : [range.from, range.to].map(plain);
  const unit = range === undefined || range instanceof Missing || range.from instanceof Missing ? '' : range.from.unit;
  const asked = [kind, type, level, current, sensor, frequency, pulse, filter, fails_to];
  const rest = [...asked, potential, together, apart].map(plain);
  // Of points that shall be apart each is for itself.
  return JSON.stringify([...rest, ...ends, unit, nameOf(apart) === undefined ? '' : point.name]);
}

function saysOf(point: Point, count: number): string {
  const { kind, type, level, current, sensor, fails_to, potential, together } = point;
  const word = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
  const s = count === 1 ? 's' : '';
  const said = [
    word(type) && `of type ${type}`,
    word(level) && `that ${level}${s}`,
    current instanceof Quantity ? `of ${printQuantity(current.value, 'A')}` : undefined,
    word(sensor) && `for ${sensor}`,
    word(fails_to) &&
      `that ${fails_to === 'hold' ? `hold${s}` : `go${s && 'es'} ${word(fails_to)}`} when the controller is gone`,
    nameOf(potential) && `of potential ${nameOf(potential)}`,
    nameOf(together) && `together in ${nameOf(together)}`,
  ].filter((each) => each !== undefined && each !== '');
  const who = count === 1 ? ` (${point.name})` : '';
  return `${plural(count, kindNames[kind as PointKind])}${said.length === 0 ? '' : ` ${listed(said as string[])}`}${who}`;
}
