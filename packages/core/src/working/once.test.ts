// Each is made once, when it is first asked for, and for its own object.
import { expect, it } from 'vitest';
import { later, onceForEach } from './once.ts';

it('makes a value when it is first asked for, and hands out the same from then on', () => {
  let count = 0;
  const value = later(() => ({ count: ++count }));
  expect(count).toBe(0);
  expect(value()).toBe(value());
  expect(count).toBe(1);
});

it('makes one value for each object, nothing at all among them', () => {
  const asked: object[] = [];
  const sizeOf = onceForEach((of: { size?: number }) => {
    asked.push(of);
    return of.size;
  });
  const [one, none] = [{ size: 3 }, {}];
  expect([sizeOf(one), sizeOf(none), sizeOf(one), sizeOf(none)]).toEqual([3, undefined, 3, undefined]);
  expect(asked).toEqual([one, none]);
});
