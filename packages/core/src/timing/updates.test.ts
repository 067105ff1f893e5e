// The update rate that an axis needs, from whole files, against its motion walked setpoint by setpoint.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { numbersOf } from '../assess/numbers.ts';
import { numberShown, show } from '../assess/show.ts';
import { stateAt } from '../axes/calc/segment.ts';
import { motionOf } from '../axes/phase.ts';
import { quantitiesIn } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';

const fileOf = (axis: string, cycle = '2 ms'): string => `layshaft: 1
catalogue: [demonstration]
controller: controller_m
axes:
  a: { drive: drive_5, ${axis} }
networks:
  n: { port: 1, profile: polled_100, cycle: ${cycle}, repeats: 0, non_cyclic: 0 octets, runs: [[controller, a, 2 m, solid]] }
`;
const assessed = (text: string) => {
  const design = resolve(read(text), [demonstration()]);
  expect(design.problems).toEqual([]);
  return assess(design);
};
const moves =
  'motion: { cycle: 1 s, steps: [{ move: 200 mm, in: 400 ms, law: modified_sine }, { dwell: rest }] }, train: [{ slide: { mass: 5 kg } }]';
const findingIn = (text: string) => assessed(text).findings.find(({ address }) => address === 'timing.update@a');

describe('the needed update', () => {
  it('is the period at which straight lines between setpoints leave the motion by the tolerance', () => {
    const { capacity } = findingIn(fileOf(`${moves}, tolerance: 0.05 mm`))!;
    const { motion } = assessed(fileOf(moves)).axes[0]!;
    if (motion instanceof Missing) throw new Error('no motion');
    const course = motionOf(motion.phases[0]!);
    const T = capacity!.value;
    const at = (t: number): number => stateAt(course, t).position;
    let most = 0;
    for (let phase = 0; phase < 40; phase++)
      for (let t = (phase / 40) * T; t + T < 0.4; t += T)
        for (let part = 0.3; part < 0.71; part += 0.1)
          most = Math.max(most, Math.abs(at(t) + part * (at(t + T) - at(t)) - at(t + part * T)));
    expect(most / 0.05e-3).toBeLessThan(1.0001);
    expect(most / 0.05e-3).toBeGreaterThan(0.97);
  });

  it('of a loop over the network is that of its gain: dead time of 2.5 periods with 60° left', () => {
    // f = k/2π; (90° − 60°)/360° = f·2.5·T, so T = 2π/(12·2.5·k).
    const { capacity, says } = findingIn(fileOf(`${moves}, gain: 50 1/s, loop: controller`))!;
    expect(capacity!.value).toBeCloseTo((2 * Math.PI) / (12 * 2.5 * 50), 12);
    expect(says).toContain('the loop that closes over the network');
  });

  it('takes the stricter of both, and fails where the network is slower', () => {
    const text = (gain: number) => fileOf(`${moves}, tolerance: 0.05 mm, gain: ${gain} 1/s, loop: controller`, '5 ms');
    expect(findingIn(text(10))!.says).toContain('straight lines between setpoints');
    expect(findingIn(text(200))!.says).toContain('the loop that closes over the network');
    expect(findingIn(text(200))!.verdict).toBe('fails');
  });

  it('is not asked of an axis at constant speed, nor of one that says nothing to keep to; a tolerance must fit', () => {
    const steady = 'motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }, train: [{ inertia: 2 kg·cm² }]';
    expect(findingIn(fileOf(`${steady}, tolerance: 0.1°`))).toBeUndefined();
    expect(findingIn(fileOf(moves))).toBeUndefined();
    const { verdict, lacks } = findingIn(fileOf(`${moves}, tolerance: 0.1°`))!;
    expect(verdict).toBe('unknown');
    expect(lacks[0]!.path).toBe('axes.a.tolerance');
  });
});

