// Walking a schema: every path of every example leads somewhere, and each kind of step is taken.
import { readdirSync, readFileSync } from 'node:fs';
import { machineSchema } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { fieldAt, type JsonSchema, keysAt, type Path, schemasAt, takesPart, valuesAt } from './schema-at.ts';

/** The path of everything that stands in a tree. */
function pathsOf(tree: unknown, path: Path = []): readonly Path[] {
  if (typeof tree !== 'object' || tree === null) return [path];
  const steps = Array.isArray(tree) ? [...tree.keys()] : Object.keys(tree);
  return [path, ...steps.flatMap((step) => pathsOf((tree as Record<string | number, unknown>)[step], [...path, step]))];
}

const examples = readdirSync('examples').filter((name) => name !== 'problems');

describe('the schema of the machine file', () => {
  const schema = machineSchema();

  it.each(examples)('has something for every path of %s', (name) => {
    const paths = pathsOf(parse(readFileSync(`examples/${name}/machine.yaml`, 'utf8')));
    expect(paths.length).toBeGreaterThan(50);
    for (const path of paths) expect(schemasAt(schema, path), path.join('.')).not.toEqual([]);
  });

  it('has nothing for a path that cannot be', () => {
    expect(schemasAt(schema, ['netwroks'])).toEqual([]);
    expect(schemasAt(schema, ['machine', 'name', 'x'])).toEqual([]);
    expect(schemasAt(schema, ['axes', 'Infeed'])).toEqual([]);
    expect(schemasAt(schema, ['networks', 'n', 'runs', 0, 4])).toEqual([]);
  });

  it('says where the name of a part is due, and of which kind', () => {
    expect(takesPart(schema, ['axes', 'infeed', 'drive'])).toBe(true);
    expect(fieldAt(schema, ['axes', 'infeed', 'drive'])).toBe('drive');
    expect(takesPart(schema, ['networks', 'n', 'runs', 0, 3])).toBe(true);
    expect(fieldAt(schema, ['networks', 'n', 'runs', 0, 3])).toBe('cable');
    expect(takesPart(schema, ['networks', 'n', 'nodes', 'hub'])).toBe(true);
    expect(fieldAt(schema, ['networks', 'n', 'nodes', 'hub'])).toBeUndefined();
    expect(takesPart(schema, ['networks', 'n', 'cycle'])).toBe(false);
  });
});

describe('a schema', () => {
  const schema: JsonSchema = {
    $defs: { colour: { enum: ['light', 'dark'] } },
    properties: {
      either: {
        description: 'Said of both.',
        anyOf: [
          { type: 'string', examples: ['x'] },
          { type: 'object', properties: { inner: { const: 1 } } },
        ],
      },
      map: { type: 'object', description: 'A map.', patternProperties: { '^[a-z]$': { $ref: '#/$defs/colour' } } },
      rest: { additionalProperties: { type: 'string', examples: ['y'] } },
      row: { prefixItems: [{ title: 'first', enum: ['p'] }], items: { enum: ['q'] } },
    },
  };

  it('is walked through alternatives, patterns, references, rows and what else may stand', () => {
    expect(schemasAt(schema, ['either', 'inner'])).toEqual([{ const: 1 }]);
    expect(valuesAt(schema, ['map', 'a']).map(({ text }) => text)).toEqual(['light', 'dark']);
    expect(schemasAt(schema, ['map', 'A'])).toEqual([]);
    expect(valuesAt(schema, ['rest', 'anything'])).toEqual([{ text: 'y', about: '' }]);
    expect(valuesAt(schema, ['row', 0])).toEqual([{ text: 'p', about: '' }]);
    expect(valuesAt(schema, ['row', 1])).toEqual([{ text: 'q', about: '' }]);
    expect(fieldAt(schema, ['row', 0])).toBe('first');
  });

  it('gives keys and words with what is said of them', () => {
    expect(keysAt(schema, [])).toContainEqual({ key: 'either', about: 'Said of both.', opens: false });
    expect(keysAt(schema, [])).toContainEqual({ key: 'map', about: 'A map.', opens: true });
    expect(keysAt(schema, ['either'])).toEqual([{ key: 'inner', about: '', opens: false }]);
    expect(valuesAt(schema, ['either'])).toEqual([{ text: 'x', about: 'Said of both.' }]);
    expect(valuesAt(schema, ['either', 'inner'])).toEqual([{ text: '1', about: '' }]);
  });
});
