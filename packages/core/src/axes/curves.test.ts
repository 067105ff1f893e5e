// The course of a cycle as a picture: what its rows say of their ends.
import { expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { curves } from './curves.ts';

it('a tool that comes back to where it was is told to have been at 0, not beside it', () => {
  const text = `layshaft: 1
axes: { a: { motion: { cycle: 4 s, steps: [{ move: 100 mm, in: 2 s, ramp: 0.1 s }, { move: -100 mm, in: 2 s, ramp: 0.1 s }] }, train: [{ slide: { mass: 1 kg } }, { rack: { diameter: 50 mm, wheel_mass: 1 kg } }] } }
`;
  const found = JSON.stringify(curves(assess(resolve(read(text), [])).axes[0]!));
  expect(found).toContain('"0 m to 100 mm"');
  expect(found).not.toMatch(/e-\d+ µm/);
});
