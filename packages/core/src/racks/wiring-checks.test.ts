// What is asked of wires: designations, voltage at the end, status of guards, the healthy contact; and what its tables say.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { explain } from '../assess/numbers.ts';
import { show, shownAddresses } from '../assess/show.ts';
import { cellJson, quantitiesIn, type Table } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';
import { wiringOf } from './wiring.ts';
import { coloursTable, designationsTable, terminalsTable, wiresTable } from './wiring-tables.ts';

const catalogue = demonstration();

const assessed = (text: string) =>
  assess(resolve(read(`layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\n${text}`), [catalogue]));

const told = (text: string, address: string) => {
  const { design, findings } = assessed(text);
  expect(design.problems).toEqual([]);
  const found = findings.find((each) => each.address === address);
  return found && [found.verdict, found.says];
};

/** Contacts for any current. */
const strong = '{ part: relay_6, channels: [{ kinds: [relay], count: 6, current: 60 A, terminals: 3, commons: 0 }] }';

const machine = (points: string, { wiring = '', controller = 'controller_m' } = {}) => `controller: ${controller}
cabinet: { wiring: { ${wiring} } }
racks: { main: { rack: rack_9, power: power_ac, modules: [in_12, out_12, relay_6, either_20, out_2a_6, ${strong}] } }
points:\n${points}`;

const texts = ({ columns, rows }: Table): readonly Readonly<Record<string, string>>[] =>
  rows.map((row) => Object.fromEntries(row.map((cell, at) => [columns[at]!, cellJson(cell).text])));

function wires(text: string): readonly Readonly<Record<string, string>>[] {
  const wiring = wiringOf(assessed(text).racks);
  return wiring.locations.flatMap((each) => texts(wiresTable(each, wiring)));
}

const ofPoint = (text: string, name: string) => wires(text).filter(({ point }) => point === name);

