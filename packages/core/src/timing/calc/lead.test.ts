// Leads, latencies and clocks against errors that are tried out.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  clockBeat,
  latencyOfTwoSpeeds,
  latencyOfTwoTurning,
  leftByLead,
  middleLead,
  varyingDelay,
  wayGone,
} from './lead.ts';

it('a lead by the middle leaves half of what varies, and no other lead leaves less', () => {
  const random = seeded(50);
  for (let at = 0; at < 100; at++) {
    const [b, w] = [random() * 1e-2, 1e-2 + random() * 1e-2];
    const delays = { b: q(b, 's'), w: q(w, 's') };
    const worst = (lead: number) => Math.max(Math.abs(b - lead), Math.abs(w - lead));
    const lead = middleLead(delays, 'test').value;
    const left = leftByLead(delays, 'test').value;
    expect(worst(lead)).toBeCloseTo(left, 15);
    expect(varyingDelay(delays, 'test').value).toBeCloseTo(2 * left, 15);
    for (const other of [0.9 * lead, 1.1 * lead, b, w]) expect(worst(other)).toBeGreaterThan(left);
  }
});

it('a mark that moves with the speed tells its latency: 0.472 mm between 100 and 400 mm/min are 94 ms', () => {
  const speeds = { v: q(0.4 / 60, 'm/s'), u: q(0.1 / 60, 'm/s') };
  const t = latencyOfTwoSpeeds({ x: q(0.472e-3, 'm'), ...speeds }, 'test');
  expect(t.value).toBeCloseTo(0.094, 3);
  const [fast, slow] = [wayGone({ v: speeds.v, t }, 'test'), wayGone({ v: speeds.u, t }, 'test')];
  expect(fast.value - slow.value).toBeCloseTo(0.472e-3, 12);
  const turning = { x: q(0.3, 'rad'), v: q(7, 'rad/s'), u: q(1, 'rad/s') };
  expect(latencyOfTwoTurning(turning, 'test').value).toBeCloseTo(0.05, 12);
});

it('two clocks that are walked meet after the beat: 1 ms with 50 ppm every 20 s', () => {
  expect(clockBeat({ T: q(1e-3, 's'), p: q(50e-6, '1') }, 'test').value).toBeCloseTo(20, 12);
  // The other clock has 20 001 cycles in the 20 000 of this one.
  let [walked, wait] = [0, 0];
  const other = 1e-3 / (1 + 50e-6);
  do {
    walked++;
    const before = wait;
    wait = (Math.ceil((walked * 1e-3) / other - 1e-9) * other) % 1e-3;
    if (walked > 1 && wait > before + 5e-4) break;
  } while (walked < 1e5);
  expect(walked * 1e-3).toBeCloseTo(20, 2);
});
