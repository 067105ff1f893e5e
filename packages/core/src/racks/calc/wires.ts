// What a wire does to the voltage at its end: its resistance, cold and warm, and what is lost on the way out and back.
import { formula, method } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const wireResistance = formula({
  id: 'racks.wire_resistance',
  title: 'resistance of one conductor at the temperature that its resistivity is stated for',
  text: 'ρ*l/A',
  gives: 'Ω',
  symbols: { ρ: 'Ω·m', l: 'm', A: 'm²' },
  means: { ρ: 'resistivity', l: 'length of the wire, one way', A: 'section of the conductor' },
  try: { ρ: [1e-8, 1e-7], l: [0.1, 500], A: [1e-7, 1e-5] },
  source: 'bird',
  proof: 'Bird, chapter 3: resistance of a wire',
  of: (ρ: number, l: number, A: number) => (ρ * l) / A,
});

export const warmResistance = formula({
  id: 'racks.warm_resistance',
  title: 'resistance of one conductor when it is warm',
  text: 'R*(1 + α*(T - K))',
  gives: 'Ω',
  symbols: { R: 'Ω', α: '1/K', T: 'K abs', K: 'K abs' },
  means: {
    R: 'resistance at the temperature that its resistivity is stated for',
    α: 'temperature coefficient',
    T: 'temperature of the conductor',
    K: 'temperature that the resistivity is stated for',
  },
  try: { R: [0.01, 50], α: [0.001, 0.006], T: [300, 400], K: [270, 295] },
  source: 'bird',
  proof: 'Bird, chapter 3: resistance when warm',
  of: (R: number, α: number, T: number, K: number) => R * (1 + α * (T - K)),
});

/** Out by one conductor, back by another one like it. */
export const lostOnWire = formula({
  id: 'racks.lost_on_wire',
  title: 'voltage that is lost on a wire, out and back',
  text: '2*R*i',
  gives: 'V',
  symbols: { R: 'Ω', i: 'A' },
  means: { R: 'resistance of one conductor', i: 'current' },
  try: { R: [0.001, 10], i: [0.001, 8] },
  source: 'definition',
  proof: 'Kirchhoff: the drop by a walk around the loop',
  of: (R: number, i: number) => 2 * R * i,
});

export const lostTogether = formula({
  id: 'racks.lost_together',
  title: 'voltage that is lost on all parts of the way',
  text: 'sum(u)',
  gives: 'V',
  symbols: { u: 'V[]' },
  means: { u: 'what each part of the way takes' },
  try: { u: [0, 5] },
  source: 'definition',
  proof: 'Kirchhoff: the drop by a walk around the loop',
  of: total,
});

export const arrives = formula({
  id: 'racks.arrives',
  title: 'voltage that arrives',
  text: 'U - u',
  gives: 'V',
  symbols: { U: 'V', u: 'V' },
  means: { U: 'lowest voltage at the terminals of the supply', u: 'voltage that is lost on the way' },
  try: { U: [15, 30], u: [0, 10] },
  source: 'definition',
  proof: 'Kirchhoff: the drop by a walk around the loop',
  of: (U: number, u: number) => U - u,
});

/** Not finite where no section carries the current. */
export const sectionFor = method({
  id: 'racks.section_for',
  title: 'section of a conductor',
  prose: 'the smallest of the sections that carry the current',
  gives: 'm²',
  symbols: { i: 'A', A: 'm²[]', I: 'A[]' },
  means: { i: 'current', A: 'sections', I: 'current that each of them carries' },
  source: 'iec-60204-1',
  proof: 'the smallest section by trying them all',
  of: (i: number, sections: readonly number[], carried: readonly number[]) =>
    sections.reduce((least, each, at) => (carried[at]! >= i && each < least ? each : least), Number.POSITIVE_INFINITY),
});
