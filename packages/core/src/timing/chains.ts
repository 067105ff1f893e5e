// Chains from a cause to its effect: how long they take at best and at worst, bounds beside it, how the delay spreads, and
// what a lead makes good of it.
import type { MasterSpeed } from '../physics/master-speed.ts';
import type { Value } from '../reading/values.ts';
import { type OpenCall, resultsOf, type Values, valuesOf } from '../working/formula.ts';
import { given, Missing, missing } from '../working/missing.ts';
import { later } from '../working/once.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { delayOf, type Link } from './calc/chain.ts';
import { ageBoundOf, type BoundLink, bestCase, reactionBoundOf, safeBoundOf } from './calc/chain-bounds.ts';
import { goneIn, leftByLead, middleLead, varyingDelay } from './calc/lead.ts';
import { linkAdds } from './calc/link-times.ts';
import { picoseconds, seconds } from './calc/picoseconds.ts';
import { delayPartsOf, quantile_ps, type Spread, spreadOf } from './calc/spread.ts';
import { delayUpTo, longestDelay, shortestDelay } from './chain-methods.ts';
import { linksOf, type Named, type PlannedLink } from './links.ts';
import type { ChainSection } from './section.ts';
import { seenDelayOf } from './seen-delay.ts';
import { speedOf } from './speed-of.ts';
import type { PlannedCore } from './tasks.ts';
import { walkedThrough } from './walked-chain.ts';

type Time = Quantity<'s'>;

export interface PlannedChain {
  readonly name: string;
  readonly path: string;
  readonly section: ChainSection;
  readonly links: Value<readonly PlannedLink[]>;
  readonly times: Value<ChainTimes>;
  /** What counts against what is allowed: all of the delay, or what a lead leaves of it. */
  readonly counts: Value<Time>;
  /** The delay as it was seen at two speeds; nothing where nobody has looked. */
  readonly seen: Value<Time> | undefined;
  /** The speed of the product, where a way is allowed. */
  readonly speed: Value<Quantity> | undefined;
  /** In s, m or rad, as what is allowed; nothing where nothing is. */
  readonly demand: Value<Quantity> | undefined;
}

export interface ChainTimes {
  readonly least: Time;
  readonly most: Time;
  /** Whether every job of the schedule was walked, so that the longest delay is reached. */
  readonly isWalked: boolean;
  readonly safe: Time;
  /** Where tasks of one core hand over to each other. */
  readonly reaction: Time;
  readonly age: Time;
  readonly varies: Time;
  readonly lead: Time;
  readonly leftByLead: Time;
  /** By how much a link, from 0, makes the longest delay longer. */
  readonly adds: (at: number) => Time;
  /** Nothing where it cannot be told. */
  readonly spread: () => Spread | undefined;
  /** The delay that a share of all causes stays within; nothing where that cannot be told. */
  readonly upTo: (share: Quantity<'1'>) => Time | undefined;
}

export interface AroundChains extends Omit<Named, 'tasks'> {
  readonly cores: readonly PlannedCore[];
  readonly masters: readonly MasterSpeed[];
}

export function planChains(chains: readonly ChainSection[], around: AroundChains): readonly PlannedChain[] {
  const tasks = around.cores.flatMap((core) => core.tasks);
  return chains.map((section) => {
    const { name, path } = section;
    const links = linksOf(section, { ...around, tasks });
    const times = given({ links }, (known) => timesOf(name, known.links, around.cores));
    const counts = given({ times, lead: section.lead }, ({ times: found, lead }) =>
      lead === 'constant_part' ? found.varies : found.most,
    );
    const { within } = section;
    const isWay = within !== undefined && !(within instanceof Missing) && within.unit !== 's';
    const speed = isWay ? speedOf({ ...section, at: `${path}.speed` }, around.masters) : undefined;
    const seen = seenDelayOf(section);
    return { name, path, section, links, times, counts, seen, speed, demand: demandOf(section, counts, speed) };
  });
}

// ── how long it takes ────────────────────────────────────────────────────────────────────────────────────────────────

