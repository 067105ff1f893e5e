// The chance that a try of a station is lost, and an update with repeats, discipline by discipline, over all cycles that serve it.
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { lostWithCommandForAll } from './calc/command-for-all.ts';
import { bitsOnTheWay } from './calc/exchange-noise.ts';
import { frameLength } from './calc/frame.ts';
import { anyLost, frameErrorRatio } from './calc/noise.ts';
import { lostOverCycles, lostWithOwnRepeats, lostWithSharedRepeats } from './calc/repeats.ts';
import { commandForAll } from './calc/streams.ts';
import { summationFrames, withoutBreak } from './disciplines.ts';
import { counted } from './kernel.ts';
import type { Device, Network, Run } from './network.ts';
import type { Noise } from './noise.ts';
import { type Planned, servedIn } from './planned.ts';
import { type Exchange, wayTo } from './ways.ts';

type Chance = Value<Quantity<'1'>>;
type Data = Value<Quantity<'bit'>>;
type WithRepeats = (repeats: Chance, about: string) => Chance;

export interface Tries {
  readonly command: Chance;
  readonly answer: Chance;
  readonly one: Chance;
  /** Share of updates lost with so many repeats of its own, and with so many that all share. */
  readonly own: WithRepeats;
  readonly lost: WithRepeats;
}

/** Of each exchange; of a network that says something of noise. */
export const triesOf = onceForEach((planned: Planned): readonly Tries[] => {
  const { discipline } = planned.network.profile;
  const noise = planned.network.noise!;
  if (discipline instanceof Missing) return planned.exchanges.map(() => notKnown(discipline));
  if (discipline === 'summation') return planned.exchanges.map((_, index) => inFrames(index, planned));
  const own = planned.exchanges.map((exchange) => exchangeTries(exchange, planned, noise));
  if (discipline === 'slotted') return own.map(withoutRepeats);
  if (discipline === 'chained') return own.map((_, index) => chained(index, own, planned, noise));
  return own.map(
    (each, index): Tries => ({
      ...each,
      own: (repeats, about) => given({ p: each.one, n: repeats }, (known) => lostWithOwnRepeats(known, about)),
      lost: (repeats, about) => lostInPool(index, own, planned, repeats, about),
    }),
  );
});

