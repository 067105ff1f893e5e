// Views and pictures of racks: what they say, that every number is found, and that each channel is drawn as what it is.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { chapters } from '../assess/chapters.ts';
import { explain } from '../assess/numbers.ts';
import { show, shownAddresses } from '../assess/show.ts';
import { type Cell, cellJson, quantitiesIn } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { type Bar, plainText } from '../pictures/picture.ts';
import { printLines } from '../pictures/terminal.ts';
import { addressOf } from '../working/quantity.ts';

const text = `layshaft: 1
machine: { name: Try }
catalogue: [demonstration]
reserves: { racks.spare: 15 % }
controller: controller_m
networks:
  io:
    profile: polled_100
    cycle: 1 ms
    runs: [[controller, rack_o, 5 m, solid]]
    nodes: { rack_o: rack_head }
racks:
  main: { rack: rack_9, power: power_ac, modules: [in_20, out_12, analogue_in_6] }
  rack_o:
    rack: rack_4
    power: power_dc
    extender: extender_4
    modules: [mixed_12_6]
    further: [{ rack: rack_4, power: power_dc, modules: [in_12, count_6] }]
points:
  valve_[1..4]: { kind: digital_out, current: 0.4 A, channel: main.5.1 }
  lid_1: { kind: digital_in, channel: main.4.1, wire: 12 m, title: Lid 1 closed, pulse: 8 ms, together: lids }
  tension: { kind: analogue_in, range: [4 mA, 20 mA], channel: main.6.2 }
  lift: { kind: digital_in, at: rack_o, channel: rack_o.3.1, update: 2 ms }
  lamp: { kind: digital_out, at: rack_o, channel: rack_o.3.2 }
  far: { kind: digital_in, at: rack_o, channel: rack_o/2.2.12 }
  spare_eye: { kind: digital_in, at: rack_o }
`;
const assessed = (from: string) => assess(resolve(read(from), [demonstration()]));
const assessment = assessed(text);
const words = (cells: readonly Cell[]): string => cells.map((cell) => cellJson(cell).text).join('');
const viewAt = (address: string) => show(assessment, address)[0]!;
const table = (address: string, name: string) => {
  const { tables, later } = viewAt(address);
  return [...tables, ...later.map(({ make }) => make())].find((each) => each.name === name)!;
};
const drawn = (address: string, name: string) =>
  viewAt(address).pictures.find(({ picture }) => picture.name === name)!.picture;
const bars = (address: string, name: string): readonly Bar[] =>
  drawn(address, name).marks.filter((mark): mark is Bar => mark.kind === 'bar');

describe('views of racks', () => {
  it('say how many points are carried, and of which kind the least is left', () => {
    expect(words(viewAt('racks').says)).toBe(
      '3 racks carry 4 of 10 points; 66.7 % of the digital outputs at main are free.',
    );
    expect(words(viewAt('racks.rack_o').says)).toBe(
      '2 racks carry 2 of 4 points; 83.3 % of the digital outputs are free.',
    );
    const [chapter] = chapters(assessment).filter(({ domain }) => domain === 'racks');
    expect(words(chapter!.gist)).toContain('3 racks carry 4 of 10 points');
  });

  it('say that no rack is chosen, that too few channels are there, or that there is no point', () => {
    const says = (more: string): string =>
      words(
        show(assessed(`layshaft: 1\ncatalogue: [demonstration]\ncontroller: controller_m\n${more}`), 'racks')[0]!.says,
      );
    const points = (count: number) => `points:\n  a_[1..${count}]: { kind: digital_in }\n`;
    expect(says(`racks: open\n${points(2)}`)).toBe('2 points, and no rack is chosen for them yet.');
    const rack = 'racks: { main: { rack: rack_4, power: power_ac, modules: [in_12] } }\n';
    expect(says(rack)).toBe('1 rack without a point.');
    expect(says(rack + points(13))).toBe('1 rack carries 0 of 13 points; 12 digital inputs are too few.');
    expect(says(rack + points(12))).toBe('1 rack carries 0 of 12 points; 0 % of the digital inputs are free.');
  });

  it('have every number explained by its address', () => {
    for (const address of shownAddresses(assessment).filter((each) => /^(racks|points)/.test(each)))
      for (const view of show(assessment, address))
        for (const number of quantitiesIn(view)) {
          const found = explain(assessment, addressOf(number));
          expect(found?.value, `${addressOf(number)} in ${address}`).toBe(number.value);
        }
  });

  it('let the wanted spare be moved, and what a point says', () => {
    expect(viewAt('racks').inputs.map(({ path }) => path)).toEqual(['reserves.racks.spare']);
    expect(viewAt('points.lid_1').inputs.map(({ path }) => path)).toEqual(['points.lid_1.pulse']);
  });

  it('of a point say where it sits, what its channel states and what was found', () => {
    expect(words(viewAt('points.lid_1').says)).toBe(
      'lid_1, digital input, sits on channel main.4.1 of in_20, which suits it.',
    );
    expect(words(viewAt('points.lamp').says)).toContain('lamp does not suit rack_o.3.2');
    expect(words(viewAt('points.spare_eye').says)).toBe('spare_eye, digital input at rack_o, has no channel yet.');
    expect(table('points.lid_1', 'channel').rows.map(words)).toContain('filter3 ms');
    expect(table('points.lid_1', 'findings').rows.map(([title]) => title)).toEqual(['Filter of an input']);
    expect(table('points.lift', 'findings').rows.map(([title]) => title)).toEqual(['Update of a point']);
  });
});

