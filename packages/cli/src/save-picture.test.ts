// A picture as a file: which one, where to, and what is said when that cannot be.
import { describe, expect, it } from 'vitest';
import { bench, layshaft, type World } from './fake-io.ts';

const show = (line: string, world: World = {}) =>
  layshaft(`show m.yaml ${line}`, { files: { 'm.yaml': bench('100 µs') }, ...world });

describe('layshaft show --svg', () => {
  it('writes the picture as a file of its own', async () => {
    const { status, out, written } = await show('networks.line --picture cycle --svg cycle.svg');
    expect({ status, out }).toEqual({ status: 0, out: 'cycle.svg is written.\n' });
    expect(written['cycle.svg']).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" [\s\S]*<\/svg>\n$/);
    expect(written['cycle.svg']).toContain('The cycle of network line');
    expect(
      await show('networks.line --picture cycle --svg cycle.svg', {
        files: { 'm.yaml': bench('100 µs'), 'cycle.svg': 'old' },
      }),
    ).toMatchObject({ status: 0, written });
  });

  it('prints it to -', async () => {
    const { out } = await show('networks.line --picture wiring --svg -');
    expect(out).toMatch(/^<svg [\s\S]*The wiring of network line[\s\S]*<\/svg>\n$/);
  });

  it.each([
    [
      'networks.line --svg a.svg',
      'There are several pictures: cycle of networks.line, wiring of networks.line. Choose one with --picture.\n',
    ],
    ['networks.line --picture cycles --svg a.svg', 'networks.line has no picture cycles; it has cycle, wiring.\n'],
    [
      'networks.line.nodes.one --svg a.svg',
      'Nothing is drawn of networks.line.nodes.one; there are pictures of networks.\n',
    ],
    [
      'networks.line --picture cycle --svg m.yaml',
      'A picture goes into a file whose name ends with .svg, not into m.yaml.\n',
    ],
  ])('says what there is instead: %s', async (line, err) => {
    expect(await show(line)).toEqual({ status: 2, out: '', err, written: {} });
  });

  it.each([
    ['ENOENT', 'There is no folder out. Make it first, or give another name.\n'],
    ['EACCES', 'out/a.svg cannot be written (EACCES). Give another name.\n'],
  ])('says why it could not be written: %s', async (unwritable, err) => {
    expect(await show('networks.line --picture cycle --svg out/a.svg', { unwritable })).toMatchObject({
      status: 2,
      err,
    });
  });

  it.each(['--json', '--csv', '--table split'])('does not mix with %s', async (other) => {
    const { status, err } = await show(`networks.line --svg a.svg ${other}`);
    expect(status).toBe(2);
    expect(err).toContain('cannot be used with option');
  });
});

describe('layshaft show --picture', () => {
  it('prints that picture alone, with how it is read', async () => {
    const { out } = await show('networks.line --picture cycle');
    expect(out).toMatch(/^The cycle of network line {2}\(cycle\)\n/);
    expect(out).toContain('commands ');
    expect(out).toContain('Every cycle, to scale: commands above, answers below.');
    expect(out).not.toContain('wiring');
  });

  it('is there as data', async () => {
    const { pictures } = JSON.parse((await show('networks.line --picture wiring --json')).out);
    expect(pictures).toMatchObject([{ name: 'wiring', scale: { from: 0, unit: 's' } }]);
    const { views } = JSON.parse((await show('networks.line --json')).out);
    expect(views[0].pictures.map(({ name }: { name: string }) => name)).toEqual(['cycle', 'wiring']);
  });
});
