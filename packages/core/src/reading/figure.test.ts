// What is told of a measured figure: a wrong date is told as a date, not as the time that was measured.
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { toldOf } from '../machine/told.support.ts';
import { Missing } from '../working/missing.ts';

const measured = (keys: string): string => `layshaft: 1\naxes: { infeed: { drive: { turnaround: { ${keys} } } } }\n`;
const dated = (date: string): string => measured(`measured: 2 µs, date: ${date}, count: 500`);
const path = 'axes.infeed.drive.turnaround';
const lacksOf = (text: string) => {
  const turnaround = read(text).axes[0]?.drive.turnaround;
  return turnaround instanceof Missing ? turnaround.lacks : [];
};

describe('the date of a measurement', () => {
  it.each([
    ['2026-13-40', `'2026-13-40' is no date: there is no month 13`],
    ['2026-00-10', `'2026-00-10' is no date: there is no month 0`],
    ['2026-11-31', `'2026-11-31' is no date: that month has 30 days`],
    ['2026-02-29', `'2026-02-29' is no date: that month has 28 days`],
    ['2100-02-29', `'2100-02-29' is no date: that month has 28 days`],
    ['2024-02-30', `'2024-02-30' is no date: that month has 29 days`],
    ['2026-12-00', `'2026-12-00' is no date: that month has 31 days`],
    ['3 Nov 2026', `'3 Nov 2026' cannot be read as a date`],
    ['2026-11-3', `'2026-11-3' cannot be read as a date`],
  ])('%s is told, with what a date looks like', (date, message) => {
    expect(toldOf(dated(date))).toEqual([
      {
        code: 'word-unknown',
        path: `${path}.date`,
        marked: date,
        message,
        remedy: 'Write year-month-day, such as 2026-11-03.',
      },
    ]);
    expect(lacksOf(dated(date))).toEqual([
      { path: `${path}.date`, why: 'problem', due: 'a date', example: '2026-11-03' },
    ]);
  });

  it.each(['2026-11-03', '2024-02-29', '2000-02-29', '2026-12-31'])('%s is one', (date) => {
    expect(toldOf(dated(date))).toEqual([]);
    expect(lacksOf(dated(date))).toEqual([]);
  });

  it('may be unknown, and is then what lacks', () => {
    expect(lacksOf(dated('unknown'))).toMatchObject([{ path: `${path}.date`, why: 'unknown', due: 'a date' }]);
  });
});

describe('the other keys of a measurement', () => {
  it('are told as what they are when they are wrong', () => {
    expect(lacksOf(measured('measured: 2 m, date: 2026-11-03, count: 500'))).toMatchObject([
      { path: `${path}.measured`, why: 'problem', due: 'a time' },
    ]);
    expect(lacksOf(measured('measured: 2 µs, date: 2026-11-03, count: 1.5'))).toMatchObject([
      { path: `${path}.count`, why: 'problem', due: 'a whole number' },
    ]);
  });

  it.each(['measured', 'date', 'count'])('lack the whole figure when there is no %s', (key) => {
    const keys = { measured: '2 µs', date: '2026-11-03', count: '500' };
    const rest = Object.entries(keys).filter(([each]) => each !== key);
    const text = measured(rest.map((each) => each.join(': ')).join(', '));
    expect(toldOf(text)).toMatchObject([{ code: 'key-missing', message: `'${key}' is missing here` }]);
    // It is a problem, not an absence that a part would fill.
    expect(lacksOf(text)).toMatchObject([{ path, why: 'problem', due: 'a time' }]);
  });
});
