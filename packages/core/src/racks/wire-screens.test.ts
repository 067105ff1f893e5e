// Screens of cables and protective conductors in the list of wires.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { cellJson } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { wiringOf } from './wiring.ts';
import { wiresTable } from './wiring-tables.ts';

/** By the names of the columns. */
function wires(text: string): readonly Readonly<Record<string, string>>[] {
  const design = resolve(read(`layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\n${text}`), [
    demonstration(),
  ]);
  expect(design.problems).toEqual([]);
  const wiring = wiringOf(assess(design).racks);
  return wiring.locations.flatMap((each) => {
    const { columns, rows } = wiresTable(each, wiring);
    return rows.map((row) => Object.fromEntries(row.map((cell, at) => [columns[at]!, cellJson(cell).text])));
  });
}

describe('screens and protective conductors', () => {
  const text = (more = '', wiring = '') => `controller: controller_m
cabinet: { wiring: { ${wiring} } }
racks: { main: { rack: rack_9, power: power_ac, modules: [analogue_in_6, count_6] } }
points:
  a: { kind: analogue_in, channel: main.4.3, wire: 9 m${more} }
  b: { kind: encoder, channel: main.5.1, wire: 5 m }
`;
  const screens = (text: string) => wires(text).filter(({ carries }) => carries === 'screen');

  it('are those that the channel states, connected at the rack or at both ends', () => {
    expect(
      screens(text()).map(({ from, to, cable, core, length, section }) => [from, to, cable, core, length, section]),
    ).toEqual([
      ['+main-W110403: its far end, left open', '+main-X1104:3.SH', '+main-W110403', 'screen', '9 m', ''],
      ['+main-B110501:SH', '+main-X1105:1.SH', '+main-W110501', 'screen', '5 m', ''],
    ]);
    expect(screens(text())[0]!.note).toBe('connected at the rack only');
  });

  it('of the point go before those of its channel, and pass its box', () => {
    expect(screens(text(', screen: none'))).toHaveLength(1);
    expect(
      screens(text(', screen: both, cabinet: box_1', 'boxes: { box_1: { wire: 20 m } }')).slice(0, 2),
    ).toMatchObject([
      { from: '+box_1-B110403:SH', to: '+box_1-X1104:3.SH', cable: '+box_1-W110403', length: '9 m' },
      { from: '+box_1-X1104:3.SH', to: '+main-X1104:3.SH', cable: '+box_1-W1104', length: '20 m' },
    ]);
  });

  it('lead from the bar to rack and supply where these ask for one, in their own colour', () => {
    const bare = text().replace('power_ac', 'power_dc');
    const protective = (of: string) =>
      wires(of).flatMap(({ carries, to, section, colour }) =>
        carries === 'protective conductor' ? [[to, section, colour]] : [],
      );
    expect(protective(text())).toEqual([
      ['+main-U11:PE', '2.5 mm²', 'green-and-yellow'],
      ['+main-T1101:PE', '1.5 mm²', 'green-and-yellow'],
    ]);
    expect(protective(bare)).toHaveLength(1);
  });
});
