// What noise costs each station of a network: the chance that a frame, a try and an update is lost, and how long a trip takes.
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import { later, onceForEach } from '../working/once.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { burstBridged } from './calc/bursts.ts';
import { updatePeriod } from './calc/cycle.ts';
import { bitsOnTheWay, exchangeOpen, lostWithCommandForAll } from './calc/exchange-noise.ts';
import { frameLength } from './calc/frame.ts';
import { meanTimeToTrip } from './calc/losses.ts';
import { anyLost, frameErrorRatio } from './calc/noise.ts';
import { lostWithOwnRepeats, lostWithSharedRepeats } from './calc/repeats.ts';
import { answerEnd, commandForAll } from './calc/streams.ts';
import { summationFrames, withoutBreak } from './disciplines.ts';
import { counted } from './kernel.ts';
import { type Device, multipleOf, type Network, type Run } from './network.ts';
import type { Noise } from './noise.ts';
import { type Planned, servedIn } from './planned.ts';
import type { Slot } from './timetable.ts';
import { type Exchange, wayTo } from './ways.ts';

type Chance = Value<Quantity<'1'>>;
type Time = Value<Quantity<'s'>>;
type Data = Value<Quantity<'bit'>>;

/** What a station loses by random bit errors, and how a burst meets it. */
export interface StationLoss {
  readonly device: Device;
  readonly exchange: Exchange;
  /** The runs between controller and station, as planned: of a ring, broken where it needs most. */
  readonly runs: readonly Run[];
  /** Chances that a frame is lost on its way: command, answer, and the frame that opens the cycle. */
  readonly command: Chance;
  readonly answer: Chance;
  readonly start: Chance;
  /** Chance that one try is lost. */
  readonly try: Chance;
  /** Share of updates lost where the repeats were its own, and where they are shared as they are. */
  readonly withOwn: Chance;
  readonly lost: Chance;
  /** From one update to the next. */
  readonly period: Time;
  readonly meanToTrip: Time;
  /** From the first bit of the exchange to its last. */
  readonly open: Time;
  readonly bridged: Time;
}

export interface Losses {
  readonly planned: Planned;
  readonly noise: Noise;
  readonly stations: readonly StationLoss[];
}

/** The losses of a network whose file entry says something of noise. */
export const lossesOf = onceForEach((planned: Planned): Losses | undefined => {
  const { noise } = planned.network;
  return noise === undefined ? undefined : { planned, noise, stations: stationsOf(planned, noise) };
});

interface Tries {
  readonly command: Chance;
  readonly answer: Chance;
  readonly one: Chance;
  readonly withOwn: Chance;
  /** With as many repeats as are asked for. */
  readonly lost: (repeats: Chance, about: string) => Chance;
}

function stationsOf(planned: Planned, noise: Noise): readonly StationLoss[] {
  const { network, exchanges } = planned;
  // Chances take most of the time, and bursts, which most files ask about, need none.
  const all = later(() => triesOf(planned, noise));
  return exchanges.map((exchange, index): StationLoss => {
    const { device } = exchange;
    const about = `${network.name}.${device.name}`;
    const runs = wayOf(device, planned);
    const period = periodOf(device, network);
    const open = openOf(exchange, planned, about);
    const start = later(() => lostOn(runs, 1, network.profile.start_frame, noise, network, `${about}.start`));
    const lost = later(() => all()[index]!.lost(network.repeats, about));
    const meanToTrip = later(() =>
      given({ T: period, q: lost(), m: device.tripAfter }, (each) => meanTimeToTrip(each, about)),
    );
    return {
      device,
      exchange,
      runs,
      get command() {
        return all()[index]!.command;
      },
      get answer() {
        return all()[index]!.answer;
      },
      get start() {
        return start();
      },
      get try() {
        return all()[index]!.one;
      },
      get withOwn() {
        return all()[index]!.withOwn;
      },
      get lost() {
        return lost();
      },
      period,
      get meanToTrip() {
        return meanToTrip();
      },
      open,
      bridged: given({ m: device.tripAfter, T: period, L: open }, (each) => burstBridged(each, about)),
    };
  });
}

/** From one update of a station to the next. */
const periodOf = ({ every, name }: Device, network: Network): Time =>
  every === undefined
    ? network.cycle
    : given({ n: every, T: network.cycle }, (each) => updatePeriod(each, `${network.name}.${name}`));

const wayOf = (device: Device, { network, brokenAfter }: Planned): readonly Run[] =>
  wayTo(device, network, brokenAfter ?? network.devices.length).runs;

