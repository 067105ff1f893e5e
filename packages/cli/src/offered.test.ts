// Which names are offered for a mistyped one, and in which order.
import { expect, it } from 'vitest';
import { offered } from './offered.ts';

it.each([
  ['names that hold it, the shortest first', 'rack', ['rack_small', 'rack_b', 'hub'], ['rack_b', 'rack_small']],
  [
    'then names a few letters away, the nearest first',
    'hub_6',
    ['hub_77', 'hub_7', 'hub_66'],
    ['hub_66', 'hub_7', 'hub_77'],
  ],
  ['five at most', 'a', ['a1', 'a2', 'a3', 'a4', 'a5', 'a6'], ['a1', 'a2', 'a3', 'a4', 'a5']],
  ['nothing for what is like nothing', 'gearbox', ['hub', 'solid'], []],
])('offers %s', (_what, typed, names, offer) => {
  expect(offered(typed, names)).toEqual(offer);
});
