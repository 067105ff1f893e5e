// Moments of inertia: of bodies about their axis, of masses that a train moves along, and as seen through a gear.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const cylinderMass = formula({
  id: 'axes.cylinder.mass',
  title: 'mass of a cylinder, solid (bore of 0) or hollow',
  text: 'pi/4*ρ*l*(D^2 - d^2)',
  gives: 'kg',
  symbols: { ρ: 'kg/m³', l: 'm', D: 'm', d: 'm' },
  means: { ρ: 'density', l: 'length', D: 'outer diameter', d: 'bore' },
  try: { ρ: [800, 8000], l: [0.01, 3], D: [0.2, 1], d: [0, 0.1] },
  source: 'definition',
  proof: 'W4',
  of: (rho: number, l: number, D: number, d: number) => (Math.PI / 4) * rho * l * (D ** 2 - d ** 2),
});

export const cylinderBore = formula({
  id: 'axes.cylinder.bore',
  title: 'bore of a tube',
  text: 'D - 2*w',
  gives: 'm',
  symbols: { D: 'm', w: 'm' },
  means: { D: 'outer diameter', w: 'thickness of the wall' },
  try: { D: [0.1, 1], w: [0.001, 0.04] },
  source: 'definition',
  proof: 'a tube is the outer cylinder less the inner one',
  of: (D: number, w: number) => D - 2 * w,
});

export const solidCylinderInertia = formula({
  id: 'axes.inertia.solid_cylinder',
  title: 'inertia of a solid cylinder or a disc about its axis',
  text: 'm*D^2/8',
  gives: 'kg·m²',
  symbols: { m: 'kg', D: 'm' },
  means: { m: 'mass', D: 'diameter' },
  try: { m: [0.01, 500], D: [0.005, 2] },
  source: 'khurmi-gupta',
  at: 'radius of gyration of a disc',
  proof: 'S6',
  of: (m: number, D: number) => (m * D ** 2) / 8,
});

export const hollowCylinderInertia = formula({
  id: 'axes.inertia.hollow_cylinder',
  title: 'inertia of a hollow cylinder about its axis',
  text: 'm*(D^2 + d^2)/8',
  gives: 'kg·m²',
  symbols: { m: 'kg', D: 'm', d: 'm' },
  means: { m: 'mass', D: 'outer diameter', d: 'bore' },
  try: { m: [0.01, 500], D: [0.2, 2], d: [0.01, 0.2] },
  source: 'definition',
  proof: 'rings of mass add up to the inertia of a cylinder',
  of: (m: number, D: number, d: number) => (m * (D ** 2 + d ** 2)) / 8,
});

/** The theorem of parallel axes. */
export const offAxisInertia = formula({
  id: 'axes.inertia.off_axis',
  title: 'inertia of a body about an axis beside its own',
  text: 'J + m*r^2',
  gives: 'kg·m²',
  symbols: { J: 'kg·m²', m: 'kg', r: 'm' },
  means: { J: 'about its own axis', m: 'mass', r: 'distance of the axes' },
  try: { J: [0.001, 10], m: [0.1, 100], r: [0.05, 1] },
  source: 'definition',
  proof: 'points of mass add up to the inertia beside the axis',
  of: (J: number, m: number, r: number) => J + m * r ** 2,
});

export const inertiaAtRadius = formula({
  id: 'axes.inertia.at_radius',
  title: 'inertia of a mass at a radius, or of a body with that radius of gyration',
  text: 'm*r^2',
  gives: 'kg·m²',
  symbols: { m: 'kg', r: 'm' },
  means: { m: 'mass', r: 'radius' },
  try: { m: [0.01, 500], r: [0.005, 2] },
  source: 'khurmi-gupta',
  at: 'ex. 3.2',
  proof: 'S4',
  of: (m: number, r: number) => m * r ** 2,
});

export const inertiaOnWheel = formula({
  id: 'axes.inertia.on_wheel',
  title: 'inertia of a mass that a wheel moves: by belt, rack, rope, conveyor or web',
  text: 'm*D^2/4',
  gives: 'kg·m²',
  symbols: { m: 'kg', D: 'm' },
  means: { m: 'mass', D: 'diameter of the wheel' },
  try: { m: [0.01, 500], D: [0.005, 2] },
  source: 'common-practice',
  proof: 'S2',
  of: (m: number, D: number) => (m * D ** 2) / 4,
});

