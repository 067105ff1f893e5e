// The efficiencies of a sliding screw from the friction of its thread and its collar, both ways.
// With them the screw takes the torques of `screwRaising` and `screwLowering`.
import { formula } from '../../working/formula.ts';

/** The flanks press on each other with more than the force along the screw; the lead is left out of it, as is usual. */
export const flankFriction = formula({
  id: 'axes.screw.flank_friction',
  title: 'friction of a thread whose flanks lean, as on a square one',
  text: 'μ/cos(β)',
  gives: '1',
  symbols: { μ: '1', β: 'rad' },
  means: { μ: 'friction of the thread', β: 'how far its flanks lean' },
  try: { μ: [0.02, 0.3], β: [0.05, 0.6] },
  source: 'common-practice',
  proof: 'a block in a groove rubs on both of its flanks',
  of: (mu: number, beta: number) => mu / Math.cos(beta),
});

const sliding = {
  symbols: { p: 'm', d: 'm', μ: '1', κ: '1', D: 'm' },
  means: {
    p: 'lead: way in one revolution',
    d: 'mean diameter of the thread',
    μ: 'friction of the thread',
    κ: 'friction of the collar',
    D: 'mean diameter of the collar',
  },
  try: { p: [0.001, 0.02], d: [0.008, 0.1], μ: [0.01, 0.3], κ: [0.01, 0.3], D: [0.01, 0.2] },
  gives: '1',
  as: '%',
  source: 'jindal',
  at: 'ex. 16-1',
} as const;

/** Valid while π·d is over μ·p; else nothing turns the screw. */
export const slidingScrewDriving = formula({
  ...sliding,
  id: 'axes.screw.efficiency',
  title: 'efficiency of a sliding screw that the motor drives',
  text: 'p/((p + pi*μ*d)*pi*d/(pi*d - μ*p) + pi*κ*D)',
  proof: 'S7 as a file',
  of: (p: number, d: number, mu: number, kappa: number, D: number) =>
    p / (((p + Math.PI * mu * d) * Math.PI * d) / (Math.PI * d - mu * p) + Math.PI * kappa * D),
});

export const slidingScrewDriven = formula({
  ...sliding,
  id: 'axes.screw.efficiency_back',
  title: 'efficiency of a sliding screw that its force drives, below 0 where it locks itself',
  text: '((p - pi*μ*d)*pi*d/(pi*d + μ*p) - pi*κ*D)/p',
  proof: 'the efficiencies of a sliding screw are those of its torques',
  of: (p: number, d: number, mu: number, kappa: number, D: number) =>
    (((p - Math.PI * mu * d) * Math.PI * d) / (Math.PI * d + mu * p) - Math.PI * kappa * D) / p,
});
