// Slips that were published, and some more that are made again and again, each in a file under examples/problems/slips/.
// The answer names what the wrong figure contradicts and by which factor. Listed after a series of trade articles; the
// figures are our own.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';

const folder = 'examples/problems/slips';
const textOf = (name: string): string => readFileSync(`${folder}/${name}.yaml`, 'utf8');

/** A file with another figure in the place of the one that is wrong. */
function withFigure(name: string, wrong: string, right: string): string {
  const parts = textOf(name).split(wrong);
  expect(parts, `${wrong} in ${name}`).toHaveLength(2);
  return parts.join(right);
}

const answer = (text: string, address: string): { verdict: string; says: string } => {
  const machine = read(text);
  expect(machine.problems).toEqual([]);
  const found = assess(resolve(machine, [])).findings.find((each) => each.address === address);
  if (found === undefined) throw new Error(`no ${address}`);
  return found;
};

/** What a file states falsely, what that differs by, and another given value that it contradicts. */
const stated: readonly (readonly [file: string, subject: string, factor: string, other: string])[] = [
  ['triangular-move', 'table.acceleration', 'factor 4', 'axes.table.motion.steps.0.turn'],
  ['winder-speed', 'wind.speed', 'factor 60', 'masters.line.speed'],
  [
    'inertia-through-one-gear',
    'table.inertia',
    'square of axes.table.train.2.gear.ratio',
    'axes.table.train.0.disc.mass',
  ],
  ['torque-taken-for-a-triangle', 'table.torque_rms', 'factor √3', 'axes.table.train.0.disc.mass'],
  ['radius-for-diameter', 'nip.circumference', 'factor 2', 'axes.nip.train.1.roll.diameter'],
  ['revolutions-for-radians', 'nip.motor_speed', 'factor 2π', 'axes.nip.train.1.roll.diameter'],
];

describe('a stated figure that is off by a usual slip', () => {
  it.each(stated)('%s', (file, subject, factor, other) => {
    const { verdict, says } = answer(textOf(file), `axes.agrees@${subject}`);
    expect(verdict).toBe('fails');
    expect(says).toMatch(new RegExp(`${factor}(,|$)`));
    expect(says).toContain(other);
  });

  it.each([
    ['triangular-move', 'acceleration: 13.09 rad/s²', 'acceleration: 52.36 rad/s²'],
    ['inertia-through-one-gear', 'inertia: 0.5625 kg·m²', 'inertia: 0.0225 kg·m²'],
    ['torque-taken-for-a-triangle', 'torque_rms: 4.684 N·m', 'torque_rms: 8.11 N·m'],
    ['winder-speed', 'speed: 5 m/min', 'speed: 300 m/min'],
    ['winder-speed', 'speed: 5 m/min', 'roll_length: 9896 m'],
    ['winder-speed', 'speed: 5 m/min', 'roll_speed: 955 rpm'],
    ['radius-for-diameter', 'circumference: 188.5 mm', 'circumference: 377 mm'],
    ['revolutions-for-radians', 'motor_speed: 6.631 rad/s', 'motor_speed: 41.67 rad/s'],
  ])('holds for the right figures: %s, %s becomes %s', (file, wrong, right) => {
    const axis = /^ {2}(\w+):$/m.exec(textOf(file))?.[1];
    const address = `axes.agrees@${axis}.${right.split(':')[0]}`;
    expect(answer(withFigure(file, wrong, right), address).verdict).toBe('holds');
  });

  it('tells a factor that is no usual slip as a number', () => {
    const text = withFigure('radius-for-diameter', 'circumference: 188.5 mm', 'circumference: 300 mm');
    expect(answer(text, 'axes.agrees@nip.circumference').says).toContain('1.257 times as much');
  });
});

it('a web of 3000 ft/s is faster than sound, and a sixtieth of it is told', () => {
  const { verdict, says } = answer(textOf('faster-than-sound'), 'axes.plausible@nip');
  expect(verdict).toBe('fails');
  expect(says).toContain('914.4 m/s');
  expect(says).toContain('15.24 m/s');
});

it('a roll diameter with the dimension of an area is refused where it stands', () => {
  const { problems } = read(textOf('roll-diameter'));
  expect(problems.map(({ code }) => code)).toEqual(['unit-wrong']);
  expect(problems[0]!.message).toContain('a length');
  expect(read(withFigure('roll-diameter', 'full: 15870 m²', 'full: 0.8 m')).problems).toEqual([]);
});

/** What was taken for enough in time, and what is not kept. */
const inTime: readonly (readonly [file: string, address: string, says: string, wrong: string, right: string])[] = [
  ['one-scan-for-two', 'timing.chain@stop_belt', '56.5 ms pass at most, 36.5 ms are allowed', '36.5 ms', '70 ms'],
  ['watchdog-at-the-period', 'timing.watchdog@recipe', 'nothing comes for 504 ms', 'after: 500 ms', 'after: 600 ms'],
  [
    'room-by-load',
    'timing.response@report',
    'done after 52 ms at the latest, due after 50 ms',
    'takes: 12 ms',
    'takes: 9 ms',
  ],
];

describe('a time that was taken for enough', () => {
  it.each(inTime)('%s', (file, address, says, wrong, right) => {
    const found = answer(textOf(file), address);
    expect(found.verdict).toBe('fails');
    expect(found.says).toContain(says);
    expect(answer(withFigure(file, wrong, right), address).verdict).toBe('holds');
  });

  it('the load of three tasks that miss is below the whole', () => {
    expect(answer(textOf('room-by-load'), 'timing.load@main').says).toContain('82.3 %');
  });
});

it('no file of the folder is without its test, and each says that it is invented', () => {
  const files = readdirSync(folder).filter((file) => file.endsWith('.yaml'));
  const tested = [...[...stated, ...inTime].map(([file]) => file), 'faster-than-sound', 'roll-diameter'];
  expect(files.sort()).toEqual(tested.map((name) => `${name}.yaml`).sort());
  for (const file of files) expect(readFileSync(`${folder}/${file}`, 'utf8')).toMatch(/^# Invented scenario: .+\.\n/);
});
