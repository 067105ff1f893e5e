// What layshaft choose prints, writes and refuses.
import { describe, expect, it } from 'vitest';
import { layshaft } from './fake-io.ts';

const text = `layshaft: 1
machine: { ambient: 35 °C, altitude: 300 m }
cabinet: { supply: { mains: 400 V, low: 360 V } }
axes:
  table:      # six stations
    motion: { cycle: 1 s, steps: [{ turn: 60°, in: 0.25 s, law: modified_sine }, { dwell: rest }] }
    train: [{ disc: { mass: 22 kg, diameter: 0.7 m } }, { gear: { part: open, radial_force: 0 N } }]
    motor: open
    drive: open
`;
const choose = (line: string, file = text) => layshaft(`choose m.yaml ${line}`, { files: { 'm.yaml': file } });

describe('layshaft choose', () => {
  it('prints what holds, the cheapest first, and why the rest does not', async () => {
    const { status, out, written } = await choose('axes.table --width 100');
    expect(status).toBe(0);
    expect(written).toEqual({});
    expect(out).toMatch(/^Parts that hold every reserve, the cheapest first {2}\(choices\)\n/);
    const costs = [...out.matchAll(/^ {2}motor_\S+ +gear_\S+ +drive_\S+ +(\d+)/gm)].map(([, cost]) => Number(cost));
    expect(costs.length).toBe(12);
    expect(costs.toSorted((one, other) => one - other)).toEqual(costs);
    expect(out).toMatch(/motor_40_1 +gear_\S+ +effective torque [\d.]+ % over at any ratio/);
    expect(out).toMatch(/ +inertia needs ratio [\d.]+, speed allows [\d.]+/);
    expect(out).toContain('--write takes the first of them into the file.');
  });

  it('writes the first of them under planned, and then nothing of it is unknown any more', async () => {
    const { out, written } = await choose('table --write');
    const after = written['m.yaml']!;
    expect(after.startsWith(text)).toBe(true);
    const [, motor] = /^ {2}(motor_\S+)/m.exec(out)!;
    expect(after).toContain(`axes.table.motor: ${motor}`);
    expect(out).toContain('Written into m.yaml, under planned.');
    const checked = await layshaft('check m.yaml', { files: { 'm.yaml': after } });
    expect(checked.out).not.toMatch(/unknown|fails|thin/);
    const again = await choose('axes.table', after);
    expect(again).toMatchObject({ status: 2, err: expect.stringContaining('Nothing is open at axes.table.') });
  });

  it('names what is not weighed because the file does not tell it', async () => {
    const { out } = await choose('axes.table', text.replace(', radial_force: 0 N', ''));
    expect(out.replaceAll(/\s+/g, ' ')).toContain('the file does not tell it: axes.table.train.1.gear.radial_force');
  });

  it('chooses a drive alone, a gear alone, a motor alone, and holds what is given to its limits too', async () => {
    const after = (await choose('table --write')).written['m.yaml']!;
    for (const [key, place] of [
      ['drive', 'axes.table.drive'],
      ['gear', 'axes.table.train.1.gear.part'],
      ['motor', 'axes.table.motor'],
    ] as const) {
      const [, part] = new RegExp(`^ *${place}: (\\S+)\\n`, 'm').exec(after)!;
      const struck = after.replace(new RegExp(`^ *${place}: \\S+\\n`, 'm'), '');
      const { status, out, written } = await choose('table --write', struck);
      expect(status, key).toBe(0);
      expect(out).toContain('as it is');
      expect(written['m.yaml'], key).toContain(`${place}: ${part}`);
      const weak = await choose('table', struck.replace('22 kg', '220 kg'));
      expect(weak.status, key).toBe(key === 'drive' ? 1 : weak.status);
    }
  });

  it('prints the choice as data', async () => {
    const found = JSON.parse((await choose('axes.table --json')).out);
    expect(found.layshaft_choice).toBe(1);
    expect(found.options[0].planned.map(({ path }: { path: string }) => path)).toEqual([
      'axes.table.motor',
      'axes.table.train.1.gear.part',
      'axes.table.drive',
    ]);
    expect(found.weighed).toBeGreaterThan(1000);
  });

  it('says so where nothing holds, with status 1', async () => {
    const { status, out, written } = await choose('axes.table --write', text.replace('22 kg', '90 t'));
    expect(status).toBe(1);
    expect(out).toMatch(/^No combination of the catalogues holds every reserve\./);
    expect(written).toEqual({});
  });

  it.each([
    ['axes.tabel', text, 'Nothing is to be chosen at axes.tabel. Did you mean axes.table?\n'],
    ['axes.a', 'layshaft: 1\n', 'No axis of the file has a motion, a train or a motor yet.\n'],
    [
      'axes.table',
      text.replace('mass: 22 kg', 'mass: unknown'),
      expect.stringContaining('Nothing can be chosen at axes.table yet: axes.table.train.0.disc.mass'),
    ],
  ])('refuses %s', async (line, file, err) => {
    expect(await choose(line, file)).toMatchObject({ status: 2, err, written: {} });
  });

  it('does not write to standard input', async () => {
    const { status, err } = await layshaft('choose - axes.table --write', { stdin: text });
    expect([status, err]).toEqual([2, 'Standard input cannot be written to. Name a file.\n']);
  });
});