const notKnown = (lack: Missing): Tries => ({
  command: lack,
  answer: lack,
  one: lack,
  own: () => lack,
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
const withoutRepeats = (own: One): Tries => ({ ...own, own: () => own.one, lost: () => own.one });

export const wayOf = (device: Device, { network, brokenAfter }: Planned): readonly Run[] =>
  wayTo(device, network, brokenAfter ?? network.devices.length).runs;

// ── cycle by cycle ───────────────────────────────────────────────────────────────────────────────────────────────────

/** What is served in each cycle of the pattern. */
const servedOf = onceForEach(({ exchanges, phases, pattern }: Planned): readonly (readonly Exchange[])[] =>
  Array.from({ length: pattern }, (_, cycle) => servedIn(cycle, exchanges, phases)),
);

/** A station in the mean over its cycles; `alike` is what the chance depends on of all that is served with it. */
function overCycles(
  index: number,
  planned: Planned,
  alike: (served: readonly Exchange[]) => readonly Exchange[],
  of: (alike: readonly Exchange[], about: string, cycle: number) => Chance,
  about: string,
): Chance {
  const { network, exchanges } = planned;
  const own = exchanges[index]!;
  const groups = new Map<string, { readonly alike: readonly Exchange[]; readonly first: number; cycles: number }>();
  for (const [cycle, served] of servedOf(planned).entries()) {
    if (!served.includes(own)) continue;
    const found = alike(served);
    const key = found.map((each) => exchanges.indexOf(each)).join();
    const group = groups.get(key) ?? { alike: found, first: cycle, cycles: 0 };
    group.cycles++;
    groups.set(key, group);
  }
  const all = [...groups.values()];
  if (all.length === 1) return of(all[0]!.alike, about, all[0]!.first);
  const k = all.map(({ cycles, first }) =>
    counted(cycles, network, `cycles_of_${own.device.name}_like_cycle_${first + 1}`),
  );
  const q = all.map((group) => of(group.alike, `${about}.cycle_${group.first + 1}`, group.first));
  return given({ q }, (known) => lostOverCycles({ q: known.q, k }, about));
}

/** With repeats that all share, behind those that are polled before it in each of its cycles. */
export const lostInPool = (
  index: number,
  tries: readonly Pick<One, 'one'>[],
  planned: Planned,
  repeats: Chance,
  about: string,
): Chance => {
  const { exchanges } = planned;
  const placeOf = (exchange: Exchange): number => exchanges.indexOf(exchange);
  return overCycles(
    index,
    planned,
    (served) => served.filter((each) => placeOf(each) < index),
    (before, at) =>
      given(
        { o: before.map((each) => tries[placeOf(each)]!.one), p: tries[index]!.one, n: fewEnough(repeats) },
        (each) => lostWithSharedRepeats(each, at),
      ),
    about,
  );
};

// ── one command for all ──────────────────────────────────────────────────────────────────────────────────────────────

/** The command for all is longer than their own, and lost for all stations behind the run that spoils it. */
function chained(index: number, own: readonly One[], planned: Planned, noise: Noise): Tries {
  const { network, exchanges } = planned;
  const exchange = exchanges[index]!;
  const { device } = exchange;
  const about = `${network.name}.${device.name}`;
  const { answer } = own[index]!;
  const whole = (served: readonly Exchange[]): readonly Exchange[] => served;
  const command = (served: readonly Exchange[], at: string): Chance =>
    lostOn(wayOf(device, planned), 1, frameForAll(served, network, at), noise, network, at);
  const first = (served: readonly Exchange[], at: string): Chance =>
    given({ p: [command(served, `${at}.command_for_all`), answer] }, (each) => anyLost(each, at));
  /** The first try is with the command for all, those that follow are with one of its own. */
  const among = (queue: readonly Exchange[], served: readonly Exchange[], repeats: Chance, at: string): Chance =>
    given(
      {
        ...branchesTo(queue, served, planned, noise, at),
        a: queue.map((each) => own[exchanges.indexOf(each)]!.answer),
        p: queue.map((each) => own[exchanges.indexOf(each)]!.one),
        n: fewEnough(repeats),
      },
      (each) => lostWithCommandForAll(each, at),
    );
  const withRepeats =
    (queueOf: (served: readonly Exchange[]) => readonly Exchange[]): WithRepeats =>
    (repeats, at) =>
      overCycles(
        index,
        planned,
        whole,
        (served, each) => {
          if (repeats instanceof Missing) return repeats;
          return repeats.value === 0
            ? given({ p: first(served, `${each}.first_try`), repeats }, ({ p }) => p)
            : among(queueOf(served), served, repeats, each);
        },
        at,
      );
  return {
    command: overCycles(index, planned, whole, command, `${about}.command_for_all`),
    answer,
    one: overCycles(index, planned, whole, first, `${about}.first_try`),
    own: withRepeats(() => [exchange]),
    lost: withRepeats((served) => served.slice(0, served.indexOf(exchange) + 1)),
  };
}

/** The one command for all that are served. */
export const frameForAll = (served: readonly Exchange[], { profile }: Network, about: string): Data =>
  given(
    { P: served.map(({ device }) => device.command), m: profile.frame_at_least, h: profile.overhead },
    ({ P, m, h }) => frameLength({ m, h, P: commandForAll({ P }, about) }, about),
  );

/** The runs that lead to the stations of a queue, and what the command for all suffers on each of them. */
function branchesTo(
  queue: readonly Exchange[],
  served: readonly Exchange[],
  planned: Planned,
  noise: Noise,
  about: string,
) {
  const { network } = planned;
  const frame = frameForAll(served, network, `${about}.for_all`);
  const ways = queue.map(({ device }) => wayOf(device, planned));
  const runs = [...new Set(ways.flat())];
  const placeOf = (run: Run | undefined): number => (run === undefined ? 0 : runs.indexOf(run) + 1);
  const runBefore = (run: Run): Run | undefined => {
    const way = ways.find((each) => each.includes(run))!;
    return way[way.indexOf(run) - 1];
  };
  return {
    c: runs.map((run) => lostOn([run], 1, frame, noise, network, `${about}.on_${run.name}`)),
    b: runs.map((run) => counted(placeOf(runBefore(run)), network, `before_${run.name}_among_${runs.length}`)),
    w: queue.map(({ device }, at) =>
      counted(placeOf(ways[at]!.at(-1)), network, `last_to_${device.name}_among_${runs.length}`),
    ),
  };
}

// ── frames through all ───────────────────────────────────────────────────────────────────────────────────────────────

/** A frame with the data of several stations, and the chance that it is lost on its way out and back. */
interface Carrying {
  readonly carries: readonly Exchange[];
  readonly p: Chance;
}

/** The frames of each cycle of the pattern. */
const framesOf = onceForEach((planned: Planned): readonly Value<readonly Carrying[]>[] => {
  const { network, pattern } = planned;
  const noise = network.noise!;
  return servedOf(planned).map((served, cycle) => {
    const at = pattern === 1 ? network.name : `${network.name}.cycle_${cycle + 1}`;
    return given({ frames: summationFrames(network, served, `${at}.noise`) }, ({ frames }) =>
      frames.map(({ length, carries }, place) => ({
        carries,
        p: lostOn(withoutBreak(network), 2, length, noise, network, `${at}.frame_${place + 1}`),
      })),
    );
  });
});

/** A frame is lost for all stations in it, and sent again whole. */
function inFrames(index: number, planned: Planned): Tries {
  const { network, exchanges } = planned;
  const exchange = exchanges[index]!;
  const over = (of: (frames: readonly Quantity<'1'>[], about: string) => Chance, about: string): Chance =>
    overCycles(
      index,
      planned,
      (served) => served,
      (_, at, cycle) =>
        given({ frames: framesOf(planned)[cycle]! }, ({ frames }) => {
          const own = frames.findIndex(({ carries }) => carries.includes(exchange));
          return given({ p: frames.slice(0, own + 1).map(({ p }) => p) }, ({ p }) => of(p, at));
        }),
      about,
    );
  const one = over((p) => p.at(-1)!, `${network.name}.${exchange.device.name}.try`);
  return {
    command: one,
    answer: one,
    one,
    own: (repeats, about) =>
      over((p, at) => given({ n: repeats }, ({ n }) => lostWithOwnRepeats({ p: p.at(-1)!, n }, at)), about),
    lost: (repeats, about) =>
      over(
        (p, at) =>
          given({ n: fewEnough(repeats) }, ({ n }) =>
            lostWithSharedRepeats({ o: p.slice(0, -1), p: p.at(-1)!, n }, at),
          ),
        about,
      ),
  };
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
