// What layshaft explain prints for every kind of address, and that each value says where it comes from.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bench, layshaft } from './fake-io.ts';

const explain = (address: string, text = bench('100 µs'), world = {}) =>
  layshaft(`explain m.yaml ${address}`, { files: { 'm.yaml': text, ...world } });
const printed = async (...of: Parameters<typeof explain>): Promise<string> => {
  const { status, out, err } = await explain(...of);
  expect([status, err]).toEqual([0, '']);
  return out;
};

describe('the working', () => {
  it('goes level by level down to what is given', async () => {
    expect(await printed('networks.path.delay@line.one')).toBe(`\
first bit of a frame between the controller and the station
                                                    networks.path.delay@line.one
  = sum(c) + sum(f)
  = sum(50 ns) + sum()
  = 50 ns
    c  50 ns  propagation along each cable on the way
              networks.run.delay@line.controller_one, below
    f  none   time in which each device between passes the frame on
    Formula: by definition. Proven by: arrival walked hop by hop.

propagation along a cable                 networks.run.delay@line.controller_one
  = l·t
  = 10 m·(5 ns/m)
  = 50 ns
    l  10 m    length of the cable
               networks.line.runs.controller_one.length, given at m.yaml:19:30
    t  5 ns/m  propagation time per metre
               networks.line.runs.controller_one.cable.delay, given at
               m.yaml:19:38
    Formula: IEEE Std 802.3, 802.3u-1995 delay budget. Proven by: E6.

Findings that rest on it:
  networks.cycle@line
`);
  });

  it('of a finding begins with the finding, its reserve and its margin', async () => {
    expect((await printed('networks.cycle@line')).split('\n\n').slice(0, 2).join('\n\n')).toBe(`\
Cycle  line               ├────────░░░░░░▼░░░░░┃      55.5 %  holds
    44.52 µs of 100 µs are spoken for             networks.cycle@line
    44.5 % of the capacity is needed; up to 75 % keeps the wanted reserve.
    Reserve 25 %: reserves.networks.cycle, given at m.yaml:3:13.

margin                                                margin@networks.cycle@line
  = (C − D) / C
  = (100 µs − 44.52 µs) / 100 µs
  = 55.5 %
    C  100 µs    capacity: what is there
                 networks.line.cycle, given at m.yaml:16:5
    D  44.52 µs  demand: what is needed
                 networks.cycle.used@line, below
    Formula: by definition. Proven by: margin by hand.`);
  });

  it('shows each number once, and no value that it does not trace', async () => {
    const out = await printed('networks.cycle@line --all');
    const sections = out
      .split('\n\n')
      .slice(1)
      .map((each) => /(\S+@\S+)$/m.exec(each)?.[1]);
    expect(new Set(sections).size).toBe(sections.length);
    for (const [, below] of out.matchAll(/(\S+@\S+), below/g)) expect(sections).toContain(below);
    expect(out).toContain('below');
  });

  it('of a yes or no is the value that the answer is about', async () => {
    expect(await printed('networks.offered@line')).toBe(`\
Cycle offered  line                            ┃              holds
    the controller offers 100 µs                networks.offered@line
    Answered by yes or no, without a margin.

networks.line.cycle = 100 µs
  given at m.yaml:16:5
`);
  });

  it('of an unknown says what is missing, where it belongs, and what is known', async () => {
    const text = bench('100 µs').replace(', command: 24 octets', '');
    expect(await printed('networks.frame@line', text)).toBe(`\
Largest payload  line     ├╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌┃           ?  unknown
    axes.one.drive.command is not given: a data size, such as 24 octets
                                                  networks.frame@line

axes.one.drive.command is not given: a data size, such as 24 octets. It belongs
to axes.one.drive, m.yaml:5:10.

What is known of it:

payload that the longest frame can carry            networks.frame.capacity@line
  = M − h
  = 1518 octets − 28 octets
  = 1490 octets
    M  1518 octets  longest frame
                    networks.line.profile.frame_at_most, given at m.yaml:12:34
    h  28 octets    what it carries beside the payload
                    networks.line.profile.overhead, given at m.yaml:12:62
    Formula: by definition. Proven by: F1.
`);
  });

  it('of an open cycle begins with the shortest that will do', async () => {
    const out = await printed('networks.cycle@line', bench('open'));
    expect(out).toContain('What is known of it:\n\nshortest cycle that keeps the reserve');
    expect(out).toContain('  = max(44.52 µs / (1 − 25 %), 10 µs)\n  = 59.36 µs\n');
    expect(await printed('networks.cycle.shortest_allowed@line', bench('open'))).toContain('  = 59.36 µs\n');
  });

  /** The bench with more axes behind the first one, in a line. */
  const longer = (axes: string, names: readonly string[]): string =>
    bench('1 ms')
      .replace(/ {2}one: .*/, (one) => `${one}\n${axes}`)
      .replace(
        '0.25 dB/m }]]',
        `0.25 dB/m }], ${names
          .map((name, at) => `[${names[at - 1] ?? 'one'}, ${name}, 1 m, { delay: 5 ns/m, attenuation: 0.25 dB/m }]`)
          .join(', ')}]`,
      );

  it('names each exchange once that takes place in several cycles, and shows the one that is taken', async () => {
    const axes = `  x_[2..6]: { like: one, drive: { every: 2 cycles } }\n  x_4_slow: { like: one, drive: { turnaround: 9 µs } }`;
    const out = await printed(
      'networks.cycle.repeats@line',
      longer(axes, ['x_2', 'x_3', 'x_4_slow', 'x_4', 'x_5', 'x_6']),
    );
    expect(out).toMatch(/= 1·max\(15\.54 µs, 24\.97 µs, …, 18\.78 µs\)\n {2}= 24\.97 µs/);
    expect(out).toMatch(/repeated, of any cycle, 7 in all/);
    expect(out.match(/^ +[\d.]+ µs +networks\.exchange\.turn@line\.one$/gm)).toHaveLength(1);
  });

  it('shows a list whole of which one value would be left out', async () => {
    const axes = '  x_2: { like: one }\n  x_3: { like: one, drive: { turnaround: 9 µs } }\n  x_[4..5]: { like: one }';
    const out = await printed('networks.polled.exchanges@line', longer(axes, ['x_2', 'x_3', 'x_4', 'x_5']));
    for (const name of ['one', 'x_2', 'x_3', 'x_4', 'x_5'])
      expect(out).toMatch(new RegExp(`^ +[\\d.]+ µs +networks\\.exchange\\.turn@line\\.${name}`, 'm'));
  });

  it('follows the value that decides: the smallest of a minimum, and what brakes where that is the most', async () => {
    const labeller = readFileSync('examples/labeller/machine.yaml', 'utf8');
    const slowest = await printed('timing.rate.slowest@label_feed', labeller);
    expect(slowest).toMatch(/cycle_in_time@label_feed\.behind_chain,\s+below,\s+the\s+smallest/);
    const braking = `layshaft: 1
axes:
  b:
    motion: { cycle: 2 s, steps: [{ move: 0.3 m, speed: 1 m/s, acceleration: 2 m/s², deceleration: 9 m/s² }, { dwell: rest }] }
    train: [{ slide: { mass: 5 kg, friction: 0.1 } }, { belt: { diameter: 80 mm, wheel_mass: 0.1 kg } }]
`;
    const peak = await printed('axes.cycle.peak_torque@b.cycle', braking);
    expect(peak).toMatch(/axes\.load\.total_torque@b\.cycle\.1_down,\s+below,\s+the\s+smallest/);
  });

  it('shows the ends and the largest of a long list, and all of it when asked', async () => {
    const axes = bench('1 ms')
      .replace(/ {2}one: .*/, (one) => `${one}\n  x_[2..6]: { like: one }`)
      .replace(
        '0.25 dB/m }]]',
        '0.25 dB/m }], [one, x_2, 1 m, c], [x_2, x_3, 1 m, c], [x_3, x_4, 1 m, c], [x_4, x_5, 1 m, c], [x_5, x_6, 1 m, c]]',
      )
      .replaceAll(' c]', ' { delay: 5 ns/m, attenuation: 0.25 dB/m }]');
    const short = await printed('networks.polled.exchanges@line', axes);
    expect(short).toContain('2 more, shown with --all');
    expect(short).toContain('networks.exchange.turn@line.x_6, below, the largest');
    const whole = await printed('networks.polled.exchanges@line --all', axes);
    expect(whole).not.toContain('more, shown');
    for (const name of ['one', 'x_2', 'x_3', 'x_4', 'x_5', 'x_6'])
      expect(whole).toContain(`networks.exchange.turn@line.${name}, below`);
  });
});

