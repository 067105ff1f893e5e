// Comparing two states: nothing differs from itself; an edit shows as the input that it is, with what it moves.
import { readFileSync } from 'node:fs';
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { assess } from './assess.ts';
import { compare } from './compare.ts';

const text = readFileSync('examples/labeller/machine.yaml', 'utf8');
const assessed = (of: string) => assess(resolve(read(of), [demonstration()]));

describe('comparing two states', () => {
  it('finds nothing between a state and itself', () => {
    expect(compare(assessed(text), assessed(text))).toEqual({ inputs: [], findings: [] });
  });

  it('tells the input, and the findings that move', () => {
    const found = compare(assessed(text), assessed(text.replace('cycle: 500 µs', 'cycle: 1 ms')));
    expect(found.inputs).toEqual([{ path: 'networks.drives.cycle', before: '500 µs', after: '1 ms' }]);
    expect(found.findings.map(({ address }) => address)).toContain('networks.cycle@drives');
    expect(found.findings.every(({ flips }) => !flips)).toBe(true);
  });

  it('puts what flips on top, the worst first', () => {
    const found = compare(assessed(text), assessed(text.replace('cycle: 500 µs', 'cycle: 250 µs')));
    expect(found.findings[0]).toMatchObject({ flips: true, before: { verdict: 'holds' } });
    const flips = found.findings.map((each) => each.flips);
    expect(flips).toEqual([...flips].sort((a, b) => Number(b) - Number(a)));
    const back = compare(assessed(text.replace('cycle: 500 µs', 'cycle: 250 µs')), assessed(text));
    expect(new Set(back.findings.map(({ address }) => address))).toEqual(
      new Set(found.findings.map(({ address }) => address)),
    );
  });

  it('tells of what is there in one state only', () => {
    const found = compare(assessed(text), assessed(text.replace(/ {4}repeats:.*\n/, '')));
    expect(found.inputs).toEqual([{ path: 'networks.drives.repeats', before: '2' }]);
  });
});
