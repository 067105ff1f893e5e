// A row of fixed places inside what a range of names stands for is found by the names of its places.
import { expect, it } from 'vitest';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { type Machine, read } from './machine.ts';
import { splice } from './splice.ts';
import { vary } from './vary.ts';

const text = 'layshaft: 1\nmachine: { name: A }\npoints:\n  v_[1..2]: { kind: analogue_in, range: [4 mA, 20 mA] }\n';
const path = 'points.v_[1..2].range.from';

const lowest = ({ points }: Machine): readonly (number | undefined)[] =>
  points.map(({ range }) =>
    range === undefined || range instanceof Missing || !(range.from instanceof Quantity) ? undefined : range.from.value,
  );

it('is changed for all of them, in the text and without it', () => {
  const machine = read(text);
  expect(lowest(vary(machine, path, '5 mA')!)).toEqual([0.005, 0.005]);
  const edit = splice(machine, { path, value: '5 mA', at: 'here' });
  expect(edit.kind === 'edit' && edit.text).toBe(text.replace('4 mA', '5 mA'));
});

it('that has no place of the name is refused', () => {
  expect(vary(read(text), 'points.v_[1..2].range.middle', '5 mA')).toBeUndefined();
});
