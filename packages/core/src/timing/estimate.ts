// What a task takes where nobody has measured it: what it contains, with what the controller states that each costs.
import type { Value } from '../reading/values.ts';
import { readQuantity } from '../units/read-quantity.ts';
import { counted } from '../working/counted.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { isLeaf, leaf, type Quantity } from '../working/quantity.ts';
import { estimatedTime } from './calc/estimate.ts';
import { type Content, contents, costOf } from './parts.ts';
import type { ControllerFigures } from './resolve.ts';
import type { TaskSection } from './section.ts';

type Time = Value<Quantity<'s'>>;

export interface Estimate {
  /** With every cost at most: what responses are computed with. */
  readonly takes: Time;
  /** With every cost as it usually is. */
  readonly likely: Time;
  readonly parts: readonly { readonly content: Content; readonly count: Value<Quantity<'1'>>; readonly cost: Time }[];
}

/** How many axes of the file go by themselves, follow by a gear, or in any other way. */
export type AxesByFollowing = Readonly<Record<(typeof followings)[number], number>>;
const followings = ['axes', 'geared', 'cammed'] as const;

/** Nothing where the file says what the task takes, or says nothing of what it contains. */
export function estimateOf(
  { name, path, takes, contains }: TaskSection,
  controller: ControllerFigures,
  inFile: { readonly axes: AxesByFollowing; readonly points: number },
): Estimate | undefined {
  if (!isAbsent(takes) || contains === undefined) return undefined;
  const part = (content: Content, count: Value<Quantity<'1'>>) => ({
    content,
    count,
    cost: costIn(controller, content),
  });
  const parts = contents.flatMap((content) => {
    const said = contains[content];
    if (said === undefined) return [];
    if (said !== 'all') return [part(content, said)];
    if (content === 'points') return inFile.points > 0 ? [part(content, counted(content, inFile.points))] : [];
    return followings.flatMap((each) =>
      inFile.axes[each] > 0 ? [part(each, counted('axes', inFile.axes[each], `count_${each}`))] : [],
    );
  });
  const base = controller.task_base as Time;
  const nothing = missing(`${path}.contains`, 'absent', 'what the task contains', '{ axes: 6, lines: 1500 }');
  const by = (of: (cost: Time) => Time, about: string): Time =>
    parts.length === 0
      ? nothing
      : given({ b: of(base), n: parts.map(({ count }) => count), c: parts.map(({ cost }) => of(cost)) }, (known) =>
          estimatedTime(known, about),
        );
  return { takes: by((cost) => cost, name), likely: by(likelyOf, `${name}.likely`), parts };
}

/** A controller that states no cost of its own for axes that follow takes as long for them as for any other. */
function costIn(controller: ControllerFigures, content: Content): Time {
  const cost = controller[costOf[content]] as Time;
  const isAxis = followings.some((each) => each === content);
  return isAxis && isAbsent(cost) ? (controller.task_per_axis as Time) : cost;
}

/** The typical value that a catalogue states beside its limit; the figure itself where it states none. */
function likelyOf(figure: Time): Time {
  if (figure instanceof Missing || !isLeaf(figure)) return figure;
  const origin: Origin = figure.by;
  const read = origin.typical === undefined ? undefined : readQuantity(origin.typical, 's');
  if (read?.ok !== true) return figure;
  const path = `${origin.path}.typical`;
  return leaf(read.value, 's', {
    ...origin,
    path,
    writtenAt: `${origin.writtenAt}.typical`,
    written: read.written,
    writtenUnit: read.unit,
  });
}
