// Which scan, period and jitter signals ask for: pulses that none may be missed of, watchdogs, setpoints that come late.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

/** Where the drive does not interpolate: a setpoint that comes late by j steps by ω·j, once in each cycle. */
export const jitterTorque = formula({
  id: 'timing.jitter.torque',
  title: 'torque that jitter of the setpoints asks for',
  text: 'sum(J)*ω*j/T^2',
  gives: 'N·m',
  symbols: { J: 'kg·m²[]', ω: 'rad/s', j: 's', T: 's' },
  means: { J: 'each inertia at the shaft', ω: 'its speed', j: 'jitter', T: 'cycle of the setpoints' },
  try: { J: [1e-5, 1e-1], ω: [1, 600], j: [1e-7, 1e-4], T: [1e-4, 1e-2] },
  source: 'common-practice',
  proof: 'a late setpoint, differentiated twice, is the torque of its jitter',
  of: (J: readonly number[], omega: number, j: number, T: number) => (total(J) * omega * j) / T ** 2,
});

const period = {
  title: 'time from pulse to pulse',
  text: 'l/v',
  gives: 's',
  means: { l: 'way from pulse to pulse', v: 'speed' },
  try: { l: [1e-4, 0.5], v: [0.01, 10] },
  source: 'definition',
  proof: 'pulses of 1 per inch at 243 ft/min ask for a scan under 10.3 ms',
  of: (l: number, v: number) => l / v,
} as const;

export const pulsePeriod = formula({ ...period, id: 'timing.pulse.period', symbols: { l: 'm', v: 'm/s' } });
export const pulsePeriodTurning = formula({
  ...period,
  id: 'timing.pulse.period_turning',
  symbols: { l: 'rad', v: 'rad/s' },
});

/** A scan that is shorter sees every pulse; one that is not may miss it. */
export const shortestPhase = formula({
  id: 'timing.pulse.phase',
  title: 'shorter one of the on and the off time of a pulse',
  text: 'P*min(d, 1 - d)',
  gives: 's',
  symbols: { P: 's', d: '1' },
  means: { P: 'time from pulse to pulse', d: 'share of it that the pulse is on' },
  try: { P: [1e-3, 1], d: [0.05, 0.95] },
  source: 'definition',
  proof: 'a scan shorter than the shortest phase sees every pulse',
  of: (P: number, d: number) => P * Math.min(d, 1 - d),
});

/** Rules of practice take 5 to 10 scans. */
export const practicalScan = formula({
  id: 'timing.pulse.scan',
  title: 'scan that a rule of practice asks for',
  text: 'P/n',
  gives: 's',
  symbols: { P: 's', n: '1' },
  means: { P: 'time from pulse to pulse', n: 'scans in that time' },
  try: { P: [1e-3, 1], n: [5, 10] },
  source: 'common-practice',
  proof: 'pulses of 1 per inch at 243 ft/min ask for a scan under 10.3 ms',
  of: (P: number, n: number) => P / n,
});

/** Looks one behind another: each may have just looked, and look late the next time. */
export const betweenLooks = formula({
  id: 'timing.pulse.looks',
  title: 'longest time from one look to the next',
  text: 'sum(T) + sum(l)',
  gives: 's',
  symbols: { T: 's[]', l: 's[]' },
  means: { T: 'period of each that looks, one behind another', l: 'by how much each may look late' },
  try: { T: [1e-4, 1e-2], l: [0, 5e-3] },
  source: 'definition',
  proof: 'pulses that are longer than the time between looks are all seen',
  of: (T: readonly number[], l: readonly number[]) => total(T) + total(l),
});

/** Through a filter comes what is longer than it, as long as it was. */
export const shortestSeen = formula({
  id: 'timing.pulse.needs',
  title: 'what a signal must be there or away for to be seen',
  text: 'max(f, g)',
  gives: 's',
  symbols: { f: 's', g: 's' },
  means: { f: 'filter of the input', g: 'longest time from one look to the next' },
  try: { f: [0, 1e-2], g: [1e-4, 2e-2] },
  source: 'definition',
  proof: 'pulses that are longer than the time between looks are all seen',
  of: (f: number, g: number) => Math.max(f, g),
});

/** The longest silence is one period more than are lost in a row, and the jitter of the one that ends it. */
export const longestSilence = formula({
  id: 'timing.watchdog.silence',
  title: 'longest time between two values that arrive',
  text: '(k + 1)*T + j',
  gives: 's',
  symbols: { k: '1', T: 's', j: 's' },
  means: { k: 'values lost in a row', T: 'period of the values', j: 'jitter of their arrival' },
  try: { k: [0, 5, 1], T: [1e-4, 1], j: [0, 1e-2] },
  source: 'definition',
  proof: 'a watchdog just bears the longest silence',
  of: (k: number, T: number, j: number) => (k + 1) * T + j,
});

export const periodForWatchdog = formula({
  id: 'timing.watchdog.period',
  title: 'slowest period that a watchdog bears',
  text: '(W - j)/(k + 1)',
  gives: 's',
  symbols: { W: 's', j: 's', k: '1' },
  means: { W: 'time of the watchdog', j: 'jitter of the arrival', k: 'values that may be lost in a row' },
  try: { W: [1e-3, 2], j: [0, 1e-3], k: [0, 5, 1] },
  source: 'definition',
  proof: 'a cycle and a period that are allowed give back what they were asked for',
  of: (W: number, j: number, k: number) => (W - j) / (k + 1),
});