describe('where a value comes from', () => {
  const drive =
    'turnaround: 2 µs, forwarding: 400 ns, waits: 0 octets, command: 24 octets, answer: 24 octets, plugs: 2';
  const part = (axes: string, more = ''): string => `layshaft: 1
${more}axes:
${axes}
controller: controller_m
networks:
  line:
    port: 1
    profile: polled_100
    cycle: open
    repeats: open
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, solid]]
set: [{ path: axes.*.cycle_at_most, value: 2 ms }]
planned: { networks.line.cycle: 1 ms }
`;
  it.each([
    ['given', `  one: { drive: { ${drive} } }`, 'given at m.yaml:3:19'],
    ['by like', `  one: { like: zero }\n  zero: { drive: { ${drive} } }`, 'given at m.yaml:4:20, by like zero'],
    ['by a range', `  on[1..2]e: { drive: { ${drive} } }\n  one: { like: on2e }`, 'by like on2e, range on[1..2]e'],
    [
      'by a part',
      '  one: { drive: drive_5 }',
      'part drive_5: demonstration data; usually 2.1 µs; holds for: 0 to 50 °C, any load',
    ],
    [
      'by like and a part',
      '  one: { like: zero }\n  zero: { drive: drive_5 }',
      'like zero, part drive_5: demonstration',
    ],
    [
      'a measurement',
      '  one: { drive: { part: drive_5, turnaround: { measured: 2 µs, date: 2026-11-03, count: 500 } } }',
      'measured 2026-11-03, 500 times; given at m.yaml:3:48',
    ],
  ])('is said of a value that is %s', async (_what, axes, origin) => {
    const { out } = await explain('axes.one.drive.turnaround', part(axes));
    expect(out.replace(/\s+/g, ' ')).toContain(origin);
  });

  it('is said with its line of every entry of a range', async () => {
    const range = part(`  x_[1..2]: { drive: { ${drive} } }`).replace('one, 10 m, solid]', 'x_2, 10 m, solid]');
    const { out } = await explain('axes.x_2.drive.turnaround', range);
    expect(out).toContain('given at m.yaml:3:24, by range x_[1..2]');
  });

  it.each([
    ['a setting', 'axes.one.cycle_at_most', 'given at m.yaml:13:37, by set[0]'],
    ['the planner', 'networks.line.cycle', 'chosen by the planner at m.yaml:14:12'],
    ['a default', 'reserves.networks.cycle', 'assumed, our judgement: room for a station or two that is added later'],
  ])('is said of what %s decides', async (_what, address, origin) => {
    const { out } = await explain(address, part('  one: { drive: drive_5 }'));
    expect(out).toContain(origin);
  });

  it('names the file of a catalogue of one’s own', async () => {
    const own = `layshaft_catalogue: 1\nsource: our data sheets\nparts: { ours: { kind: drive, ${drive} } }\n`;
    const text = part('  one: { drive: ours }', 'catalogue: [demonstration, own.yaml]\n');
    expect((await explain('axes.one.drive.turnaround', text, { 'own.yaml': own })).out).toContain(
      'part ours of own.yaml: our data sheets',
    );
  });
});

