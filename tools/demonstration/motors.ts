// Invents the demonstration motors: six flanges, three lengths, two windings, with and without a brake, all from one set
// of rules. Constants without another source are our judgement, so that sizes come out as engineers know them.
import { catalogueText, digits, type InventedPart, steppedDown } from './parts-text.ts';

const head = [
  'Demonstration motors. All of them are invented; no maker sells them. Written by tools/demonstration/write.ts from these',
  'rules, D being the flange and L the active length, which is 0.4, 0.7 or 1.1 of the flange:',
  '',
  'inertia          a steel rotor of half the flange: ~ D⁴·L; a brake adds ~ D⁵',
  'torque_peak      a shear stress of 55 kPa at the rotor, whatever the size: ~ D²·L',
  'torque           copper goes with D²·(L + 0.9 D), its cooling with D·(L + 0.9 D): it is 100 K warm at a current density',
  '                 of ~ 1/√D, which gives ~ D^2.5·L',
  'torque_rated     heat of iron and friction goes with D·n^1.5 and leaves less for the winding: torque·√(1 - share);',
  '                 the share is 55 % at 180 mm and 3000 rpm',
  'torque_constant  at the highest speed the motor induces 90 % of the mains; small motors have windings for 0.6 A at least',
  'speed_peak_torque  where the mains are used up by what is induced, the resistance, and an inductance that takes 16 % at',
  '                 the torque at standstill and the highest speed; at most 90 % of the highest speed',
  'mass             3000 kg/m³ of D²·(L + 0.9 D)',
  'time_winding, time_frame  heat is stored in a volume and leaves through a surface: ~ D',
  'brake            holds 1.15 of the torque of the longest motor with its flange',
  'ambient_none     where the surroundings are as warm as the winding may be: ambient + temperature_rise',
  '',
  'A motor has the figures of the one that it is like, where it states no others. _fast is a winding for more speed.',
];

/** Flange, rated speed of the winding for more torque and of the one for more speed. Common practice, no source. */
const flanges = [
  { flange_mm: 40, rated_rpm: [undefined, 6000] },
  { flange_mm: 60, rated_rpm: [3000, 6000] },
  { flange_mm: 80, rated_rpm: [3000, 5000] },
  { flange_mm: 100, rated_rpm: [2000, 4000] },
  { flange_mm: 130, rated_rpm: [2000, 4000] },
  { flange_mm: 180, rated_rpm: [2000, 3000] },
] as const;
/** Active length for each length of flange. */
const lengths = [0.4, 0.7, 1.1] as const;
const longest = 1.1;
/** End windings and end shields, for each length of flange. */
const ends = 0.9;

const mains_V = 400;
/** Thermal class 155 of IEC 60085 (from memory), with 15 K kept for the hottest place. */
const [ambient_C, rise_K, windingAtMost_C] = [40, 100, 155];
const riseInWinding = 0.3;

const steel_kg_per_m3 = 7600;
const density_kg_per_m3 = 3000;
const heatCapacity_J_per_kgK = 480;
/** Of the four sides, what leaves through the flange included. */
const cooling_W_per_m2K = 18;
const peakShear_Pa = 55e3;
/** 3 N·m at 100 mm and the shortest length. */
const torqueFactor = 3 / (0.1 ** 3.5 * 0.4);
const inducedShare = 0.9;
const inductiveShare = 0.16;
const leastCurrent_A = 0.6;

export const motorsText = (): string => catalogueText(head, motors());

function motors(): readonly InventedPart[] {
  const parts: InventedPart[] = [];
  for (const { flange_mm, rated_rpm } of flanges) {
    const firstOfFlange = parts.length;
    lengths.forEach((length, index) => {
      const name = `motor_${flange_mm}_${index + 1}`;
      const [slow_rpm, fast_rpm] = rated_rpm;
      const slow = add(name, parts[firstOfFlange] ?? parts[0], figures(flange_mm, length, slow_rpm ?? fast_rpm, false));
      if (slow_rpm !== undefined) add(`${name}_fast`, slow, figures(flange_mm, length, fast_rpm, true));
    });
  }
  return parts;

  function add(name: string, like: InventedPart | undefined, motor: Motor): InventedPart {
    const plain = { name, like, figures: motor.figures };
    parts.push(plain, { name: `${name}_brake`, like: plain, figures: { ...motor.figures, ...motor.withBrake } });
    return plain;
  }
}

interface Motor {
  readonly figures: InventedPart['figures'];
  /** What a brake changes and adds. */
  readonly withBrake: InventedPart['figures'];
}

