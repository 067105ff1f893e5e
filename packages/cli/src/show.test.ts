// What layshaft show prints, as tables and as data, and what it says where nothing is shown.
import { describe, expect, it } from 'vitest';
import { exampleMachines } from '../../../tests/support/examples.ts';
import { bench, layshaft } from './fake-io.ts';

const show = (line: string, text = bench('100 µs')) =>
  layshaft(`show m.yaml ${line}`.trim(), { files: { 'm.yaml': text } });

describe('layshaft show', () => {
  it('prints one table when asked', async () => {
    expect((await show('networks.line --table split')).out).toBe(`\
Network line, a line
One cycle is 100 µs; 44.5 % of it is spoken for with 1 repeat kept in hand, and
55.48 µs stay free.

Every cycle, and what it is made of  (split)
  part                                  time   share
  start-of-cycle frame               6.72 µs  6.72 %
  commands on the line               6.72 µs  6.72 %
  answers on the line                6.72 µs  6.72 %
  turnarounds, ways there and back    2.1 µs   2.1 %
  repeats kept in hand              15.54 µs  15.5 %
  non-cyclic window                  6.72 µs  6.72 %
  free                              55.48 µs  55.5 %

layshaft explain tells where a number comes from; --addresses shows what it
takes.
`);
  });

  it('shows all networks without an address, and an axis as the station it is', async () => {
    expect((await show('')).out).toBe((await show('networks')).out);
    expect((await show('axes.one')).out).toContain('one, a station of network line\n');
  });

  it('tells what is missing once, below the numbers', async () => {
    expect((await show('networks.line --table split', bench('100 µs', 'turnaround: unknown'))).out).toMatch(
      /answers on the line +6.72 µs +6.72 %\n.*\n.*unknown\n.*unknown\n {2}unknown: axes\.one\.drive\.turnaround is unknown/s,
    );
  });

  it('folds the columns that do not fit under the others, none is lost', async () => {
    const narrow = (await show('networks.line --table ways --width 60')).out;
    const wide = (await show('networks.line --table ways --width 200')).out;
    expect(Math.max(...narrow.split('\n').map((line) => line.length))).toBeLessThanOrEqual(60);
    for (const column of ['after', 'hops', 'there', 'back', 'exchange', 'served']) {
      expect(narrow).toContain(column);
      expect(wide.split('\n').find((line) => line.includes('there'))).toContain(column);
    }
  });

  it('prints addresses under the rows when asked, and explain takes each of them', async () => {
    const { out } = await show('networks.line --addresses');
    const addresses = out.split('\n').flatMap((line) => /^ {6}(\S+)$/.exec(line)?.[1] ?? []);
    expect(addresses).toContain('networks.cycle.used@line');
    for (const address of new Set(addresses)) {
      const { status } = await layshaft(`explain m.yaml ${address}`, { files: { 'm.yaml': bench('100 µs') } });
      expect(status, address).toBe(0);
    }
  });

  it('has the address of every number as data', async () => {
    const { views } = JSON.parse((await show('networks.line.nodes.one --json')).out);
    expect(views[0].tables[0].rows[0][1]).toMatchObject({ address: 'axes.one.drive.forwarding', text: '400 ns' });
  });

  it.each([
    [
      'networks.lime',
      'Nothing is shown at networks.lime. Did you mean networks.line? What is shown: margins, networks.\n',
    ],
    ['reserves', 'Nothing is shown at reserves. What is shown: margins, networks.\n'],
    ['racks', 'Nothing is shown at racks: the file has none yet. What is shown: margins, networks.\n'],
    [
      'networks.cycle@line',
      'Nothing is shown at networks.cycle@line. It looks like the address of a number: layshaft explain takes it. What is shown: margins, networks.\n',
    ],
    ['networks.line --table splits', expect.stringMatching(/^networks\.line has no table splits; it has split, /)],
  ])('says what there is instead of %s', async (line, err) => {
    expect(await show(line)).toEqual({ status: 2, out: '', err, written: {} });
  });

  it('has the table of an axis that is a station too', async () => {
    const text = exampleMachines().find(({ name }) => name === 'labeller')!.text;
    const line = 'show m.yaml axes.label_feed --table curve_cycle --csv';
    const { status, out } = await layshaft(line, { files: { 'm.yaml': text } });
    expect(status).toBe(0);
    const [head, ...rows] = out.trim().split('\r\n');
    expect(head).toBe('time,position,speed,acceleration,torque,motor speed');
    expect(rows.length).toBeGreaterThan(20);
    expect(Number(rows.at(-1)!.split(',')[1])).toBeCloseTo(0.243, 9);
  });

  it('says of a file without networks that it has none', async () => {
    expect(await layshaft('show m.yaml networks', { files: { 'm.yaml': 'layshaft: 1\n' } })).toMatchObject({
      status: 2,
      err: 'Nothing is shown at networks: the file has none yet. What is shown: margins.\n',
    });
  });

  it('shows without an address all that a file without networks has, and says of an empty one that it has nothing', async () => {
    const tasks = 'layshaft: 1\ntasks: { fast: { every: 2 ms, takes: 300 µs, priority: 1 } }\n';
    const { status, out } = await show('', tasks);
    expect(status).toBe(0);
    expect(out).toContain('The critical instant of fast  (lanes)\n');
    expect(await show('', 'layshaft: 1\n')).toMatchObject({
      status: 2,
      err: 'Nothing is shown yet: the file has no axis, network, task, chain, mark, rack or point.\n',
    });
  });
});
