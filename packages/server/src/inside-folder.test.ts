// Paths stay inside: what is refused and in which words, and seeded hostile paths against real files and symbolic links.
import { readdirSync, readFileSync, realpathSync, symlinkSync } from 'node:fs';
import { join, sep } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openStore } from './file-store.ts';
import { isTable, placeInside } from './inside-folder.ts';
import { Refusal } from './refusal.ts';
import { temporaryFolder } from './temporary.support.ts';

/** A folder with everything that could lead out of it, in a folder with what must not be touched. */
function trap(): { readonly outside: string; readonly root: string } {
  const outside = temporaryFolder({
    'secret.yaml': 'outside',
    'other/secret.yaml': 'outside',
    'served/machine.yaml': 'inside',
    'served/a.YML': 'inside',
    'served/sub/deep/part.yml': 'inside',
    'served/.hidden/x.yaml': 'hidden',
    'served/expected/x.yaml': 'passed over',
    'served/notes.txt': 'no machine file',
  });
  const root = join(outside, 'served');
  symlinkSync('../secret.yaml', join(root, 'link.yaml'));
  symlinkSync('machine.yaml', join(root, 'inner.yaml'));
  symlinkSync('..', join(root, 'up'));
  symlinkSync('../other', join(root, 'sub', 'away'));
  symlinkSync('../missing.yaml', join(root, 'dangling.yaml'));
  symlinkSync('loop.yaml', join(root, 'loop.yaml'));
  return { outside, root };
}

const told = (promise: Promise<unknown>): Promise<unknown> =>
  promise.then(
    () => 'allowed',
    (error: unknown) => (error instanceof Refusal ? [error.status, error.says] : error),
  );

describe('a path', () => {
  it.each(['machine.yaml', 'a.YML', 'sub/deep/part.yml', 'new.yaml', 'new/new.yaml', 'Größe 2.yaml', 'a..b.yaml'])(
    'may be %j',
    async (path) => {
      const { root } = trap();
      expect(await placeInside(root, path)).toBe(join(root, path));
    },
  );

  it('may be that of a table where tables are allowed, and nowhere else', async () => {
    const { root } = trap();
    const tables = { allows: isTable };
    expect(await placeInside(root, 'sub/points.CSV', tables)).toBe(join(root, 'sub/points.CSV'));
    expect(await told(placeInside(root, 'sub/points.csv'))).toEqual([403, 'sub/points.csv is no machine file.']);
    expect(await told(placeInside(root, '../points.csv', tables))).toEqual(leadsOut);
    expect(await told(placeInside(root, '.points.csv', tables))).toEqual([403, '.points.csv is no machine file.']);
  });

  const leadsOut = [403, 'The path leads out of the folder.'];
  const notPlain = [400, 'The path is not one that every computer can have.'];
  it.each([
    ['../secret.yaml', leadsOut],
    ['sub/../../secret.yaml', leadsOut],
    ['sub/..', leadsOut],
    ['/etc/passwd.yaml', leadsOut],
    ['C:/x.yaml', leadsOut],
    ['c:x.yaml', leadsOut],
    ['', notPlain],
    ['.', notPlain],
    ['./machine.yaml', notPlain],
    ['sub//part.yaml', notPlain],
    ['..\\secret.yaml', notPlain],
    ['\\\\host\\share\\x.yaml', notPlain],
    ['machine.yaml\0.yaml', notPlain],
    ['a\n.yaml', notPlain],
    ['machine.yaml:stream.yaml', notPlain],
    ['machine.yaml.', notPlain],
    ['machine.yaml ', notPlain],
    ['.. /secret.yaml', notPlain],
    ['nul.yaml', notPlain],
    ['CON .yaml', notPlain],
    ['com1.x.yaml', notPlain],
    ['lpt²/x.yaml', notPlain],
    ['\ud800.yaml', notPlain],
    ['notes.txt', [403, 'notes.txt is no machine file.']],
    ['sub', [403, 'sub is no machine file.']],
    ['.hidden.yaml', [403, '.hidden.yaml is no machine file.']],
    ['.hidden/x.yaml', [403, '.hidden/x.yaml is in a folder that is passed over.']],
    ['.layshaft/history/x.yaml', [403, '.layshaft/history/x.yaml is in a folder that is passed over.']],
    ['expected/x.yaml', [403, 'expected/x.yaml is in a folder that is passed over.']],
    ['link.yaml', [403, 'link.yaml is a symbolic link.']],
    ['inner.yaml', [403, 'inner.yaml is a symbolic link.']],
    ['up/secret.yaml', [403, 'up is a symbolic link.']],
    ['sub/away/secret.yaml', [403, 'sub/away is a symbolic link.']],
    ['dangling.yaml', [403, 'dangling.yaml is a symbolic link.']],
    ['loop.yaml', [403, 'loop.yaml is a symbolic link.']],
    ['machine.yaml/x.yaml', [403, 'machine.yaml is neither a plain file nor a folder.']],
  ])('is refused: %j', async (path, refusal) => {
    const { root } = trap();
    expect(await told(placeInside(root, path))).toEqual(refusal);
  });
});

