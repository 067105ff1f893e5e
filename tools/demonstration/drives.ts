// Invents the demonstration drives and their brake resistors. Constants without another source are our judgement, so that
// sizes come out as engineers know them.
import { catalogueText, digits, type InventedPart } from './parts-text.ts';

const head = [
  'Demonstration drives for mains of 400 V, and brake resistors for them. All of them are invented; no maker sells them.',
  'Written by tools/demonstration/write.ts from these rules, I being the continuous current:',
  '',
  'current_peak       3 of it up to 10 A, 2.5 up to 45 A, 2 beyond',
  'loss_at_rest       10 W + 1 W/A',
  'loss_per_current   large transistors lose a little less: ~ I^-0.07',
  'capacitance        48 µF for each ampere, to the next value of the series E12 of IEC 60063',
  'resistor_at_least  a transistor for the brake of 1.2 of the peak current at the voltage at which it switches, to the next',
  '                   value of E12 above',
  'ambient_none       2 % less for each kelvin',
  '',
  'A drive has the figures of the one that it is like, where it states no others.',
];

/** Current and cost of each size. */
const sizes = [
  [2, 460],
  [3, 510],
  [5, 620],
  [7, 730],
  [10, 890],
  [14, 1070],
  [20, 1340],
  [30, 1780],
  [45, 2450],
  [60, 3120],
  [90, 4450],
  [120, 5780],
] as const;

/** Resistance, power for any length of time, cost: each the least resistance that two sizes of drives may have. */
const resistors = [
  [120, 60, 35],
  [47, 150, 60],
  [22, 400, 110],
  [15, 800, 190],
  [6.8, 1800, 380],
  [3.9, 4000, 790],
] as const;
/** The wire stores so many seconds of the power that it takes for any length of time. */
const stored_s = 30;

const brake_V = 780;

export const drivesText = (): string => catalogueText(head, [...drives(), ...brakeResistors()]);

function drives(): readonly InventedPart[] {
  const parts: InventedPart[] = [];
  for (const [current_A, cost] of sizes)
    parts.push({ name: `drive_${current_A}`, like: parts[0], figures: figures(current_A, cost) });
  return parts;
}

/** From 20 A on they read two encoders, answer sooner and go in curves between setpoints; from 45 A on they want cooler air. */
function figures(current_A: number, cost: number): InventedPart['figures'] {
  const quick = current_A >= 20;
  const warmest_C = current_A >= 45 ? 45 : 50;
  const peak_A = digits(current_A * (current_A <= 10 ? 3 : current_A <= 45 ? 2.5 : 2), 3);
  return {
    kind: 'drive',
    title: `Servo drive, ${current_A} A${quick ? ', two encoders' : ''}`,
    cost: String(cost),
    condition: `0 to ${warmest_C} °C, any load`,
    turnaround: quick ? '{ typical: 1.5 µs, at_most: 2.4 µs }' : '{ typical: 2.1 µs, at_most: 3.2 µs }',
    forwarding: '{ typical: 360 ns, at_most: 400 ns }',
    waits: '0 octets',
    command: quick ? '32 octets' : '24 octets',
    answer: quick ? '40 octets' : '28 octets',
    plugs: '2',
    current: `${current_A} A`,
    current_peak: `${peak_A} A`,
    current_peak_time: current_A <= 10 ? '3 s' : current_A <= 45 ? '2 s' : '1 s',
    loss_at_rest: `${10 + current_A} W`,
    loss_per_current: `${digits(8.5 * (current_A / 10) ** -0.07, 2)} W/A`,
    capacitance: `${nearestE12(48 * current_A)} µF`,
    bus_brake: `${brake_V} V`,
    bus_at_most: '830 V',
    resistor_at_least: `${nextE12(brake_V / (1.2 * peak_A))} Ω`,
    speed_sample: quick ? '62.5 µs' : '125 µs',
    interpolates: quick ? 'cubic' : 'linear',
    setpoint_cycles: '1 cycle',
    setpoint_jitter: quick ? '{ typical: 50 ns, at_most: 200 ns }' : '{ typical: 200 ns, at_most: 1 µs }',
    ambient: `${warmest_C} °C`,
    ambient_none: `${warmest_C + 50} °C`,
    altitude: '1000 m',
    altitude_none: '11000 m',
  };
}

function brakeResistors(): readonly InventedPart[] {
  const parts: InventedPart[] = [];
  for (const [resistance, power_W, cost] of resistors) {
    parts.push({
      name: `resistor_${String(resistance).replace('.', '_')}`,
      like: parts[0],
      figures: {
        kind: 'brake_resistor',
        title: `Brake resistor, ${resistance} Ω, ${power_W} W`,
        cost: String(cost),
        condition: '40 °C, free air around it',
        resistance: `${resistance} Ω`,
        power: `${power_W} W`,
        energy: `${digits((stored_s * power_W) / 1000, 2)} kJ`,
      },
    });
  }
  return parts;
}

/** Preferred values of a decade, series E12 of IEC 60063 (from memory). */
const e12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2] as const;
const preferred = [0.1, 1, 10, 100, 1000].flatMap((decade) => e12.map((each) => digits(each * decade, 2)));

const nextE12 = (value: number): number => preferred.find((each) => each >= value)!;

const nearestE12 = (value: number): number =>
  preferred.reduce((best, each) => (distance(each, value) < distance(best, value) ? each : best));

const distance = (one: number, other: number): number => Math.abs(Math.log(one / other));