describe('the wires of a point', () => {
  it('lead from its device to the module and to the line that closes its circuit', () => {
    const text = machine('  lid: { kind: digital_in, channel: main.4.2, wire: 12 m, function: feeding }\n');
    expect(ofPoint(text, 'lid')).toMatchObject([
      { from: '=feeding+main-B110402:1', to: '+main-K1104:2', carries: 'signal', colour: 'blue', length: '12 m' },
      { from: '=feeding+main-B110402:2', to: '+main-X1104:2.2', carries: 'L+', cable: '+main-W110402', core: '2' },
    ]);
  });

  it('pass the box that they lead to, in two cables', () => {
    const text = machine('  lid: { kind: digital_in, channel: main.4.2, wire: 3 m, cabinet: box_2, conductors: 3 }\n', {
      wiring: 'boxes: { box_2: { wire: 20 m } }',
    });
    expect(ofPoint(text, 'lid').map(({ from, to, cable, length }) => [from, to, cable, length])).toEqual([
      ['+box_2-B110402:1', '+box_2-X1104:2.1', '+box_2-W110402', '3 m'],
      ['+box_2-X1104:2.1', '+main-K1104:2', '+box_2-W1104', '20 m'],
      ['+box_2-B110402:2', '+box_2-X1104:2.2', '+box_2-W110402', '3 m'],
      ['+box_2-X1104:2.2', '+main-X1104:2.2', '+box_2-W1104', '20 m'],
      ['+box_2-B110402:3', '+box_2-X1104:2.3', '+box_2-W110402', '3 m'],
      ['+box_2-X1104:2.3', '+main-X1104:2.3', '+box_2-W1104', '20 m'],
    ]);
  });

  it.each([
    ['digital_in, level: sink', '4.1', 'L+'],
    ['digital_out', '5.1', '0 V'],
    ['digital_in, level: source', '7.1', '0 V'],
    ['digital_out, level: sink', '7.1', 'L+'],
  ])('%s close their circuit through %s', (kind, channel, line) => {
    expect(ofPoint(machine(`  a: { kind: ${kind}, channel: main.${channel} }\n`), 'a')[1]?.carries).toBe(line);
  });

  it('ask for what is not said where they rest on it', () => {
    const [, second] = ofPoint(machine('  a: { kind: digital_in, channel: main.7.1 }\n'), 'a');
    expect(second?.carries).toMatch(/^unknown: points\.a\.level is not given/);
    const [contact] = ofPoint(machine('  a: { kind: relay, channel: main.6.1 }\n'), 'a');
    expect(contact?.colour).toMatch(/^unknown: points\.a\.circuit is not given/);
    const boxed = ofPoint(machine('  a: { kind: digital_in, channel: main.4.1, cabinet: box_9 }\n'), 'a');
    expect(boxed[1]?.length).toMatch(/^unknown: cabinet\.wiring\.boxes\.box_9\.wire is not given/);
    const [unknown] = ofPoint(machine('  a: { kind: digital_in, channel: main.4.1, cabinet: unknown }\n'), 'a');
    expect(unknown?.to).toMatch(/^unknown: points\.a\.cabinet is unknown/);
  });

  it.each([
    ['current: 0.5 A', '', '0.75 mm²'],
    ['current: 9 A', '', '1 mm²'],
    ['current: 23.1 A', '', '6 mm²'],
    ['current: 9 A, section: 2.5 mm²', '', '2.5 mm²'],
    ['current: 9 A', 'section: 1.5 mm²', '1.5 mm²'],
    ['current: 9 A', 'carries: [[4 mm², 20 A], [2.5 mm², 12 A]]', '2.5 mm²'],
    [
      'current: 41 A',
      '',
      'unknown: cabinet.wiring.carries is not given: a section that carries 41 A, such as [[16 mm², 54 A]]',
    ],
  ])('are as thick as their current asks for: %s, %s', (current, wiring, section) => {
    const text = machine(`  a: { kind: relay, channel: main.9.1, circuit: power, ${current} }\n`, { wiring });
    expect(ofPoint(text, 'a')[0]?.section).toBe(section);
  });

  it.each([
    ['', 'dc_control', ['blue', 'blue']],
    ['colours: nfpa_79', 'dc_control', ['blue', 'white with a blue stripe']],
    ['colours: nfpa_79, other_colours: { dc_return: grey }', 'dc_control', ['blue', 'grey']],
    ['', 'ac_control', ['red', 'red']],
    ['', 'excepted', ['orange', 'orange']],
  ])('have their colours: %s, %s', (wiring, circuit, colours) => {
    const text = machine(`  a: { kind: digital_out, channel: main.5.1, circuit: ${circuit} }\n`, { wiring });
    expect(ofPoint(text, 'a').map(({ colour }) => colour)).toEqual(colours);
  });
});

describe('tables', () => {
  const text = machine('  a: { kind: digital_in, channel: main.4.2 }\n', { wiring: 'colours: nfpa_79' });
  const wiring = wiringOf(assessed(text).racks);

  it('say with wires and colours that local codes go before them', () => {
    expect(wiresTable(wiring.locations[0]!, wiring).note).toContain('a licensed electrician decides');
    expect(coloursTable(wiring).note).toContain('NFPA 79, from memory');
    expect(texts(coloursTable(wiring))).toContainEqual({ wire: 'power circuits', colour: 'black' });
  });

  it('have the terminals of a module, free ones too, with what its channels share', () => {
    const rows = texts(terminalsTable(wiring.locations[0]!.location.racks[0]!.modules[0]!, wiring.locations[0]!));
    expect(rows).toHaveLength(14);
    expect(rows.slice(0, 2).map((row) => [row.point, row['sensor or load']])).toEqual([
      ['free', ''],
      ['a', '+main-B110402:1'],
    ]);
    expect(rows.slice(12).map((row) => [row.terminal, row['belongs to'], row.carries])).toEqual([
      ['13', 'group 1', 'L+'],
      ['14', 'group 1', '0 V'],
    ]);
  });

  it('have everything that is designated', () => {
    expect(texts(designationsTable(wiring.locations[0]!)).map(({ designation, of }) => [designation, of])).toEqual([
      ['+main-U11', 'the rack main'],
      ['+main-T1101', 'the supply of main'],
      ['+main-K1102', 'the controller of main'],
      ...[4, 5, 6, 7, 8, 9].map((place) => [`+main-K110${place}`, `the module at place ${place} of main`]),
      ['+main-B110402', 'a'],
      ['+main-W110402', 'the cable of a'],
      ['+main-X1104', 'the terminals of main.4 in main'],
    ]);
  });

  it('say of a contact which of its terminals are wired', () => {
    const relay = wiringOf(assessed(machine('  a: { kind: relay, channel: main.6.1 }\n')).racks).locations[0]!;
    const rows = texts(terminalsTable(relay.location.racks[0]!.modules[2]!, relay));
    expect(rows.slice(0, 4).map((row) => row['sensor or load'])).toEqual([
      '+main-Q110601:1',
      '+main-Q110601:2',
      'not wired',
      '',
    ]);
  });

  it('have what channels share with the supply that it comes from', () => {
    const shared = wires(machine('  a: { kind: digital_out, channel: main.5.2, potential: brakes }\n')).filter(
      ({ from, point }) => point === '' && /^24 V|-X/.test(from!),
    );
    expect(shared.map(({ from, to }) => [from, to])).toEqual([
      ['24 V supply of brakes: L+', '+main-X1105:G1.L+'],
      ['24 V supply of brakes: 0 V', '+main-X1105:G1.0V'],
      ['+main-X1105:G1.13', '+main-K1105:13'],
      ['+main-X1105:G1.14', '+main-K1105:14'],
    ]);
  });
});

