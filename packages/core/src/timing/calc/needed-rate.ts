// Which cycle a loop that closes over the network needs, and the slowest one that all reasons bear. What lies between
// setpoints stands in `setpoint-error.ts`, lags in `lag.ts`; jitter and skew are a way gone in a time (`lead.ts`); pulses,
// watchdogs and what jitter costs in torque stand in `signal-rate.ts`.
import { formula } from '../../working/formula.ts';

/** Of a loop that an integrator closes; its dead time is some cycles, and what does not depend on the cycle. */
export const sampledBandwidth = formula({
  id: 'timing.rate.bandwidth',
  title: 'bandwidth that a cycle leaves a loop',
  text: '(pi/2 - φ)/(2*pi*(n*T + d))',
  gives: 'Hz',
  symbols: { φ: 'rad', n: '1', T: 's', d: 's' },
  means: {
    φ: 'phase margin',
    n: 'cycles from a measurement to the middle of its effect',
    T: 'cycle',
    d: 'dead time beside them',
  },
  try: { φ: [0.3, 1.4], n: [1, 6], T: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'definition',
  proof: 'dead time: 1 ms leaves 125 Hz at 45°, 83.3 Hz at 60°',
  of: (phi: number, n: number, T: number, d: number) => (Math.PI / 2 - phi) / (2 * Math.PI * (n * T + d)),
});

/** Below 0 where the dead time beside the cycles alone is too long. */
export const cycleForBandwidth = formula({
  id: 'timing.rate.cycle_for_bandwidth',
  title: 'slowest cycle for the bandwidth of a loop',
  text: '((pi/2 - φ)/(2*pi*f) - d)/n',
  gives: 's',
  symbols: { φ: 'rad', f: 'Hz', n: '1', d: 's' },
  means: {
    φ: 'phase margin',
    f: 'bandwidth wanted',
    n: 'cycles from a measurement to the middle of its effect',
    d: 'dead time beside them',
  },
  try: { φ: [0.3, 1.4], f: [5, 200], n: [1, 6], d: [0, 1e-2] },
  source: 'definition',
  proof: 'a cycle and a period that are allowed give back what they were asked for',
  of: (phi: number, f: number, n: number, d: number) => ((Math.PI / 2 - phi) / (2 * Math.PI * f) - d) / n,
});

/** Of a position loop around a much quicker speed loop: an integrator with a gain. */
export const loopBandwidth = formula({
  id: 'timing.rate.loop_bandwidth',
  title: 'bandwidth of a position loop',
  text: 'k/(2*pi)',
  gives: 'Hz',
  symbols: { k: '1/s' },
  means: { k: 'gain of the position loop' },
  try: { k: [5, 500] },
  source: 'definition',
  proof: 'of a loop over the network is that of its gain',
  of: (k: number) => k / (2 * Math.PI),
});

export const slowestOf = formula({
  id: 'timing.rate.slowest',
  title: 'slowest cycle that all reasons bear',
  text: 'min(T)',
  gives: 's',
  symbols: { T: 's[]' },
  means: { T: 'slowest cycle of each reason' },
  try: { T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'takes the stricter of both',
  of: (T: readonly number[]) => Math.min(...T),
});