describe('an address', () => {
  it('that is the start of several lists them', async () => {
    expect(await printed('axes.one')).toBe(`\
axes.one.drive.forwarding  400 ns
axes.one.drive.waits       0 octets
axes.one.drive.turnaround  2 µs
axes.one.drive.command     24 octets
axes.one.drive.answer      24 octets
axes.one.drive.plugs       2
`);
  });

  it('that is the start of one is that one', async () => {
    const text = bench('100 µs').replace('plugs: 2 } }', 'plugs: 2 }, cycle_at_most: 1 ms }');
    expect(await printed('networks.update', text)).toBe(await printed('networks.update@one', text));
  });

  it('that stops within a name is the start of nothing', async () => {
    expect(await explain('networks.lin')).toMatchObject({ status: 2, out: '' });
  });

  it('of a reserve names the findings that keep it', async () => {
    expect(await printed('reserves.networks.kernel')).toBe(`\
reserves.networks.kernel = 20 %
  given at m.yaml:3:35

Findings that rest on it:
  networks.kernel@controller
`);
  });

  it('that begins very many lists the first of them, and all when asked', async () => {
    const short = await printed('networks');
    expect(short).toMatch(/^\d+ more, shown with --all\.$/m);
    const whole = await printed('networks --all');
    expect(whole.split('\n').length).toBeGreaterThan(short.split('\n').length);
    expect(whole).not.toContain('more, shown');
  });

  it('of a missing value names the findings that wait for it', async () => {
    expect(await printed('networks.line.cycle', bench('open'))).toBe(`\
networks.line.cycle is open: a time, such as 500 µs. See m.yaml:16:5.

Findings that wait for it:
  networks.cycle@line
  networks.kernel@controller
  networks.offered@line
`);
  });

  it('of words gives their place', async () => {
    expect(await printed('machine.name')).toBe('machine.name stands at m.yaml:2:12; no number rests on it.\n');
  });

  it('that means nothing is answered with near ones', async () => {
    const { status, out, err } = await explain('networks.cycle@lime');
    expect([status, out]).toEqual([2, '']);
    expect(err.split('\n').slice(0, 3)).toEqual([
      'm.yaml has nothing at the address networks.cycle@lime.',
      'Did you mean',
      '  networks.cycle@line',
    ]);
  });

  it('that is near to nothing is answered with where to find one', async () => {
    expect((await explain('something_else_altogether')).err).toBe(`\
m.yaml has nothing at the address something_else_altogether.
Take an address from the right of what layshaft check prints.
`);
  });
});