describe('reasons beside straight lines', () => {
  const [k, v] = ['gain: 40 1/s', 'runs: { speed: 5 m/s, for: 1 s }'];
  const along = 'train: [{ slide: { mass: 5 kg } }]';
  /** Two axes of a line on one network. */
  const pair = (a: string, b: string): string => `layshaft: 1
catalogue: [demonstration]
controller: controller_m
masters: { line: { speed: 5 m/s, repeat: 1 m, ramp_up: 2 s } }
axes:
  a: { drive: drive_5, motion: { follow: line, gear: [1, 1] }, ${along}, tolerance: 1 mm, agrees_with: [b], ${a} }
  b: { drive: drive_5, motion: { follow: line, gear: [1, 1] }, ${along}, ${b} }
networks:
  n: { port: 1, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, runs: [[controller, a, 2 m, solid], [a, b, 50 m, solid]] }
`;
  const reasonIn = (text: string, title: string) => {
    const { reasons } = assessed(text).timing.updates.find(({ axis }) => axis.name === 'a')!;
    const found = reasons.find((reason) => reason.title.startsWith(title));
    if (found === undefined) throw new Error(`only ${reasons.map((reason) => reason.title)}`);
    return found;
  };
  const costs = (text: string, title: string): number => {
    const { costs: found } = reasonIn(text, title);
    if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
    return found.value;
  };
  const part = (text: string, title: string): number => {
    const found = reasonIn(text, 'agreement').parts.find((each) => each.title === title)!.costs;
    if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
    return found.value;
  };

  it('question 2: of 2 ms and 200 µs the smoothness gains a hundredfold, bandwidth and lag tenfold, jitter nothing', () => {
    const text = (cycle: string) =>
      fileOf(`${moves}, tolerance: 5 mm, gain: 20 1/s, loop: controller`, cycle).replace(
        'drive: drive_5',
        'drive: { part: drive_5, setpoints: own_clock, setpoint_jitter: 20 µs, setpoint_cycles: 0 cycles }',
      );
    const ratio = (title: string): number => costs(text('2 ms'), title) / costs(text('200 µs'), title);
    expect(ratio('straight lines')).toBeCloseTo(100, 6);
    expect(ratio('the loop')).toBeCloseTo(0.1, 6);
    // v·(T + j): the period of the clock and, the same in both, the jitter.
    expect(ratio('jitter')).toBeCloseTo(2020 / 220, 6);
  });

  it('question 21: 50 µs of jitter at 5 m/s cost 0.25 mm, and a clock of its own a period more', () => {
    const jittery = (setpoints: string): string =>
      fileOf(`motion: { cycle: 1 s, ${v} }, ${along}, tolerance: 1 mm`, '100 µs').replace(
        'drive: drive_5',
        `drive: { part: drive_5, setpoint_jitter: 50 µs, setpoints: ${setpoints} }`,
      );
    expect(costs(jittery('in_step'), 'jitter')).toBeCloseTo(0.25e-3, 12);
    expect(reasonIn(jittery('in_step'), 'jitter').slowest).toBe('any');
    expect(costs(jittery('own_clock'), 'jitter')).toBeCloseTo(0.75e-3, 12);
    expect(findingIn(jittery('own_clock'))!.capacity!.value).toBeCloseTo(1e-3 / 5 - 50e-6, 12);
    const over = jittery('in_step').replace('tolerance: 1 mm', 'tolerance: 0.2 mm');
    const { verdict, capacity, says } = findingIn(over)!;
    expect(verdict).toBe('fails');
    expect(capacity!.value).toBeCloseTo(0.2e-3 / 5 - 50e-6, 12);
    expect(says).toContain('are left by jitter of the setpoints');
  });

  it('question 18: a drive in step with two buffers follows three periods after the command, on arrival two', () => {
    const waits = (setpoints: string): number => {
      const drive = `drive: { part: drive_5, setpoint_cycles: 2 cycles, setpoints: ${setpoints} }`;
      const [update] = assessed(pair(k, k).replace('drive: drive_5', drive)).timing.updates;
      if (update!.waits instanceof Missing) throw new Error('not known');
      return update!.waits.value;
    };
    expect([waits('in_step'), waits('on_arrival')]).toEqual([3, 2]);
  });

  it('question 21: where each setpoint is held, jitter asks for J·ω·j/T² of torque, sixteenfold in a quarter of the cycle', () => {
    const text = (cycle: string): string =>
      fileOf(
        `motion: { cycle: 1 s, runs: { speed: 600 rpm, for: 1 s } }, train: [{ inertia: 2 kg·cm² }], motor: { inertia: 1 kg·cm² }, tolerance: 10°`,
        cycle,
      ).replace('drive: drive_5', 'drive: { part: drive_5, interpolates: none, setpoint_jitter: 20 µs }');
    const torque = (cycle: string): number => {
      const found = reasonIn(text(cycle), 'jitter').parts.find(({ title }) => title.startsWith('torque'))!.costs;
      if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
      return found.value;
    };
    // The speed of the shaft is 62.8 rad/s.
    expect(torque('2 ms')).toBeCloseTo((3e-4 * 20 * Math.PI * 20e-6) / 4e-6, 9);
    expect(torque('500 µs') / torque('2 ms')).toBeCloseTo(16, 9);
    expect(reasonIn(text('2 ms').replace('none', 'linear'), 'jitter').parts).toEqual([]);
  });

  it('question 17: a cycle more in one drive is 5 mm at 5 m/s and 1 ms', () => {
    const buffers = (n: number): string => `drive: { part: drive_5, setpoint_cycles: ${n} cycles }`;
    const text = pair(k, k).replace('drive: drive_5', buffers(2)).replace('drive: drive_5', buffers(1));
    expect(part(text, 'periods in which setpoints wait')).toBeCloseTo(5e-3, 12);
    const { capacity } = findingIn(text)!;
    // 1 mm at 5 m/s is 200 µs, of which the jitter of both takes 2 µs.
    expect(capacity!.value).toBeCloseTo((200e-6 - 2e-6) / 1, 12);
  });

  it('two loops with gains of 40 and 50 are 25 mm apart at 5 m/s, whatever the cycle', () => {
    const text = pair(k, 'gain: 50 1/s');
    expect(part(text, 'gains of the position loops')).toBeCloseTo(5 * (1 / 40 - 1 / 50), 12);
    expect(findingIn(text)!.says).toContain('are left by agreement with b');
    const fed = pair(`${k}, feed_forward: 98 %`, 'gain: 50 1/s, feed_forward: 98 %');
    expect(part(fed, 'gains of the position loops')).toBeCloseTo(0.02 * 25e-3, 12);
    expect(findingIn(fed)).toBeUndefined();
  });

  it('setpoints on arrival part by the cable and the station between them, and by nothing in step', () => {
    const drive = 'drive: { part: drive_5, setpoints: on_arrival, setpoint_jitter: 0 µs, setpoint_cycles: 0 cycles }';
    const text = pair(k, k).replaceAll('drive: drive_5', drive);
    const [network] = assessed(text).networks;
    const there = network!.exchanges.map(({ there: each }) => (each as { value: number }).value);
    expect(there[1]! - there[0]!).toBeGreaterThan(250e-9);
    expect(part(text, 'arrival of the commands')).toBeCloseTo(5 * (there[1]! - there[0]!), 12);
    expect(costs(text, 'agreement')).toBeCloseTo(5 * (there[1]! - there[0]!), 12);
    expect(reasonIn(pair(k, k), 'agreement').parts.map(({ title }) => title)).not.toContain('arrival of the commands');
  });

  it('agreement lacks gains and buffers by their paths, and asks for one master', () => {
    const lacks = (text: string) => findingIn(text)!.lacks.map(({ path }) => path);
    expect(lacks(pair(k, 'inertia_ratio_at_most: 10'))).toEqual(['axes.b.gain']);
    const [one, two] = ['drive_5', 'drive_20'].map((part) => `drive: { part: ${part}, setpoint_cycles: unknown }`);
    const unlike = pair(k, k).replace('drive: drive_5', one!).replace('drive: drive_5', two!);
    expect(lacks(unlike)).toEqual(['axes.a.drive.setpoint_cycles', 'axes.b.drive.setpoint_cycles']);
    const apart = pair(k, k).replace('motion: { follow: line, gear: [1, 1] }', `motion: { cycle: 1 s, ${v} }`);
    expect(lacks(apart)).toEqual(['axes.a.agrees_with']);
  });

  it('behind a master that is counted: sample, filter and three periods, or half the ramp times their square', () => {
    const counted = (lead: string, drive: string): string =>
      pair(k, k)
        .replace(
          'ramp_up: 2 s',
          `ramp_up: 2 s, encoder: { lines: 2500, counted: 4, way: 200 mm, sample: 1 ms, filter: 4 ms, frequency_at_most: 250 kHz${lead} }`,
        )
        .replace('drive: drive_5', `drive: { part: drive_5, ${drive} }`);
    const t = 1e-3 + 4e-3 + 3 * 1e-3;
    const inStep = 'setpoint_cycles: 1 cycle';
    expect(costs(counted('', inStep), 'lag behind the encoder of line')).toBeCloseTo(5 * t, 12);
    expect(costs(counted(', lead: speed', inStep), 'lag behind the encoder')).toBeCloseTo((2.5 * t ** 2) / 2, 12);
    const { slowest } = reasonIn(counted(', lead: speed', inStep), 'lag behind the encoder');
    if (slowest === 'any' || slowest instanceof Missing) throw new Error('no period');
    // The master walked up its ramp, and seen so late, with its speed carried on: just the tolerance is left.
    const late = 5e-3 + 3 * slowest.value;
    const [x, u] = [(now: number) => (2.5 * now ** 2) / 2, (now: number) => 2.5 * now];
    expect(x(1) - (x(1 - late) + u(1 - late) * late)).toBeCloseTo(1e-3, 12);
  });

  it('cubic curves leave a motion by the tolerance where its jerk turns, walked setpoint by setpoint', () => {
    const smooth = moves.replace(
      'in: 400 ms, law: modified_sine',
      'speed: 5 m/s, acceleration: 100 m/s², jerk: 400 m/s³',
    );
    const axis = (interpolates: string, motion = smooth): string =>
      fileOf(`${motion}, tolerance: 0.05 mm`).replace(
        'drive: drive_5',
        `drive: { part: drive_5, interpolates: ${interpolates} }`,
      );
    const { motion } = assessed(fileOf(smooth)).axes[0]!;
    if (motion instanceof Missing) throw new Error('no motion');
    const course = motionOf(motion.phases[0]!);
    const T = findingIn(axis('cubic'))!.capacity!.value;
    expect(T).toBeGreaterThan(1.5 * findingIn(axis('linear'))!.capacity!.value);
    let most = 0;
    for (let start = 0; start + T < course.at(-1)!.start_s; start += T / 200)
      for (let u = 0.3; u < 0.71; u += 0.05) {
        const [from, to] = [stateAt(course, start), stateAt(course, start + T)];
        const curve =
          (1 + 2 * u) * (1 - u) ** 2 * from.position +
          u * (1 - u) ** 2 * T * from.velocity +
          u ** 2 * (3 - 2 * u) * to.position +
          u ** 2 * (u - 1) * T * to.velocity;
        most = Math.max(most, Math.abs(curve - stateAt(course, start + u * T).position));
      }
    expect(most / 0.05e-3).toBeLessThan(1.0001);
    expect(most / 0.05e-3).toBeGreaterThan(0.97);
  });

  it('setpoints that are held err by the way of a cycle, and cubic curves of a motion that jumps by half of straight lines', () => {
    const axis = (interpolates: string, motion: string): number =>
      findingIn(
        fileOf(`${motion}, tolerance: 0.05 mm`).replace(
          'drive: drive_5',
          `drive: { part: drive_5, interpolates: ${interpolates} }`,
        ),
      )!.capacity!.value;
    expect(axis('none', moves)).toBeCloseTo(0.05e-3 / ((1.759603 * 0.2) / 0.4), 7);
    const jumping = moves.replace('law: modified_sine', 'law: constant_acceleration');
    expect(axis('cubic', jumping) / axis('linear', jumping)).toBeCloseTo(Math.SQRT2, 9);
  });

  it('steps of the speed are those of the highest acceleration in a cycle', () => {
    const { capacity, says } = findingIn(fileOf(`${moves}, speed_step_at_most: 5 mm/s`))!;
    expect(capacity!.value).toBeCloseTo(5e-3 / ((5.527957 * 0.2) / 0.4 ** 2), 8);
    expect(says).toContain('steps of the speed from setpoint to setpoint');
  });

  it('an axis that stands still has all the time that there is', () => {
    for (const drive of ['setpoints: own_clock, setpoint_jitter: 5 µs', 'interpolates: none']) {
      const text = fileOf(
        `motion: { cycle: 1 s, steps: [{ move: 0 mm, in: 1 s, law: cycloidal }] }, ${along}, tolerance: 1 mm`,
      );
      expect(findingIn(text.replace('drive: drive_5', `drive: { part: drive_5, ${drive} }`)), drive).toBeUndefined();
    }
  });

  it('every number of the tables is found by its address, where no finding holds it too', () => {
    const assessment = assessed(pair(`${k}, feed_forward: 98 %`, `${k}, feed_forward: 98 %`));
    expect(assessment.findings.some(({ address }) => address === 'timing.update@a')).toBe(false);
    const seen = new Set<Quantity>();
    const all = new Map<string, Quantity>();
    for (const view of show(assessment, 'timing'))
      for (const quantity of quantitiesIn(view)) walk(quantity, (each) => void all.set(addressOf(each), each), seen);
    expect(all.size).toBeGreaterThan(30);
    const held = numbersOf(assessment);
    for (const [address, number] of all)
      expect((held.get(address) ?? numberShown(assessment, address))?.value, address).toBe(number.value);
  });
});
