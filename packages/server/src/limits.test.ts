// The limits are those of the reader of machine files, and those that the guide names.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { largestText_octets as readerTakes_octets } from '../../core/src/reading/parse.ts';
import { historyLimits, largestText_octets, walkLimits } from './limits.ts';
import { usualPort } from './serve.ts';

it('a file may be as large as one that can be read', () => {
  expect(largestText_octets).toBe(readerTakes_octets);
});

it('the guide names every limit', () => {
  const guide = readFileSync('docs/guides/open.md', 'utf8');
  const { depth, files, folders } = walkLimits;
  expect(guide).toContain(`up to ${depth} deep, ${files} files and ${folders} folders`);
  expect(guide).toContain(`up to ${largestText_octets / 1e6} MB`);
  expect(guide).toContain(`Above ${historyLimits.octets / 1e6} MB`);
  expect(guide).toContain(`the newest ${historyLimits.newest} of a file`);
  expect(guide).toContain(`without it ${usualPort},`);
});
