// What layshaft show prints, as tables and as data, and what it says where nothing is shown.
import { describe, expect, it } from 'vitest';
import { bench, layshaft } from './fake-io.ts';

const show = (line: string, text = bench('100 µs')) => layshaft(`show m.yaml ${line}`, { files: { 'm.yaml': text } });

describe('layshaft show', () => {
  it('prints one table when asked', async () => {
    expect((await show('networks.line --table split')).out).toBe(`\
Network line, a line

Every cycle, and what it is made of  (split)
  part                                     time   share
  start-of-cycle frame                  6.72 µs  6.72 %
  commands on the line                  6.72 µs  6.72 %
  answers on the line                   6.72 µs  6.72 %
  waiting for stations and on the way    2.1 µs   2.1 %
  repeats kept in hand                 15.54 µs  15.5 %
  non-cyclic window                     6.72 µs  6.72 %
  free                                 55.48 µs  55.5 %
`);
  });

  it('keeps numbers in sight beside what is missing', async () => {
    expect((await show('networks.line --table split', bench('100 µs', 'turnaround: unknown'))).out).toContain(`
  start-of-cycle frame                 6.72 µs  6.72 %
  commands on the line                 6.72 µs  6.72 %
  answers on the line                  6.72 µs  6.72 %
  waiting for stations and on the way  unknown: axes.one.drive.turnaround is un…
`);
  });

  it('has the address of every number as data', async () => {
    const { views } = JSON.parse((await show('networks.line.nodes.one --json')).out);
    expect(views[0].tables[0].rows[0][1]).toMatchObject({ address: 'axes.one.drive.forwarding', text: '400 ns' });
  });

  it.each([
    ['networks.lime', 'Nothing is shown at networks.lime. Did you mean networks.line? Everything at once: networks.\n'],
    ['networks.line --table splits', expect.stringMatching(/^networks\.line has no table splits; it has split, /)],
  ])('says what there is instead of %s', async (line, err) => {
    expect(await show(line)).toEqual({ status: 2, out: '', err, written: {} });
  });

  it('says of a file without networks that it has none', async () => {
    expect(await layshaft('show m.yaml networks', { files: { 'm.yaml': 'layshaft: 1\n' } })).toMatchObject({
      status: 2,
      err: 'Nothing is shown at networks: the file has no network yet.\n',
    });
  });
});