describe('tables of racks', () => {
  it('list each point once, with its channel or none', () => {
    const rows = table('racks', 'points').rows;
    expect(rows.map(([name]) => name)).toEqual(
      assessment.design.racks.locations.flatMap(({ points }) => points.map(({ name }) => name)),
    );
    expect(rows.find(([name]) => name === 'far')!.map((cell) => words([cell]))).toEqual([
      'far',
      'digital input',
      'rack_o',
      'rack_o/2.2.12',
      'in_12',
      '',
      '',
      'suits',
    ]);
  });

  it('cost what the parts cost, by hand', () => {
    const { rows } = table('racks', 'parts');
    expect(words([rows.at(-1)!.at(-1)!])).toBe(
      String(138 + 168 + 126 + 104 + 242 + 2 * 74 + 2 * 149 + 2 * 96 + 138 + 88 + 298 + 3 * 16 + 2 * 24 + 33),
    );
    expect(
      rows
        .find(([name]) => name === 'power_dc')!
        .slice(2)
        .map((cell) => words([cell])),
    ).toEqual(['2', '149', '298']);
  });

  it('are long only for who asks for them', () => {
    const many = assessed(text.replace('valve_[1..4]', 'valve_[1..60]'));
    expect(show(many, 'racks')[0]!.later.map(({ alone }) => alone)).toEqual([true]);
    expect(viewAt('racks').later.map(({ alone }) => alone)).toEqual([undefined]);
  });
});

describe('the face of a rack', () => {
  const inFace = (fill: string) => bars('racks', 'face').filter((bar) => bar.fill === fill);

  it('draws every channel once: with its point, spare, or as one that does not suit', () => {
    // Four points on one channel, one that does not suit; 20 + 12 + 6 and 18 + 12 + 6 channels.
    expect(inFace('hatched').filter(({ tone }) => tone === 'fails').length).toBe(2);
    expect(inFace('solid').length).toBe(4);
    expect(inFace('outlined').length).toBe(38 + 36 - 6);
  });

  it('draws places to scale: free ones, and modules beyond the last', () => {
    const free = inFace('dashed');
    // main: 9 places, 6 taken; rack_o: 4 of 4; its second rack: 5 of 4.
    expect(free.length).toBe(3);
    for (const { from, to } of free) expect(to - from).toBeCloseTo((0.303 / 9) * 0.92, 9);
    expect(inFace('hatched').filter(({ tone }) => tone === 'thin').length).toBe(1);
    expect(drawn('racks', 'face').scale.unit).toBe('m');
  });

  it('counts in places where no width is known', () => {
    const bare = assessed(text.replaceAll(/rack: rack_(\d)/g, 'rack: { places: $1, width: unknown }'));
    const { picture } = show(bare, 'racks')[0]!.pictures[0]!;
    expect(picture.scale).toEqual({ from: 0, to: expect.closeTo(9, 9), unit: '1' });
    expect(picture.caption).toContain('no rack says how wide it is');
  });

  it('stays a drawing whatever the file says', () => {
    const odd = assessed(
      text
        .replace('rack: rack_9', 'rack: { places: 90000, width: 303 mm }')
        .replace(
          'modules: [in_20,',
          'modules: [{ places: 1, draws: 1 A, channels: [{ kinds: [digital_in], count: 5000 }] },',
        ),
    );
    for (const { picture } of show(odd, 'racks.main')[0]!.pictures) expect(picture.marks.length).toBeLessThan(1000);
  });

  it('is told in words, and fits a terminal', () => {
    const { text: told } = drawn('racks', 'face');
    const sentences = told.map(plainText);
    expect(sentences).toContain('Rack main, rack_9: 6 of 9 places are taken.');
    expect(sentences).toContain('Place 4: in_20, 1 of 20 channels has a point, 19 are spare.');
    for (const width of [40, 80, 120])
      for (const line of printLines(drawn('racks', 'face'), width)) expect(line.length).toBeLessThanOrEqual(width);
  });
});

