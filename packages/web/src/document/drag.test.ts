// A drag: while one move is under way the last of the others waits, steps add up, and a refusal ends it.
import { expect, it } from 'vitest';
import type { By } from '../computing/protocol.ts';
import { Drag } from './drag.ts';

/** A drag whose moves end when the test says so. */
function slowDrag() {
  const made: By[] = [];
  const ends: ((goesOn: boolean) => void)[] = [];
  const drag = new Drag('p', 'g', (by) => {
    made.push(by);
    return new Promise((resolve) => ends.push(resolve));
  });
  const end = async (goesOn = true): Promise<void> => {
    ends.shift()!(goesOn);
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { drag, made, end };
}

it('makes the first move at once, then only the last of those that came meanwhile', async () => {
  const { drag, made, end } = slowDrag();
  for (const place of [0.1, 0.2, 0.3, 0.4]) drag.move({ place });
  await end();
  await end();
  drag.move({ place: 0.5 });
  expect(made).toEqual([{ place: 0.1 }, { place: 0.4 }, { place: 0.5 }]);
});

it('adds steps up', async () => {
  const { drag, made, end } = slowDrag();
  for (const steps of [1, 1, 1, -1, 1]) drag.move({ steps });
  await end();
  expect(made).toEqual([{ steps: 1 }, { steps: 2 }]);
});

it('is ended by a refusal, and goes on when it is moved again', async () => {
  const { drag, made, end } = slowDrag();
  drag.move({ place: 0.1 });
  drag.move({ place: 0.2 });
  await end(false);
  expect(made).toEqual([{ place: 0.1 }]);
  drag.move({ place: 0.3 });
  expect(made).toEqual([{ place: 0.1 }, { place: 0.3 }]);
});
