// Files that cannot be: nothing is thrown, and the answer names the place that is wrong, also without a motor.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { chapters } from '../assess/chapters.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';

const head = `layshaft: 1
masters:
  line: { speed: 150 m/min, repeat: 250 mm, ramp_up: 6 s }
  turn: { speed: 60 rpm }
axes:
  a:
`;
const running = '    motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }\n';
const going = '    motion: { cycle: 1 s, runs: { speed: 1 m/s, for: 1 s } }\n';
const heavy = '    train: [{ inertia: 1 kg·m² }]\n';
const steps = (list: string): string => `    motion: { cycle: 1 s, steps: [${list}] }\n${heavy}`;
const knife = (master: string, length: string, working: string): string =>
  `    motion: { follow: ${master}, cuts: { length: ${length}, circumference: 500 mm, blades: 2, working: ${working}, recover: modified_sine } }\n${heavy}`;
const winder = (roll: string): string =>
  `    motion: { follow: line, winds: { ${roll}, width: 1 m, thickness: 1 mm, density: 900 kg/m³, tension: 0 N } }\n    train: []\n`;
const shaft = (element: string): string => `${running}    train: [{ ${element} }]\n`;
const cam = (points: string): string =>
  `    motion: { follow: turn, cam: { points: ${points}, ends: rest } }\n    train: [{ slide: { mass: 1 kg } }, { screw: { lead: 5 mm, inertia: 0 kg·m² } }]\n`;

describe('what cannot be', () => {
  it.each([
    ['a knife behind a master that turns', knife('turn', '215 mm', '40°'), 'masters.turn.speed'],
    ['a working zone from blade to blade', knife('line', '215 mm', '190°'), 'leaves nothing of the 180°'],
    ['a cam whose master stands still', cam('[[0°, 0 mm], [0°, 5 mm], [10°, 1 mm]]'), 'axes.a.motion'],
    ['a cam without points', cam('[]'), 'axes.a.motion.cam.points'],
    ['a cam in two units', cam('[[0°, 0 mm], [120°, 5 mm], [360°, 0 rad]]'), 'axes.a.motion.cam.points.2.tool'],
    ['a speed in the wrong unit', steps('{ turn: 10°, speed: 1 m/s, acceleration: 2 rad/s² }'), 'steps.0.speed'],
    ['ramps longer than the step', steps('{ turn: 10°, in: 0.5 s, ramp: 0.4 s }'), 'axes.a.motion.steps.0.ramp'],
    [
      'a traverse that only turns round',
      `    motion: { follow: line, traverses: { width: 1 m, stroke: 100 mm, reversal: 300 mm } }\n    train: []\n`,
      'axes.a.motion',
    ],
    ['a force on a shaft', `${running}    train: [{ friction: { force: 2 N } }]\n`, 'axes.a.train.0.friction.force'],
    [
      'a rod shorter than its crank',
      `${running}    train: [{ crank: { radius: 60 mm, rod: 20 mm, mass: 1 kg } }]\n`,
      'axes.a.train.0.crank.rod',
    ],
    [
      'a torque on a tool that goes along',
      `${going}    train: [{ torque: { against: 3 N·m } }]\n`,
      'axes.a.train.0.torque',
    ],
    ['a core larger than its roll', winder('core: 800 mm, full: 80 mm'), 'axes.a.motion.winds.full'],
    ['a diameter beyond the roll', winder('core: 80 mm, full: 800 mm, diameters: [900 mm]'), 'winds.diameters.0'],
    [
      'a wall without a bore',
      shaft('cylinder: { diameter: 80 mm, wall: 41 mm, length: 1 m, material: steel }'),
      '.wall',
    ],
    ['a bore beyond the body', shaft('disc: { diameter: 80 mm, bore: 81 mm, mass: 3 kg }'), '.bore'],
    [
      'a cycle of more cuts than can be walked through',
      '    motion: { cycle: 1 s, runs: { speed: 60000000 rpm, for: 1 s } }\n    train: [{ cutting: { force: 10 N, diameter: 100 mm, over: 5° } }]\n',
      'in which a load begins less than 100000 times',
    ],
    ['a window in another unit', shaft('torque: { against: 2 N·m, from: 1 mm, to: 90° }'), 'train.0.torque.from'],
    ['a window that ends first', shaft('torque: { against: 2 N·m, from: 90°, to: 45° }'), 'train.0.torque.to'],
    ['a window in way and time', shaft('torque: { against: 2 N·m, from: 9°, until: 1 s }'), 'axes.a.train.0.torque '],
    ['a motion that is open', '    motion: open\n    train: open\n', 'axes.a.motion'],
  ])('%s is told by its place, once', (_, text, place) => {
    const { findings } = assess(resolve(read(head + text), []));
    const said = findings.filter(({ verdict }) => verdict === 'unknown').map(({ says }) => says);
    expect(said.length).toBeGreaterThan(0);
    for (const sentence of said) expect(sentence.split(place)).toHaveLength(2);
  });

  it.each([
    ['no step', steps('')],
    ['a stroke of nothing', steps('{ turn: 0°, in: 1 s, law: cycloidal }')],
    ['steps longer than the cycle', steps('{ turn: 10°, in: 5 s, ramp: 0.4 s }')],
    ['a train alone', '    train: [{ gear: { ratio: 3 } }]\n'],
    [
      'figures of all sizes, stated in other units',
      `    motion: { cycle: 1 s, runs: { speed: 1e9 m/s, for: 1 s } }\n    train: [{ slide: { mass: 1 kg } }, { rack: { diameter: 1e-9 mm, wheel_mass: 0 kg } }]\n    stated: { speed: 3 rpm, torque_rms: 3 N·m, roll_length: 3 m, circumference: 2 m }\n`,
    ],
  ])('%s throws nothing', (_, text) => {
    const assessment = assess(resolve(read(head + text), []));
    const views = chapters(assessment).flatMap((chapter) => chapter.views);
    expect(views.length).toBe(1);
    expect(views.flatMap(({ later }) => later.map(({ make }) => make().rows.length)).every((rows) => rows >= 0)).toBe(
      true,
    );
    for (const { says } of assessment.findings) expect(says).not.toContain('undefined');
  });

  it('a speed that is stated in another unit measures something else', () => {
    const text = `${going}    train: [{ rack: { diameter: 30 mm, wheel_mass: 0 kg } }]\n    stated: { speed: 3 rpm }\n`;
    const found = assess(resolve(read(head + text), [])).findings.find(
      ({ address }) => address === 'axes.agrees@a.speed',
    )!;
    expect([found.verdict, found.says]).toEqual([
      'fails',
      '3 rpm is stated, and what follows is 1 m/s: they measure different things',
    ]);
  });
});
