// The schema against an independent validator: what it accepts and refuses is what the reader accepts and refuses.
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { read } from './machine.ts';
import { machineSchema } from './schema.ts';

const validate = new Ajv2020({ strict: false, allErrors: true }).compile(machineSchema());
/** YAML as an editor sees it: numbers are numbers. */
const valid = (text: string): boolean => validate(parse(text));
const problems = (text: string): readonly string[] => read(text).problems.map(({ code }) => code);

const examples = readdirSync('examples', { withFileTypes: true }).filter(
  (entry) => entry.isDirectory() && entry.name !== 'problems',
);

/** What the reader says of the form of a file, apart from what a name, a unit or a number in it means. */
const ofForm =
  /^(key-unknown|key-missing|map-expected|list-expected|value-expected|section-expected|word-unknown|name-form|version-unknown)$/;
const wellFormed = (text: string): boolean => !problems(text).some((code) => ofForm.test(code));

type Path = readonly (string | number)[];

/** The path of everything that stands in a file. */
function spotsOf(tree: unknown, path: Path = []): readonly Path[] {
  if (typeof tree !== 'object' || tree === null) return [];
  const keys = Array.isArray(tree) ? [...tree.keys()] : Object.keys(tree);
  return keys.flatMap((key) => {
    const spot = [...path, key];
    return [spot, ...spotsOf((tree as Record<string | number, unknown>)[key], spot)];
  });
}

/** The tree with something else at a path; without it when that is undefined. */
function changed(tree: unknown, path: Path, value: unknown): unknown {
  const copy = structuredClone(tree);
  let at = copy as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as typeof at;
  const last = path.at(-1)!;
  if (value !== undefined) at[last] = value;
  else if (Array.isArray(at)) at.splice(last as number, 1);
  else delete at[last];
  return copy;
}

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
    ['a text that looks like a number', 'machine: { name: 2000 }\ncontroller: { part: controller_m, version: 2.1 }\n'],
    [
      'numbers without a unit where none is due',
      'networks: { n: { repeats: 2, port: 1 } }\nreserves: { networks.cycle: 0.2 }\n',
    ],
  ])('accepts %s, as the reader does', (_what, text) => {
    expect(valid(head + text), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(problems(head + text)).toEqual([]);
  });

  it.each([
    ['open', 'layshaft: open\n'],
    ['unknown', 'layshaft: unknown\n'],
    ['another', 'layshaft: 2\n'],
    ['nothing', 'machine: { name: A }\n'],
  ])('refuses %s as the version, as the reader does', (_what, text) => {
    expect(valid(text)).toBe(false);
    expect(problems(text).length).toBeGreaterThan(0);
  });

  const changes: readonly (readonly [string, unknown])[] = [
    ['a map of a key that does not exist', { zzz: 'x' }],
    ['a list of one', ['x']],
    ['an empty list', []],
    ['an empty map', {}],
    ['open', 'open'],
    ['nothing at all', undefined],
  ];
  it.each(examples.map(({ name }) => name))(
    'agrees with the reader wherever %s is changed',
    (name) => {
      const whole = parse(readFileSync(`examples/${name}/machine.yaml`, 'utf8'));
      // What a line of `set` or `planned` holds is read where it belongs, and whom an entry is like is a matter of names.
      const spots = spotsOf(whole).filter(
        (spot) => spot[0] !== 'set' && (spot[0] !== 'planned' || spot.length === 1) && spot.at(-1) !== 'like',
      );
      // A hundred spots, evenly spread, are plenty in a long file.
      const chosen = spots.filter((_, at) => at % Math.ceil(spots.length / 100) === 0);
      const differing: string[] = [];
      for (const spot of chosen) {
        for (const [what, value] of changes) {
          const text = stringify(changed(whole, spot, value));
          if (valid(text) !== wellFormed(text)) differing.push(`${spot.join('.')} as ${what}: ${problems(text)}`);
        }
      }
      expect(differing).toEqual([]);
      expect(chosen.length).toBeGreaterThan(20);
    },
    120_000,
  );
});