describe('a file with problems', () => {
  it('is explained all the same; the status says so, and the problem stands at what it spoils', async () => {
    const { status, out, err } = await explain('networks.line.cycle', bench('0 µs'));
    expect({ status, err }).toEqual({ status: 2, err: 'm.yaml has 1 problem; layshaft check shows what and where.\n' });
    expect(out).toContain('m.yaml:16:12  0 µs cannot be: cycle is larger than nothing  [out-of-range]');
  });

  it('of a measurement with a wrong date shows what a date looks like', async () => {
    const text = bench('100 µs', 'turnaround: { measured: 2 µs, date: 3 Nov 2026, count: 500 }');
    for (const address of ['axes.one.drive.turnaround', 'axes.one.drive.turnaround.date', 'networks.cycle@line']) {
      const { out } = await explain(address, text);
      expect(out, address).toContain("'3 Nov 2026' cannot be read as a date");
      expect(out, address).toContain('    Write year-month-day, such as 2026-11-03.\n');
    }
  });

  it('may be why an address means nothing', async () => {
    expect((await explain('something_else_altogether', bench('0 µs'))).err).toContain(
      '\nm.yaml has 1 problem, which may be why; layshaft check shows them.\n',
    );
  });
});

describe('as data', () => {
  it('has each number once, with the addresses of what went into it', async () => {
    const { out } = await explain('networks.cycle@line --json');
    const { working, ...rest } = JSON.parse(out);
    expect(rest).toMatchObject({
      layshaft_explanation: 1,
      address: 'networks.cycle@line',
      kind: 'finding',
      finding: { verdict: 'holds' },
    });
    const addresses: string[] = working.map((each: { address: string }) => each.address);
    expect(addresses[0]).toBe('margin@networks.cycle@line');
    expect(new Set(addresses).size).toBe(addresses.length);
    const used: string[] = working.flatMap((each: { step?: { inputs: { from: string[] }[] } }) =>
      (each.step?.inputs ?? []).flatMap(({ from }) => from),
    );
    expect(used.filter((each) => !addresses.includes(each))).toEqual([]);
  });

  it('has the origin of a value', async () => {
    const { out } = await explain('axes.one.drive.turnaround --json');
    expect(JSON.parse(out)).toMatchObject({
      kind: 'number',
      working: [{ origin: { kind: 'given', writtenAt: 'axes.one.drive.turnaround', written: '2 µs', via: [] } }],
      findings: ['networks.cycle@line'],
    });
  });
});