describe('hostile paths', () => {
  const odd = ['%2e%2e', '%2f', '．．', '‥', '..;', '. .', '..\0', '\0', 'C:', 'con', '~', '.layshaft', 'history'];
  const folders = ['..', 'up', 'sub', 'deep', 'away', 'other', 'served', '.hidden', 'expected', '.', '', 'new'];
  const ends = [
    'secret.yaml',
    'x.yaml',
    'machine.yaml',
    'link.yaml',
    'inner.yaml',
    'part.yml',
    'new.yaml',
    'loop.yaml',
  ];
  const joint = fc.constantFrom(...'/////////'.split(''), '//', '\\', '/./', '\0', ':', '');
  const step = fc.tuple(fc.constantFrom(...folders, ...folders, ...odd), joint).map((both) => both.join(''));
  const steps = fc.array(step, { maxLength: 4 }).map((all) => all.join(''));
  const start = fc.constantFrom('', '', '', '', '', '/', '\\', 'C:\\', '//', 'file:///');
  const end = fc.constantFrom(...ends, ...ends, ...odd);
  const paths = fc.oneof(
    { weight: 9, arbitrary: fc.tuple(start, steps, end).map((all) => all.join('')) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 20 }).map((text) => `${text}.yaml`) },
  );

  it('seeded: nothing outside is read or written, nothing inside that is hidden or linked', {
    timeout: 60_000,
  }, async () => {
    const { outside, root } = trap();
    const errors: unknown[] = [];
    const store = await openStore(root, { onError: (error) => errors.push(error) });
    const around = () => [
      readdirSync(outside).sort().join(),
      readdirSync(join(outside, 'other')).join(),
      readFileSync(join(outside, 'secret.yaml'), 'utf8'),
      readFileSync(join(outside, 'other', 'secret.yaml'), 'utf8'),
      readFileSync(join(root, '.hidden', 'x.yaml'), 'utf8'),
      readFileSync(join(root, 'expected', 'x.yaml'), 'utf8'),
    ];
    const before = around();
    let written = 0;
    const run = async (path: string): Promise<void> => {
      const read = await told(store.read(path).then(({ text }) => expect(text).toMatch(/^(inside|written )/)));
      expect(read === 'allowed' || Array.isArray(read), String(read)).toBe(true);
      const text = `written ${written}`;
      const { version: base } = await store.read(path).catch(() => ({ version: null }));
      const saved = await told(store.save({ path, text, base }));
      expect(saved === 'allowed' || Array.isArray(saved), String(saved)).toBe(true);
      expect(await told(store.history(path))).toEqual(expect.anything());
      if (saved === 'allowed') {
        written += 1;
        expect(readFileSync(join(root, path), 'utf8')).toBe(text);
        expect(realpathSync(join(root, path))).toBe(join(root, ...path.split('/')));
        expect(realpathSync(join(root, path)).startsWith(root + sep)).toBe(true);
      }
      expect(around()).toEqual(before);
    };
    await fc.assert(fc.asyncProperty(paths, run), { seed: 4711, numRuns: 3000 });
    await store.close();
    expect(written).toBeGreaterThan(50);
    expect(errors).toEqual([]);
  });
});
