// The positions of a bar, its clamping, and its words.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marginBar } from './margin-bar.ts';

const bar = (demand?: number, capacity?: number, reserve?: number) =>
  marginBar({
    ...(demand !== undefined && { demand: { value: demand } }),
    ...(capacity !== undefined && { capacity: { value: capacity } }),
    ...(reserve !== undefined && { reserve: { value: reserve } }),
  });

describe('marginBar', () => {
  it('puts the demand, the reserve and the capacity on one scale', () => {
    expect(bar(250, 500, 0.25)).toEqual({
      demand: 0.4375,
      notch: 0.65625,
      rail: 0.875,
      cut: false,
      text: '50 % of the capacity is needed; up to 75 % keeps the wanted reserve',
    });
  });

  it('shows a demand beyond the capacity to scale as far as there is room, and says when it is cut', () => {
    expect(bar(8, 7, 0)).toMatchObject({ demand: 1, cut: false });
    expect(bar(16, 7, 0)).toMatchObject({
      demand: 1,
      cut: true,
      text: '229 % of the capacity is needed; up to 100 % keeps the wanted reserve',
    });
    expect(bar(1.05, 1, 0.2).demand).toBeCloseTo(1.05 * 0.875, 12);
  });

  it('gives what is not known no position', () => {
    expect(bar(undefined, 5, 0.25)).toEqual({
      notch: 0.65625,
      rail: 0.875,
      cut: false,
      text: 'How much of the capacity is needed is not known; up to 75 % keeps the wanted reserve',
    });
    expect(bar(5)).toEqual({ rail: 0.875, cut: false, text: 'How much of the capacity is needed is not known' });
    expect(bar(Number.NaN, 5)).not.toHaveProperty('demand');
    expect(bar(5, Number.POSITIVE_INFINITY)).toMatchObject({ demand: 0 });
  });

  it('compares nothing with a capacity that is not there', () => {
    expect(bar(5, 0, 0.25)).toEqual({ notch: 0.65625, rail: 0.875, cut: false, text: 'There is no capacity' });
    expect(bar(5, -1)).not.toHaveProperty('demand');
  });

  it('orders demand and rail as the values are ordered, at any size', () => {
    const amount = fc.double({ min: 1e-12, max: 1e12, noNaN: true });
    fc.assert(
      fc.property(amount, amount, fc.double({ min: 0, max: 1, noNaN: true }), (demand, capacity, reserve) => {
        const { demand: at, notch, rail, cut } = bar(demand, capacity, reserve);
        expect(at).toBeGreaterThanOrEqual(0);
        expect(at).toBeLessThanOrEqual(1);
        expect(notch).toBeLessThanOrEqual(rail);
        if (demand < capacity * (1 - 1e-9)) expect(at).toBeLessThan(rail);
        if (demand > capacity * (1 + 1e-9)) expect(at).toBeGreaterThan(rail);
        expect(cut).toBe((demand / capacity) * rail > 1);
      }),
    );
  });
});
