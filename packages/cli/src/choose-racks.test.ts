// What layshaft choose FILE racks prints, writes and refuses.
import type { Solve } from '@layshaft/core';
import { solveHere } from '@layshaft/solver/here';
import { describe, expect, it } from 'vitest';
import { layshaft, type World } from './fake-io.ts';

const head = 'layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\ncontroller: controller_m\n';
const open = `${head}racks: open            # all of them
points:
  lid_[1..10]: { kind: digital_in, type: 3 }
  valve_[1..6]: { kind: digital_out, current: 0.5 A }
`;
const never = new Promise<void>(() => undefined);
const choose = (line: string, file = open, world: World = {}) =>
  layshaft(`choose m.yaml racks ${line}`.trim(), { interrupted: never, ...world, files: { 'm.yaml': file } });

describe('layshaft choose FILE racks', () => {
  it('tells racks and modules of the least cost, and how many points get a channel', async () => {
    const { status, out, written } = await choose('--width 120');
    expect(status).toBe(0);
    expect(written).toEqual({});
    expect(out).toMatch(/ {2}main +rack_7 +power_dc +\S.* +\d+ +the same\n/);
    expect(out).toContain('16 points get their channels; points that have one stay there.');
    expect(out).toContain('It is proven that nothing has a smaller cost.');
    expect(out).toContain('--write takes this into the file.');
  });

  describe('that is stopped', () => {
    /** Ended as if by whoever asked: with a solution of which it is not proven that it is the least. */
    const early: Solve = async (model, options) => {
      await new Promise<void>((resolve) => {
        if (options?.enough?.aborted || options?.most_s !== undefined) resolve();
        options?.enough?.addEventListener('abort', resolve);
      });
      const best = await solveHere(model);
      return 'cost' in best ? { ...best, status: 'stopped', bound: best.cost / 2 } : best;
    };
    const gap =
      /At main it is not proven that nothing is better: the cost is \d+, none is below [\d.]+, a gap of 50 %\./;
    const inOne = (text: string): string => text.replaceAll(/\s+/g, ' ');

    it('by Ctrl-C tells the best so far with its gap, and writes nothing', async () => {
      const { status, out, written } = await choose('--write', open, { solve: early, interrupted: Promise.resolve() });
      expect(status).toBe(130);
      expect(written).toEqual({});
      expect(inOne(out)).toMatch(gap);
      expect(inOne(out)).toContain('Stopped: nothing is written. --time 60 --write takes the best of a minute');
    });

    it('by its time is written, with its gap', async () => {
      const { status, out, written } = await choose('--time 5 --write', open, { solve: early });
      expect(status).toBe(0);
      expect(inOne(out)).toMatch(gap);
      expect(written['m.yaml']).toContain('planned:');
      expect(await choose('--time 0')).toMatchObject({ status: 2, err: expect.stringContaining('such as 60') });
    });

    it('before there was anything says so', async () => {
      const { status, out, written } = await choose('--time 5 --write', open, {
        solve: async () => ({ status: 'nothing found' }),
      });
      expect([status, written]).toEqual([1, {}]);
      expect(inOne(out)).toContain('Nothing was found for main before the search ended; it stays open.');
    });
  });

  it('writes under planned, and then everything holds and nothing is left to choose', async () => {
    const { out, written } = await choose('--write');
    const after = written['m.yaml']!;
    expect(after.startsWith(open)).toBe(true);
    expect(after).toMatch(/^ {2}points\.lid_1\.channel: main\.\d+\.\d+$/m);
    expect(out).toContain('Written into m.yaml, under planned.');
    const checked = await layshaft('check m.yaml', { files: { 'm.yaml': after } });
    expect(checked.out).not.toMatch(/unknown|fails|thin/);
    expect(await choose('', after)).toMatchObject({
      status: 2,
      err: expect.stringContaining('Nothing is open in racks, and every point has a channel.'),
    });
  });

  it('moves nothing that has a channel when points are added', async () => {
    const first = (await choose('--write')).written['m.yaml']!;
    const more = first.replace('points:\n', 'points:\n  door_[1..2]: { kind: digital_in, type: 3 }\n');
    const second = (await choose('--write', more)).written['m.yaml']!;
    const channels = (text: string) => text.match(/^ {2}points\.(?!door).*$/gm);
    expect(channels(second)).toEqual(channels(first));
    expect(second.match(/^ {2}points\.door_\d\.channel: main\.\d+\.\d+$/gm)).toHaveLength(2);
  });

  it('names what cannot be had together, and writes nothing', async () => {
    const full = open.replace(
      'racks: open            # all of them',
      'racks: { main: { rack: rack_4, power: power_ac, modules: open } }',
    );
    const { status, out, written } = await choose('--write', full);
    expect(status).toBe(1);
    expect(written).toEqual({});
    expect(out.replaceAll(/\s+/g, ' ')).toMatch(
      /^At main these cannot be had together: the 4 places of rack_4 at main; /,
    );
  });

  it('tells what one more point of each kind would take, also where nothing is open', async () => {
    const after = (await choose('--write')).written['m.yaml']!;
    const { status, out } = await choose('--one-more --width 120', after);
    expect(status).toBe(0);
    expect(out).toMatch(/ {2}main +digital input +0 +nothing: a channel is free/);
    expect((await choose('--one-more --json')).out).toContain('"one_more": [\n');
  });

  it('makes racks as narrow as can be where that is asked', async () => {
    expect((await choose('--prefer width --width 120')).out).toMatch(/^Racks of the least width/);
    expect(await choose('--prefer weight')).toMatchObject({ status: 2, err: expect.stringContaining('cost, width') });
  });

  it.each([
    [`${head}points: { a: { kind: digital_in } }\n`, 'The file has no racks. Write racks: open'],
    [`${head}racks: open\npoints: {}\n`, 'The file has no points at the controller or at a station yet'],
    [open.replace('controller: controller_m\n', ''), 'Nothing can be chosen at racks yet: controller'],
  ])('says what lacks', async (text, says) => {
    const { status, err } = await choose('', text);
    expect(status).toBe(2);
    expect(err.replaceAll(/\s+/g, ' ')).toContain(says);
  });
});
