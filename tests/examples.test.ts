// The results that are kept beside the examples, and the reference pages, are what the present code makes.
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { artefacts, leftovers } from './support/artefacts.ts';

describe('kept results', () => {
  const kept = artefacts();

  it.each([...kept])('%s', async (path, make) => {
    const text = existsSync(path) ? readFileSync(path, 'utf8') : '';
    expect(text, `${path} differs from what is made now: run npm run accept, then read the difference`).toBe(
      await make(),
    );
  });

  it('has nothing left over', () => {
    expect(leftovers(kept), 'run npm run accept: it removes what no example and no page makes any more').toEqual([]);
    const [path = ''] = kept.keys();
    expect(leftovers(new Map([...kept].slice(1)))).toEqual([path]);
  });
});
