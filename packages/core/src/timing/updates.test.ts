// The update rate that an axis needs, from whole files, against its motion walked setpoint by setpoint.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { stateAt } from '../axes/calc/segment.ts';
import { motionOf } from '../axes/phase.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';

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
