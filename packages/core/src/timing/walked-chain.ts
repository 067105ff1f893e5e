// Chains through tasks of one core of which every job is walked: delays that are reached, and how they spread.
import { counted } from '../working/counted.ts';
import type { Values } from '../working/formula.ts';
import { given, Missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { hyperperiod, picoseconds } from './calc/picoseconds.ts';
import { longestReaction, shortestReaction, stretchesOf, walkedMeans, walkedStages } from './calc/reaction.ts';
import { evenDelay, merged, type Spread, spreadOf } from './calc/spread.ts';
import { exactLeastWithEnds, exactWithEnds } from './chain-methods.ts';
import type { PlannedLink } from './links.ts';
import type { PlannedCore, PlannedTask } from './tasks.ts';

type Time = Quantity<'s'>;

export interface WalkedChain {
  readonly most: Time;
  readonly least: () => Time;
  /** What the spread rests on, and how it is found from the values of that. */
  readonly spread: {
    readonly inputs: Inputs;
    readonly means: Readonly<Record<string, string>>;
    readonly of: (values: Values) => Spread | undefined;
  };
}

/** More jobs than this are not walked while a machine is checked (our judgement: some milliseconds). */
const mostWalked = 20_000;

/**
 * Where all that looks are tasks of one core, started together, always as long as their longest execution. Nothing
 * elsewhere.
 */
export function walkedThrough(
  name: string,
  links: readonly PlannedLink[],
  cores: readonly PlannedCore[],
): WalkedChain | undefined {
  const looks = links.flatMap(({ period, task }) => (period === undefined ? [] : [task]));
  const core = cores.find((each) => each.name === looks[0]?.core);
  if (core === undefined || looks.some((task) => task === undefined || !core.tasks.includes(task))) return undefined;
  if (new Set(core.tasks.map(({ clock }) => clock)).size > 1) return undefined;
  const first = links.findIndex(({ period }) => period !== undefined);
  const last = links.findLastIndex(({ period }) => period !== undefined);
  if (links.slice(first, last).some(({ period }) => period === undefined)) return undefined;
  const together = given({ all: core.tasks.map(togetherOf) }, ({ all }) => all);
  if (together instanceof Missing || together.some((each) => each === undefined)) return undefined;
  const all = together as readonly { readonly C: Time; readonly T: Time; readonly p: Quantity<'1'> }[];
  const periods_ps = all.map(({ T }) => picoseconds(T.value));
  const span_ps = hyperperiod(periods_ps);
  const jobs = span_ps === undefined ? Infinity : periods_ps.reduce((sum, period) => sum + span_ps / period, 0);
  if (jobs > mostWalked) return undefined;
  const inputs = {
    C: all.map(({ C }) => C),
    T: all.map(({ T }) => T),
    p: all.map(({ p }) => p),
    n: looks.map((task) => placeOf(core, task!)),
  };
  const walked = longestReaction(inputs, name);
  if (!Number.isFinite(walked.value)) return undefined;
  const ends = links.filter(({ period }) => period === undefined);
  const [b, d] = [ends.map(({ least }) => least), ends.map(({ most }) => most)];
  return {
    most: exactWithEnds({ x: walked, d }, name),
    least: () => exactLeastWithEnds({ x: shortestReaction(inputs, name), d: b }, name),
    spread: {
      inputs: { ...inputs, b, d },
      means: {
        ...walkedMeans,
        b: 'each link that passes on at once, at its quickest',
        d: 'the same at its slowest',
      },
      of: spreadAlong,
    },
  };
}

function spreadAlong(values: Values): Spread | undefined {
  const [C, T, p, n, b, d] = values as readonly (readonly number[])[];
  const found = walkedStages(C!, T!, p!, n!);
  return found && spreadOf([merged(stretchesOf(found.stages, found.period_ps)), ...evenOver(b!, d!)]);
}

const evenOver = (least: readonly number[], most: readonly number[]) =>
  least.map((each, at) => evenDelay(picoseconds(each), picoseconds(most[at]!)));

/** Nothing for a task that does not start with all others, always for as long. */
function togetherOf({ takes, takesAtLeast, period, priority, jitter, blocks, offset, isCyclic }: PlannedTask) {
  if (offset === undefined || !isCyclic) return undefined;
  return given({ C: takes, c: takesAtLeast, T: period, p: priority, J: jitter, B: blocks, φ: offset }, (task) => {
    const { C, c, T, p, J, B, φ } = task;
    return c.value === C.value && J.value === 0 && B.value === 0 && φ.value === 0 ? { C, T, p } : undefined;
  });
}

/** From 1, the most urgent first. */
const placeOf = ({ name, tasks }: PlannedCore, task: PlannedTask): Quantity<'1'> =>
  counted('tasks', tasks.indexOf(task) + 1, `place_of_${task.name}_on_${name}`);