describe('which points sit where', () => {
  it('names each point at its channel, and counts the spare ones in words', () => {
    const picture = drawn('racks.main', 'channels');
    const labels = picture.marks.flatMap((mark) => (mark.kind === 'label' ? [plainText(mark.forms[0]!)] : []));
    expect(labels).toContain('1 lid_1');
    expect(labels).toContain('2 tension');
    expect(labels.length).toBe(38);
    expect(picture.text.map(plainText)).toContain('main.4, in_20: 1 lid_1; 19 spare.');
    expect(printLines(picture, 80).join('\n')).toContain('1 lid_1');
  });
});

describe('the terminals of a module', () => {
  const relays = '  horn: { kind: relay, channel: main.7.2, circuit: ac_control }\n';
  const wired = assessed(text.replace('analogue_in_6]', 'analogue_in_6, relay_6]') + relays);
  const at = (address: string) => show(wired, address)[0]!.pictures[0]!.picture;
  const told = (address: string) => at(address).text.slice(1).map(plainText);

  it('are drawn once each: wired, spare, shared, not wired, and as one that does not suit', () => {
    const fills = (address: string) =>
      at(address).marks.flatMap((mark) => (mark.kind === 'bar' ? [`${mark.fill} ${mark.tone}`] : []));
    const many = (fill: string, count: number): readonly string[] => Array(count).fill(fill);
    expect(fills('racks.main.4')).toEqual([
      'solid traffic',
      ...many('outlined traffic', 9),
      'tinted plain',
      ...many('outlined traffic', 10),
      // No channel of the second group is in use, so that nobody needs its line.
      'dashed quiet',
    ]);
    expect(fills('racks.main.5').slice(0, 2)).toEqual(['hatched fails', 'outlined traffic']);
    expect(fills('racks.main.7').slice(3, 7)).toEqual([
      'solid traffic',
      'solid traffic',
      'dashed quiet',
      'outlined traffic',
    ]);
  });

  it('say by number what is on them, the colour of the wire in words, and where it comes from', () => {
    expect(told('racks.main.4')[0]).toBe('Terminal 1, channel 1: lid_1, signal, blue 0.75 mm², from +main-B110401:1.');
    expect(told('racks.main.4').slice(10, 12)).toEqual([
      'Terminal 11, shared: 0 V, blue 0.75 mm², from +main-X1104:G1.11.',
      'Terminal 12, channel 11: spare.',
    ]);
    expect(told('racks.main.5')[0]).toMatch(/^Terminal 1, channel 1: valve_1 and valve_2 and .* share main\.5\.1\.$/);
    expect(told('racks.main.7').slice(3, 6)).toEqual([
      'Terminal 4, channel 2 (1 of 3): horn, signal, red 0.75 mm², from +main-Q110702:1.',
      'Terminal 5, channel 2 (2 of 3): horn, signal, red 0.75 mm², from +main-Q110702:2.',
      'Terminal 6, channel 2 (3 of 3): horn, not wired.',
    ]);
  });

  it('are found by the path of the module and by rack and place, and from the face of its rack', () => {
    expect(show(wired, 'racks.main.modules.0')[0]!.title).toBe(show(wired, 'racks.main.4')[0]!.title);
    expect(words(show(wired, 'racks.rack_o/2.2')[0]!.says)).toBe(
      'in_12 at rack_o/2.2: 1 of 12 channels on 14 terminals has a point.',
    );
    const { marks } = show(wired, 'racks.main')[0]!.pictures[0]!.picture;
    const about = marks.flatMap((mark) => (mark.kind === 'label' && mark.about !== undefined ? [mark.about] : []));
    for (const address of about) expect(show(wired, address)).toHaveLength(1);
    expect(about).toContain('racks.main.modules.0');
    expect(shownAddresses(wired)).toContain('racks.rack_o.further.0.modules.0');
  });

  it('fit a terminal', () => {
    for (const width of [40, 80, 120])
      for (const line of printLines(at('racks.main.7'), width)) expect(line.length).toBeLessThanOrEqual(width);
  });
});
