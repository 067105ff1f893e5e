// How a share is read, and what is told of one that lacks its sign.

import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { wantedShares } from '../machine/reserves.ts';
import { toldOf } from '../machine/told.support.ts';
import type { Missing } from '../working/missing.ts';

/** Every place where a share is read. */
const places = [
  ['reserves.networks.cycle', (share: string) => `layshaft: 1\nreserves: { networks.cycle: ${share} }\n`, '20 %'],
  ['controller.kernel_share', (share: string) => `layshaft: 1\ncontroller: { kernel_share: ${share} }\n`, '60 %'],
] as const;

describe.each(places)('a share at %s', (path, text, example) => {
  it.each([
    ['30', '30 alone would be 3000 %; a share is written with %', 'Write 30 %, or 0.3, which is the same.'],
    ['1.5', '1.5 alone would be 150 %; a share is written with %', 'Write 1.5 %, or 0.015, which is the same.'],
    ['100', '100 alone would be 10000 %; a share is written with %', 'Write 100 %, or 1, which is the same.'],
    ['300', '300 alone would be 30000 %; a share is written with %', `Write a share such as ${example}.`],
    [
      '130 %',
      `130 % cannot be: ${path.replace(/^reserves\.|^.*\./, '')} is at most 100 %`,
      `Write a share such as ${example}.`,
    ],
  ])('%s is told with what may be meant', (share, message, remedy) => {
    expect(toldOf(text(share))).toEqual([{ code: 'out-of-range', path, marked: share, message, remedy }]);
  });

  it.each(['30 %', '0.3', '1', '100 %', '3000 ppm'])('%s is one', (share) => {
    expect(toldOf(text(share))).toEqual([]);
  });

  it('that is wrong leaves what rests on it unknown, as a share', () => {
    const { reserves, controller } = read(text('30'));
    const spoilt = path.startsWith('reserves') ? wantedShares(reserves)['networks.cycle'] : controller.kernel_share;
    expect((spoilt as Missing).lacks).toEqual([{ path, why: 'problem', due: 'a share', example }]);
  });
});

it('names a reserve by its whole key', () => {
  expect(toldOf('layshaft: 1\nreserves: { networks.cycle: }\n')).toMatchObject([
    {
      message: 'networks.cycle is a share; nothing stands here',
      remedy: 'Write networks.cycle: 20 %, or open or unknown.',
    },
  ]);
  expect(toldOf('layshaft: 1\nreserves: { networks.cycle: -1 % }\n')).toMatchObject([
    { message: '-1 % cannot be: networks.cycle is never negative' },
  ]);
});
