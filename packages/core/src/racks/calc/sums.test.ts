// Sums of racks, and the two definitions of spare, by hand.
import { describe, expect, it } from 'vitest';
import type { Unit } from '../../units/si.ts';
import { leaf } from '../../working/quantity.ts';
import {
  channelsFree,
  channelsLeft,
  channelsThere,
  costOfAll,
  costOfParts,
  currentDrawn,
  freeShare,
  octetsOfModules,
  placesTaken,
  spareOfAll,
} from './sums.ts';

const plain = <U extends Unit>(value: number, unit: U) =>
  leaf(value, unit, { kind: 'given', path: 'x', via: [], writtenAt: 'x', written: '', writtenUnit: unit });

describe('racks', () => {
  it('places and currents by hand', () => {
    const counts = [2, 1, 1, 0].map((each) => plain(each, '1'));
    expect(placesTaken({ p: counts }, 'main').value).toBe(4);
    expect(channelsThere({ n: [20, 12].map((each) => plain(each, '1')) }, 'main').value).toBe(32);
    expect(currentDrawn({ i: [0.42, 0.09].map((each) => plain(each, 'A')) }, 'main').value).toBeCloseTo(0.51, 12);
    expect(octetsOfModules({ o: [16, 24].map((each) => plain(each, 'bit')) }, 'rack_o').value).toBe(40);
  });

  // 75 free beside 225 used: 33 % of the used, 25 % of all.
  it('spare of the used and of all', () => {
    expect(spareOfAll({ s: plain(75 / 225, '1') }, 'main').value).toBeCloseTo(75 / 300, 15);
  });

  // Twenty channels of either kind, three of them with outputs: seventeen are left for inputs.
  it('channels that another kind uses, by hand', () => {
    expect(channelsLeft({ n: plain(20, '1'), t: plain(3, '1') }, 'main.digital_in').value).toBe(17);
  });

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
});
