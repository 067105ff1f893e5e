// What racks come to as a whole, by hand.
import { expect, it } from 'vitest';
import type { Unit } from '../../units/si.ts';
import { leaf } from '../../working/quantity.ts';
import { channelsFree, costOfAll, costOfParts, freeShare } from './totals.ts';

const plain = <U extends Unit>(value: number, unit: U) =>
  leaf(value, unit, { kind: 'given', path: 'x', via: [], writtenAt: 'x', written: '', writtenUnit: unit });

it('free channels by hand', () => {
  const known = { n: plain(20, '1'), u: plain(17, '1') };
  expect(channelsFree(known, 'main').value).toBe(3);
  expect(freeShare(known, 'main').value).toBe(0.15);
});

// Three modules of 88 and a rack of 138 are 264 + 138.
it('a parts list by hand', () => {
  const modules = costOfParts({ n: plain(3, '1'), c: plain(88, 'cost') }, 'in_12');
  expect(modules.value).toBe(264);
  expect(costOfAll({ c: [modules, plain(138, 'cost')] }, 'all').value).toBe(402);
});
