// Whether two pieces of plain data say the same.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { saysTheSame } from './same.ts';

it('seeded: data say the same exactly when their JSON does, keys in any order', () => {
  const data = fc.jsonValue({ maxDepth: 3 });
  const property = fc.property(data, data, (a, b) => {
    expect(saysTheSame(a, structuredClone(a))).toBe(true);
    expect(saysTheSame(a, b)).toBe(saysTheSame(b, a));
    if (saysTheSame(a, b)) expect(b).toEqual(a);
  });
  fc.assert(property, { seed: 5, numRuns: 500 });
  expect(saysTheSame({ a: 1, b: [1, 2] }, { b: [1, 2], a: 1 })).toBe(true);
  expect(saysTheSame({ a: 1 }, { a: 1, b: undefined })).toBe(false);
});
