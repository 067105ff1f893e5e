// What the counters of a network's ports say: on which run frames are spoilt, and whether chance explains it.
import type { Answer } from '../checks/check.ts';
import { plural } from '../problems/wording.ts';
import type { Value } from '../reading/values.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import { lossAtLeast, lossAtMost } from './calc/binomial.ts';
import { chanceOfCount, chanceOfUnevenness, spoiltByOwnCable, timeBetweenLosses } from './calc/counters.ts';
import { frameErrorRatio } from './calc/noise.ts';
import { summationFrames } from './disciplines.ts';
import type { Network } from './network.ts';
import type { Counter, Counters } from './noise.ts';
import { frameForAll } from './noise-tries.ts';
import type { Planned } from './planned.ts';

export interface PortRead {
  readonly counter: Counter;
  /** Network and port, for the addresses of its numbers. */
  readonly about: string;
  /** Frames spoilt on the run right before the port. */
  readonly own: Value<Quantity<'1'>>;
  /** The loss of that run by its count, at the confidence asked for. */
  readonly least: Value<Quantity<'1'>>;
  readonly most: Value<Quantity<'1'>>;
  /** Chance that the run spoils a frame, by the noise of the file. */
  readonly expected: Value<Quantity<'1'>>;
  /** Chance of so many if the noise were as the file says; small is suspect. */
  readonly chance: Value<Quantity<'1'>>;
  /** Chance of so uneven counts without bursts; undefined where no intervals were read. */
  readonly uneven: Value<Quantity<'1'>> | undefined;
}

export interface CountersRead {
  readonly counters: Counters;
  readonly ports: readonly PortRead[];
  /** The ports whose own count chance does not explain, in the order in which frames reach them. */
  readonly suspects: readonly PortRead[];
}

export function countersRead(planned: Planned): Value<CountersRead> | undefined {
  const { network } = planned;
  const { counters } = network;
  if (counters === undefined) return undefined;
  // The longest frame is spoilt most often: then chance explains as much as it can.
  const frames = framesOn(planned);
  return given({ ports: counters.ports, frames, c: counters.confidence }, (known): CountersRead => {
    const longest = known.frames.reduce<Quantity<'bit'> | undefined>(
      (most, each) => (most && most.value >= each.value ? most : each),
      undefined,
    );
    const ports = known.ports.map((counter) => portRead(counter, known.ports, longest, known.c, network));
    const limit = (1 - known.c.value) / ports.length;
    return {
      counters,
      ports,
      suspects: ports.filter(({ chance }) => !(chance instanceof Missing) && chance.value < limit),
    };
  });
}

/** The frames that pass the runs: of one for all, and of those through all stations, as the fullest cycle has them. */
function framesOn({ network, exchanges, served }: Planned): Value<readonly Value<Quantity<'bit'>>[]> {
  const { discipline } = network.profile;
  if (discipline === 'summation')
    return given({ all: summationFrames(network, served, `${network.name}.noise`) }, ({ all }) =>
      all.map(({ length }) => length),
    );
  const answers = exchanges.map(({ answerFrame }) => answerFrame);
  return discipline === 'chained'
    ? [frameForAll(served, network, `${network.name}.counters`), ...answers]
    : [...exchanges.map(({ commandFrame }) => commandFrame), ...answers];
}

function portRead(
  counter: Counter,
  all: readonly Counter[],
  longest: Quantity<'bit'> | undefined,
  c: Quantity<'1'>,
  network: Network,
): PortRead {
  const about = `${network.name}.${counter.name}`;
  const s = among(counter);
  const b = before(counter, all, network).map(among);
  const run = network.runs.find(({ from, to }) => isBetween(counter, from, to));
  const L = longest ?? missing(network.path, 'absent', 'a station that answers', 'infeed');
  const expected = given(
    {
      p: run?.bitErrors ?? missing(counter.path, 'problem', 'a run', '[hub, rack_o, 1000, 0]'),
      L,
      b:
        network.noise?.counts ??
        missing(`${network.path}.noise`, 'absent', 'a section on noise', '{ bit_errors: 1e-10 }'),
    },
    (known) => frameErrorRatio(known, `${about}.counted`),
  );
  const own = given({ s, b, f: counter.frames }, (known) => spoiltByOwnCable(known, about));
  return {
    counter,
    about,
    own,
    least: given({ k: own, n: counter.frames }, ({ k, n }) => lossAtLeast({ k, n, c }, about)),
    most: given({ k: own, n: counter.frames }, ({ k, n }) => lossAtMost({ k, n, c }, about)),
    expected,
    chance: given({ s, b, f: counter.frames, p: expected }, (known) => chanceOfCount(known, about)),
    uneven:
      counter.intervals === undefined
        ? undefined
        : given({ k: counter.intervals }, (known) => chanceOfUnevenness(known, about)),
  };
}

