// Comparing two states: nothing differs from itself; a change shows as the input that it is, with what it moves.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { drawEdit, examples, withProblems } from '../machine/edits.support.ts';
import { type Machine, read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { splice } from '../machine/splice.ts';
import { vary } from '../machine/vary.ts';
import { type Assessment, assess } from './assess.ts';
import { type Comparison, compare } from './compare.ts';

const texts = new Map(examples);
const labeller = texts.get('labeller')!;
const cartoner = texts.get('cartoner')!;
const catalogues = [demonstration()];
const assessed = (of: string | Machine): Assessment =>
  assess(resolve(typeof of === 'string' ? read(of) : of, catalogues));
const nothing: Comparison = { inputs: [], findings: [], parts: [] };

/** What differs when something else stands in the text. */
const changed = (text: string, from: string | RegExp, to: string): Comparison => {
  const after = text.replace(from, to);
  if (after === text) throw new Error(`${from} is not in the text`);
  return compare(assessed(text), assessed(after));
};

describe('comparing a state with itself', () => {
  it.each([...examples, ...withProblems])('finds nothing: %s', (_, text) => {
    const machine = read(text);
    expect(compare(assessed(machine), assessed(machine))).toEqual(nothing);
    expect(compare(assessed(machine), assessed(text))).toEqual(nothing);
  });
});

describe('inputs that differ', () => {
  it.each<[string, string, string | RegExp, string, Comparison['inputs']]>([
    [
      'a value',
      labeller,
      'cycle: 500 µs',
      'cycle: 1 ms',
      [{ path: 'networks.drives.cycle', before: '500 µs', after: '1 ms' }],
    ],
    ['one that goes', labeller, / {4}repeats:.*\n/, '', [{ path: 'networks.drives.repeats', before: '2' }]],
    [
      'one that comes',
      cartoner,
      '  glue_belt:\n',
      '  glue_belt:\n    cycle_at_most: 2 ms\n',
      [{ path: 'axes.glue_belt.cycle_at_most', after: '2 ms' }],
    ],
    [
      'one that is open',
      labeller,
      'cycle: 500 µs',
      'cycle: open',
      [{ path: 'networks.drives.cycle', before: '500 µs', after: 'open' }],
    ],
    [
      'the date of a measurement',
      labeller,
      '2026-10-21',
      '2026-10-22',
      [{ path: 'axes.outfeed.drive.turnaround.date', before: '2026-10-21', after: '2026-10-22' }],
    ],
    [
      'a value that others share, where it is written',
      cartoner,
      /(drive: drive_10\n {4}cycle_at_most: )1 ms/,
      '$12 ms',
      [{ path: 'axes.carton_magazine.cycle_at_most', before: '1 ms', after: '2 ms' }],
    ],
    [
      'a value of a range, where it is written',
      cartoner,
      'rack_[1..3]: { part: rack_small, every: 4 cycles }',
      'rack_[1..3]: { part: rack_small, every: 8 cycles }',
      [{ path: 'networks.motion.nodes.rack_[1..3].every', before: '4 cycles', after: '8 cycles' }],
    ],
    [
      'a line of set',
      cartoner,
      'path: axes.pusher_*.cycle_at_most, value: 1 ms',
      'path: axes.pusher_*.cycle_at_most, value: 2 ms',
      [{ path: 'set.0.value', before: '1 ms', after: '2 ms' }],
    ],
    [
      'a run, by its ends',
      cartoner,
      '[hub, wall, 2 m, solid]',
      '[hub, wall, 3 m, flexible]',
      [
        { path: 'networks.motion.runs.hub_wall.length', before: '2 m', after: '3 m' },
        { path: 'networks.motion.runs.hub_wall.cable', before: 'solid', after: 'flexible' },
      ],
    ],
    [
      'values beside a part, and not the part that is the same',
      labeller,
      'web_tension:    { drive: drive_5 }',
      'web_tension:    { drive: { part: drive_5, turnaround: 3 µs } }',
      [{ path: 'axes.web_tension.drive.turnaround', after: '3 µs' }],
    ],
    ['spaces and comments in no way', labeller, 'cycle: 500 µs', 'cycle:   500  µs   # as before', []],
  ])('%s', (_name, text, from, to, inputs) => {
    expect(changed(text, from, to).inputs).toEqual(inputs);
  });

  it('are those of a varied machine too, one change after another', () => {
    const machine = read(labeller);
    const quick = vary(vary(machine, 'networks.drives.cycle', '1 ms')!, 'axes.star_wheel.drive', 'drive_20')!;
    expect(quick.reading).toBe(machine.reading);
    expect(compare(assessed(machine), assessed(quick)).inputs).toEqual([
      { path: 'axes.star_wheel.drive', before: 'drive_10', after: 'drive_20' },
      { path: 'networks.drives.cycle', before: '500 µs', after: '1 ms' },
    ]);
  });

  it('and all else are the same for an edit of the text and for a varied machine', () => {
    let edits = 0;
    for (const [, text] of examples.slice(0, 2).concat(withProblems.slice(0, 6))) {
      const machine = read(text);
      const before = assessed(machine);
      for (let seed = 1; seed <= 40; seed++) {
        const edit = { at: 'here' as const, ...drawEdit(machine, seeded(seed)) };
        const spliced = splice(machine, edit);
        const varied = vary(machine, edit.path, edit.value, { at: edit.at });
        if (spliced.kind !== 'edit' || varied === undefined) continue;
        const told = JSON.stringify(edit);
        const sorted = ({ inputs, ...rest }: Comparison) => ({
          ...rest,
          inputs: [...inputs].sort((a, b) => (a.path < b.path ? -1 : 1)),
        });
        const after = assessed(spliced.text);
        expect(sorted(compare(before, assessed(varied))), told).toEqual(sorted(compare(before, after)));
        const back = compare(after, before);
        expect(new Set(back.findings.map(({ address }) => address)), told).toEqual(
          new Set(compare(before, after).findings.map(({ address }) => address)),
        );
        expect(back.inputs.map(({ path, before: was, after: is }) => [path, is, was]).sort(), told).toEqual(
          compare(before, after)
            .inputs.map(({ path, before: was, after: is }) => [path, was, is])
            .sort(),
        );
        edits++;
      }
    }
    expect(edits).toBeGreaterThan(100);
  });
});

describe('findings that differ', () => {
  it('move with their margins as they are shown, the farthest first', () => {
    const { findings } = changed(labeller, 'cycle: 500 µs', 'cycle: 1 ms');
    expect(findings.every(({ flips }) => !flips)).toBe(true);
    expect(findings.map(({ address }) => address)).toEqual([
      'networks.missed@label_feed',
      ...['outfeed', 'wrap_belt', 'web_tension', 'label_feed'].map((station) => `networks.burst@${station}`),
      'timing.update@label_feed',
      'networks.cycle@drives',
      'timing.load@main',
      'timing.response@fast',
      'networks.kernel@controller',
      'timing.response@kernel',
      'timing.chain@reject',
      'timing.response@logic',
      'timing.response@panel',
      'timing.watchdog@logic',
    ]);
    expect(findings.find(({ address }) => address === 'networks.cycle@drives')).toMatchObject({
      title: 'Cycle',
      subject: 'drives',
      before: { verdict: 'holds', margin: { text: '58.9 %', unit: '1' } },
      after: { verdict: 'holds', margin: { text: '79.4 %' } },
    });
  });

  it('flip first, the worst on top', () => {
    const { findings } = changed(cartoner, '    cycle: 1 ms', '    cycle: 400 µs');
    const flips = findings.filter(({ flips: flipped }) => flipped);
    expect(findings.slice(0, flips.length)).toEqual(flips);
    const verdicts = flips.map(({ after }) => after?.verdict);
    expect(verdicts).toEqual(['fails', 'thin']);
    const moved = findings
      .slice(flips.length)
      .map(({ before, after }) => Math.abs(after!.margin!.value - before!.margin!.value));
    expect(moved.length).toBeGreaterThan(5);
    expect(moved).toEqual([...moved].sort((a, b) => b - a));
  });

  it('of those that fail have the tightest on top', () => {
    const { findings } = changed(cartoner, '    cycle: 1 ms', '    cycle: 5 ms');
    const margins = findings
      .filter(({ after, flips }) => flips && after?.margin)
      .map(({ after }) => after!.margin!.value);
    expect(margins.length).toBeGreaterThan(5);
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
    expect(findings[0]!.after!.margin).toBe(undefined);
  });

  it('come and go', () => {
    const found = changed(cartoner, '  - { path: axes.pusher_*.cycle_at_most, value: 1 ms }\n', '');
    const gone = found.findings.filter(({ after }) => after === undefined);
    expect(gone.map(({ address }) => address)).toEqual(
      [1, 2, 3, 4].map((number) => `networks.update@pusher_${number}`),
    );
    const come = changed(labeller, 'web_tension:    {', 'web_tension:    { cycle_at_most: 200 µs,').findings;
    expect(come).toEqual([
      {
        address: 'networks.update@web_tension',
        title: 'Update period',
        subject: 'web_tension',
        after: { verdict: 'fails', margin: expect.objectContaining({ text: '-150 %' }) },
        flips: true,
      },
    ]);
  });
});

describe('parts that differ', () => {
  it('are counted in both states', () => {
    expect(
      changed(labeller, 'web_tension:    { drive: drive_5 }', 'web_tension:    { drive: drive_20 }').parts,
    ).toEqual([
      { part: 'drive_5', before: 2, after: 1 },
      { part: 'drive_20', before: 1, after: 2 },
    ]);
    expect(changed(labeller, 'hub: hub_6', 'hub: hub_12').parts).toEqual([
      { part: 'hub_12', before: 0, after: 1 },
      { part: 'hub_6', before: 1, after: 0 },
    ]);
  });
});
