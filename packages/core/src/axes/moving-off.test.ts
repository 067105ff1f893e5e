// Moving off from rest: the friction at rest counts in torque and gear, however the motion and the train are told.
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { replay } from '../working/working.ts';
import { demandOf } from './demand.ts';
import { gearsOf } from './gears.ts';

/** An axis of 0.5 kg·m² that rubs with 2 N·m in motion and sticks with 40 N·m, and its highest torque. */
function peakOf(motion: string, { more = '', breakaway = ', breakaway: 40 N·m', head = '' } = {}) {
  const train = `{ inertia: 0.5 kg·m² }, { friction: { torque: 2 N·m${breakaway} } }${more}`;
  const design = resolve(read(`layshaft: 1\n${head}axes:\n  a: { motion: { ${motion} }, train: [${train}] }\n`), []);
  expect(design.problems).toEqual([]);
  const demand = demandOf(design.axes[0]!, design.gravity);
  if (demand.peak instanceof Missing) throw new Error(JSON.stringify(demand.peak.lacks));
  expect(replay(demand.peak)).toBe(demand.peak.value);
  const [gear] = gearsOf(demand);
  const carried = gear?.carried;
  return {
    motor: demand.peak.value,
    gear: carried === undefined || carried instanceof Missing ? undefined : carried.peak.value,
  };
}

const steps = (...all: readonly string[]) => `cycle: 2 s, steps: [${all.join(', ')}, { dwell: rest }]`;
const quarter = Math.PI / 2;
const byLaw = (law: string) => `{ turn: 90°, in: 0.5 s, law: ${law} }`;

describe('moving off counts with the friction at rest, whatever the motion and the train', () => {
  it.each([
    ['a ramp', '{ turn: 90°, in: 0.5 s, ramp: 0.1 s }', 40 + 0.5 * (quarter / 0.4 / 0.1)],
    ['a law that begins without acceleration', byLaw('cycloidal'), 40],
    ['another', byLaw('modified_sine'), 40],
    // Ca = π²/2, and it is there from the first instant.
    ['a law that begins with its highest', byLaw('simple_harmonic'), 40 + (0.5 * Math.PI ** 2 * quarter) / 2 / 0.25],
    ['limited jerk', '{ turn: 90°, speed: 60 rpm, acceleration: 30 rad/s², jerk: 900 rad/s³ }', 40],
    ['a join of degree 5', '{ turn: 90°, in: 0.5 s, speed_after: 0 rpm }', 40],
    ['backwards', '{ turn: -90°, in: 0.5 s, law: cycloidal }', 40],
  ])('%s', (_, step, expected) => expect(peakOf(steps(step)).motor).toBeCloseTo(expected, 9));

  it('a load that is there only where it moves off, or is not', () => {
    const ramp = steps('{ turn: 90°, in: 0.5 s, ramp: 0.1 s }');
    const quickening = 0.5 * (quarter / 0.4 / 0.1);
    const at = (from: number, to: number) => `, { torque: { against: 7 N·m, from: ${from}°, to: ${to}° } }`;
    expect(peakOf(ramp, { more: at(0, 10) }).motor).toBeCloseTo(40 + 7 + quickening, 9);
    expect(peakOf(ramp, { more: at(20, 30) }).motor).toBeCloseTo(40 + quickening, 9);
    expect(peakOf(steps(byLaw('cycloidal')), { more: at(0, 10) }).motor).toBeCloseTo(47, 9);
    const later = steps('{ turn: 15°, in: 0.2 s, law: cycloidal }', '{ dwell: 0.1 s }', byLaw('cycloidal'));
    expect(peakOf(later, { more: at(10, 20) }).motor).toBeCloseTo(47, 9);
  });

  it('a gear carries it too', () => {
    const more = ', { gear: { ratio: 4, efficiency: 80 %, torque_peak: 90 N·m } }';
    for (const law of ['cycloidal', 'modified_sine']) {
      const { motor, gear } = peakOf(steps(byLaw(law)), { more });
      expect(gear).toBeCloseTo(40, 9);
      expect(motor).toBeCloseTo(40 / 4 / 0.8, 9);
    }
    expect(peakOf(steps('{ turn: 90°, in: 0.5 s, ramp: 0.1 s }'), { more }).gear).toBeCloseTo(
      40 + 0.5 * (quarter / 0.4 / 0.1),
      9,
    );
  });

  it('a follower that never stands moves off with its master', () => {
    const knife = `follow: line, cuts: { length: 500 mm, circumference: 500 mm, blades: 1, working: 40°, recover: cycloidal }`;
    const master = (ramp: string) => `masters: { line: { speed: 1 m/s, repeat: 1 m, ${ramp} } }\n`;
    // 2π·1 m/s over 500 mm, in 2 s.
    expect(peakOf(knife, { head: master('ramp_up: 2 s') }).motor).toBeCloseTo(40 + (0.5 * (4 * Math.PI)) / 2, 6);
    expect(peakOf(knife, { head: master('ramp_down: 200 s') }).motor).toBeCloseTo(2, 6);
  });

  it('what sticks less than it rubs counts as it rubs', () => {
    const law = steps(byLaw('cycloidal'));
    expect(peakOf(law, { breakaway: ', breakaway: 1 N·m' })).toEqual(peakOf(law, { breakaway: '' }));
  });
});
