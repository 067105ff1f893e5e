// The schema against an independent validator: what it accepts and refuses is what the reader accepts and refuses.
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { read } from './machine.ts';
import { machineSchema } from './schema.ts';

const validate = new Ajv2020({ strict: false, allErrors: true }).compile(machineSchema());
/** YAML as an editor sees it: numbers are numbers. */
const valid = (text: string): boolean => validate(parse(text));
const problems = (text: string): readonly string[] => read(text).problems.map(({ code }) => code);

const examples = readdirSync('examples', { withFileTypes: true }).filter(
  (entry) => entry.isDirectory() && entry.name !== 'problems',
);

describe('the schema', () => {
  it.each(examples.map(({ name }) => name))('accepts the example %s', (name) => {
    const text = readFileSync(`examples/${name}/machine.yaml`, 'utf8');
    expect(valid(text), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(problems(text)).toEqual([]);
  });

  const head = 'layshaft: 1\n';
  it.each([
    ['a section that does not exist', 'netwroks: {}\n'],
    ['a key that does not exist', 'machine: { nmae: A }\n'],
    ['a list for a map', 'machine: [A]\n'],
    ['a map for a value', 'networks: { n: { cycle: { ms: 1 } } }\n'],
    ['a name that is none', 'axes: { Infeed: { drive: drive_5 } }\n'],
    ['a run of three', 'networks: { n: { runs: [[controller, a, 1 m]] } }\n'],
    ['a discipline that does not exist', 'networks: { n: { profile: { discipline: shouted } } }\n'],
    ['a setting without a path', 'set: [{ value: 1 }]\n'],
    ['cycles without the word', 'networks: { n: { nodes: { r: { every: 2 } } } }\n'],
  ])('refuses %s, as the reader does', (_what, text) => {
    expect(valid(head + text)).toBe(false);
    expect(problems(head + text).length).toBeGreaterThan(0);
  });

  it.each([
    ['open and unknown', 'networks: { n: { cycle: open, repeats: unknown, runs: open } }\n'],
    [
      'ranges, like, set and planned',
      'axes:\n  a_[1..3]: { drive: drive_5 }\n  b: { like: a_1 }\nset: [{ path: axes.a_*.cycle_at_most, value: 1 ms }]\nplanned: {}\n',
    ],
    [
      'a measurement',
      'axes: { a: { drive: { part: drive_5, turnaround: { measured: 2 µs, date: 2026-01-02, count: 100 } } } }\n',
    ],
    [
      'numbers without a unit where none is due',
      'networks: { n: { repeats: 2, port: 1 } }\nreserves: { networks.cycle: 0.2 }\n',
    ],
  ])('accepts %s, as the reader does', (_what, text) => {
    expect(valid(head + text), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(problems(head + text)).toEqual([]);
  });
});
