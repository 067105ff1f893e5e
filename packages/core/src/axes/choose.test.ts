// The choice against trying every combination through the whole file: the same parts hold, in the same order.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { assess } from '../assess/assess.ts';
import { choicesFor, reservesOf } from '../assess/choosing.ts';
import { read } from '../machine/machine.ts';
import { type Design, resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { type Choice, choose } from './choose.ts';

const catalogue = demonstration();
const designOf = (text: string): Design => {
  const design = resolve(read(text), [catalogue]);
  expect(design.problems).toEqual([]);
  return design;
};
const known = (choice: Choice | Missing | undefined): Choice => {
  if (choice === undefined || choice instanceof Missing) throw new Error(JSON.stringify(choice));
  return choice;
};
const costOf = (name: string): number => (catalogue.parts.get(name)!.cost as { readonly value: number }).value;

const head = `layshaft: 1
machine: { ambient: 45 °C, altitude: 1500 m }
cabinet: { supply: { mains: 400 V, low: 360 V } }
masters: { line: { speed: 60 m/min, repeat: 500 mm, ramp_up: 2 s, stops: { quick: { within: 0.4 s, category: 1 } } } }
`;
/** Also of a part beside which the file says more. */
const withPart = (text: string, key: string, part: string): string =>
  text.replace(`${key}: open`, `${key}: ${part}`).replace(`${key}: { part: open`, `${key}: { part: ${part}`);
const withParts = (text: string, motor: string, gear: string, drive: string): string =>
  withPart(withPart(withPart(text, 'motor', motor), 'gear', gear), 'drive', drive);

/** Axes of several kinds and sizes that some of the parts do for. */
function axisOf(random: () => number): string {
  const some = (least: number, most: number): string => (least * (most / least) ** random()).toPrecision(3);
  const kinds = [
    () =>
      `motion: { cycle: 1 s, steps: [{ turn: 60°, in: ${some(0.15, 0.5)} s, law: modified_sine }, { dwell: rest }] }, train: [{ disc: { mass: ${some(2, 30)} kg, diameter: ${some(0.2, 0.6)} m } }, { friction: { torque: ${some(0.2, 4)} N·m, breakaway: ${some(0.2, 8)} N·m } }, { gear: { part: open, radial_force: ${some(200, 6000)} N } }]`,
    () =>
      `motion: { cycle: 2 s, steps: [{ move: ${some(0.1, 0.6)} m, in: 0.6 s, ramp: 0.2 s }, { dwell: 0.3 s }, { move: -0.1 m, speed: 0.4 m/s, acceleration: 3 m/s² }, { dwell: rest }] }, train: [{ slide: { mass: ${some(3, 60)} kg, friction: 0.1, inclination: 90° } }, { belt: { diameter: 80 mm, wheel_mass: 0.8 kg, efficiency: 92 % } }, { gear: open }]`,
    () =>
      `motion: { follow: line, gear: [1, 1] }, train: [{ web: { tension_in: ${some(20, 300)} N, tension_out: ${some(20, 600)} N } }, { roll: { diameter: 120 mm, inertia: ${some(20, 900)} kg·cm² } }, { coupling: { inertia: 1 kg·cm², stiffness: ${some(2000, 90000)} N·m/rad } }, { gear: open }], gain: ${some(10, 60)} 1/s`,
    () =>
      `motion: { follow: line, cuts: { length: 400 mm, circumference: 500 mm, blades: 1, working: 30°, recover: modified_sine } }, train: [{ inertia: ${some(10, 400)} kg·cm² }, { gear: { part: open, radial_force: 0 N } }], gain: ${some(10, 60)} 1/s`,
  ];
  return `${head}axes: { a: { ${kinds[Math.floor(random() * kinds.length)]!()}, motor: open, drive: { part: open, current_peak_time: ${some(0.02, 3)} s }, losses_on: ${random() < 0.5 ? 'load' : 'load_and_inertia'} } }\n`;
}

describe('the choice of parts', () => {
  const motors = ['motor_60_2', 'motor_80_2', 'motor_100_2', 'motor_130_2_brake'];
  const gears = ['gear_80_3', 'gear_120_5', 'gear_120_20'];
  const drives = ['drive_2', 'drive_10'];
  const offersIn = (design: Design) => ({
    motors: design.offered('motor').filter(({ name }) => motors.includes(name)),
    gears: design.offered('gear').filter(({ name }) => gears.includes(name)),
    drives: design.offered('drive').filter(({ name }) => drives.includes(name)),
  });

  /** Whatever is chosen. */
  const apart = ['axes.cycle'];

  const any = (of: readonly string[], random: () => number): string => of[Math.floor(of.length * random())]!;

  it('is that of trying all combinations, on 100 seeded axes', () => {
    const random = seeded(12);
    const found = new Map<string, number>();
    let close = 0;
    for (let count = 0; count < 100; count++) {
      // All three are open in half of the axes, else each by itself or beside one other.
      const left = count % 2 === 0 ? ['motor', 'gear', 'drive'] : [];
      while (left.length === 0) left.push(...['motor', 'gear', 'drive'].filter(() => random() < 0.4));
      const open = (key: string): boolean => left.includes(key);
      let text = axisOf(random);
      const tries = (key: string, parts: readonly string[]): readonly string[] => {
        if (open(key)) return parts;
        const part = any(parts, random);
        text = withPart(text, key, part);
        return [part];
      };
      const [triedMotors, triedGears, triedDrives] = [
        tries('motor', motors),
        tries('gear', gears),
        tries('drive', drives),
      ];
      const design = designOf(text);
      const chosen = known(choose(design.axes[0]!, design.gravity, offersIn(design), reservesOf(design)));
      const tried = triedMotors.flatMap((motor) =>
        triedGears.flatMap((gear) =>
          triedDrives.map((drive) => {
            const { findings } = assess(designOf(withParts(text, motor, gear, drive)));
            expect(findings.filter(({ verdict }) => verdict === 'unknown')).toEqual([]);
            const asked = findings.flatMap(({ demand, capacity, reserve, check, subject }) =>
              demand === undefined || capacity === undefined || apart.includes(check)
                ? []
                : // What a gear carries that is not chosen no choice changes.
                  !open('gear') && subject.includes('.')
                  ? []
                  : [{ check, over: demand.value / capacity.value / (1 - (reserve?.value ?? 0)) - 1 }],
            );
            // A motor that is to be chosen must hold a weight by a brake.
            const falls = open('motor') && text.includes('inclination: 90°') && !motor.endsWith('_brake');
            const worst = falls
              ? { check: 'axes.holding', over: Infinity }
              : asked.reduce((most, each) => (each.over > most.over ? each : most));
            found.set(worst.check, (found.get(worst.check) ?? 0) + (worst.over > 0 ? 1 : 0));
            const cost =
              (open('motor') ? costOf(motor) : 0) +
              (open('gear') ? costOf(gear) : 0) +
              (open('drive') ? costOf(drive) : 0);
            return { motor, gear, drive, over: worst.over, cost };
          }),
        ),
      );
      // What stands at the limit may fall to either side of it by rounding.
      const unsure = tried.filter(({ over }) => Math.abs(over) < 2e-3);
      close += unsure.length;
      if (unsure.length > 0) continue;
      const holding = tried.filter(({ over }) => over <= 0).toSorted((one, other) => one.cost - other.cost);
      // Beside other parts the cheapest drive is taken; alone each is told.
      const alone = left.length === 1 && open('drive');
      const due = holding.filter(
        ({ motor, gear }, index) =>
          alone || holding.findIndex((each) => each.motor === motor && each.gear === gear) === index,
      );
      found.set('holds', (found.get('holds') ?? 0) + due.length);
      const told = (each: { [key in 'motor' | 'gear' | 'drive']: string | undefined } & { cost: number }) =>
        [each.cost, open('motor') && each.motor, open('gear') && each.gear, open('drive') && each.drive].join(' ');
      expect(chosen.options.map(told).toSorted(), text).toEqual(due.map(told).toSorted());
      expect(chosen.options.map(({ cost }) => cost)).toEqual(due.map(({ cost }) => cost));
    }
    expect(found.get('holds')).toBeGreaterThan(100);
    for (const check of ['drive_overload', 'gear_radial', 'bandwidth', 'torque_rms', 'torque_at_speed'])
      expect(found.get(`axes.${check}`), check).toBeGreaterThan(0);
    expect(close).toBeLessThan(150);
  }, 240_000);

  it('says of every motor that is left out why, and by how much', () => {
    const design = designOf(axisOf(seeded(3)));
    const { losers, options } = known(choicesFor(design, 'a'));
    expect(losers.length).toBeGreaterThan(2);
    for (const { why } of losers)
      expect(why).toMatch(
        /^[a-z, ]+ [\d.]+(e\d+)? ?% over( at any ratio)?$|^has no brake$|needs ratio [\d.]+, [a-z ]+ allows [\d.]+$/,
      );
    const taken = new Set(options.map(({ motor }) => motor));
    expect(losers.some(({ motor }) => taken.has(motor))).toBe(false);
  });

  it('has a brake where the load would turn the axis at standstill, and only there', () => {
    const axis = (
      train: string,
      motion = 'cycle: 2 s, steps: [{ move: 0.2 m, in: 0.6 s, ramp: 0.2 s }, { dwell: rest }]',
    ) =>
      known(
        choicesFor(
          designOf(`${head}axes: { a: { motion: { ${motion} }, train: [${train}], motor: open, drive: drive_10 } }\n`),
          'a',
        ),
      );
    const belt = '{ belt: { diameter: 40 mm, wheel_mass: 0.2 kg } }, { gear: open }';
    const lifts = axis(`{ slide: { mass: 8 kg, friction: 0.1, inclination: 90° } }, ${belt}`);
    expect(lifts.brakeNeeded).toBe(true);
    expect(lifts.options.length).toBeGreaterThan(0);
    for (const { motor } of lifts.options) expect(motor).toMatch(/_brake$/);
    const without = lifts.losers.filter(({ motor }) => !motor!.endsWith('_brake'));
    expect(without.length).toBeGreaterThan(10);
    expect(new Set(without.map(({ why }) => why))).toEqual(new Set(['has no brake']));
    for (const train of [
      `{ slide: { mass: 8 kg, friction: 0.1 } }, ${belt}`,
      `{ slide: { mass: 8 kg, friction: 0.1, inclination: 90°, counterweight: 8 kg } }, ${belt}`,
      '{ slide: { mass: 8 kg, inclination: 90° } }, { screw: { lead: 40 mm, inertia: 0.5 kg·cm², efficiency: 40 %, efficiency_back: 0 % } }, { gear: open }',
    ]) {
      const choice = axis(train);
      expect([choice.brakeNeeded, choice.options.some(({ motor }) => !motor!.endsWith('_brake'))], train).toEqual([
        false,
        true,
      ]);
    }
    const draws = axis(
      '{ web: { tension_in: 20 N, tension_out: 80 N } }, { roll: { diameter: 120 mm, inertia: 20 kg·cm² } }, { gear: open }',
      'follow: line, gear: [1, 1]',
    );
    expect(draws.brakeNeeded).toBe(false);
    expect(draws.options.length).toBeGreaterThan(0);
  });

  it('is written where it is open', () => {
    const { options } = known(choicesFor(designOf(axisOf(seeded(3))), 'a'));
    const [{ planned, motor, gear, drive }] = options as [(typeof options)[number]];
    expect(planned).toEqual([
      { path: 'axes.a.motor', part: motor },
      { path: `axes.a.train.${planned[1]!.path.split('.')[3]}.gear`, part: gear },
      { path: 'axes.a.drive.part', part: drive },
    ]);
  });

  it('is not made where nothing is open, and refused where a gear is open that is not the last', () => {
    const closed = withParts(axisOf(seeded(3)), 'motor_80_2', 'gear_80_3', 'drive_5');
    expect(choicesFor(designOf(closed), 'a')).toBeUndefined();
    const between = `${head}axes: { a: { motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }, train: [{ inertia: 1 kg·cm² }, { gear: open }, { coupling: { inertia: 1 kg·cm² } }], motor: open } }\n`;
    const refused = choicesFor(designOf(between), 'a');
    expect(refused).toBeInstanceOf(Missing);
    expect((refused as Missing).lacks[0]!.path).toBe('axes.a.train.1.gear');
  });
});
