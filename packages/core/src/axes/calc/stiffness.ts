// How a train gives way: stiffness of its parts and of all in series, wind-up and lost motion at the tool, and the two
// frequencies of a motor and a load with a spring between them. Inertias count at the shaft that the stiffness counts at.
import { formula } from '../../working/formula.ts';
import { sumOver } from '../../working/total.ts';

const stiffness = 'torsional stiffness between motor and load';

/** The load swings and the motor stands: what a closed speed loop leaves. */
export const antiresonance = formula({
  id: 'axes.two_masses.antiresonance',
  title: 'antiresonance of a motor and a load',
  text: 'sqrt(K/J)/(2*pi)',
  gives: 'Hz',
  symbols: { K: 'N·m/rad', J: 'kg·m²' },
  means: { K: stiffness, J: 'inertia of the load' },
  try: { K: [10, 1e5], J: [1e-4, 10] },
  source: 'definition',
  proof: 'two masses and a spring have the frequencies of their eigenvalues',
  of: (K: number, J: number) => Math.sqrt(K / J) / (2 * Math.PI),
});

/** Both swing against each other. */
export const resonance = formula({
  id: 'axes.two_masses.resonance',
  title: 'resonance of a motor and a load',
  text: 'sqrt(K*(M + J)/(M*J))/(2*pi)',
  gives: 'Hz',
  symbols: { K: 'N·m/rad', M: 'kg·m²', J: 'kg·m²' },
  means: { K: stiffness, M: 'inertia of the rotor', J: 'inertia of the load' },
  try: { K: [10, 1e5], M: [1e-5, 0.1], J: [1e-4, 1] },
  source: 'definition',
  proof: 'two masses and a spring have the frequencies of their eigenvalues',
  of: (K: number, M: number, J: number) => Math.sqrt((K * (M + J)) / (M * J)) / (2 * Math.PI),
});

/** Of the antiresonance, without measures against it: a third, with care a half. Common practice, no source. */
export const usableShares = { usual: 1 / 3, most: 1 / 2 } as const;

export const usableBandwidth = formula({
  id: 'axes.two_masses.bandwidth',
  title: 'bandwidth that a loop may have below the antiresonance',
  text: 's*f',
  gives: 'Hz',
  symbols: { s: '1', f: 'Hz' },
  means: { s: 'share, a third to a half', f: 'antiresonance' },
  try: { s: [0.3, 0.5], f: [5, 1000] },
  source: 'common-practice',
  proof: 'one ratio of inertias is fine on a stiff train and poor on a belt',
  of: (s: number, f: number) => s * f,
});

/** Parts that stand one behind the other; none is rigid, and gives an infinite stiffness. */
const series = {
  title: 'stiffness of all parts in series',
  text: '1/sum(1 ./ (K .* r.^2))',
  source: 'definition',
  proof: 'a chain of springs and ratios gives way as its equations say',
  of: (K: readonly number[], r: readonly number[]) => 1 / sumOver(K, (each, at) => 1 / (each * r[at]! ** 2)),
} as const;

const parts = 'torsional stiffness of each part, at its own shaft';
const turning = 'turning of its shaft for one of the shaft asked about';
const perWay = 'angle of its shaft for each way of the tool';

export const seriesStiffness = formula({
  ...series,
  id: 'axes.stiffness.series',
  gives: 'N·m/rad',
  symbols: { K: 'N·m/rad[]', r: '1[]' },
  means: { K: parts, r: turning },
  try: { K: [10, 1e5], r: [0.1, 20] },
});

export const seriesStiffnessOfWay = formula({
  ...series,
  id: 'axes.stiffness.series_of_way',
  gives: 'N/m',
  symbols: { K: 'N·m/rad[]', r: '1/m[]' },
  means: { K: parts, r: perWay },
  try: { K: [10, 1e5], r: [5, 600] },
});

/** Gear by gear, from the shaft towards the motor. */
export const turningAtShaft = formula({
  id: 'axes.stiffness.turning',
  title: 'how far a shaft turns for one turn of the motor',
  text: 'r/i',
  gives: '1',
  symbols: { r: '1', i: '1' },
  means: { r: 'how far it turns for one turn of the shaft before the gear', i: 'ratio of the gear' },
  try: { r: [0.01, 1], i: [1, 20] },
  source: 'definition',
  proof: 'a chain of springs and ratios gives way as its equations say',
  of: (r: number, i: number) => r / i,
});

