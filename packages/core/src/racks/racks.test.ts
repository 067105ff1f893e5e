// Files with points and racks, whole: what is placed, what suits, what is left free.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { chapters } from '../assess/chapters.ts';
import { explain } from '../assess/numbers.ts';
import { show, shownAddresses } from '../assess/show.ts';
import type { Finding } from '../checks/finding.ts';
import { quantitiesIn } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { addressOf, Quantity } from '../working/quantity.ts';

const assessed = (text: string) =>
  assess(resolve(read(`layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\n${text}`), [demonstration()]));

const findings = (text: string): readonly Finding[] => {
  const { design, findings: found } = assessed(text);
  expect(design.problems).toEqual([]);
  return found;
};

const told = (text: string, address: string) => {
  const found = findings(text).find((each) => each.address === address);
  return found && [found.verdict, found.says];
};

const rack = (modules: string, more = '') =>
  `controller: controller_m\nracks: { main: { rack: rack_7, power: power_ac, modules: ${modules}${more} } }\n`;

describe('points', () => {
  it('alone, have a chapter that counts them, and every number of it is found', () => {
    const text = 'points:\n  lid_[1..8]: { kind: digital_in }\n  valve: { kind: digital_out, at: main }\n';
    const assessment = assessed(text);
    expect(chapters(assessment).map(({ title }) => title)).toEqual(['Racks']);
    const [view] = show(assessment, 'points');
    const [kinds] = view!.tables;
    expect(kinds!.rows.map(([at, kind, count]) => [at, kind, (count as Quantity).value])).toEqual([
      ['main', 'digital input', 8],
      ['main', 'digital output', 1],
    ]);
    for (const quantity of quantitiesIn(view!)) expect(explain(assessment, addressOf(quantity))).toBeDefined();
    expect(shownAddresses(assessment)).toContain('points');
  });

  it('alone, have nothing to be asked about', () => {
    expect(findings('points:\n  lid_[1..8]: { kind: digital_in }\n')).toEqual([]);
  });

  it('that have no channel are named', () => {
    const text = `${rack('[in_12]')}points: { lid_1: { kind: digital_in, channel: main.4.1 }, lid_2: { kind: digital_in } }\n`;
    expect(told(text, 'racks.placed@main')).toEqual(['fails', 'lid_2 has none']);
    expect(told(text, 'racks.suits@main')).toEqual(['holds', 'each of 1 does']);
  });

  it.each([
    ['{ kind: digital_in, channel: main.4.13 }', 'there is no channel main.4.13 for a'],
    ['{ kind: digital_in, channel: main.3.1 }', 'there is no channel main.3.1 for a'],
    ['{ kind: digital_out, channel: main.4.1 }', 'a does not suit main.4.1: it is no digital output'],
    ['{ kind: digital_in, type: 2, channel: main.4.1 }', 'its inputs are of type 3, not 2'],
    ['{ kind: digital_in, level: source, channel: main.4.1 }', 'it is a sink, no source'],
    ['{ kind: digital_in, pulse: 2 ms, channel: main.4.1 }', 'its filter of 3 ms is longer than the signal, 2 ms'],
    ['{ kind: digital_out, current: 1 A, channel: main.5.1 }', 'its output gives 500 mA at most, 1 A is needed'],
    ['{ kind: digital_out, fails_to: on, channel: main.5.1 }', undefined],
    ['{ kind: digital_out, fails_to: hold, channel: main.7.1 }', 'it cannot go to hold when the controller is gone'],
    ['{ kind: analogue_in, range: [0 V, 5 V], channel: main.6.1 }', undefined],
    ['{ kind: analogue_in, range: [0 V, 50 V], channel: main.6.1 }', 'it has no such range'],
    ['{ kind: digital_in, type: 1, channel: main.4.1 }', undefined],
  ])('%s: %s', (point, why) => {
    const [verdict, says] = told(
      `${rack('[in_12, out_12, analogue_in_6, either_20]').replace('rack_7', 'rack_9')}points: { a: ${point} }\n`,
      'racks.suits@main',
    )!;
    expect(verdict).toBe(why === undefined ? 'holds' : 'fails');
    expect(says).toContain(why ?? 'each of 1 does');
  });

  it('share a channel, are torn apart, come together, or mix potentials', () => {
    const says = (points: string): unknown =>
      told(`${rack('[in_20, in_20]')}points: { ${points} }\n`, 'racks.suits@main');
    const on = (channel: string, more = '') => `{ kind: digital_in, channel: main.${channel}${more} }`;
    expect(says(`a: ${on('4.1')}, b: ${on('4.1')}`)).toEqual([
      'fails',
      expect.stringContaining('a and b share main.4.1'),
    ]);
    expect(says(`a: ${on('4.1', ', together: g')}, b: ${on('5.1', ', together: g')}`)).toEqual([
      'fails',
      'a and b shall be together and sit on two modules',
    ]);
    expect(says(`a: ${on('4.1', ', apart: g')}, b: ${on('4.2', ', apart: g')}`)).toEqual([
      'fails',
      'a and b shall be apart and sit on one module',
    ]);
    expect(says(`a: ${on('4.1', ', potential: g')}, b: ${on('4.2')}`)).toEqual([
      'fails',
      'a and b have different potentials and share a group of channels',
    ]);
    expect(says(`a: ${on('4.1', ', potential: g')}, b: ${on('4.11')}`)).toEqual(['holds', 'each of 2 does']);
  });
});

