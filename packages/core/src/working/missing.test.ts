// Computing with numbers that may be absent: everything that lacks is told at once, and what is known gets through.
import { describe, expect, it } from 'vitest';
import { formula } from './formula.ts';
import { given, type Known, Missing, missing } from './missing.ts';
import type { Quantity } from './quantity.ts';
import { q } from './testing.support.ts';

const time = q(2, 's', 'networks.main.cycle');
const noTime: Quantity<'s'> | Missing = missing('axes.a.drive.turnaround', 'absent', 'a time', '5 µs');
const noRate = missing('networks.main.rate', 'open', 'a data rate', '100 Mbit/s');
const unreached = (): never => {
  throw new Error('domain code saw an absent value');
};

describe('given', () => {
  it('computes when nothing lacks, and hands on all that was asked for', () => {
    const asked = { time, list: [time, time], count: 3, name: 'main', none: null };
    expect(given(asked, (known) => known)).toBe(asked);
    expect(given({}, () => 'nothing asked')).toBe('nothing asked');
  });

  it('tells everything that lacks, in the order of the asking, and does not compute', () => {
    const result = given({ a: noTime, time, b: noRate }, unreached);
    expect(result).toBeInstanceOf(Missing);
    expect(result).toEqual(new Missing([...noTime.lacks, ...noRate.lacks]));
  });

  it('looks through lists, and lists in them', () => {
    expect(given({ list: [time, noTime, time, noRate] }, unreached).lacks).toEqual([...noTime.lacks, ...noRate.lacks]);
    expect(given({ list: [[time], [time, [noTime]]] }, unreached).lacks).toEqual(noTime.lacks);
  });

  it('tells a lack once, however often it is asked for', () => {
    expect(given({ a: noTime, b: [noTime, noRate], c: new Missing(noTime.lacks) }, unreached).lacks).toEqual([
      ...noTime.lacks,
      ...noRate.lacks,
    ]);
  });

  it('keeps two reasons for one path apart', () => {
    const open = missing('axes.a.drive.turnaround', 'open', 'a time', '5 µs');
    expect(given({ a: noTime, b: open }, unreached).lacks.map(({ why }) => why)).toEqual(['absent', 'open']);
  });

  it('collects through several computations', () => {
    const inner = given({ noTime }, unreached);
    const outer = given({ inner, noRate, again: noTime }, unreached);
    expect(outer.lacks.map(({ path }) => path)).toEqual(['axes.a.drive.turnaround', 'networks.main.rate']);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('takes %d as lacking', (value) => {
    const lack = { path: 'axes.a.speed', why: 'not finite', due: 'a number that is finite', example: '' };
    expect(given({ x: q(value, 'm/s', 'axes.a.speed') }, unreached).lacks).toEqual([lack]);
    expect(given({ x: [time, q(value, 'm/s', 'axes.a.speed')] }, unreached).lacks).toEqual([lack]);
  });

  it('names the step of a result that is not finite', () => {
    const rate = formula({
      id: 'networks.test.rate',
      title: 'how often',
      text: '1/t',
      gives: '1/s',
      symbols: { t: 's' },
      means: { t: 'a time' },
      try: { t: [1, 2] },
      source: 'definition',
      proof: 'rate by hand',
      of: (t: number) => 1 / t,
    });
    const never = rate({ t: q(0, 's', 'networks.main.cycle') }, 'main');
    expect(given({ never }, unreached).lacks.map(({ path }) => path)).toEqual(['networks.test.rate@main']);
  });

  it('hands on values of which none is missing, as the compiler sees it', () => {
    const perhaps = time as Quantity<'s'> | Missing;
    const list = [perhaps, perhaps];
    const sum: number | Missing = given({ perhaps, list }, ({ perhaps, list }) => {
      const one: Quantity<'s'> = perhaps;
      return one.value + list.reduce((total, each) => total + each.value, 0);
    });
    // @ts-expect-error what may be missing has no value
    const value: unknown = perhaps.value;
    // @ts-expect-error the result may be missing too
    const number: number = sum;
    const known: Known<typeof perhaps> = time;
    expect([number, value, known]).toEqual([6, 2, time]);
  });
});
