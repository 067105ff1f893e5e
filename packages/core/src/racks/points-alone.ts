// What `show` tells of points where the file describes no racks: how many there are of each kind, and where.
import type { Cell, Table, View } from '../checks/view.ts';
import { counted } from '../working/counted.ts';
import { Missing } from '../working/missing.ts';
import { kindNames } from './kind-names.ts';
import type { Point } from './rack.ts';

/** Where the points of such a file are shown together. */
export const pointsAddress = 'points';

const countOf = (count: number, of: string) => counted('points', count, `count.alone${of}`);

export const pointsGist = (points: readonly Point[]): readonly Cell[] => [
  countOf(points.length, ''),
  points.length === 1 ? ' point' : ' points',
  ', and no racks are described for them',
];

export function pointsAloneView(points: readonly Point[]): View {
  return {
    address: pointsAddress,
    title: 'Points',
    says: [...pointsGist(points), '.'],
    inputs: [],
    pictures: [],
    tables: [kindsTable(points)],
    later: [{ name: 'points', title: 'Points', make: () => listOf(points) }],
  };
}

function kindsTable(points: readonly Point[]): Table {
  const groups = new Map<string, Point[]>();
  for (const point of points) {
    const key = `${point.location} ${typeof point.kind === 'string' ? point.kind : ''}`;
    groups.set(key, [...(groups.get(key) ?? []), point]);
  }
  return {
    name: 'kinds',
    title: 'Points, kind by kind',
    note: 'racks: open in the file has racks and modules chosen for them',
    columns: ['at', 'kind', 'points'],
    rows: [...groups.values()].map((alike) => {
      const { kind, location } = alike[0]!;
      const of = kind instanceof Missing ? 'unknown' : kind;
      return [location, kind instanceof Missing ? kind : kindNames[kind], countOf(alike.length, `.${location}.${of}`)];
    }),
  };
}

const listOf = (points: readonly Point[]): Table => ({
  name: 'points',
  title: 'Points',
  columns: ['point', 'kind', 'at', 'what it is', 'wire'],
  rows: points.map(({ name, kind, location, title, wire }): readonly Cell[] => [
    name,
    kind instanceof Missing ? kind : kindNames[kind],
    location,
    typeof title === 'string' ? title : '',
    wire ?? '',
  ]),
});
