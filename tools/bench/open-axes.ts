// Axes whose motor, gear and drive are open, of four kinds and many sizes; invented.
import { seeded } from '../../tests/support/seeded.ts';

/** A machine file with so many of them, on one master. */
export function openAxes(count: number): string {
  const random = seeded(5);
  const some = (least: number, most: number): string => (least * (most / least) ** random()).toPrecision(3);
  const kinds = [
    () =>
      `motion: { cycle: 1 s, steps: [{ turn: 60°, in: ${some(0.15, 0.5)} s, law: modified_sine }, { dwell: rest }] }, train: [{ disc: { mass: ${some(2, 30)} kg, diameter: ${some(0.2, 0.6)} m } }, { gear: open }]`,
    () =>
      `motion: { cycle: 2 s, steps: [{ move: ${some(0.1, 0.6)} m, in: 0.6 s, ramp: 0.2 s }, { dwell: rest }] }, train: [{ slide: { mass: ${some(3, 60)} kg, friction: 0.1, inclination: 90° } }, { belt: { diameter: 80 mm, wheel_mass: 0.8 kg, efficiency: 92 % } }, { gear: open }]`,
    () =>
      `motion: { follow: line, gear: [1, 1] }, train: [{ web: { tension_in: ${some(20, 300)} N, tension_out: ${some(20, 600)} N } }, { roll: { diameter: 120 mm, inertia: ${some(20, 900)} kg·cm² } }, { gear: open }]`,
    () =>
      `motion: { follow: line, cuts: { length: 400 mm, circumference: 500 mm, blades: 1, working: 30°, recover: modified_sine } }, train: [{ inertia: ${some(10, 400)} kg·cm² }, { gear: open }]`,
  ];
  const axes = Array.from(
    { length: count },
    (_, at) => `  a${at}: { ${kinds[at % kinds.length]!()}, motor: open, drive: open }\n`,
  );
  return `layshaft: 1
machine: { ambient: 35 °C, altitude: 300 m }
cabinet: { supply: { mains: 400 V, low: 360 V } }
masters: { line: { speed: 60 m/min, repeat: 500 mm, ramp_up: 2 s, stops: { quick: { within: 0.4 s, category: 1 } } } }
axes:
${axes.join('')}`;
}