const forTheTool = {
  title: 'how far a shaft turns for the tool',
  text: 'ω/v',
  means: { ω: 'speed of the shaft', v: 'speed of the tool at that time' },
  try: { ω: [0.1, 600], v: [0.01, 10] },
  source: 'definition',
  proof: 'a shaft turns for the tool as its ratios say',
  of: (omega: number, v: number) => omega / v,
} as const;

export const turningForAngle = formula({
  ...forTheTool,
  id: 'axes.train.turning',
  gives: '1',
  symbols: { ω: 'rad/s', v: 'rad/s' },
});

export const turningForWay = formula({
  ...forTheTool,
  id: 'axes.train.turning_for_way',
  gives: '1/m',
  symbols: { ω: 'rad/s', v: 'm/s' },
});

/** Common practice: the speed loop is several times as quick as the position loop around it. */
export const wantedBandwidth = formula({
  id: 'axes.loop.wanted_bandwidth',
  title: 'bandwidth of the speed loop that a position loop asks for',
  text: 'n*k/(2*pi)',
  gives: 'Hz',
  symbols: { n: '1', k: '1/s' },
  means: { n: 'how many times as quick it is', k: 'gain of the position loop' },
  try: { n: [2, 10], k: [5, 500] },
  source: 'common-practice',
  proof: 'a position loop around a speed loop four times as quick does not overshoot',
  of: (n: number, k: number) => (n * k) / (2 * Math.PI),
});

export const stiffnessOnWheel = formula({
  id: 'axes.stiffness.on_wheel',
  title: 'torsional stiffness at a wheel of what gives way at its circumference',
  text: 'k*D^2/4',
  gives: 'N·m/rad',
  symbols: { k: 'N/m', D: 'm' },
  means: { k: 'stiffness along the way', D: 'diameter of the wheel' },
  try: { k: [1e3, 1e8], D: [0.01, 1] },
  source: 'definition',
  proof: 'what gives way keeps its energy through wheel and screw',
  of: (k: number, D: number) => (k * D ** 2) / 4,
});

export const stiffnessAtScrew = formula({
  id: 'axes.stiffness.at_screw',
  title: 'torsional stiffness at a screw of what gives way along it: shank, nut and bearing',
  text: 'k*p^2/(4*pi^2)',
  gives: 'N·m/rad',
  symbols: { k: 'N/m', p: 'm' },
  means: { k: 'stiffness along the way', p: 'lead: way in one revolution' },
  try: { k: [1e6, 1e9], p: [0.001, 0.1] },
  source: 'definition',
  proof: 'what gives way keeps its energy through wheel and screw',
  of: (k: number, p: number) => (k * p ** 2) / (4 * Math.PI ** 2),
});

/** Both strands carry, as long as the pretension keeps either from going slack; it is least where they are equal. */
export const beltStiffness = formula({
  id: 'axes.stiffness.belt',
  title: 'stiffness of a belt whose two strands hold against each other',
  text: 'E*A*(1/l + 1/u)',
  gives: 'N/m',
  symbols: { E: 'Pa', A: 'm²', l: 'm', u: 'm' },
  means: {
    E: 'modulus of elasticity',
    A: 'section that carries',
    l: 'free length of one strand',
    u: 'free length of the other',
  },
  try: { E: [1e9, 2e11], A: [1e-6, 1e-3], l: [0.1, 2], u: [0.2, 5] },
  source: 'definition',
  proof: 'elongation under a force is what gives way',
  of: (E: number, A: number, l: number, u: number) => E * A * (1 / l + 1 / u),
});

export const rodStiffness = formula({
  id: 'axes.stiffness.rod',
  title: 'stiffness of the shank of a screw or of a rod, held at one end',
  text: 'pi*E*d^2/(4*l)',
  gives: 'N/m',
  symbols: { E: 'Pa', d: 'm', l: 'm' },
  means: { E: 'modulus of elasticity', d: 'diameter of the core', l: 'length under load' },
  try: { E: [1e9, 2.2e11], d: [0.005, 0.1], l: [0.1, 3] },
  source: 'definition',
  proof: 'elongation under a force is what gives way',
  of: (E: number, d: number, l: number) => (Math.PI * E * d ** 2) / (4 * l),
});

export const shaftStiffness = formula({
  id: 'axes.stiffness.shaft',
  title: 'torsional stiffness of a round shaft, solid (bore of 0) or hollow',
  text: 'pi*G*(D^4 - d^4)/(32*l)',
  gives: 'N·m/rad',
  symbols: { G: 'Pa', D: 'm', d: 'm', l: 'm' },
  means: { G: 'shear modulus', D: 'outer diameter', d: 'bore', l: 'length under torque' },
  try: { G: [2e10, 8.5e10], D: [0.02, 0.1], d: [0, 0.019], l: [0.01, 3] },
  source: 'definition',
  proof: 'rings of a shaft add up to its stiffness',
  of: (G: number, D: number, d: number, l: number) => (Math.PI * G * (D ** 4 - d ** 4)) / (32 * l),
});

