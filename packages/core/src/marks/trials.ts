// Trials of a budget (JCGM 101): its contributions drawn from their distributions, with a stated seed, and how exactly so many
// trials tell each number.
import { saidOf } from '../checks/asked.ts';
import type { Asked, LongJob } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { resultsOf, type Values, valuesOf } from '../working/formula.ts';
import { Missing, missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { total } from '../working/total.ts';
import type { Known } from './budget-of.ts';
import { type Contribution, type Distribution, standardOf } from './calc/budget.ts';
import type { Matrix } from './calc/correlation.ts';
import { type CurvedChunk, type CurvedModel, curvedModel, runCurvedTrials } from './calc/curved-model.ts';
import {
  type Ends,
  type Estimate,
  mergeTrials,
  type Outcome,
  runTrials,
  shareOutside,
  splitModelTrials,
  splitTrials,
  type TrialChunk,
  type TrialResult,
} from './calc/monte-carlo.ts';
import {
  trialDeviation,
  trialEnd,
  trialError,
  trialMean,
  trialOutside,
  trialOutsideError,
} from './calc/trial-numbers.ts';
import type { Part } from './part.ts';

export interface Trials {
  readonly count: Quantity<'1'>;
  readonly seed: Quantity<'1'>;
  readonly mean: Told;
  readonly deviation: Told;
  /** Nothing where an end is where the tails of t distributions have left the bins. */
  readonly shortest: { readonly least: Told; readonly most: Told } | undefined;
  readonly symmetric: { readonly least: Told; readonly most: Told } | undefined;
  /** Nothing without a tolerance, and where it is beyond the bins while trials are. */
  readonly outside: { readonly value: Quantity<'1'>; readonly error: Quantity<'1'> } | undefined;
}

/** A number of the trials with its own standard uncertainty. */
export interface Told {
  readonly value: Quantity<'m'>;
  readonly error: Quantity<'m'>;
}

const seed = assumed('marks.trials.seed', 1, '1', {
  source: 'judgement',
  because: 'any seed will do; the same one gives the same trials',
});

/** JCGM 101:2008, 7.2.2: ten thousand times what the interval leaves out. */
const enough = assumed('marks.trials.count', 200_000, '1', {
  source: 'jcgm-101',
  because: '7.2.2: ten thousand over what an interval of 95 % leaves out',
  digits: 7,
});

/** How many trials, and of which seed. */
interface Amount {
  readonly count: Quantity<'1'>;
  readonly seed: Quantity<'1'>;
}

/** Trials that somebody has asked for. */
const amountAsked = ({ count, seed }: Asked, about: string): Amount => ({
  count: saidOf(`marks.${about}.trials.count`, count),
  seed: saidOf(`marks.${about}.trials.seed`, seed),
});

export interface TrialsAsked {
  readonly asked: Asked;
  /** Of the parts of `trialsJob`, in their order. */
  readonly results: readonly TrialResult[];
}

interface TrialsOptions {
  readonly more?: TrialsAsked | undefined;
  /** To either side; without it the share outside is not told. */
  readonly tolerance?: Quantity<'m'> | undefined;
}

/** The parts of so many trials. Missing as the trials are. */
export function trialsJob(known: Known, about: string, asked: Asked): Missing | Pick<LongJob, 'task' | 'chunks'> {
  if (known.coverage instanceof Missing) return known.coverage;
  const job = jobOf(plainOf(known), asked);
  return job === undefined ? cannotDraw(about) : { task: job.task, chunks: job.chunks };
}

/**
 * Those that have been made of a job, or as many as are enough, at once. Missing where correlated contributions are not normally
 * distributed: JCGM 101 knows no way to draw them.
 */
export function trialsOf(known: Known, about: string, { more, tolerance }: TrialsOptions = {}): Value<Trials> {
  const { parts, offset, correlation, coverage } = known;
  if (coverage instanceof Missing) return coverage;
  const amount = more === undefined ? { count: enough, seed } : amountAsked(more.asked, about);
  const inputs: Inputs = {
    ...inputsOf(parts, offset, correlation),
    ...(tolerance && { T: tolerance }),
    p: coverage,
    N: amount.count,
    s: amount.seed,
  };
  const means = meansOf(inputs, parts);
  const merged = (results: readonly TrialResult[] | undefined, p: number, T: number | undefined): Made | undefined =>
    results && {
      ...mergeTrials(results, p),
      outside: T === undefined ? undefined : shareOutside(results, { least: -T, most: T }),
    };
  const run = (values: Values): Made | undefined => {
    const [T, p, count, start] = values.slice(-4) as number[];
    const results = resultsOfJob(jobOf(plainOf(known, values), { count: count!, seed: start! }));
    return merged(results, p!, tolerance && T);
  };
  const { now, call } = resultsOf({ inputs, means }, run, merged(more?.results, coverage.value, tolerance?.value));
  if (now === undefined) return cannotDraw(about);
  const told = (
    take: (outcome: Outcome) => { value: number; error: number },
    which: string,
    make: typeof trialEnd,
  ): Told => ({
    value: make(
      call((outcome) => take(outcome!).value),
      `${about}${which}`,
    ),
    error: trialError(
      call((outcome) => take(outcome!).error),
      `${about}${which || '.deviation'}`,
    ),
  }); // prettier-ignore
  const ends = (take: (outcome: Outcome) => Ends | undefined, which: string) =>
    take(now) === undefined
      ? undefined
      : {
          least: told((outcome) => take(outcome)!.least, `.${which}.least`, trialEnd),
          most: told((outcome) => take(outcome)!.most, `.${which}.most`, trialEnd),
        };
  return {
    ...amount,
    mean: told(({ mean }) => mean, '.mean', trialMean),
    deviation: told(({ deviation }) => deviation, '', trialDeviation),
    shortest: ends(({ shortest }) => shortest, 'shortest'),
    symmetric: ends(({ symmetric }) => symmetric, 'symmetric'),
    outside: now.outside && {
      value: trialOutside(
        call((made) => made!.outside!.value),
        about,
      ),
      error: trialOutsideError(
        call((made) => made!.outside!.error),
        about,
      ),
    },
  };
}

type Made = Outcome & { readonly outside: Estimate | undefined };

/** The counts of so many trials in bins, for a picture; nothing where there is no way to draw them. */
export const countsOf = (known: Known, trials: number): readonly TrialResult[] | undefined =>
  resultsOfJob(jobOf(plainOf(known), { count: trials, seed: seed.value }));

const cannotDraw = (about: string): Missing =>
  missing(`marks.${about}.correlation`, 'problem', 'correlations among normal contributions only', '[a, b, 0.5]');

// ── quantities in, plain numbers out ─────────────────────────────────────────────────────────────────────────────────

function inputsOf(
  parts: readonly Part[],
  offset: Quantity<'m'>,
  correlation: readonly Quantity<'1'>[] | undefined,
): Inputs {
  const inputs: Record<string, Quantity | readonly Quantity[]> = { b: offset };
  const ownSize = inProducts(parts);
  for (const [at, { u, itself, degrees, sample, skew, factors }] of parts.entries()) {
    inputs[`u${at + 1}`] = u;
    if (ownSize.has(at)) inputs[`w${at + 1}`] = itself.u;
    if (factors !== undefined) inputs[`l${at + 1}`] = factors.L;
    if (sample !== undefined) inputs[`x${at + 1}`] = sample.x;
    else if (degrees !== undefined) inputs[`n${at + 1}`] = degrees;
    if (skew !== undefined) Object.assign(inputs, { L: skew.L, φ: skew.φ, σ: skew.σ });
  }
  if (correlation !== undefined) inputs.r = correlation;
  return inputs;
}

/** The places of contributions that stand in products: their own size counts, whatever their sensitivity. */
const inProducts = (parts: readonly Part[]): ReadonlySet<number> =>
  new Set(parts.flatMap(({ factors }) => (factors === undefined ? [] : [factors.one, factors.other])));

function meansOf(inputs: Inputs, parts: readonly Part[]): Readonly<Record<string, string>> {
  const fixed: Readonly<Record<string, string>> = {
    b: 'what it is off by on average',
    L: 'length that runs askew',
    φ: 'mean angle',
    σ: 'standard deviation of the angle',
    r: 'correlations, row after row',
    T: 'tolerance to either side',
    p: 'share that the intervals cover',
    N: 'trials',
    s: 'seed',
  };
  const kinds: Readonly<Record<string, string>> = {
    u: 'standard uncertainty by',
    x: 'measured values of',
    n: 'degrees of freedom of',
    w: 'standard uncertainty before its sensitivity of',
    l: 'length that is under',
  };
  return Object.fromEntries(
    Object.keys(inputs).map((symbol) => {
      const part = parts[Number(symbol.slice(1)) - 1];
      return [symbol, fixed[symbol] ?? `${kinds[symbol[0]!]} ${part?.name.replaceAll('_', ' ')}, ${part?.shape}`];
    }),
  );
}

interface PlainBudget {
  /** Without products. */
  readonly contributions: readonly Contribution[];
  /** Of a web askew: its place among the contributions. */
  readonly askew: { readonly at: number; readonly L: number; readonly φ: number; readonly σ: number } | undefined;
  /** Places among the contributions, and the length that each product is over. */
  readonly products: readonly { readonly one: number; readonly other: number; readonly L: number }[];
  readonly correlation: Matrix | undefined;
  readonly offset: number;
}

/** In the order in which `inputsOf` lists them; products stand behind all that they are of. */
function plainOf(
  { parts, offset: b, correlation }: Known,
  values: Values = valuesOf(inputsOf(parts, b, correlation)),
): PlainBudget {
  const size = parts.length;
  let next = 0;
  const take = (): number => values[next++] as number;
  const takeList = (): readonly number[] => values[next++] as readonly number[];
  const offset = take();
  let askew: PlainBudget['askew'];
  const products: PlainBudget['products'][number][] = [];
  const ownSize = inProducts(parts);
  const places: number[] = [];
  const contributions = parts.flatMap((part, at): readonly Contribution[] => {
    const u = take();
    const size = ownSize.has(at) ? take() : Math.abs(u);
    if (part.factors !== undefined) {
      products.push({ one: part.factors.one, other: part.factors.other, L: take() });
      return [];
    }
    const sample = part.sample && takeList();
    const degrees = sample === undefined && part.degrees !== undefined ? take() : undefined;
    if (part.skew !== undefined) askew = { at: places.length, L: take(), φ: take(), σ: take() };
    places.push(at);
    const spread = distributionOf(part, size, sample);
    const own = standardOf(spread);
    const sensitivity = own > 0 ? u / own : 0;
    return [{ name: part.name, spread, sensitivity, ...(degrees === undefined ? {} : { degrees }) }];
  });
  const rows = correlation && takeList();
  return {
    contributions,
    askew,
    products,
    correlation: rows && places.map((row) => places.map((column) => rows[row * size + column]!)),
    offset,
  };
}

function distributionOf({ shape, sample }: Part, u: number, values: readonly number[] | undefined): Distribution {
  if (values !== undefined) {
    // About their own mean, which is among the offsets.
    const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
    return { shape: 'sample', values: values.map((each) => each - mean), of: sample!.of };
  }
  if (shape === 'rectangular') return { shape, halfWidth: u * Math.sqrt(3) };
  if (shape === 'triangular') return { shape, halfWidth: u * Math.sqrt(6) };
  if (shape === 'arcsine') return { shape, halfWidth: u * Math.SQRT2 };
  return { shape: 'normal', deviation: u };
}

type TrialsJob =
  | { readonly task: 'trials'; readonly chunks: readonly TrialChunk[] }
  | { readonly task: 'curvedTrials'; readonly chunks: readonly CurvedChunk[] };

function jobOf(budget: PlainBudget, { count, seed: start }: Asked): TrialsJob | undefined {
  const { contributions, askew, products, correlation, offset } = budget;
  const common = { trials: count, seed: start, ...(correlation && { correlation }) };
  if (askew === undefined && products.length === 0) {
    const fixed: Contribution = { name: 'offset', spread: { shape: 'normal', deviation: 0 }, sensitivity: 1, offset };
    const wider = correlation && widened(correlation);
    const chunks = splitTrials({
      ...common,
      ...(wider && { correlation: wider }),
      contributions: [...contributions, fixed],
    });
    return chunks && { task: 'trials', chunks };
  }
  const inputs = contributions.map(({ spread, degrees }, at) =>
    at === askew?.at
      ? { value: askew.φ, spread: { shape: 'normal', deviation: askew.σ } as const }
      : { value: 0, spread, ...(degrees !== undefined && { degrees }) },
  );
  const model = modelOf(budget);
  const chunks = splitModelTrials({ ...common, inputs }, curvedModel(model));
  return chunks && { task: 'curvedTrials', chunks: chunks.map((chunk) => ({ chunk, model })) };
}

/** What angle and products make on average is among the offsets already, and comes again with the trials. */
function modelOf({ contributions, askew, products, correlation, offset }: PlainBudget): CurvedModel {
  const angled = askew === undefined ? 0 : askew.L * (1 - Math.cos(askew.φ) * Math.exp(-(askew.σ * askew.σ) / 2));
  const means = products.map(({ one, other, L }) => {
    const r = one === other ? 1 : (correlation?.[one]?.[other] ?? 0);
    return (r * standardOf(contributions[one]!.spread) * standardOf(contributions[other]!.spread)) / L;
  });
  return {
    offset: offset - angled - total(means),
    factors: contributions.map(({ sensitivity }, at) => (at === askew?.at ? 0 : sensitivity)),
    askew: askew && { length: askew.L, angleAt: askew.at },
    products: products.map(({ one, other, L }) => [one, other, 1 / L] as const),
  };
}

const resultsOfJob = (job: TrialsJob | undefined): readonly TrialResult[] | undefined =>
  job && (job.task === 'trials' ? job.chunks.map(runTrials) : job.chunks.map(runCurvedTrials));

const widened = (matrix: Matrix): Matrix => [...matrix.map((row) => [...row, 0]), [...matrix.map(() => 0), 1]];