/** For each exchange, the share of updates that is lost with so many repeats. */
export function lostWith(
  planned: Planned,
  repeats: Quantity<'1'>,
): readonly { readonly device: Device; readonly lost: Chance }[] {
  const { network, exchanges } = planned;
  if (network.noise === undefined) return [];
  const all = triesOf(planned, network.noise);
  return exchanges.map(({ device }, index) => ({
    device,
    lost: all[index]!.lost(repeats, `${network.name}.${device.name}.with_${repeats.value}`),
  }));
}

function triesOf(planned: Planned, noise: Noise): readonly Tries[] {
  const { discipline } = planned.network.profile;
  if (discipline instanceof Missing) return planned.exchanges.map(() => notKnown(discipline));
  if (discipline === 'summation') return inFrames(planned, noise);
  const own = planned.exchanges.map((exchange) => exchangeTries(exchange, planned, noise));
  if (discipline === 'slotted') return own.map(withoutRepeats);
  const pooled = own.map((each, index) => withPool(each, othersBefore(index, planned, own), planned, index));
  return discipline === 'chained' ? chainedTries(pooled, planned, noise) : pooled;
}

const notKnown = (lack: Missing): Tries => ({
  command: lack,
  answer: lack,
  one: lack,
  withOwn: lack,
  lost: () => lack,
});

type One = Pick<Tries, 'command' | 'answer' | 'one'>;

/** Command and answer in a frame each. */
function exchangeTries(exchange: Exchange, planned: Planned, noise: Noise): One {
  const { network } = planned;
  const about = `${network.name}.${exchange.device.name}`;
  const runs = wayOf(exchange.device, planned);
  const command = lostOn(runs, 1, exchange.commandFrame, noise, network, `${about}.command`);
  const answer = lostOn(runs, 1, exchange.answerFrame, noise, network, `${about}.answer`);
  return { command, answer, one: given({ p: [command, answer] }, (each) => anyLost(each, `${about}.try`)) };
}

/** By a timetable every frame has its place, and none is sent again. */
const withoutRepeats = (own: One): Tries => ({ ...own, withOwn: own.one, lost: () => own.one });

function withPool(own: One, before: readonly Chance[], { network, exchanges }: Planned, index: number): Tries {
  const about = `${network.name}.${exchanges[index]!.device.name}`;
  return {
    ...own,
    withOwn: given({ p: own.one, n: network.repeats }, (each) => lostWithOwnRepeats(each, about)),
    lost: (repeats, at) =>
      given({ o: before, p: own.one, n: fewEnough(repeats) }, (each) => lostWithSharedRepeats(each, at)),
  };
}

/** What a station shares the repeats with: those before it in that of its cycles in which they are most. */
export function othersBefore(
  index: number,
  { exchanges, phases, pattern }: Planned,
  own: readonly Pick<One, 'one'>[],
): readonly Chance[] {
  const multiple = multipleOf(exchanges[index]!.device);
  let most: readonly Chance[] = [];
  for (let cycle = phases[index]!; cycle < pattern; cycle += multiple) {
    const before = servedIn(cycle, exchanges.slice(0, index), phases).map((each) => own[exchanges.indexOf(each)]!.one);
    if (before.length > most.length) most = before;
  }
  return most;
}

/** One command for all: longer than their own, and lost for all stations behind the run that spoils it. */
function chainedTries(pooled: readonly Tries[], planned: Planned, noise: Noise): readonly Tries[] {
  const { network, served, exchanges } = planned;
  const { profile } = network;
  const about = `${network.name}.noise`;
  const frame = given(
    { P: served.map(({ device }) => device.command), m: profile.frame_at_least, h: profile.overhead },
    ({ P, m, h }) => frameLength({ m, h, P: commandForAll({ P }, about) }, about),
  );
  return pooled.map((own, index): Tries => {
    const { device } = exchanges[index]!;
    const name = `${network.name}.${device.name}`;
    const c = lostOn(wayOf(device, planned), 1, frame, noise, network, `${name}.command_for_all`);
    const one = given({ p: [c, own.answer] }, (each) => anyLost(each, `${name}.first_try`));
    return {
      ...own,
      command: c,
      one,
      // The first try is with the command for all, those that follow are with one of its own.
      lost: (repeats, at) => {
        if (repeats instanceof Missing || repeats.value === 0) return given({ repeats }, () => one);
        const beyond = wayOf(device, planned).filter((run) => queueBehind(run, index, planned) > repeats.value);
        if (beyond.length === 0) return own.lost(repeats, at);
        const all = lostOn(beyond, 1, frame, noise, network, `${at}.for_too_many`);
        return given({ s: own.lost(repeats, at), c: all }, (each) => lostWithCommandForAll(each, at));
      },
    };
  });
}