export const inertiaAtScrew = formula({
  id: 'axes.inertia.at_screw',
  title: 'inertia of a mass that a screw moves',
  text: 'm*p^2/(4*pi^2)',
  gives: 'kg·m²',
  symbols: { m: 'kg', p: 'm' },
  means: { m: 'mass', p: 'lead: way in one revolution' },
  try: { m: [0.01, 500], p: [0.001, 0.1] },
  source: 'common-practice',
  proof: 'S1',
  of: (m: number, p: number) => (m * p ** 2) / (4 * Math.PI ** 2),
});

/** For a train of which only the two speeds are known. */
export const inertiaBySpeeds = formula({
  id: 'axes.inertia.by_speeds',
  title: 'inertia of a mass by its speed and that of the shaft',
  text: 'm*v^2/ω^2',
  gives: 'kg·m²',
  symbols: { m: 'kg', v: 'm/s', ω: 'rad/s' },
  means: { m: 'mass', v: 'its speed', ω: 'speed of the shaft at the same time' },
  try: { m: [0.1, 1000], v: [0.01, 10], ω: [1, 600] },
  source: 'dubey',
  at: 'ex. 2.1',
  proof: 'S3',
  of: (m: number, v: number, omega: number) => (m * v ** 2) / omega ** 2,
});

export const reflectedInertia = formula({
  id: 'axes.inertia.reflected',
  title: 'inertia as seen through a ratio',
  text: 'J/i^2',
  gives: 'kg·m²',
  symbols: { J: 'kg·m²', i: '1' },
  means: { J: 'at the slow side', i: 'ratio: turns of the fast side for one of the slow side' },
  try: { J: [0.001, 100], i: [0.1, 100] },
  source: 'dubey',
  at: 'ex. 2.1',
  proof: 'S3',
  of: (J: number, i: number) => J / i ** 2,
});

export const timesInertia = formula({
  id: 'axes.inertia.times',
  title: 'inertia of several bodies alike',
  text: 'n*J',
  gives: 'kg·m²',
  symbols: { n: '1', J: 'kg·m²' },
  means: { n: 'how many', J: 'inertia of each, about the shaft' },
  try: { n: [1, 12, 1], J: [1e-5, 10] },
  source: 'definition',
  proof: 'S2',
  of: (n: number, J: number) => n * J,
});

export const totalInertia = formula({
  id: 'axes.inertia.total',
  title: 'all that turns together',
  text: 'sum(J)',
  gives: 'kg·m²',
  symbols: { J: 'kg·m²[]' },
  means: { J: 'each inertia, at the same shaft' },
  try: { J: [1e-6, 10] },
  source: 'definition',
  proof: 'S3',
  of: (J: readonly number[]) => total(J),
});

/** A rule of thumb for belts and gears; common practice, no source. */
export const usualInertiaRatio = 10;

export const inertiaRatio = formula({
  id: 'axes.inertia.ratio',
  title: 'inertia of the load for each part of the rotor’s',
  text: 'J/M',
  gives: '1',
  symbols: { J: 'kg·m²', M: 'kg·m²' },
  means: { J: 'load, at the motor shaft', M: 'rotor' },
  try: { J: [1e-6, 1], M: [1e-6, 0.1] },
  source: 'definition',
  proof: 'S10',
  of: (J: number, M: number) => J / M,
});

export const leastRatio = formula({
  id: 'axes.gear.least_ratio',
  title: 'least gear ratio that keeps an inertia ratio',
  text: 'sqrt(J/(k*M))',
  gives: '1',
  symbols: { J: 'kg·m²', k: '1', M: 'kg·m²' },
  means: { J: 'load, before the gear', k: 'inertia ratio allowed', M: 'rotor' },
  try: { J: [0.01, 10], k: [1, 20], M: [1e-5, 0.1] },
  source: 'definition',
  proof: 'S6',
  of: (J: number, k: number, M: number) => Math.sqrt(J / (k * M)),
});

export const quickestRatio = formula({
  id: 'axes.gear.quickest_ratio',
  title: 'gear ratio that gives the load the greatest acceleration',
  text: 'sqrt(J/M)',
  gives: '1',
  symbols: { J: 'kg·m²', M: 'kg·m²' },
  means: { J: 'load, before the gear', M: 'rotor' },
  try: { J: [0.01, 100], M: [1e-5, 5] },
  source: 'khurmi-gupta',
  at: 'ex. 3.14',
  proof: 'S9',
  of: (J: number, M: number) => Math.sqrt(J / M),
});
