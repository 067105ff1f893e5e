// What a finding rests on that can be changed in the file: all of it, once, and each of it can be.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { examples } from '../machine/edits.support.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { splice } from '../machine/splice.ts';
import { assess } from './assess.ts';
import { inputsOf } from './inputs-of.ts';

const catalogues = [demonstration()];
const texts = new Map(examples);
const assessed = (text: string) => assess(resolve(read(text), catalogues));

describe('the inputs of a finding', () => {
  it.each(examples)('can all be written in the file, and stand once: %s', (_, text) => {
    const assessment = assessed(text);
    let inputs = 0;
    for (const { address } of assessment.findings) {
      const found = inputsOf(assessment, address);
      expect(new Set(found.map(({ path }) => path)).size, address).toBe(found.length);
      for (const { path, text: value } of found) {
        const spliced = splice(assessment.design.machine, { path, value, at: 'here' });
        if (spliced.kind !== 'edit') expect.fail(`${address}, ${path}: ${JSON.stringify(spliced)}`);
        inputs++;
      }
    }
    expect(inputs).toBeGreaterThan(50);
  });

  it('begin with what is given, of the whole before its parts, and end with what a part states', () => {
    const inputs = inputsOf(assessed(texts.get('labeller')!), 'networks.cycle@drives');
    expect(
      inputs
        .slice(0, 3)
        .map(({ path, text }) => `${path}: ${text}`)
        .sort(),
    ).toEqual([
      'networks.drives.cycle: 500 µs',
      'networks.drives.non_cyclic: 512 octets',
      'networks.drives.repeats: 2',
    ]);
    const kinds = inputs.map(({ origin }) => origin);
    expect([...new Set(kinds)]).toEqual(['given', 'measured', 'catalogue']);
    expect(inputs.find(({ origin }) => origin === 'measured')).toEqual({
      path: 'axes.outfeed.drive.turnaround',
      text: '2.05 µs',
      origin: 'measured',
    });
  });

  it('tell what is assumed by its path', () => {
    const assessment = assessed(texts.get('labeller')!.replace(/ {4}(repeats|non_cyclic):.*\n/g, ''));
    const assumed = inputsOf(assessment, 'networks.cycle@drives').filter(({ origin }) => origin === 'assumed');
    expect(assumed.map(({ path, text }) => [path, text])).toEqual([
      ['networks.drives.repeats', '2'],
      ['networks.drives.non_cyclic', '512 octets'],
    ]);
  });

  it('leave out what is counted, and give what stands for a range where it is written', () => {
    const assessment = assessed(texts.get('cartoner')!);
    const paths = (address: string) => inputsOf(assessment, address).map(({ path }) => path);
    expect(paths('networks.stations@motion')).toEqual(['networks.motion.profile.stations_at_most']);
    const kernel = paths('networks.kernel@controller');
    expect(kernel).toContain('networks.motion.nodes.rack_[1..3].every');
    expect(kernel.some((path) => /rack_1\b|axes_served/.test(path))).toBe(false);
    expect(paths('networks.update@pusher_1')).toEqual(['networks.motion.cycle', 'set.0.value']);
  });

  it('are the number at its path for a finding of yes or no, and none without a number or a finding', () => {
    const assessment = assessed(texts.get('labeller')!);
    expect(inputsOf(assessment, 'networks.offered@drives').map(({ path }) => path)).toEqual(['networks.drives.cycle']);
    expect(inputsOf(assessment, 'networks.topology@drives')).toEqual([]);
    expect(inputsOf(assessment, 'networks.cycle@nothing')).toEqual([]);
  });
});