describe('designations', () => {
  it('of the file go before their own', () => {
    const text = machine('  a: { kind: digital_in, channel: main.4.1, designation: =press+door-S5 }\n');
    expect(ofPoint(text, 'a')[0]?.from).toBe('=press+door-S5:1');
    expect(told(text, 'racks.designations@main')?.[0]).toBe('holds');
  });

  it('that are twice are named with all that have them', () => {
    const points =
      '  a: { kind: digital_in, channel: main.4.1, designation: -S5 }\n  b: { like: a, channel: main.4.2 }\n';
    expect(told(machine(points), 'racks.designations@main')).toEqual(['fails', '+main-S5 is a and b']);
    const letters = machine('  a: { kind: digital_in, channel: main.4.1 }\n', { wiring: 'letters: { sensor: W }' });
    expect(told(letters, 'racks.designations@main')).toEqual(['fails', '+main-W110401 is a and the cable of a']);
  });

  it('of another form are told so', () => {
    const { design } = assessed(machine('  a: { kind: digital_in, designation: S5 }\n'));
    expect(design.problems.map(({ code, message }) => [code, message])).toEqual([
      ['name-form', "'S5' is no designation"],
    ]);
  });
});

describe('voltage at the end of a wire', () => {
  const cold = 'warmest: 20 °C, voltage: 20.4 V, section: 1.5 mm²';
  const load = '  a: { kind: digital_out, channel: main.8.1, current: 2 A, wire: 50 m, voltage_at_least: 19.2 V }\n';

  // 50 m of 1.5 mm² at 2 A take 2.373 V: of 20.4 V 18.03 V arrive, below 19.2 V.
  it('of a load, worked', () => {
    expect(told(machine(load, { wiring: cold }), 'racks.voltage@a')).toEqual([
      'fails',
      '18.03 V arrive, 19.2 V are needed',
    ]);
    expect(told(machine(load, { wiring: cold.replace('20.4', '24') }), 'racks.voltage@a')).toEqual([
      'holds',
      '21.63 V arrive, 19.2 V are needed',
    ]);
  });

  it('of a warm wire is less', () => {
    // Copper is 19.65 % more at 70 °C: 2.373 V become 2.84 V.
    expect(told(machine(load, { wiring: cold.replace('warmest: 20 °C, ', '') }), 'racks.voltage@a')?.[1]).toContain(
      '17.56 V arrive',
    );
  });

  it('behind a contact only where its circuit is that of the 24 V', () => {
    const relay = (more: string): string =>
      machine(load.replace('digital_out, channel: main.8.1', `relay, channel: main.6.1${more}`), { wiring: cold });
    expect(told(relay(', circuit: dc_control'), 'racks.voltage@a')?.[1]).toContain('18.03 V arrive');
    expect(told(relay(', circuit: ac_control'), 'racks.voltage@a')).toBeUndefined();
    expect(told(relay(''), 'racks.voltage@a')).toBeUndefined();
  });

  it('through a box is that of both cables, and asks for the one that is not said', () => {
    const boxed = load.replace('wire: 50 m', 'wire: 20 m, cabinet: box_1');
    const wiring = `${cold}, boxes: { box_1: { wire: 30 m } }`;
    expect(told(machine(boxed, { wiring }), 'racks.voltage@a')?.[1]).toContain('18.03 V arrive');
    expect(told(machine(boxed, { wiring: cold }), 'racks.voltage@a')?.[0]).toBe('unknown');
  });

  it.each([
    ['type: 3, sensor_drop: 8 V', 'in_12', 'holds'],
    ['type: 1, sensor_drop: 8 V', 'in_12', 'holds'],
    ['type: 1, sensor_drop: 8 V', 'in_source_12', 'fails'],
    ['sensor_drop: 9.5 V', 'in_12', 'fails'],
    ['type: 3', 'in_12', undefined],
    ['current: 1 A, voltage_at_least: 5 V', 'in_12', undefined],
  ])('of an input with %s on %s %s', (said, module, verdict) => {
    const text = machine(`  a: { kind: digital_in, channel: main.4.1, wire: 12 m, ${said} }\n`).replace(
      'in_12',
      module,
    );
    expect(told(text, 'racks.voltage@a')?.[0]).toBe(verdict);
  });
});

