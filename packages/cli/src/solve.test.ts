// The command's solver finds the thread that was built for it.
import { expect, it } from 'vitest';
import { solve } from './solve.ts';

it('solves a model in the thread beside the command', async () => {
  const card = { name: 'cards', least: 0, most: 9, whole: true, cost: 90 };
  const channels = { name: 'channels', terms: [{ variable: 0, factor: 12 }], least: 50, most: Infinity };
  expect(await solve({ variables: [card], constraints: [channels] })).toEqual({
    status: 'optimal',
    values: [5],
    cost: 450,
    bound: 450,
  });
});