/** How many stations behind a run are repeated up to and with one of them: the order of the exchanges is that of repeats. */
const queueBehind = (run: Run, index: number, planned: Planned): number =>
  planned.exchanges.slice(0, index + 1).filter(({ device }) => wayOf(device, planned).includes(run)).length;

/** A frame of a summation carries the data of many stations, out and back; it is lost for all of them, and sent again whole. */
function inFrames({ network, exchanges, served }: Planned, noise: Noise): readonly Tries[] {
  const { name } = network;
  const frames = summationFrames(network, served, `${name}.noise`);
  const runs = withoutBreak(network);
  const chances = given({ frames }, (all) =>
    given(
      {
        p: all.frames.map(({ length }, index) => lostOn(runs, 2, length, noise, network, `${name}.frame_${index + 1}`)),
      },
      ({ p }) => p,
    ),
  );
  return exchanges.map((exchange): Tries => {
    if (frames instanceof Missing) return notKnown(frames);
    if (chances instanceof Missing) return notKnown(chances);
    // A station that is served in other cycles is counted with the last frame of the fullest.
    const found = frames.findIndex(({ carries }) => carries.includes(exchange));
    const at = found < 0 ? chances.length - 1 : found;
    const p = chances[at]!;
    return {
      command: p,
      answer: p,
      one: p,
      withOwn: given({ n: network.repeats }, ({ n }) =>
        lostWithOwnRepeats({ p, n }, `${name}.${exchange.device.name}`),
      ),
      lost: (repeats, about) =>
        given({ n: fewEnough(repeats) }, ({ n }) => lostWithSharedRepeats({ o: chances.slice(0, at), p, n }, about)),
    };
  });
}

/** No network keeps hundreds of repeats in hand; the pool of more is not walked through (our judgement). */
const mostRepeats = 200;
export const fewEnough = (repeats: Chance): Chance =>
  repeats instanceof Missing || repeats.value <= mostRepeats
    ? repeats
    : new Missing([{ path: addressOf(repeats), why: 'problem', due: `at most ${mostRepeats} repeats`, example: '2' }]);

/** The chance that a frame is lost on any of the runs, each of which it passes so many times. */
export function lostOn(
  runs: readonly Run[],
  times: number,
  frame: Data,
  { counts }: Noise,
  network: Network,
  about: string,
): Chance {
  const alike = new Map<unknown, Run[]>();
  for (const run of runs) {
    const key = run.bitErrors instanceof Missing ? run : addressOf(run.bitErrors);
    alike.set(key, [...(alike.get(key) ?? []), run]);
  }
  const parts = [...alike.values()].map((group, index): Chance => {
    const at = alike.size === 1 ? about : `${about}.${index + 1}`;
    const n = counted(times * group.length, network, `passed_${times * group.length}`);
    return given({ p: group[0]!.bitErrors, L: frame, b: counts }, ({ p, L, b }) =>
      frameErrorRatio({ p, L: bitsOnTheWay({ n, L }, at), b }, at),
    );
  });
  return parts.length === 1 ? parts[0]! : given({ p: parts }, (each) => anyLost(each, about));
}

/** The frames of an exchange as they pass the controller's port: when they end, gap included, and what they take of the line. */
export interface AtPort {
  readonly commandEnd: Time;
  readonly command: Time;
  readonly answerEnd: Time;
  readonly answer: Time;
}

/** As the fullest cycle has it; of a station served in other cycles, from the first command to the last answer. */
export function atPort(exchange: Exchange, planned: Planned): AtPort {
  const { command, answer } = exchange;
  const { name, profile } = planned.network;
  if (profile.discipline === 'polled') {
    const end = given({ e: [exchange.answered], b: answer }, (each) =>
      answerEnd(each, `${name}.${exchange.device.name}.polled`),
    );
    return { commandEnd: command, command, answerEnd: end, answer };
  }
  const { commands, answers } = planned.timetable();
  const carriesIt = ({ exchanges }: Slot): boolean => exchanges.includes(exchange);
  const [out, back] = [commands.find(carriesIt), answers.find(carriesIt)];
  return out === undefined || back === undefined
    ? { commandEnd: command, command, answerEnd: planned.busy, answer }
    : { commandEnd: out.end, command: out.takes, answerEnd: back.end, answer: back.frame };
}

function openOf(exchange: Exchange, planned: Planned, about: string): Time {
  const { gap, rate } = planned.network.profile;
  const { commandEnd, command, answerEnd, answer } = atPort(exchange, planned);
  return given({ c: commandEnd, a: command, e: answerEnd, b: answer, g: gap, R: rate }, (each) =>
    exchangeOpen(each, about),
  );
}