/** Each part's own angle counts at the tool by its ratio. */
const windUp = {
  title: 'wind-up of a train at its tool',
  text: 'sum(T ./ (K .* r))',
  source: 'definition',
  proof: 'a chain of springs and ratios gives way as its equations say',
  of: (T: readonly number[], K: readonly number[], r: readonly number[]) =>
    sumOver(T, (each, at) => each / (K[at]! * r[at]!)),
} as const;

const through = 'torque through each part, at its own shaft';

export const windUpAngle = formula({
  ...windUp,
  id: 'axes.train.wind_up',
  gives: 'rad',
  symbols: { T: 'N·m[]', K: 'N·m/rad[]', r: '1[]' },
  means: { T: through, K: parts, r: 'turning of its shaft for one of the tool' },
  try: { T: [0.1, 500], K: [10, 1e5], r: [0.1, 20] },
});

export const windUpWay = formula({
  ...windUp,
  id: 'axes.train.wind_up_way',
  gives: 'm',
  symbols: { T: 'N·m[]', K: 'N·m/rad[]', r: '1/m[]' },
  means: { T: through, K: parts, r: perWay },
  try: { T: [0.1, 500], K: [10, 1e5], r: [5, 600] },
});

const backlash = {
  title: 'backlash of all parts at the tool',
  text: 'sum(β ./ r)',
  source: 'definition',
  proof: 'play of each part is seen at the tool',
  of: (beta: readonly number[], r: readonly number[]) => sumOver(beta, (each, at) => each / r[at]!),
} as const;

const play = 'backlash of each part, at its own shaft';

export const backlashAngle = formula({
  ...backlash,
  id: 'axes.train.backlash',
  gives: 'rad',
  symbols: { β: 'rad[]', r: '1[]' },
  means: { β: play, r: 'turning of its shaft for one of the tool' },
  try: { β: [0, 0.01], r: [0.1, 20] },
});

export const backlashWay = formula({
  ...backlash,
  id: 'axes.train.backlash_way',
  gives: 'm',
  symbols: { β: 'rad[]', r: '1/m[]' },
  means: { β: play, r: perWay },
  try: { β: [0, 0.01], r: [5, 600] },
});

/** From the torque to rest on the far side of the play; a torque that turns round winds up twice. */
const lostMotion = {
  title: 'lost motion at the tool',
  text: 'w + β',
  means: { w: 'wind-up', β: 'backlash' },
  source: 'definition',
  proof: 'play of each part is seen at the tool',
  of: (w: number, beta: number) => w + beta,
} as const;

export const lostAngle = formula({
  ...lostMotion,
  id: 'axes.train.lost_motion',
  gives: 'rad',
  symbols: { w: 'rad', β: 'rad' },
  try: { w: [1e-5, 0.01], β: [0, 0.01] },
});

export const lostWay = formula({
  ...lostMotion,
  id: 'axes.train.lost_way',
  gives: 'm',
  symbols: { w: 'm', β: 'm' },
  try: { w: [1e-6, 1e-3], β: [0, 1e-3] },
});

export const torqueRange = formula({
  id: 'axes.train.torque_range',
  title: 'how far the torque through a train goes up and down',
  text: 'H - L',
  gives: 'N·m',
  symbols: { H: 'N·m', L: 'N·m' },
  means: { H: 'highest torque', L: 'lowest torque, below 0 where it turns round' },
  try: { H: [0.1, 500], L: [-500, 0.1] },
  source: 'definition',
  proof: 'the torque through a train goes between its ends: by hand, and sampled finely',
  of: (H: number, L: number) => H - L,
});

export const wayOfAngle = formula({
  id: 'axes.train.way_of_angle',
  title: 'way of the web for an angle of the tool',
  text: 'φ*l/(2*pi)',
  gives: 'm',
  symbols: { φ: 'rad', l: 'm' },
  means: { φ: 'angle of the tool', l: 'way of the web for one turn of the tool' },
  try: { φ: [1e-6, 1e-2], l: [0.05, 2] },
  source: 'definition',
  proof: 'a tool that lags by an angle cuts later by the way of the web for it',
  of: (phi: number, l: number) => (phi * l) / (2 * Math.PI),
});