function figures(flange_mm: number, length: number, rated_rpm: number, fast: boolean): Motor {
  const D = flange_mm / 1000;
  const highest_rpm = 1.5 * rated_rpm;
  const highest_rad_per_s = (highest_rpm * Math.PI) / 30;
  const envelope_m3 = D ** 3 * (length + ends);
  const loss_W = cooling_W_per_m2K * 4 * D ** 2 * (length + ends) * rise_K * (1 - riseInWinding);

  const rotor_kg_m2 = (steel_kg_per_m3 * Math.PI * (D / 2) ** 4 * length * D) / 32;
  const brakeInertia_kg_m2 = (steel_kg_per_m3 * Math.PI * (D / 2) ** 4 * 0.06 * D) / 32;
  const torque_Nm = digits(torqueFactor * D ** 3.5 * length, 2);
  const peak_Nm = digits(peakShear_Pa * (Math.PI / 2) * D ** 2 * (length * D) * 0.25, 2);
  const lostToSpeed = 0.55 * (D / 0.18) * (rated_rpm / 3000) ** 1.5;
  const constant = steppedDown(
    Math.min((Math.sqrt(3) * mains_V * inducedShare) / highest_rad_per_s, torque_Nm / leastCurrent_A),
    0.01,
  );
  const induced = (constant * highest_rad_per_s) / Math.sqrt(3) / mains_V;
  const resistive = loss_W / (Math.sqrt(3) * mains_V * (torque_Nm / constant));
  const upTo = shareOfSpeed(induced, resistive, peak_Nm / torque_Nm);
  const mass_kg = density_kg_per_m3 * envelope_m3;
  const cost = 160 + 58 * mass_kg + (fast ? 15 + mass_kg : 0);
  const timeFrame_s = (mass_kg * heatCapacity_J_per_kgK * rise_K * (1 - riseInWinding)) / loss_W;

  const title = `Servo motor, ${flange_mm} mm, ${torque_Nm} N·m, ${rated_rpm} rpm`;
  return {
    figures: {
      kind: 'motor',
      title,
      cost: String(digits(cost, 3)),
      condition: 'on a steel plate of twice the flange',
      frame: `${flange_mm} mm`,
      mass: `${digits(mass_kg, 2)} kg`,
      inertia: inertia(rotor_kg_m2),
      torque: `${torque_Nm} N·m`,
      torque_rated: `${digits(torque_Nm * Math.sqrt(1 - lostToSpeed), 2)} N·m`,
      speed_rated: `${rated_rpm} rpm`,
      torque_peak: `${peak_Nm} N·m`,
      speed_peak_torque: `${steppedDown(upTo * highest_rpm, 100)} rpm`,
      speed: `${highest_rpm} rpm`,
      mains: `${mains_V} V`,
      torque_constant: `${constant} N·m/A`,
      temperature_rise: `${rise_K} K`,
      rise_in_winding: `${100 * riseInWinding} %`,
      time_winding: `${digits(450 * D, 2)} s`,
      time_frame: `${digits(timeFrame_s / 60, 2)} min`,
      winding_at_most: `${windingAtMost_C} °C`,
      encoder: String(flange_mm < 80 ? 2 ** 17 : 2 ** 20),
      cooling_at_rest: '100 %',
      ambient: `${ambient_C} °C`,
      ambient_none: `${ambient_C + rise_K} °C`,
      altitude: '1000 m',
      altitude_none: '11000 m',
    },
    withBrake: {
      title: `${title}, with a brake`,
      cost: String(digits(45 + 1.15 * cost, 3)),
      mass: `${digits(mass_kg + density_kg_per_m3 * D ** 3 * 0.25, 2)} kg`,
      inertia: inertia(rotor_kg_m2 + brakeInertia_kg_m2),
      brake: `${digits(1.15 * torqueFactor * D ** 3.5 * longest, 2)} N·m`,
      brake_delay: `${digits(300 * D, 2)} ms`,
    },
  };
}

const inertia = (J_kg_m2: number): string => `${digits(J_kg_m2 * 1e4, 3)} kg·cm²`;

/** Where (induced·s + resistive·m)² + (inductive·s·m)² is 1, m being the peak current over that of standstill. */
function shareOfSpeed(induced: number, resistive: number, m: number): number {
  const [a, b, c] = [induced ** 2 + (inductiveShare * m) ** 2, 2 * induced * resistive * m, (resistive * m) ** 2 - 1];
  return Math.min(0.9, (-b + Math.sqrt(b ** 2 - 4 * a * c)) / (2 * a));
}