describe('spare', () => {
  // 75 free beside 225 used are 33 % of the used and 25 % of all, in small: 3 free beside 9 used.
  const nine = `${rack('[in_12]')}points:\n  a_[1..9]: { kind: digital_in }\n`;

  it.each([
    ['{ racks.spare: 25 % }', 'holds'],
    ['{ racks.spare: 26 % }', 'thin'],
    ['{ racks.spare: { digital_in: 33 %, share_of: used } }', 'holds'],
    ['{ racks.spare: { digital_in: 34 %, share_of: used } }', 'thin'],
    ['{ racks.spare: { digital_out: 90 % } }', 'holds'],
  ])('%s %s', (reserves, verdict) => {
    expect(told(`${nine}reserves: ${reserves}\n`, 'racks.spare@main.digital_in')).toEqual([
      verdict,
      '9 of 12 channels are used',
    ]);
  });

  it('of channels that can be of several kinds goes to each until another kind uses it', () => {
    const text = `${rack('[either_20]')}points: { a: { kind: digital_in }, b: { kind: digital_out, current: 0.1 A, channel: main.4.1 } }\n`;
    expect(told(text, 'racks.spare@main.digital_in')).toEqual(['holds', '1 of 19 channels are used']);
  });
});

describe('what an output does when the controller is gone', () => {
  const own = '{ places: 1, draws: 1 mA, channels: [{ kinds: [digital_out], count: 2, terminals: 1, commons: 0 }] }';
  const text = (wanted: string) => `${rack(`[out_20, mixed_12_6, ${own}]`)}points:
  a_[1..2]: { kind: digital_out, fails_to: ${wanted} }
  b: { kind: digital_out, fails_to: ${wanted} }
  c: { kind: digital_out, fails_to: ${wanted} }
  d: { kind: digital_out }
planned: { points.a_1.channel: main.4.1, points.a_2.channel: main.4.2, points.b.channel: main.5.13, points.c.channel: main.6.1, points.d.channel: main.4.3 }
`;

  it.each([
    ['off', 'holds', 'holds'],
    ['hold', 'holds', 'fails'],
    ['on', 'fails', 'fails'],
  ])('%s is what its module states, or not, or nobody knows', (wanted, first, second) => {
    expect(told(text(wanted), 'racks.fails_to@a_1')).toEqual([
      first,
      `it shall go to ${wanted}, and its module states off, hold; the same of 1 point more`,
    ]);
    expect(told(text(wanted), 'racks.fails_to@b')?.[0]).toBe(second);
    expect(told(text(wanted), 'racks.fails_to@c')?.[0]).toBe('unknown');
    expect(told(text(wanted), 'racks.fails_to@a_2')).toBeUndefined();
    expect(told(text(wanted), 'racks.fails_to@d')).toBeUndefined();
  });
});

describe('which channel a point sits on', () => {
  const point = 'points: { a: { kind: digital_in, channel: main.4.1 } }\n';

  it.each([
    ['power: open, modules: [in_12]', 'racks.main.power is open: a part of kind power, such as power_ac'],
    ['power: power_ac, modules: open', 'racks.main.modules is open: a list, such as [ … ]'],
    [
      'power: power_ac, modules: [{ part: in_12, places: unknown }, in_12]',
      'racks.main.modules.0.places is unknown: a plain number, such as 1',
    ],
  ])('is not known where %s', (said, why) => {
    const at = said.includes('unknown') ? point.replace('4.1', '5.1') : point;
    const text = `controller: controller_m\nracks: { main: { rack: rack_7, ${said} } }\n${at}`;
    expect(told(text, 'racks.suits@main')).toEqual(['unknown', why]);
    const assessment = assessed(text);
    const [view] = show(assessment, 'points.a');
    expect(view!.says[0]).toMatch(
      /^a, digital input, sits on channel main\.[45]\.1, and it is not known what stands there\.$/,
    );
    const points = show(assessment, 'racks')[0]!
      .later.find(({ name }) => name === 'points')!
      .make();
    expect(points.rows[0]!.at(-1)).toBe('it is not known what stands there');
  });

  it('is wrong where there is no such rack, whatever is open', () => {
    const text = `${rack('open')}${point.replace('main.4.1', 'main/2.4.1')}`;
    expect(told(text, 'racks.suits@main')).toEqual(['fails', 'there is no channel main/2.4.1 for a']);
  });

  it('cannot be together with one at another place', () => {
    const text = `controller: controller_m
networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, far, 5 m, solid]], nodes: { far: rack_head } } }
racks: { main: { rack: rack_4, power: power_ac, modules: [in_12] }, far: { rack: rack_4, power: power_dc, modules: [in_12] } }
points:
  a: { kind: digital_in, channel: main.4.1, together: team }
  b: { kind: digital_in, at: far, channel: far.3.1, together: team }
`;
    expect(told(text, 'racks.suits@main')).toEqual(['fails', 'a and b, which is at far, shall be together']);
    expect(told(text, 'racks.suits@far')).toEqual(['fails', 'b and a, which is at main, shall be together']);
  });
});

