// What layshaft parts prints of kinds, of a kind and of one part, and of a catalogue of one's own.
import { demonstration } from '@layshaft/catalogue';
import { figuresOf } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { layshaft, type World } from './fake-io.ts';

const parts = async (line: string, world: World = {}) => {
  const { status, out, err } = await layshaft(`parts${line && ' '}${line}`, world);
  expect([status, err]).toEqual([0, '']);
  return out;
};

/** Two parts that differ in some figures, with sources and conditions of all sorts. */
const own = `layshaft_catalogue: 1
source: our data sheets
parts:
  near:
    kind: drive
    title: Drive at hand
    cost: 700
    version: 1.10
    condition: 0 to 40 °C
    turnaround: { typical: 1.5 µs, at_most: 2 µs, condition: one encoder, source: sheet 7 }
    forwarding: { typical: 250 ns, at_most: 300 ns }
    command: 24 octets
    plugs: 2
    requires: [{ part: controller_m, version: 2.0 }, { part: solid }]
  far: { kind: drive, command: 32 octets, plugs: 2 }
`;
const shelf: World = { files: { 'a/own.yaml': own } };

describe('without a word', () => {
  it('lists every part of the catalogue under its kind', async () => {
    const out = await parts('');
    expect(out).toMatch(/^drive {2,}drive_2, drive_3, drive_5, drive_7, drive_10, /m);
    for (const { name } of demonstration().parts.values()) expect(out).toMatch(new RegExp(`\\b${name}\\b`));
    expect(out).toContain('layshaft parts KIND lists');
  });
});

describe('a kind', () => {
  it('is listed with costs, with the figures that differ, and once those that do not', async () => {
    expect(await parts('drive --catalogue a/own.yaml', shelf)).toContain(`\
drive_120  Servo drive, 120 A, two encoders, cost 5780
    forwarding 400 ns; waits 0 octets; turnaround 2.4 µs; command 32 octets;
    answer 40 octets; current 120 A; current_peak 240 A; current_peak_time 1 s;
    loss_at_rest 130 W; loss_per_current 7.1 W/A; capacitance 5600 µF; bus_brake
    780 V; bus_at_most 830 V; resistor_at_least 3.3 Ω; speed_sample 62.5 µs;
    interpolates cubic; setpoint_cycles 1 cycle; setpoint_jitter 200 ns; ambient
    45 °C; ambient_none 95 °C; altitude 1000 m; altitude_none 11000 m

near  Drive at hand, cost 700
    forwarding 300 ns; turnaround 2 µs; command 24 octets

far  drive
    command 32 octets

All of them: plugs 2
`);
  });

  it('of one part has all its figures', async () => {
    expect(await parts('coupling')).toBe('bulkhead  Bulkhead coupling, cost 14\n    attenuation 0.4 dB; plugs 2\n');
  });

  it('leaves no figure out', async () => {
    for (const kind of new Set([...demonstration().parts.values()].map((part) => part.kind))) {
      const out = (await parts(kind)).replace(/\s+/g, ' ');
      for (const part of demonstration().parts.values())
        if (part.kind === kind)
          for (const { key, text } of figuresOf(part)) expect(out, part.name).toContain(`${key} ${text}`);
    }
  });
});

describe('a part', () => {
  it('is shown with limit, usual value, condition and source of every figure', async () => {
    expect(await parts('near --catalogue a/own.yaml', shelf)).toBe(`\
near  Drive at hand, cost 700
    A part of kind drive, catalogue a/own.yaml, version 1.10.
    Requires controller_m of version 2.0 or later and solid.
    Source: our data sheets. Holds for: 0 to 40 °C.
    Checks count with the stated limit; what is usual stands beside it for
    comparison only.

    forwarding  300 ns     usually 250 ns
    turnaround  2 µs       usually 1.5 µs; holds for: one encoder; source: sheet
                           7
    command     24 octets
    plugs       2
`);
  });

  it('that says little is shown with that little', async () => {
    expect(await parts('far --catalogue a/own.yaml', shelf)).toBe(`\
far  drive
    A part of kind drive, catalogue a/own.yaml.
    Source: our data sheets.

    command  32 octets
    plugs    2
`);
  });

  it('of one’s own replaces one of the demonstration', async () => {
    const out = await parts('drive_5 --catalogue own.yaml', { files: { 'own.yaml': own.replace('far:', 'drive_5:') } });
    expect(out).toContain('catalogue own.yaml');
    expect(await parts('drive_5')).toContain('catalogue demonstration');
  });
});

describe('what is not there', () => {
  it.each([
    [
      'a part a letter away',
      'drive_6',
      /^No kind and no part is called drive_6\. Did you mean drive_60 or drive_2( or \S+)*\? Kinds are profile, /,
    ],
    ['the beginning of names', 'slotted', /Did you mean slotted_100 or slotted_1000\?/],
    ['nothing like it', 'gearbox_of_steel', /^No kind and no part is called gearbox_of_steel\. Kinds are /],
  ])('is answered with near names: %s', async (_what, word, message) => {
    expect(await layshaft(`parts ${word}`)).toMatchObject({ status: 2, out: '', err: expect.stringMatching(message) });
  });

  it.each([
    ['no file', {}, 'There is no file own.yaml. Look at its spelling, and at the folder you are in.\n'],
    ['a folder', { 'own.yaml': { code: 'EISDIR' } }, 'own.yaml cannot be read (EISDIR). Name a file with text.\n'],
  ])('is said of a catalogue that is %s', async (_what, files, err) => {
    expect(await layshaft('parts --catalogue own.yaml', { files })).toMatchObject({ status: 2, out: '', err });
  });

  it('is a figure with a problem; the rest is shown all the same', async () => {
    const files = { 'own.yaml': own.replace('cost: 700', 'cost: cheap') };
    const { status, out, err } = await layshaft('parts near --catalogue own.yaml', { files });
    expect(status).toBe(2);
    expect(err).toMatch(/^own\.yaml:7:11 {2}/);
    expect(out).toContain('turnaround  2 µs');
  });
});
