// Asking backwards on the examples: the bracket is checked on the text itself, spliced and read again.
import { readFileSync } from 'node:fs';
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { splice } from '../machine/splice.ts';
import { assess } from './assess.ts';
import { askBackwards, inputsOf } from './backwards.ts';

const catalogues = [demonstration()];
const example = (name: string) => read(readFileSync(`examples/${name}/machine.yaml`, 'utf8'));
const assessed = (machine: ReturnType<typeof read>) => assess(resolve(machine, catalogues));
const verdictWith = (machine: ReturnType<typeof read>, address: string, path: string, value: string) => {
  const spliced = splice(machine, { path, value, at: 'here' });
  if (spliced.kind !== 'edit') throw new Error(`${path}: ${spliced.kind}`);
  return assessed(read(spliced.text)).findings.find((each) => each.address === address)?.verdict;
};

describe('asking backwards', () => {
  it('finds the shortest cycle that keeps the reserve, to the fourth digit', () => {
    const machine = example('labeller');
    const finding = assessed(machine).findings.find(({ address }) => address === 'networks.cycle@drives')!;
    const shortest_s = finding.demand!.value / (1 - finding.reserve!.value);
    const asked = askBackwards(machine, catalogues, 'networks.cycle@drives', 'networks.drives.cycle');
    if (asked.kind !== 'just keeps') throw new Error(asked.kind);
    expect(asked.side).toBe('at least');
    expect(asked.value.value).toBeGreaterThanOrEqual(shortest_s * (1 - 1e-9));
    expect(asked.value.value - shortest_s).toBeLessThan(0.1e-6);
    expect(asked.verdictBeyond).toBe('thin');
  });

  it('keeps counts whole', () => {
    const machine = example('labeller');
    const asked = askBackwards(machine, catalogues, 'networks.cycle@drives', 'networks.drives.repeats');
    if (asked.kind !== 'just keeps') throw new Error(asked.kind);
    expect(Number(asked.beyond) - Number(asked.value.text)).toBe(1);
    expect(asked.side).toBe('at most');
  });

  it.each(['labeller', 'die-cutter', 'cartoner'])('every bracket of %s is proven on the text', (name) => {
    const machine = example(name);
    const assessment = assessed(machine);
    let proven = 0;
    for (const { address, margin } of assessment.findings) {
      if (margin === undefined) continue;
      for (const { path, origin } of inputsOf(assessment, address).slice(0, 6)) {
        const asked = askBackwards(machine, catalogues, address, path);
        if (asked.kind !== 'just keeps' || origin === 'assumed' || origin === 'catalogue') continue;
        expect(verdictWith(machine, address, path, asked.value.text), `${address} ${path}`).toBe('holds');
        expect(verdictWith(machine, address, path, asked.beyond), `${address} ${path}`).toBe(asked.verdictBeyond);
        expect(asked.verdictBeyond).not.toBe('holds');
        proven++;
      }
    }
    expect(proven).toBeGreaterThan(3);
  });

  it('says what cannot be asked', () => {
    const machine = example('labeller');
    const ask = (address: string, path: string) => askBackwards(machine, catalogues, address, path);
    expect(ask('networks.cycle@nothing', 'networks.drives.cycle')).toMatchObject({ kind: 'refused' });
    expect(ask('networks.cycle@drives', 'networks.drives.speed')).toMatchObject({ kind: 'refused' });
    expect(ask('networks.stations@drives', 'networks.drives.cycle')).toEqual({ kind: 'does not matter' });
    const open = read(machine.parsed.source.text.replace('cycle: 500 µs', 'cycle: unknown'));
    expect(askBackwards(open, catalogues, 'networks.cycle@drives', 'networks.drives.repeats')).toMatchObject({
      kind: 'refused',
    });
  });

  it('lists what a finding rests on, given values first, nothing that is counted', () => {
    const inputs = inputsOf(assessed(example('labeller')), 'networks.cycle@drives');
    expect(inputs[0]!.origin).toBe('given');
    expect(inputs.map(({ path }) => path)).toContain('networks.drives.repeats');
    expect(inputs.some(({ path }) => path.includes('axes_served'))).toBe(false);
    expect(new Set(inputs.map(({ path }) => path)).size).toBe(inputs.length);
  });
});
