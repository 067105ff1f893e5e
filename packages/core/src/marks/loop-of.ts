// The register control of a mark: its dead time, the gain from which on it swings, what it adds, how long a splice lasts.
import type { Value } from '../reading/values.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { filteredLimit, filteredNoise, filteredSettling } from './calc/filtered-loop.ts';
import { gainLimit, loopDelay, loopNoise, loopSettling, meanGain, settlingWeb, splicedShare } from './calc/loop.ts';
import { noneOf, type PlacedMark } from './mark.ts';
import type { MarkSection } from './section.ts';

type CorrectSection = NonNullable<MarkSection['correct']>;

export interface LoopOf {
  readonly said: CorrectSection;
  readonly gain: Value<Quantity<'1'>>;
  /** In repeats; the very next one is no dead time. */
  readonly deadTime: Value<Quantity<'1'>>;
  /** Repeats over which the mean is taken; 1 without a filter. */
  readonly filter: Value<Quantity<'1'>>;
  readonly limit: Value<Quantity<'1'>>;
  /** Variance of the correction for each of what goes in. */
  readonly noise: Value<Quantity<'1'>>;
  /** Nothing where no splice is told. */
  readonly settling: Settling | undefined;
}

export interface Settling {
  readonly splice: Value<Quantity<'m'>>;
  readonly left: Value<Quantity<'1'>>;
  readonly repeats: Value<Quantity<'1'>>;
  readonly web: Value<Quantity<'m'>>;
}

/** Our judgement. */
const mostRepeats = 200;

export function loopOf(mark: PlacedMark, said: CorrectSection, speed: Value<Quantity<'m/s'>>, about: string): LoopOf {
  const { path } = said;
  const deadTime = deadTimeOf(mark, said, speed, about);
  const filter =
    said.filter ??
    assumed(`${path}.filter`, 1, '1', { source: 'definition', because: 'each error by itself, unless said' });
  // What takes longer is no control, and would take long to follow.
  const followed = given({ d: deadTime, n: filter }, ({ d, n }) =>
    d.value + n.value <= mostRepeats
      ? d
      : missing(
          `${path}.dead_time`,
          'problem',
          `dead time and mean of ${mostRepeats} repeats together at most`,
          '3 repeats',
        ),
  ) as Value<Quantity<'1'>>;
  const missed =
    said.missed ??
    assumed(`${path}.missed`, 0, '1', { source: 'judgement', because: 'no mark is missed unless said', as: '%' });
  const asked = { K: said.share, d: followed, n: filter, q: missed };
  const gain = given({ K: said.share, q: missed }, (known) => (known.q.value === 0 ? known.K : meanGain(known, about)));
  const limit = given({ d: deadTime, n: filter }, ({ d, n }) =>
    n.value > 1 ? filteredLimit({ d, n }, about) : gainLimit({ d }, about),
  );
  const noise = given(asked, ({ K, d, n, q }) =>
    n.value > 1 ? filteredNoise({ K, d, n, q }, about) : loopNoise({ K, d, q }, about),
  );
  return {
    said,
    gain: said.share,
    deadTime,
    filter,
    limit,
    noise: toRest(noise, { said, gain, limit }),
    settling:
      said.splice &&
      settlingOf(mark, { splice: said.splice, gain, deadTime: followed, filter, limit, correct: said }, about),
  };
}

/** Beyond its limit a correction gives no number: then it says from which share on it swings, and what would end that. */
function toRest(
  result: Value<Quantity<'1'>>,
  { said, gain, limit }: Pick<LoopOf, 'said' | 'gain' | 'limit'>,
): Value<Quantity<'1'>> {
  if ([result, gain, limit].some((each) => each instanceof Missing)) return result;
  const [found, K, most] = [result, gain, limit] as readonly Quantity<'1'>[];
  if (Number.isFinite(found!.value) || !(K!.value >= most!.value)) return result;
  const deadTime = said.dead_time === undefined ? 'behind, delay' : 'dead_time';
  const mean = said.filter === undefined ? '' : ', or a shorter mean (filter)';
  const percent = printQuantity(most!.value, '1', { as: '%' });
  return missing(
    `${said.path}.share`,
    'problem',
    `less than ${percent}, from which on the correction swings without end, or a shorter dead time (${deadTime})${mean}`,
    '',
  );
}

function settlingOf(
  { said, spacing }: PlacedMark,
  asked: {
    readonly splice: Value<Quantity<'m'>>;
    readonly gain: Value<Quantity<'1'>>;
    readonly deadTime: Value<Quantity<'1'>>;
    readonly filter: Value<Quantity<'1'>>;
    readonly limit: Value<Quantity<'1'>>;
    readonly correct: CorrectSection;
  },
  about: string,
): Settling {
  const { splice, gain, deadTime, filter, limit, correct } = asked;
  const left = given({ T: said.tolerance, e: splice }, (known) => splicedShare(known, about));
  const found = given({ K: gain, d: deadTime, n: filter, p: left }, ({ K, d, n, p }) =>
    n.value > 1 ? filteredSettling({ K, d, n, p }, about) : loopSettling({ K, d, p }, about),
  );
  const repeats = toRest(found, { said: correct, gain, limit });
  return { splice, left, repeats, web: given({ k: repeats, s: spacing }, (known) => settlingWeb(known, about)) };
}

/** As the file says it in repeats, else from the way to the eye and the time until the correction acts. */
function deadTimeOf(
  { spacing }: PlacedMark,
  said: CorrectSection,
  speed: Value<Quantity<'m/s'>>,
  about: string,
): Value<Quantity<'1'>> {
  if (said.dead_time !== undefined) return said.dead_time;
  const { path, behind, delay } = said;
  if (behind === undefined && delay === undefined)
    return missing(`${path}.dead_time`, 'absent', 'a number of repeats', '3 repeats');
  return given(
    {
      l: behind ?? noneOf(`${path}.behind`, 'm', 'the eye is where the correction acts, unless said'),
      v: speed,
      t: delay ?? noneOf(`${path}.delay`, 's', 'no time until the correction acts, unless said'),
      s: spacing,
    },
    (known) => loopDelay(known, about),
  );
}