describe('what must stop a machine', () => {
  it('is status only where it comes in, and the wire list says so', () => {
    const text = machine('  a: { kind: digital_in, channel: main.4.1, status_of: guard }\n');
    expect(told(text, 'racks.status@a')).toEqual([
      'holds',
      expect.stringContaining('must work without the controller'),
    ]);
    expect(ofPoint(text, 'a')[0]?.note).toBe('guard, status only');
  });

  it('must not hang on an output', () => {
    const text = machine('  a: { kind: relay, channel: main.6.1, status_of: emergency_stop }\n');
    expect(told(text, 'racks.status@a')?.[0]).toBe('fails');
    expect(ofPoint(text, 'a')[0]?.note).toBe('no status: it is an output');
  });

  it('has the healthy contact of the controller beside it, with its caution', () => {
    const points = '  a: { kind: digital_in, channel: main.4.1 }\n';
    const healthy = (text: string) => wires(text).filter(({ carries }) => carries === 'healthy contact');
    expect(healthy(machine(points.replace('4.1', '3.1'), { controller: 'controller_s' }))).toEqual([]);
    const rows = healthy(machine(points));
    expect(rows.map(({ from, to }) => [from, to])).toEqual([
      ['+main-K1102:H1', '+main-X1102:1'],
      ['+main-K1102:H2', '+main-X1102:2'],
    ]);
    for (const { note } of rows) expect(note).toBe('not a safety function');
  });

  it.each([
    ['voltage: 24 V', 'racks.contact_voltage@controller', 'holds'],
    ['voltage: 48 V', 'racks.contact_voltage@controller', 'fails'],
    ['current: 0.2 A', 'racks.contact_current@controller', 'holds'],
    ['current: 0.4 A', 'racks.contact_current@controller', 'thin'],
    ['current: 0.6 A', 'racks.contact_current@controller', 'fails'],
    ['current: 0.2 A', 'racks.contact_voltage@controller', undefined],
  ])('the contact in a circuit of %s: %s %s', (circuit, address, verdict) => {
    const text = machine('', { wiring: `stop_circuit: { ${circuit} }` });
    expect(told(text.replace(/points:\n$/, ''), address)?.[0]).toBe(verdict);
  });
});

