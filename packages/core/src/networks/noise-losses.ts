// What noise costs each station of a network: the chance that a frame, a try and an update is lost, and how long a trip takes.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing } from '../working/missing.ts';
import { later, onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { burstBridged } from './calc/bursts.ts';
import { updatePeriod } from './calc/cycle.ts';
import { exchangeOpen } from './calc/exchange-noise.ts';
import { meanTimeToTrip, meanTimeToTripAtLeast } from './calc/losses.ts';
import { withoutBreak } from './disciplines.ts';
import type { Device, Network, Run } from './network.ts';
import type { Noise } from './noise.ts';
import { lostOn, triesOf, wayOf } from './noise-tries.ts';
import type { Planned } from './planned.ts';
import type { Slot, Timetable } from './timetable.ts';
import type { Exchange } from './ways.ts';

type Chance = Value<Quantity<'1'>>;
type Time = Value<Quantity<'s'>>;

/** What a station loses by random bit errors, and how a burst meets it. */
export interface StationLoss {
  readonly device: Device;
  readonly exchange: Exchange;
  /** The runs that its frames pass, as planned: all where they go through all stations; of a ring, broken where it needs most. */
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
  /** The same, and the longest time that can be told where it is longer. */
  readonly tripAtLeast: Time;
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

function stationsOf(planned: Planned, noise: Noise): readonly StationLoss[] {
  const { network, exchanges } = planned;
  // Chances take most of the time, and bursts, which most files ask about, need none.
  const all = later(() => triesOf(planned));
  return exchanges.map((exchange, index): StationLoss => {
    const { device } = exchange;
    const about = `${network.name}.${device.name}`;
    const way = wayOf(device, planned);
    const period = periodOf(device, network);
    const open = openOf(exchange, planned, about);
    const start = later(() => lostOn(way, 1, network.profile.start_frame, noise, network, `${about}.start`));
    const withOwn = later(() => all()[index]!.own(network.repeats, `${about}.own`));
    const lost = later(() => all()[index]!.lost(network.repeats, about));
    const meanToTrip = later(() =>
      given({ T: period, q: lost(), m: device.tripAfter }, (each) => meanTimeToTrip(each, about)),
    );
    const tripAtLeast = later(() => {
      const mean = meanToTrip();
      if (mean instanceof Missing || Number.isFinite(mean.value)) return mean;
      const asked = { T: period, q: lost(), m: device.tripAfter };
      return given(asked, (each) => meanTimeToTripAtLeast({ ...each, t: longestTold }, about));
    });
    return {
      device,
      exchange,
      runs: network.profile.discipline === 'summation' ? withoutBreak(network) : way,
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
        return withOwn();
      },
      get lost() {
        return lost();
      },
      period,
      get meanToTrip() {
        return meanToTrip();
      },
      get tripAtLeast() {
        return tripAtLeast();
      },
      open,
      bridged: given({ m: device.tripAfter, T: period, L: open }, (each) => burstBridged(each, about)),
    };
  });
}

const longestTold = assumed('networks.trip.longest_told', Number.MAX_VALUE, 's', {
  source: 'definition',
  because: 'no number that is computed with is larger',
});

/** From one update of a station to the next. */
const periodOf = ({ every, name }: Device, network: Network): Time =>
  every === undefined
    ? network.cycle
    : given({ n: every, T: network.cycle }, (each) => updatePeriod(each, `${network.name}.${name}`));

/** The share of updates that a station loses with so many repeats of its own, and with so many that all share. */
export function lostWith(
  { planned }: Losses,
  station: StationLoss,
  repeats: Quantity<'1'>,
): { readonly own: Chance; readonly shared: Chance } {
  const about = `${planned.network.name}.${station.device.name}.with_${repeats.value}`;
  const { own, lost } = triesOf(planned)[planned.exchanges.indexOf(station.exchange)]!;
  return { own: own(repeats, `${about}.own`), shared: lost(repeats, about) };
}

/** The frames of an exchange as they pass the controller's port: when they end, gap included, and what they take of the line. */
export interface AtPort {
  readonly commandEnd: Time;
  readonly command: Time;
  readonly answerEnd: Time;
  readonly answer: Time;
  /** With a pause behind it that the profile may add. */
  readonly answerTakes: Time;
  /** For whom the command is. */
  readonly served: readonly Exchange[];
}

/** As a timetable has it, that of the fullest cycle where none is given; if it is not in it, from the first command to the last answer. */
export function atPort(exchange: Exchange, planned: Planned, timetable?: Timetable): AtPort {
  const { command, answer } = exchange;
  const { profile } = planned.network;
  const alone = { commandEnd: command, command, answer, answerTakes: answer, served: [exchange] };
  if (profile.discipline === 'polled') return { ...alone, answerEnd: exchange.turn };
  const { commands, answers } = timetable ?? planned.timetable();
  const carriesIt = ({ exchanges }: Slot): boolean => exchanges.includes(exchange);
  const [out, back] = [commands.find(carriesIt), answers.find(carriesIt)];
  return out === undefined || back === undefined
    ? { ...alone, answerEnd: planned.busy }
    : {
        commandEnd: out.end,
        command: out.takes,
        answerEnd: back.end,
        answer: back.frame,
        answerTakes: back.takes,
        served: out.exchanges,
      };
}

function openOf(exchange: Exchange, planned: Planned, about: string): Time {
  const { gap, rate } = planned.network.profile;
  const { commandEnd, command, answerEnd, answer } = atPort(exchange, planned);
  return given({ c: commandEnd, a: command, e: answerEnd, b: answer, g: gap, R: rate }, (each) =>
    exchangeOpen(each, about),
  );
}
