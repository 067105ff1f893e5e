// Machines with noise for tests: stations on a line or behind a hub, written as a user would.
import { demonstration } from '@layshaft/catalogue';
import type { Table } from '../checks/view.ts';
import { allTables } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { type Losses, lossesOf, type StationLoss } from '../networks/noise-losses.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { type Assessment, assess } from './assess.ts';
import { show } from './show.ts';

export interface Asked {
  readonly stations: number;
  readonly profile?: string;
  readonly cycle?: string;
  readonly repeats?: number;
  readonly command?: number;
  readonly answer?: number;
  /** `line`: one behind another; `star`: each behind a hub of its own kind. */
  readonly laid?: 'line' | 'star' | 'ring';
  /** As it is written below `noise:`, one entry for a line. */
  readonly noise: readonly string[];
  readonly more?: readonly string[];
}

export function textOf({ stations, laid = 'line', noise, more = [], ...asked }: Asked): string {
  const names = Array.from({ length: stations }, (_, at) => `s${at + 1}`);
  const before = (at: number): string => (laid === 'star' ? 'hub' : at === 0 ? 'controller' : names[at - 1]!);
  return [
    'layshaft: 1',
    'networks:',
    '  n:',
    `    profile: ${asked.profile ?? 'polled_100'}`,
    `    cycle: ${asked.cycle ?? '1 ms'}`,
    `    repeats: ${asked.repeats ?? 0}`,
    '    nodes:',
    ...(laid === 'star' ? ['      hub: { part: hub_6, plugs: 100 }'] : []),
    ...names.map(
      (name) =>
        `      ${name}: { turnaround: 2 µs, forwarding: 1 µs, command: ${asked.command ?? 30} octets, answer: ${asked.answer ?? 30} octets }`,
    ),
    '    runs:',
    ...(laid === 'star' ? ['      - [controller, hub, 2 m, solid]'] : []),
    ...names.map((name, at) => `      - [${before(at)}, ${name}, 2 m, solid]`),
    ...(laid === 'ring' ? [`      - [${names.at(-1)}, controller, 2 m, solid]`] : []),
    '    noise:',
    ...noise.map((line) => `      ${line}`),
    ...more,
    '',
  ].join('\n');
}

export const assessed = (text: string): Assessment => assess(resolve(read(text), [demonstration()]));

/** Of a file without problems. */
export function sound(text: string): Assessment {
  const assessment = assessed(text);
  const [problem] = assessment.design.problems;
  if (problem !== undefined) throw new Error(`${problem.message}\n${text}`);
  return assessment;
}

export function lossesIn(assessment: Assessment): Losses {
  const found = lossesOf(assessment.networks[0]!);
  if (found === undefined) throw new Error('no noise');
  return found;
}

export function stationIn(assessment: Assessment, name: string): StationLoss {
  const found = lossesIn(assessment).stations.find(({ device }) => device.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
}

export function tableIn(assessment: Assessment, name: string): Table {
  const tables = show(assessment, 'networks.n.noise').flatMap(allTables);
  const found = tables.find((table) => table.name === name);
  if (found === undefined) throw new Error(`no table ${name} among ${tables.map((table) => table.name).join(', ')}`);
  return found;
}

/** The value of a number in a table. */
export function cell(table: Table, row: number, column: string): number {
  const found = table.rows[row]?.[table.columns.indexOf(column)];
  if (found instanceof Quantity) return found.value;
  throw new Error(
    `${table.name}, ${row}, ${column}: ${found instanceof Missing ? JSON.stringify(found.lacks) : found}`,
  );
}

/** The bit error ratio at which the update of a slotted station with so many bits both ways is lost with a chance. */
export const ratioFor = (chance: number, bits: number): string => String(-Math.expm1(Math.log1p(-chance) / bits));