/** Spoilt frames are among those that came in. */
const among = ({ errors, frames, path }: Counter): Value<Quantity<'1'>> =>
  given({ errors, frames }, (known) =>
    known.errors.value > known.frames.value
      ? missing(`${path}.errors`, 'problem', 'no more errors than frames', '41')
      : known.errors,
  );

/** The ports whose spoilt frames the device before this one passes on: it sends while it still receives. */
function before(counter: Counter, all: readonly Counter[], { devices }: Network): readonly Counter[] {
  const passer = devices.find(({ name }) => name === counter.from);
  if (passer === undefined || passer.passing === 'frame') return [];
  const onItsWay = devices
    .find(({ name }) => name === counter.to)
    ?.way.passed.some(({ name }) => name === counter.from);
  return all.filter(
    (each) => each.to === counter.from && each.from !== counter.to && isOutward(each, devices) === (onItsWay === true),
  );
}

/** Whether the frames come from the controller's side. */
const isOutward = ({ from, to }: Counter, devices: Network['devices']): boolean =>
  from === 'controller' ||
  devices.find(({ name }) => name === to)?.way.passed.some(({ name }) => name === from) === true;

const isBetween = (counter: Counter, from: string, to: string): boolean =>
  (counter.from === from && counter.to === to) || (counter.from === to && counter.to === from);

/** Below this, uneven counts are called bursts (common practice, no source). */
const unevenBelow = 0.01;

/** What the counters say in a sentence. */
export function answerOf(read: CountersRead): Value<Answer> {
  const lack = read.ports.map(({ chance }) => chance).find((each) => each instanceof Missing);
  if (lack instanceof Missing) return lack;
  const [first, ...others] = read.suspects;
  if (read.ports.length === 0 || first === undefined) {
    return { yes: true, because: `the noise of the file explains what ${plural(read.ports.length, 'port')} counted` };
  }
  const { counter } = first;
  const rate =
    read.counters.over === undefined
      ? undefined
      : given({ t: read.counters.over, k: first.own }, (known) => timeBetweenLosses(known, first.about));
  const often = rate === undefined ? '' : `, one in ${textOf(rate)}`;
  const ports = `${plural(read.ports.length, 'port')} were read; `;
  const where = `${ports}the run from ${counter.from} to ${counter.to} spoilt ${textOf(first.own)} frames of its own${often}; the noise of the file explains so many ${chanceText(first.chance)}`;
  const more = others.length === 0 ? '' : `; ${plural(others.length, 'other run')} as well`;
  return { yes: false, because: `${where}${more}; ${causeOf(first)}` };
}

/** So small a chance that no number holds it is none. */
const chanceText = (chance: Value<Quantity>): string =>
  chance instanceof Quantity && chance.value === 0 ? 'with next to no chance' : `with a chance of ${textOf(chance)}`;

const textOf = (value: Value<Quantity>): string => (value instanceof Missing ? 'not known' : print(value));

/** What fits the cause, as far as the counts tell it. */
export const remediesFor = ({ uneven }: PortRead): readonly Remedy[] =>
  remedies.filter(
    ({ against }) =>
      against === 'both' ||
      !(uneven instanceof Quantity) ||
      against === (uneven.value < unevenBelow ? 'bursts' : 'cable'),
  );

/** Chance, cable or burst, as far as the counts tell. */
export function causeOf({ uneven }: PortRead): string {
  if (uneven === undefined || isAbsent(uneven))
    return 'whether it is the cable or bursts, counts in intervals would tell';
  if (uneven instanceof Missing) return 'the counts in intervals are not known';
  return uneven.value < unevenBelow
    ? 'they come in bursts: look for what is switched then'
    : 'they come evenly: look at the cable, its plugs and its screen';
}

interface Remedy {
  readonly what: string;
  readonly why: string;
  readonly against: 'cable' | 'bursts' | 'both';
}

const remedy = (what: string, against: Remedy['against'], why: string): Remedy => ({ what, against, why });

/** What to try, cheapest first (common practice, no source). */
const remedies: readonly Remedy[] = [
  remedy('plug both ends anew, look at the contacts', 'cable', 'a poor contact spoils frames, more so when shaken'),
  remedy('another cable for a trial', 'cable', 'the fault goes with the cable or stays'),
  remedy('bond the screen at both ends, all around', 'both', 'a screen on a wire stops no fast pulse'),
  remedy('a suppressor on the coil that is switched then', 'bursts', 'it stops the burst where it is made'),
  remedy('lay it apart from motor and coil cables', 'both', 'what does not couple in needs no repeat'),
  remedy('a shorter cable, rated for being moved', 'cable', 'wear in a cable chain comes and goes'),
  remedy('a repeat more', 'cable', 'it mends single losses, and hides the cause'),
  remedy('more losses in a row before a trip', 'both', 'last: it hides the cause, and the axis runs on meanwhile'),
];
