// The wiring map: every shape of network, each device where its time of arrival puts it.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { show } from '../assess/show.ts';
import { type Bar, type Picture, plainText } from '../pictures/picture.ts';
import { printLines } from '../pictures/terminal.ts';
import { Missing } from '../working/missing.ts';
import { passedOn, stopsOf } from './wiring-stops.ts';

const drive =
  '{ drive: { turnaround: 2 µs, forwarding: 400 ns, waits: 0 octets, command: 24 octets, answer: 24 octets, plugs: 4 } }';
const file = (profile: string, runs: readonly string[], nodes = ''): string => `layshaft: 1
axes: { a: ${drive}, b: ${drive}, c: ${drive}, d: ${drive} }
networks:
  n:
    profile: ${profile}
    cycle: 1 ms
    nodes: { ${nodes} }
    runs:
${runs.map((run) => `      - [${run}, { delay: 5 ns/m }]`).join('\n')}
`;
const line = ['controller, a, 20 m', 'a, b, 20 m', 'b, c, 40 m', 'c, d, 20 m'];

const planned = (text: string) => assessText(text, 'n.yaml').networks[0]!;
const mapOf = (text: string): Picture =>
  show(assessText(text, 'n.yaml'), 'networks.n')[0]!.pictures.find(({ picture }) => picture.name === 'wiring')!.picture;
const boxes = ({ marks }: Picture) =>
  new Map(
    marks
      .filter((mark): mark is Bar => mark.kind === 'bar')
      .map((bar) => [bar.about!.split('.').at(-1)!, { ...bar, from: bar.from * 1e9, to: bar.to * 1e9 }]),
  );

describe('wiringMap', () => {
  it('puts a box where the first bit arrives, as long as it takes to pass on', () => {
    const drawn = boxes(mapOf(file('polled_100', line)));
    expect([...drawn.keys()]).toEqual(['a', 'b', 'c', 'd']);
    for (const [name, from] of [
      ['a', 100],
      ['b', 600],
      ['c', 1200],
      ['d', 1700],
    ] as const) {
      expect(drawn.get(name)!.from).toBeCloseTo(from, 6);
      expect(drawn.get(name)!.to).toBeCloseTo(from + 400, 6);
      expect(drawn.get(name)!.fill).toBe(name === 'd' ? 'outlined' : 'tinted');
    }
  });

  it('agrees with the plan for every device that it draws', () => {
    for (const text of [
      file('polled_100', line),
      file('polled_100', ['controller, h, 5 m', 'h, a, 5 m', 'a, b, 5 m', 'h, c, 8 m', 'c, d, 1 m'], 'h: hub_6'),
    ]) {
      const plan = planned(text);
      const stops = stopsOf(plan);
      expect(stops).toHaveLength(plan.network.devices.length);
      for (const { device, there } of plan.exchanges)
        expect(stops.find((stop) => stop.device === device)!.there).toBe(there);
      for (const stop of stops) {
        const cable = stop.run && plan.cables.get(stop.run);
        if (stop.there instanceof Missing || cable === undefined || cable instanceof Missing)
          throw new Error('all is given');
        const before = stop.before === undefined ? 0 : passedOn(stop.before)!;
        expect(stop.there.value).toBeCloseTo(before + cable.value, 15);
      }
    }
  });

  it('gives every branch its row, and a box that branches all the rows behind it', () => {
    const runs = ['controller, h, 5 m', 'h, a, 5 m', 'a, b, 5 m', 'h, c, 8 m', 'h, d, 1 m'];
    const drawn = boxes(mapOf(file('polled_100', runs, 'h: hub_6')));
    const rows = (name: string) => [drawn.get(name)!.row, drawn.get(name)!.downTo];
    expect(rows('h')).toEqual([2, 9]);
    expect(rows('a')).toEqual(rows('b'));
    expect([rows('a'), rows('c'), rows('d')]).toEqual([
      [2, 3],
      [5, 6],
      [8, 9],
    ]);
    const star = boxes(
      mapOf(
        file('polled_100', ['controller, h, 5 m', ...['a', 'b', 'c', 'd'].map((to) => `h, ${to}, 2 m`)], 'h: hub_6'),
      ),
    );
    expect(new Set([...star.values()].map(({ row }) => row)).size).toBe(4);
  });

  it('draws a ring up to its break from both ends', () => {
    const text = file('pipelined_100', [...line, 'd, controller, 20 m']);
    const plan = planned(text);
    expect(plan.brokenAfter).toBeDefined();
    const picture = mapOf(text);
    const reached = [...boxes(picture)].filter(([, { row }]) => row === 2).length;
    expect(new Set([...boxes(picture).values()].map(({ row }) => row)).size).toBe(reached === 4 ? 1 : 2);
    if (plan.brokenAfter! < 4) expect(picture.caption).toContain('The ring is broken after');
    for (const { device, there } of plan.exchanges) {
      if (there instanceof Missing) throw new Error('all is given');
      expect(boxes(picture).get(device.name)!.from).toBeCloseTo(there.value * 1e9, 6);
    }
  });

  it('leaves out whom no command is known to reach, and says why', () => {
    const runs = ['controller, a, 20 m', 'a, b, 20 m', 'b, c, unknown', 'c, d, 20 m'];
    const picture = mapOf(file('polled_100', runs));
    expect([...boxes(picture).keys()]).toEqual(['a', 'b']);
    const text = picture.text.map(plainText);
    expect(text[2]).toMatch(/^3 c, behind b: when a command arrives is not known, since .*b_c\.length is unknown/);
    expect(text[3]).toMatch(/^4 d, behind c, by a run of 20 m: when a command arrives is not known/);
  });

  it('says why nothing can be drawn', () => {
    const picture = mapOf('layshaft: 1\nnetworks: { n: { cycle: 1 ms } }\n');
    expect(printLines(picture, 70).join(' ')).toMatch(/^Not known: /);
  });

  it('tells the order, the places and the times as text', () => {
    expect(mapOf(file('polled_100', line)).text.map(plainText)).toEqual([
      '1 a, behind the controller, by a run of 20 m: the first bit arrives after 0.1 µs, and takes 0.4 µs to pass on.',
      '2 b, behind a, by a run of 20 m: the first bit arrives after 0.6 µs, and takes 0.4 µs to pass on.',
      '3 c, behind b, by a run of 40 m: the first bit arrives after 1.2 µs, and takes 0.4 µs to pass on.',
      '4 d, behind c, by a run of 20 m: the first bit arrives after 1.7 µs, and takes 0.4 µs to pass on.',
    ]);
  });
});
