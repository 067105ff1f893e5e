// The shapes of a bar: what holds is open, what is thin solid, what fails goes through the rail, what is unknown dashed.
import { marginBar } from '@layshaft/core';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barLength, printBar } from './print-bar.ts';

const bar = (verdict: string, demand?: number, reserve?: number): string =>
  printBar(
    marginBar({
      capacity: { value: 1 },
      ...(demand !== undefined && { demand: { value: demand } }),
      ...(reserve !== undefined && { reserve: { value: reserve } }),
    }),
    verdict,
  );

describe('printBar', () => {
  it.each([
    ['holds', 0.5, 0.25, '├─────────░░░░░▼░░░░░┃  '],
    ['holds', 0, 0.25, '├░░░░░░░░░░░░░░▼░░░░░┃  '],
    ['holds', 0.999, 0, '├───────────────────░┃  '],
    ['holds', 1, 0, '├────────────────────┃  '],
    ['thin', 0.85, 0.25, '├──────────────▼▒████┃  '],
    ['thin', 0.999, 0.25, '├──────────────▼▒▒▒▒█┃  '],
    ['thin', 0.76, 0.25, '├──────────────▼█████┃  '],
    ['thin', 0.5, 1, '├▒▒▒▒▒▒▒▒▒███████████┃  '],
    ['fails', 1.01, 0.25, '├──────────────▼─────╂► '],
    ['fails', 1.1, 0.25, '├──────────────▼─────╂─►'],
    ['fails', 9, 0.25, '├──────────────▼─────╂►►'],
    ['fails', undefined, undefined, '                    ─╂► '],
    ['unknown', undefined, 0.25, '├╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌┃  '],
    ['holds', undefined, undefined, '                     ┃  '],
  ])('%s at a demand of %s with a reserve of %s', (verdict, demand, reserve, drawn) => {
    expect(bar(verdict, demand, reserve)).toBe(drawn);
  });

  it('has no notch for a capacity that is not there', () => {
    const none = marginBar({ demand: { value: 1 }, capacity: { value: 0 }, reserve: { value: 0.25 } });
    expect(printBar(none, 'fails')).toBe('                    ─╂► ');
  });

  it('has one length, its rail at one place, and a block only where something is left', () => {
    const share = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(share, fc.double({ min: 0, max: 1, noNaN: true }), (demand, reserve) => {
        const verdict = demand > 1 ? 'fails' : demand > 1 - reserve ? 'thin' : 'holds';
        const drawn = bar(verdict, demand, reserve);
        expect(drawn).toHaveLength(barLength);
        expect(drawn[21]).toBe(verdict === 'fails' ? '╂' : '┃');
        expect(drawn.includes('█')).toBe(verdict === 'thin' && demand < 1);
        expect(drawn.includes('►')).toBe(verdict === 'fails');
        if (verdict === 'holds' && demand < 0.9) expect(drawn).toContain('░');
        else if (verdict !== 'holds') expect(drawn).not.toContain('░');
      }),
    );
  });
});