describe('the view of the wiring', () => {
  const text = machine(
    `  lid: { kind: digital_in, channel: main.4.2, wire: 3 m, cabinet: box_2 }
  valve: { kind: digital_out, channel: main.8.1, current: 2 A, wire: 50 m }
  horn: { kind: relay, channel: main.9.1, current: 9 A, section: 2.5 mm² }
  pump: { kind: relay, channel: main.9.2, current: 9 A, wire: 4 m }
  lost: { kind: relay }
`,
    { wiring: 'boxes: { box_2: { wire: 20 m } }, voltage: 22 V' },
  );
  const assessment = assessed(text);
  const [view] = show(assessment, 'racks.main.wiring');

  it('says how much there is, and what is not wired', () => {
    expect(view?.says).toEqual([
      '22 wires for 4 points, 1 of them in and 3 out. 1 point more is not wired: racks.placed and racks.suits say why.',
    ]);
    expect(view?.later.map(({ name, make }) => [name, make().name])).toEqual(
      [
        'wires',
        'terminals_4',
        'terminals_5',
        'terminals_6',
        'terminals_7',
        'terminals_8',
        'terminals_9',
        'designations',
        'colours',
      ].map((name) => [name, name]),
    );
  });

  it('has numbers that are all explained by their addresses', () => {
    const all = new Map<string, Quantity>();
    const seen = new Set<Quantity>();
    for (const quantity of quantitiesIn(view!)) walk(quantity, (each) => void all.set(addressOf(each), each), seen);
    expect(all.size).toBeGreaterThan(20);
    for (const [address, { value }] of all) expect(explain(assessment, address)?.value, address).toBe(value);
  });

  it('is there for no machine without racks', () => {
    expect(shownAddresses(assessment)).toContain('racks.main.wiring');
    expect(shownAddresses(assessed('points: { a: { kind: digital_in } }\n'))).toEqual(['margins', 'points']);
  });
});

describe('half of a file', () => {
  const text = `controller: { part: controller_m, healthy_contact: { current: 0.3 A } }
cabinet:
  wiring:
    colours: nfpa_79
    other_colours: { dc_control: violet }
    section: 1 mm²
    carries: [[1 mm², 8 A], [2 mm², 12 A]]
    voltage: 23 V
    warmest: 60 °C
    inputs: { type_3: { on_from: 10 V, draws: 8 mA } }
    boxes: { box_1: { wire: 20 m } }
    stop_circuit: { voltage: 24 V, current: 0.2 A }
    letters: { sensor: S }
racks:
  main:
    rack: { part: rack_9, protective: 4 mm² }
    power: power_ac
    modules: [in_12, { part: out_12, channels: [{ kinds: [digital_out], count: 6, level: source, current: 2 A, terminals: 1, commons: 1 }] }]
points:
  a: { kind: digital_in, channel: main.4.1, wire: 3 m, cabinet: box_1, sensor_drop: 2 V, status_of: guard }
  b: { kind: digital_out, channel: main.5.1, wire: 9 m, current: 1 A, voltage_at_least: 18 V, conductors: 3, screen: both, designation: -M1 }
`;
  const lines = text.split('\n');
  const told = (text: string): readonly string[] => {
    const assessment = assessed(text);
    const views = show(assessment, 'racks');
    return [
      ...assessment.findings.map(({ says }) => says),
      ...views.flatMap(({ later }) => later.flatMap(({ make }) => texts(make()).map((row) => JSON.stringify(row)))),
    ];
  };

  it('gives half an answer, whichever line lacks', () => {
    const whole = told(text).length;
    expect(whole).toBeGreaterThan(40);
    lines.forEach((_, at) => {
      const half = told(lines.filter((_, other) => other !== at).join('\n'));
      expect(half.join()).not.toMatch(/undefined|\[object|NaN/);
    });
  });

  it.each(['open', 'unknown', '[1]', '{ x: 1 }', '-3', 'none'])(
    'gives half an answer where %s stands for any value',
    (word) => {
      const values = [...text.matchAll(/(?<=: )[^\s{}[\],][^{}[\],\n]*/g)];
      expect(values.length).toBeGreaterThan(30);
      for (const { index, 0: value } of values) {
        const half = told(text.slice(0, index) + word + text.slice(index + value.length));
        expect(half.join()).not.toMatch(/undefined|\[object|NaN/);
      }
    },
  );
});