function timesOf(name: string, links: readonly PlannedLink[], cores: readonly PlannedCore[]): ChainTimes {
  const { inputs, means } = inputsOf(links);
  const build = (values: Values): readonly Link[] => builtFrom(links, values as readonly number[]);
  const bound = links.map(boundLink);
  const safe = safeBoundOf(bound, name);
  const walked = walkedThrough(name, links, cores);
  const { least, most: longest } =
    walked === undefined ? limitsOf(name, links, safe) : { least: walked.least(), most: walked.most };
  const bounds = { b: least, w: longest };
  const spreading = walked?.spread ?? { inputs, means, of: (values: Values) => spreadIn(build(values)) };
  // A picture and three quantiles ask for it.
  const laid = later(() => ({ spread: spreading.of(valuesOf(spreading.inputs)) }));
  return {
    least,
    most: longest,
    isWalked: walked !== undefined,
    safe,
    reaction: reactionBoundOf(bound, name),
    age: ageBoundOf(bound, name),
    varies: varyingDelay(bounds, name),
    lead: middleLead(bounds, name),
    leftByLead: leftByLead(bounds, name),
    adds: (at) => {
      const others = links.filter((_, index) => index !== at);
      const about = `${name}.without_${at + 1}`;
      const without =
        (walked && walkedThrough(about, others, cores)?.most) ??
        limitsOf(about, others, safeBoundOf(others.map(boundLink), about)).most;
      return linkAdds({ w: longest, o: without }, `${name}.${at + 1}`);
    },
    spread: () => laid().spread,
    upTo: (share) => {
      const now = laid().spread;
      if (now === undefined) return undefined;
      return delayUpTo(
        {
          inputs: { ...spreading.inputs, s: share },
          means: { ...spreading.means, s: 'share of all causes' },
          of: (...values: Values) => {
            const again = spreading.of(values.slice(0, -1));
            return again === undefined ? Number.NaN : seconds(quantile_ps(again, values.at(-1) as number));
          },
          value: seconds(quantile_ps(now, share.value)),
        },
        `${name}.${share.value * 100}`,
      );
    },
  };
}

/** Where links share a clock, their looks are walked; the same for both delays. */
function limitsOf(
  name: string,
  links: readonly PlannedLink[],
  safe: Time,
): { readonly least: Time; readonly most: Time } {
  if (links.every(({ phase }) => phase === undefined))
    return { least: bestCase({ d: links.map((link) => link.least) }, name), most: safe };
  const { inputs, means } = inputsOf(links);
  const found = resultsOf({ inputs, means }, (values) => delayOf(builtFrom(links, values as readonly number[])));
  const call = (take: (result: typeof found.now) => number): OpenCall => found.call((result) => seconds(take(result)));
  return {
    least: shortestDelay(
      call(({ least_ps }) => least_ps),
      name,
    ),
    most: longestDelay(
      call(({ most_ps }) => most_ps),
      name,
    ),
  };
}

const boundLink = ({ period, most, task }: PlannedLink): BoundLink => {
  const [priority, jitter] = [known(task?.priority), known(task?.jitter)];
  const runs =
    task === undefined || priority === undefined || jitter === undefined
      ? undefined
      : { on: task.core, priority: priority.value, jitter };
  return { period, most, runs };
};

function spreadIn(links: readonly Link[]): Spread | undefined {
  const parts = delayPartsOf(links);
  return parts && spreadOf(parts);
}

/** By symbols that carry the number of the link. */
function inputsOf(links: readonly PlannedLink[]): { readonly inputs: Inputs; readonly means: Record<string, string> } {
  const inputs: Record<string, Quantity> = {};
  const means: Record<string, string> = {};
  const say = (symbol: string, value: Quantity | undefined, meaning: string, title: string): void => {
    if (value === undefined) return;
    inputs[symbol] = value;
    means[symbol] = `${meaning}: ${title}`;
  };
  for (const [index, { title, period, phase, late, least, most }] of links.entries()) {
    const at = index + 1;
    say(`T_${at}`, period, 'how often it looks', title);
    say(`φ_${at}`, phase, 'when it looks', title);
    say(`l_${at}`, late, 'by how much it may look late', title);
    say(`b_${at}`, least, 'what it takes at least', title);
    say(`R_${at}`, most, 'what it takes at most', title);
  }
  return { inputs, means };
}

const known = <T>(value: Value<T> | undefined): T | undefined => (value instanceof Missing ? undefined : value);

function builtFrom(links: readonly PlannedLink[], values: readonly number[]): readonly Link[] {
  let at = 0;
  const next = (value: unknown): number | undefined => (value === undefined ? undefined : values[at++]);
  return links.map(({ period, phase, clock, late, least, most }): Link => {
    const T = next(period);
    const φ = next(phase);
    const l = next(late);
    const times = { least_ps: picoseconds(next(least)!), most_ps: picoseconds(next(most)!) };
    if (T === undefined) return { kind: 'direct', ...times };
    return {
      kind: 'sampled',
      period_ps: picoseconds(T),
      phase_ps: φ === undefined ? undefined : picoseconds(φ),
      clock,
      late_ps: l === undefined ? 0 : picoseconds(l),
      ...times,
    };
  });
}

// ── what is allowed ──────────────────────────────────────────────────────────────────────────────────────────────────

function demandOf(
  { name, path, within }: ChainSection,
  counts: Value<Time>,
  speed: Value<Quantity> | undefined,
): Value<Quantity> | undefined {
  if (within === undefined) return undefined;
  return given({ within, t: counts, v: speed }, ({ within: allowed, t, v }): Value<Quantity> => {
    if (v === undefined) return t;
    const fits = (allowed as Quantity).unit === 'm' ? 'm/s' : 'rad/s';
    if (v.unit !== fits)
      return missing(
        `${path}.within`,
        'problem',
        fits === 'm/s'
          ? 'an angle or a time, since the master turns'
          : 'a length or a time, since the master goes along',
        fits === 'm/s' ? '4°' : '30 mm',
      );
    return goneIn(v, t, name);
  });
}