describe('a rack', () => {
  it('takes supply, controller and modules, and bears what they draw', () => {
    const text = rack('[in_12, count_6]');
    expect(told(text, 'racks.places@main')).toEqual(['holds', '6 of 7 places are taken']);
    expect(told(text, 'racks.supply@main')).toEqual(['holds', 'the modules draw 720 mA, the supply gives 2.6 A']);
  });

  it('that is too narrow fails', () => {
    expect(told(rack('[in_12, in_12, in_12, in_12, in_12]'), 'racks.places@main')?.[0]).toBe('fails');
  });

  it.each([
    ['{ kind: ac, lowest: 207 V, highest: 253 V }', 'holds'],
    ['{ kind: ac, lowest: 80 V, highest: 253 V }', 'fails'],
    ['{ kind: dc, lowest: 100 V, highest: 130 V }', 'fails'],
  ])('fed with %s %s', (feed, verdict) => {
    expect(told(rack('[in_12]', `, feed: ${feed}`), 'racks.feed@main')?.[0]).toBe(verdict);
  });

  it('joined to another has an extender beside it', () => {
    const text = rack(
      '[in_12]',
      ', extender: extender_4, further: [{ rack: rack_4, power: power_ac, modules: [in_12, in_12] }]',
    );
    expect(told(text, 'racks.extender@main')).toEqual(['holds', '2 racks are joined, 4 can be']);
    expect(told(text, 'racks.places@main')).toEqual(['holds', '5 of 7 places are taken']);
    expect(told(text, 'racks.places@main/2')).toEqual(['holds', expect.stringContaining('4 of 4 places are taken')]);
    // The joint stands in the last place, so that no module moves when racks are joined.
    const points =
      'points: { a: { kind: digital_in, channel: main.4.1 }, b: { kind: digital_in, channel: main/2.2.1 } }\n';
    expect(told(text + points, 'racks.suits@main')).toEqual(['holds', 'each of 2 does']);
  });
});

describe('a remote rack', () => {
  const text = (modules: string) => `controller: controller_m
networks:
  io:
    profile: polled_100
    cycle: 1 ms
    runs: [[controller, rack_o, 5 m, solid]]
    nodes: { rack_o: rack_head }
racks: { rack_o: { rack: rack_7, power: power_dc, modules: ${modules} } }
points: { a: { kind: digital_in, at: rack_o, update: 1 ms } }
`;

  it('hands the data of its modules to the network', () => {
    const { networks } = assessed(text('[in_12, in_20, out_12]'));
    const device = networks[0]!.network.devices.find(({ name }) => name === 'rack_o')!;
    expect(device.answer).toBeInstanceOf(Quantity);
    expect((device.answer as Quantity).value).toBe(6 * 8);
    expect((device.command as Quantity).value).toBe(2 * 8);
  });

  it('is asked whether its points are looked at often enough', () => {
    expect(told(text('[in_12]'), 'racks.update@a')?.[0]).toBe('holds');
    expect(told(text('[in_12]').replace('cycle: 1 ms', 'cycle: 2 ms'), 'racks.update@a')?.[0]).toBe('fails');
  });
});

it('a chain has the filter of the channel that its point sits on', () => {
  const text = (point: string) =>
    `${rack('[in_12, out_12]')}points: { a: { kind: digital_in, delay: 1 ms, channel: main.4.1${point} }, b: { kind: digital_out, delay: 1 ms, channel: main.5.1 } }
chains: { c: { from: a, through: [{ every: 10 ms, takes: 1 ms }], to: b, within: 1 s } }
`;
  expect(told(text(''), 'timing.chain@c')?.[1]).toContain('16 ms');
  expect(told(text(', filter: 5 ms'), 'timing.chain@c')?.[1]).toContain('18 ms');
});

