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
type Parts = Readonly<Record<'motor' | 'gear' | 'drive', string>>;
const open: Parts = { motor: 'open', gear: 'open', drive: 'open' };
const withParts = (text: string, { motor, gear, drive }: Parts): string =>
  text
    .replace('motor: open', `motor: ${motor}`)
    .replace('gear: open', `gear: ${gear}`)
    .replace('drive: open', `drive: ${drive}`);

/** Axes of several kinds and sizes that some of the parts do for. */
function axisOf(random: () => number): string {
  const some = (least: number, most: number): string => (least * (most / least) ** random()).toPrecision(3);
  const kinds = [
    () =>
      `motion: { cycle: 1 s, steps: [{ turn: 60°, in: ${some(0.15, 0.5)} s, law: modified_sine }, { dwell: rest }] }, train: [{ disc: { mass: ${some(2, 30)} kg, diameter: ${some(0.2, 0.6)} m } }, { friction: { torque: ${some(0.2, 4)} N·m, breakaway: ${some(0.2, 8)} N·m } }, { gear: open }]`,
    () =>
      `motion: { cycle: 2 s, steps: [{ move: ${some(0.1, 0.6)} m, in: 0.6 s, ramp: 0.2 s }, { dwell: 0.3 s }, { move: -0.1 m, speed: 0.4 m/s, acceleration: 3 m/s² }, { dwell: rest }] }, train: [{ slide: { mass: ${some(3, 60)} kg, friction: 0.1, inclination: 90° } }, { belt: { diameter: 80 mm, wheel_mass: 0.8 kg, efficiency: 92 %, stiffness: ${some(2e4, 2e6)} N/m } }, { gear: open }]`,
    () =>
      `motion: { follow: line, gear: [1, 1] }, train: [{ web: { tension_in: ${some(20, 300)} N, tension_out: ${some(20, 600)} N } }, { roll: { diameter: 120 mm, inertia: ${some(20, 900)} kg·cm² } }, { gear: open }]`,
    () =>
      `motion: { follow: line, cuts: { length: 400 mm, circumference: 500 mm, blades: 1, working: 30°, recover: modified_sine } }, train: [{ inertia: ${some(10, 400)} kg·cm² }, { gear: open }]`,
  ];
  return `${head}axes: { a: { ${kinds[Math.floor(random() * kinds.length)]!()}, motor: open, drive: open, ${random() < 0.5 ? `gain: ${some(5, 60)} 1/s, ` : ''}losses_on: ${random() < 0.5 ? 'load' : 'load_and_inertia'} } }\n`;
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

  /** The parts that hold, each by its name where it was open. */
  function expectOptions({ options }: Choice, due: readonly Parts[], { motor, gear, drive }: Parts): void {
    const told = (parts: { readonly [Kind in keyof Parts]: string | undefined }): string =>
      [
        motor === 'open' ? parts.motor : undefined,
        gear === 'open' ? parts.gear : undefined,
        drive === 'open' ? parts.drive : undefined,
      ].join(' ');
    expect(options.map(told).toSorted()).toEqual(due.map(told).toSorted());
  }

  /** Whatever is chosen. */
  const apart = ['axes.cycle'];

  const gearAlone = ['peak', 'stop', 'mean', 'speed', 'speed_peak'].map((each) => `axes.gear_${each}`);

  it('is that of trying all combinations, on 100 seeded axes', () => {
    const random = seeded(12);
    let [held, close] = [0, 0];
    for (let count = 0; count < 100; count++) {
      const text = axisOf(random);
      const design = designOf(text);
      const chosen = known(choose(design.axes[0]!, design.gravity, offersIn(design), reservesOf(design)));
      const tried = motors.flatMap((motor) =>
        gears.flatMap((gear) =>
          drives.map((drive) => {
            const { findings } = assess(designOf(withParts(text, { motor, gear, drive })));
            expect(findings.filter(({ verdict }) => verdict === 'unknown')).toEqual([]);
            const overOf = (left: readonly string[]): number =>
              Math.max(
                ...findings.flatMap(({ demand, capacity, reserve, check }) =>
                  demand === undefined || capacity === undefined || left.includes(check)
                    ? []
                    : [demand.value / capacity.value / (1 - (reserve?.value ?? 0)) - 1],
                ),
              );
            const over = overOf(apart);
            // What a given gear lacks is no matter of what else is chosen.
            const beside = overOf([...apart, ...gearAlone]);
            return { motor, gear, drive, over, beside, cost: costOf(motor) + costOf(gear) + costOf(drive) };
          }),
        ),
      );
      // What stands at the limit may fall to either side of it by rounding.
      const unsure = tried.filter(({ over, beside }) => Math.min(Math.abs(over), Math.abs(beside)) < 2e-3);
      close += unsure.length;
      if (unsure.length > 0) continue;
      const holding = tried.filter(({ over }) => over <= 0).toSorted((one, other) => one.cost - other.cost);
      const besideGear = tried.filter(({ beside }) => beside <= 0).toSorted((one, other) => one.cost - other.cost);
      const cheapest = (of: typeof holding) =>
        of.filter(
          ({ motor, gear }, index) => of.findIndex((each) => each.motor === motor && each.gear === gear) === index,
        );
      held += cheapest(holding).length;
      expectOptions(chosen, cheapest(holding), open);
      expect(chosen.options.map(({ cost }) => cost)).toEqual(cheapest(holding).map(({ cost }) => cost));
      const few = known(choose(design.axes[0]!, design.gravity, offersIn(design), reservesOf(design), 2));
      expect(few.options).toEqual(chosen.options.slice(0, 2));
      expect(few.losers).toEqual(chosen.losers);
      // The same with some of them given: what is left to choose is that of the combinations with these.
      const [motor, gear, drive] = [motors[count % 4]!, gears[count % 3]!, drives[count % 2]!];
      const given = (parts: Partial<Parts>) => {
        const told = designOf(withParts(text, { ...open, ...parts }));
        return known(choose(told.axes[0]!, told.gravity, offersIn(told), reservesOf(told)));
      };
      const fitting = (parts: Partial<Parts>) =>
        (parts.gear === undefined ? holding : besideGear).filter((each) =>
          Object.entries(parts).every(([kind, name]) => each[kind as keyof Parts] === name),
        );
      expectOptions(given({ motor }), cheapest(fitting({ motor })), { ...open, motor });
      expectOptions(given({ drive }), fitting({ drive }), { ...open, drive });
      expectOptions(given({ motor, drive }), fitting({ motor, drive }), { ...open, motor, drive });
      expectOptions(given({ gear }), cheapest(fitting({ gear })), { ...open, gear });
      expectOptions(given({ motor, gear }), fitting({ motor, gear }), { ...open, motor, gear });
    }
    expect(held).toBeGreaterThan(100);
    expect(close).toBeLessThan(150);
  }, 240_000);

  it('says of every motor that is left out why, and by how much', () => {
    const design = designOf(axisOf(seeded(3)));
    const { losers, options } = known(choicesFor(design, 'a'));
    expect(losers.length).toBeGreaterThan(2);
    for (const { why } of losers)
      expect(why).toMatch(/^([a-z, ]+ [\d.]+(e\d+)? ?% over|inertia needs ratio [\d.]+, speed allows [\d.]+)$/);
    const taken = new Set(options.map(({ motor }) => motor));
    expect(losers.some(({ motor }) => taken.has(motor))).toBe(false);
  });

  it('is written where it is open', () => {
    const { options } = known(choicesFor(designOf(axisOf(seeded(3))), 'a'));
    const [{ planned, motor, gear, drive }] = options as [(typeof options)[number]];
    expect(planned).toEqual([
      { path: 'axes.a.motor', part: motor },
      { path: `axes.a.train.${planned[1]!.path.split('.')[3]}.gear`, part: gear },
      { path: 'axes.a.drive', part: drive },
    ]);
  });

  it('is not made where nothing is open, and refused where a gear is open that is not the last', () => {
    const closed = withParts(axisOf(seeded(3)), { motor: 'motor_80_2', gear: 'gear_80_3', drive: 'drive_5' });
    expect(choicesFor(designOf(closed), 'a')).toBeUndefined();
    const between = `${head}axes: { a: { motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }, train: [{ inertia: 1 kg·cm² }, { gear: open }, { coupling: { inertia: 1 kg·cm² } }], motor: open } }\n`;
    const refused = choicesFor(designOf(between), 'a');
    expect(refused).toBeInstanceOf(Missing);
    expect((refused as Missing).lacks[0]!.path).toBe('axes.a.train.1.gear');
  });
});
