// Racks that cannot be chosen: what stands against each other is named, exactly that, and every location is told of.
import { demonstration } from '@layshaft/catalogue';
import { solveHere } from '@layshaft/solver/here';
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { conflictsOf } from '../racks/choice-tables.ts';
import { chooseRacks, whyNoChoice } from './choosing-racks.ts';

const head = 'layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\ncontroller: controller_m\n';

const designOf = (text: string) => {
  const design = resolve(read(text), [demonstration()]);
  expect(design.problems).toEqual([]);
  return design;
};

describe('needs that stand against each other are named, and no others', () => {
  const open = 'racks: { main: { rack: open, power: open, modules: open } }\n';
  it.each([
    [
      'a kind that nothing carries',
      open,
      '  a: { kind: analogue_in, range: [0 V, 90 V] }\n',
      ['1 analogue input (a) at main'],
    ],
    [
      'a current that nothing gives',
      open,
      '  a: { kind: digital_out, current: 9 A }\n  b: { kind: digital_in }\n',
      ['1 digital output of 9 A (a) at main'],
    ],
    [
      'a rack that is full',
      'racks: { main: { rack: rack_4, power: power_ac, modules: [in_12], added: open } }\n',
      '  a_[1..13]: { kind: digital_in }\n',
      ['the 4 places of rack_4 at main', '13 digital inputs at main'],
    ],
    [
      'spare that has no room',
      'reserves: { racks.spare: { digital_in: 50 % } }\nracks: { main: { rack: rack_4, power: power_ac, modules: [in_12], added: open } }\n',
      '  a_[1..7]: { kind: digital_in, channel: open }\n',
      ['the 4 places of rack_4 at main', '7 digital inputs at main', '7 digital inputs left free at main'],
    ],
    [
      'a supply that is too weak',
      'racks: { main: { rack: rack_14, power: { part: power_ac, gives: 0.6 A }, modules: open } }\n',
      '  a_[1..12]: { kind: digital_in }\n',
      ['the 600 mA of power_ac at main', '12 digital inputs at main', '3 digital inputs left free at main'],
    ],
    [
      'more together than a module has',
      open,
      '  a_[1..21]: { kind: digital_in, together: team }\n',
      ['21 digital inputs together in team at main', 'the points of team together on one module at main'],
    ],
    [
      'more apart than there are modules',
      'racks: { main: { rack: rack_7, power: power_ac, modules: [in_12, in_12] } }\n',
      '  a_1: { kind: digital_in, apart: x }\n  a_2: { kind: digital_in, apart: x }\n  a_3: { kind: digital_in, apart: x }\n  b: { kind: digital_in }\n',
      [
        '1 digital input (a_1) at main',
        '1 digital input (a_2) at main',
        '1 digital input (a_3) at main',
        'the points of x on different modules at main',
      ],
    ],
    [
      'a type that is not offered',
      open,
      '  a: { kind: digital_in, type: 2 }\n',
      ['1 digital input of type 2 (a) at main'],
    ],
    ['a frequency that nothing counts', open, '  a: { kind: counter, frequency: 5 MHz }\n', ['1 counter (a) at main']],
    [
      'an output that shall stay on where none can',
      open,
      '  a: { kind: relay, fails_to: on }\n',
      ['1 relay that goes on when the controller is gone (a) at main'],
    ],
    [
      'a sensor that nothing reads',
      open,
      '  a: { kind: thermocouple, sensor: b }\n',
      ['1 thermocouple for b (a) at main'],
    ],
  ])('%s', async (_, racks, points, needs) => {
    const found = await chooseRacks(designOf(`${head}${racks}points:\n${points}`), solveHere);
    const [first] = found.choices;
    expect(first!.answer).toMatchObject({ kind: 'conflict', needs: expect.arrayContaining(needs), irreducible: true });
    expect((first!.answer as { needs: readonly string[] }).needs.length).toBe(needs.length);
    expect(found.planned).toEqual([]);
  });
});

describe('racks that cannot be chosen', () => {
  it.each([
    [
      'a channel where no module is named',
      'racks: { main: { rack: rack_9, power: power_ac, modules: open } }\n',
      '  a: { kind: digital_in, channel: main.4.7 }\n  b: { kind: digital_in }\n',
      'Points at main have channels where the file names no module: a (main.4.7). Name the modules that are there (modules: [in_12], with added: open for more), or leave its channel open, under planned too.',
    ],
    [
      'a channel where a module would be put',
      'racks: { main: { rack: rack_9, power: power_ac, modules: [in_12], added: open } }\n',
      '  a: { kind: digital_in, channel: main.5.1 }\n  b_[1..13]: { kind: digital_in }\n',
      expect.stringContaining('the file names no module: a (main.5.1)'),
    ],
    [
      'points together at two places',
      'networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, far, 5 m, solid]], nodes: { far: rack_head } } }\nracks: open\n',
      '  a: { kind: digital_in, together: team }\n  b: { kind: digital_in, at: far, together: team }\n',
      'The points of team shall sit together on one module, and are at main and far. Give them one place, or names of their own under together.',
    ],
  ])('are refused for %s', async (_, racks, points, why) => {
    const found = await chooseRacks(designOf(`${head}${racks}points:\n${points}`), solveHere);
    expect(found.planned).toEqual([]);
    expect(conflictsOf(found.choices)).toEqual([why]);
  });

  it.each([
    [
      'main: { rack: rack_9, power: power_ac, modules: [in_12] }',
      'No module may be put in at main: write added: open under racks.main to have some chosen.',
    ],
    [
      'main: { rack: rack_4, power: power_ac, modules: open }',
      'There is room for 1 rack at main, of at most 4 places.',
    ],
    ['main: open', 'There is room for 4 racks at main, of at most 14 places each.'],
  ])('say how much room there is: %s', async (rack, room) => {
    const text = `${head}racks: { ${rack} }\npoints:\n  a_[1..600]: { kind: analogue_out }\n`;
    const found = await chooseRacks(designOf(text), solveHere);
    expect(conflictsOf(found.choices)[0]).toMatch(/(600 analogue outputs|150 analogue outputs left free) at main/);
    expect(conflictsOf(found.choices)[0]!.endsWith(room)).toBe(true);
  });

  it('tell of every location that has none, whatever the reason', async () => {
    const text = `${head}networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, far, 5 m, solid], [far, near, 5 m, solid]], nodes: { far: rack_head, near: rack_head } } }
racks:
  main: { rack: rack_4, power: power_ac, modules: open }
  far: { rack: rack_4, power: power_ac, modules: open }
  near: { power: power_ac, modules: open }
points:
  a_[1..90]: { kind: digital_in }
  b_[1..90]: { kind: digital_out, at: far }
  c: { kind: digital_out, at: near }
`;
    const design = designOf(text);
    const found = await chooseRacks(design, solveHere);
    expect(whyNoChoice(design, found)).toBeUndefined();
    expect(conflictsOf(found.choices).map((each) => each.slice(0, 45))).toEqual([
      'At main these cannot be had together: the 4 p',
      'At far these cannot be had together: the 4 pl',
      'Nothing can be chosen at near yet: racks.near',
    ]);
  });
});
