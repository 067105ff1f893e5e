// When the packages count as fresh, stale or missing, and which Node is too old.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bootstrap, installation, isOlder, writeStamp } from './bootstrap.mjs';

describe('installation', () => {
  let folder: string;
  const write = (path: string, content: unknown) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), JSON.stringify(content));
  };
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'layshaft-'));
    write('package.json', { engines: { node: '>=20.19.0' }, dependencies: { a: '1.0.0' } });
    write('packages/core/package.json', { dependencies: { b: '1.0.0' } });
    write('package-lock.json', { packages: {} });
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('is missing without node_modules and stale without a stamp', () => {
    expect(installation(folder)).toBe('missing');
    mkdirSync(join(folder, 'node_modules'));
    expect(installation(folder)).toBe('stale');
  });

  it.each([
    ['the lock', 'package-lock.json', { packages: { a: {} } }, 'stale'],
    ['a dependency', 'package.json', { engines: { node: '>=20.19.0' }, dependencies: { a: '2.0.0' } }, 'stale'],
    ['a dependency of a package', 'packages/core/package.json', { dependencies: { b: '1.0.1' } }, 'stale'],
    ['a new package', 'packages/web/package.json', {}, 'stale'],
    ['a script', 'packages/core/package.json', { scripts: { x: 'y' }, dependencies: { b: '1.0.0' } }, 'fresh'],
  ])('after a change of %s', (_, path, content, expected) => {
    mkdirSync(join(folder, 'node_modules'));
    writeStamp(folder);
    expect(installation(folder)).toBe('fresh');
    write(path, content);
    expect(installation(folder)).toBe(expected);
  });

  it('says what Node it needs', () => {
    write('package.json', { engines: { node: '>=999.0.0' } });
    expect(() => bootstrap(folder)).toThrow('Layshaft needs Node >=999.0.0; this is Node');
  });
});

describe('isOlder', () => {
  it.each([
    ['20.9.0', true],
    ['18.20.8', true],
    ['20.18.99', true],
    ['20.19.0', false],
    ['20.20.2', false],
    ['22.0.0', false],
    ['100.0.0', false],
  ])('%s against >=20.19.0: %s', (version, expected) => {
    expect(isOlder(version, '>=20.19.0')).toBe(expected);
  });
});
