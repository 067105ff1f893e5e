// Slips that were published, and two more that are made again and again: the wrong figure is typed in as stated, and the
// answer names what it contradicts and by which factor. Listed after a series of trade articles; the figures are our own.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';

const table = (
  stated: string,
  train = '[{ disc: { mass: 50 kg, diameter: 0.6 m } }, { gear: { ratio: 10 } }]',
): string => `layshaft: 1
axes:
  table:
    motion: { cycle: 1 s, steps: [{ turn: 120°, in: 0.4 s, ramp: 0.2 s }, { dwell: rest }] }
    train: ${train}
    motor: { inertia: 2e-3 kg·m² }
    stated: { ${stated} }
`;
const winder = (stated: string): string => `layshaft: 1
masters:
  line: { speed: 5 m/s, repeat: 1 m }
axes:
  wind:
    motion: { follow: line, winds: { core: 0.1 m, full: 0.8 m, width: 1 m, thickness: 50 µm, density: 1380 kg/m³, tension: 200 N } }
    train: []
    stated: { ${stated} }
`;
const roll = (stated: string): string => `layshaft: 1
masters:
  line: { speed: 150 m/min, repeat: 250 mm }
axes:
  nip:
    motion: { follow: line, gear: [1, 1] }
    train: [{ web: { tension_in: 90 N, tension_out: 120 N } }, { roll: { diameter: 120 mm, inertia: 8 kg·cm² } }]
    stated: { ${stated} }
`;

const answer = (text: string, address: string): { verdict: string; says: string } => {
  const machine = read(text);
  expect(machine.problems).toEqual([]);
  const found = assess(resolve(machine, [])).findings.find((each) => each.address === address);
  if (found === undefined) throw new Error(`no ${address}`);
  return found;
};

describe('a stated figure that is off by a usual slip', () => {
  it.each([
    [
      'a triangular move as θ/t²',
      table('acceleration: 13.09 rad/s²'),
      'table.acceleration',
      'factor 4',
      'axes.table.motion.steps.0.turn',
    ],
    ['winder speed from n·D·π/60 in m/min', winder('speed: 5 m/min'), 'wind.speed', 'factor 60', 'masters.line.speed'],
    [
      'inertia through one gear more',
      table('inertia: 2.25e-4 kg·m²'),
      'table.inertia',
      'square of axes.table.train.1.gear.ratio',
      'axes.table.train.0.disc.mass',
    ],
    [
      'torque of a triangular move taken for a triangle',
      table('torque_rms: 4.684 N·m'),
      'table.torque_rms',
      'factor √3',
      'axes.table.train.0.disc.mass',
    ],
    [
      'a radius for a diameter',
      roll('circumference: 188.5 mm'),
      'nip.circumference',
      'factor 2',
      'axes.nip.train.1.roll.diameter',
    ],
    [
      'revolutions for radians',
      roll('motor_speed: 6.631 rad/s'),
      'nip.motor_speed',
      'factor 2π',
      'axes.nip.train.1.roll.diameter',
    ],
  ])('%s', (_, text, subject, factor, other) => {
    const { verdict, says } = answer(text, `axes.agrees@${subject}`);
    expect(verdict).toBe('fails');
    expect(says).toContain(factor);
    expect(says).toContain(other);
  });

  it('holds for the right figures', () => {
    for (const [text, address] of [
      [table('acceleration: 52.36 rad/s²'), 'table.acceleration'],
      [table('inertia: 0.0225 kg·m²'), 'table.inertia'],
      [table('torque_rms: 8.11 N·m'), 'table.torque_rms'],
      [winder('roll_length: 9896 m'), 'wind.roll_length'],
      [winder('roll_speed: 955 rpm'), 'wind.roll_speed'],
      [roll('circumference: 377 mm'), 'nip.circumference'],
    ] as const)
      expect(answer(text, `axes.agrees@${address}`).verdict).toBe('holds');
  });

  it('tells a factor that is no usual slip as a number', () => {
    const { says } = answer(roll('circumference: 300 mm'), 'axes.agrees@nip.circumference');
    expect(says).toContain('1.257 times as much');
  });
});

it('a web of 3000 ft/s is faster than sound, and a sixtieth of it is told', () => {
  const text = roll('circumference: 377 mm').replace('150 m/min', '3000 ft/s');
  const { verdict, says } = answer(text, 'axes.plausible@nip');
  expect(verdict).toBe('fails');
  expect(says).toContain('914.4 m/s');
  expect(says).toContain('15.24 m/s');
});

it('a roll diameter with the dimension of an area is refused where it stands', () => {
  // √(4L/(πh)) + d²: the second term is an area.
  const machine = read(winder('roll_speed: 955 rpm').replace('full: 0.8 m,', 'full: 0.64 m²,'));
  expect(machine.problems.map(({ code }) => code)).toEqual(['unit-wrong']);
  expect(machine.problems[0]!.message).toContain('a length');
});