describe('the filter of an input whose pulses a task counts', () => {
  const text = (point: string, more = '') =>
    `${rack('[in_12]')}tasks: { scan: { every: 1 ms, takes: 100 µs, priority: 1 } }
points: { wheel: { kind: digital_in, channel: main.4.1, ${point} } }
${more}`;
  it('is held against the shorter one of the times that they are on and off, where no shortest signal is said', () => {
    const by = (point: string) => told(text(point), 'racks.filter@wheel');
    expect(by('pulse_every: 10 ms')).toEqual(['holds', 'the filter waits 3 ms, the signal is there for 5 ms']);
    expect(by('pulse_every: 10 ms, pulse_on: 80 %')?.[0]).toBe('fails');
    expect(by('pulse_every: 25 mm, pulse_speed: 2.5 m/s, filter: 1 ms')?.[0]).toBe('holds');
    expect(by('pulse_every: 10 ms, pulse: 3.1 ms')).toEqual([
      'thin',
      'the filter waits 3 ms, the signal is there for 3.1 ms',
    ]);
    expect(by('pulse_every: 25 mm')?.[0]).toBe('unknown');
    const line = 'masters: { line: { speed: 2.5 m/s } }\n';
    expect(told(text('pulse_every: 25 mm', line), 'racks.filter@wheel')?.[0]).toBe('holds');
    expect(told(text('pulse_every: 10 ms, pulse_on: 80 %'), 'racks.suits@main')?.[1]).toContain(
      'its filter of 3 ms is longer than the signal, 2 ms',
    );
  });
  it('is asked of each, since what follows stands nowhere in the file', () => {
    const two = text('pulse_every: 10 ms }, disc: { kind: digital_in, channel: main.4.2, pulse_every: 7 ms');
    const asked = findings(two).filter(({ check }) => check === 'racks.filter');
    expect(asked.map(({ subject, says }) => [subject, says]).sort()).toEqual([
      ['disc', 'the filter waits 3 ms, the signal is there for 3.5 ms'],
      ['wheel', 'the filter waits 3 ms, the signal is there for 5 ms'],
    ]);
  });
  it('has its working, and is no value to move', () => {
    const assessment = assessed(text('pulse_every: 10 ms, pulse_on: 40 %'));
    const [view] = show(assessment, 'points.wheel');
    expect(view!.inputs.map(({ path }) => path)).toEqual([]);
    for (const quantity of quantitiesIn(view!)) expect(explain(assessment, addressOf(quantity))).toBeDefined();
    expect(explain(assessment, 'timing.pulse.phase@wheel')?.text).toBe('4 ms');
  });
});

it('a name that a range stands for may not stand there again', () => {
  const { design } = assessed('points:\n  a_[1..3]: { kind: digital_in }\n  a_2: { kind: digital_out }\n');
  expect(design.problems.map(({ code, place, message }) => [code, place.line, message])).toEqual([
    ['key-twice', 6, "'a_2' stands here already, a range stands for it"],
  ]);
});

it('racks under a name that is no station are a problem, or wait for a network', () => {
  const racks = 'controller: controller_m\nracks: { rack_p: { rack: rack_7, power: power_dc, modules: [in_12] } }\n';
  const network =
    'networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, rack_o, 5 m, solid]], nodes: { rack_o: rack_head } } }\n';
  expect(assessed(racks + network).design.problems.map(({ code, path, remedy }) => [code, path, remedy])).toEqual([
    ['name-unknown', 'racks.rack_p', "Did you mean 'rack_o'?"],
  ]);
  expect(told(racks, 'racks.places@rack_p')).toEqual([
    'unknown',
    'networks is not given: a network with the station rack_p, such as runs that lead to it',
  ]);
});

it('racks that are all open are unknown, and say so', () => {
  expect(
    told('controller: controller_m\nracks: open\npoints: { a: { kind: digital_in } }\n', 'racks.placed@main'),
  ).toEqual(['unknown', 'racks.main is open: racks with their modules, such as rack, power, modules']);
});

it('planned racks and channels are taken where the file leaves them open', () => {
  const text = `controller: controller_m
racks: open
points: { a: { kind: digital_in }, b: { kind: digital_in, channel: open } }
planned:
  racks: { main: { rack: rack_4, power: power_ac, modules: [in_12] } }
  points.a.channel: main.4.1
  points.b.channel: main.4.2
`;
  expect(told(text, 'racks.placed@main')).toEqual(['holds', 'each of 2 has one']);
  expect(told(text, 'racks.suits@main')).toEqual(['holds', 'each of 2 does']);
});
