// What the file says of tasks, chains and points, with the controller's figures filled in.
import type { MasterSpeed } from '../physics/master-speed.ts';
import type { PointFilter } from '../physics/point-filter.ts';
import type { PointPulse } from '../physics/point-pulse.ts';
import { fill, type PartLookUp, type PartUse, partName } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import type { Quantity } from '../working/quantity.ts';
import { controllerTaskFields } from './parts.ts';
import { type CountedPulses, countedPulses } from './pulses.ts';
import type { ChainSection, MemorySection, PointSection, TaskSection } from './section.ts';

/** What a controller states of its tasks and memories. */
export type ControllerFigures = { readonly part: Value<string> } & {
  readonly [K in keyof typeof controllerTaskFields]: Value<Quantity>;
};

export interface TimingOfFile {
  readonly tasks: readonly TaskSection[];
  readonly chains: readonly ChainSection[];
  readonly points: readonly PointSection[];
  readonly memory: MemorySection;
}

export interface TimingDesign extends TimingOfFile {
  readonly controller: ControllerFigures;
  readonly counted: readonly CountedPulses[];
}

/** `look` finds parts without counting them among those in use: the networks count the controller. */
export function resolveTiming(
  { tasks, chains, points, memory }: TimingOfFile,
  masters: readonly MasterSpeed[],
  controller: PartUse<typeof controllerTaskFields>,
  look: PartLookUp,
): TimingDesign {
  return {
    tasks,
    chains,
    points,
    memory,
    counted: countedPulses(points, masters),
    controller: { ...fill(controller, look(controller), controllerTaskFields), part: partName(controller) },
  };
}

/** With the filters of the channels that points sit on. */
export const withFilters = (design: TimingDesign, filters: readonly PointFilter[]): TimingDesign => {
  if (filters.length === 0) return design;
  const byName = new Map(filters.map(({ point, filter }) => [point, filter]));
  const filtered = (point: PointSection): PointSection => ({
    ...point,
    filter: point.filter ?? byName.get(point.name),
  });
  return {
    ...design,
    points: design.points.map(filtered),
    counted: design.counted.map((each) => ({ ...each, point: filtered(each.point) })),
  };
};

/** What racks ask about: the shortest signals. */
export const shortestSignals = ({ counted }: TimingDesign): readonly PointPulse[] =>
  counted.map(({ point, phase }) => ({ point: point.name, pulse: phase }));
