// Invents the demonstration gears: planetary, four flanges, five ratios of one stage and two of two stages. Constants
// without another source are our judgement, so that sizes come out as engineers know them.
import { catalogueText, digits, type InventedPart, stepped } from './parts-text.ts';

const head = [
  'Demonstration gears. All of them are invented; no maker sells them. Written by tools/demonstration/write.ts from these',
  'rules, D being the flange and i the ratio of a planetary stage, whose sun is 1/(i - 1) of its ring:',
  '',
  'torque      what the contact of sun and planets bears, i·d·(d·p/(d + p)) with the diameters d of the sun and p of a planet,',
  '            and at most 1.1 of what it is at 5, for the output shaft: ~ D³; two stages bear what their last one does, of 5',
  'torque_peak, torque_stop  1.8 and 3 of it',
  'speed       of the same speed at the teeth and the same heat: ~ 1/√D; speed_peak is twice as much',
  'stiffness   10 arcmin at the torque that a ratio of 5 bears: ~ D³; two stages are a tenth softer',
  'backlash    the same clearance on a larger circle: ~ 1/D; a second stage adds 2 arcmin',
  'inertia     the sun and its coupling, and the carrier over i²: ~ D⁵',
  'radial_load  of bearings: ~ D²',
  '',
  'A gear has the figures of the one that it is like, where it states no others.',
];

const flanges_mm = [60, 80, 120, 160] as const;
/** The stages from the motor on. */
const stages: readonly (readonly [number, ...number[]])[] = [[3], [4], [5], [7], [10], [4, 5], [10, 5]];

export const gearsText = (): string => catalogueText(head, gears());

function gears(): readonly InventedPart[] {
  const parts: InventedPart[] = [];
  for (const flange_mm of flanges_mm) {
    const firstOfFlange = parts.length;
    for (const ratios of stages) {
      const ratio = ratios.reduce((product, each) => product * each, 1);
      const like = parts[firstOfFlange] ?? parts[0];
      parts.push({ name: `gear_${flange_mm}_${ratio}`, like, figures: figures(flange_mm, ratios, ratio) });
    }
  }
  return parts;
}

function figures(flange_mm: number, ratios: readonly [number, ...number[]], ratio: number): InventedPart['figures'] {
  const D = flange_mm / 1000;
  const two = ratios.length > 1;
  const atFive_Nm = 1.15e5 * D ** 3;
  const torque_Nm = digits(atFive_Nm * Math.min(1.1, contact(ratios.at(-1)!) / contact(5)), 2);
  const speed_rpm = stepped(3000 * Math.sqrt(0.12 / D), 100);
  const inertia_kg_m2 = 13 * D ** 5 * (0.55 + 0.45 * (5 / ratios[0]) ** 2);
  return {
    kind: 'gear',
    title: `Planetary gear, ${flange_mm} mm, ratio ${ratio}`,
    cost: String(stepped((150 + 3.4e5 * D ** 3) * (two ? 1.35 : 1), 5)),
    condition: '0 to 40 °C, any mounting, 20000 h',
    frame: `${flange_mm} mm`,
    ratio: String(ratio),
    efficiency: two ? '94 %' : '97 %',
    inertia: `${digits(inertia_kg_m2 * 1e4, 2)} kg·cm²`,
    torque: `${torque_Nm} N·m`,
    torque_exponent: '3',
    torque_peak: `${digits(1.8 * torque_Nm, 2)} N·m`,
    torque_stop: `${digits(3 * torque_Nm, 2)} N·m`,
    speed: `${speed_rpm} rpm`,
    speed_peak: `${2 * speed_rpm} rpm`,
    radial_load: `${digits(4.2e5 * D ** 2, 2)} N`,
    stiffness: `${digits((atFive_Nm / 10) * (two ? 0.9 : 1), 2)} N·m/arcmin`,
    backlash: `${stepped(0.36 / D + (two ? 2 : 0), 0.5)} arcmin`,
  };
}

/** What the contact of sun and planets bears as torque at the carrier, for a ring of the size 1. */
function contact(ratio: number): number {
  const sun = 1 / (ratio - 1);
  const planet = (1 - sun) / 2;
  return ratio * sun * ((sun * planet) / (sun + planet));
}
