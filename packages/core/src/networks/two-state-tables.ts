// A line that is good or bad for a while: what it loses, what a repeat meets, how long a trip takes.
import type { Cell, Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { updatesWithin } from './calc/clean-run.ts';
import { anyLost } from './calc/noise.ts';
import { meanLossOfTwoStates, meanTimeToTripOfTwoStates, repeatLostToo, shareBad } from './calc/two-state.ts';
import { meets } from './noise.ts';
import type { Losses } from './noise-losses.ts';
import { looked } from './noise-tables.ts';

/** Steps behind the first try at which a repeat is looked at. */
const distances = [1, 2, 5, 50] as const;

export function twoStateTables({ planned, noise, stations }: Losses): readonly Table[] {
  const { twoState } = noise;
  if (twoState === undefined) return [];
  const { network } = planned;
  const { to_bad: b, to_good: g, lost_in_good: u, lost_in_bad: v, step, path } = twoState;
  const about = `${network.name}.two_state`;
  const w = given({ b, g }, (known) => shareBad(known, about));
  const p = given({ w, u, v }, (known) => meanLossOfTwoStates(known, about));
  const hit = stations.filter(({ runs }) => meets(twoState.hits, runs));
  return [
    {
      name: 'two_state',
      title: 'A line that is good or bad for a while',
      note: 'the first try was lost: a repeat so many steps later is lost too with this chance, and were losses independent, with the mean loss alone',
      columns: ['what', 'value'],
      rows: [
        ['share of the time in which it is bad', w],
        ['updates that it loses in the mean', p],
        ...distances.map((steps): readonly Cell[] => [
          `a repeat ${steps} ${steps === 1 ? 'step' : 'steps'} later is lost too`,
          given({ p, w, u, v, b, g }, (known) =>
            repeatLostToo({ ...known, k: looked(`${path}.later_${steps}`, steps) }, `${about}.after_${steps}`),
          ),
        ]),
      ],
    },
    {
      name: 'two_state_trips',
      title: 'How long until its losses trip a station',
      note: 'without repeats of the same cycle, which meet the same state of the line; random bit errors are counted in both states',
      columns: ['station', 'in a row', 'mean to a trip', 'by random losses alone'],
      rows: hit.map((station) => {
        const at = `${about}.${station.device.name}`;
        const k = given({ T: station.period, step }, ({ T, step }) => stepsBetween(T, step, path));
        const withBits = (of: Value<Quantity<'1'>>, which: string): Value<Quantity<'1'>> =>
          given({ p: [of, station.lost] }, (known) => anyLost(known, `${at}.${which}`));
        return [
          station.device.name,
          station.device.tripAfter,
          given(
            { T: station.period, m: station.device.tripAfter, b, g, u: withBits(u, 'good'), v: withBits(v, 'bad'), k },
            (known) => meanTimeToTripOfTwoStates(known, at),
          ),
          station.meanToTrip,
        ];
      }),
    },
  ];
}

/** An update comes after a whole number of steps. */
function stepsBetween(period: Quantity<'s'>, step: Quantity<'s'>, path: string): Value<Quantity<'1'>> {
  const steps = updatesWithin({ t: period, T: step }, path.replace(/^networks\./, ''));
  const whole = Math.round(steps.value);
  return whole >= 1 && Math.abs(steps.value - whole) < 1e-9 * whole
    ? steps
    : missing(`${path}.step`, 'problem', 'a time that goes into the update period a whole number of times', '500 µs');
}
