// Wires against second methods: a loop walked conductor by conductor, and sections tried one after another.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { arrives, lostOnWire, lostTogether, sectionFor } from './wires.ts';

it('Kirchhoff: the drop by a walk around the loop', () => {
  const random = seeded(311);
  for (let round = 0; round < 200; round++) {
    const legs = Array.from({ length: 1 + Math.floor(3 * random()) }, () => 0.01 + 2 * random());
    const [current, supply] = [0.01 + 2 * random(), 20 + 8 * random()];
    // Potential falls on the way out, and on the way back to nothing.
    const out = legs.reduce((volts, ohms) => volts - ohms * current, supply);
    const back = legs.reduceRight((volts, ohms) => volts + ohms * current, 0);
    const u = lostTogether(
      { u: legs.map((ohms) => lostOnWire({ R: q(ohms, 'Ω'), i: q(current, 'A') }, 'test')) },
      'test',
    );
    expect(arrives({ U: q(supply, 'V'), u }, 'test').value).toBeCloseTo(out - back, 9);
  }
});

it('the smallest section by trying them all', () => {
  const random = seeded(312);
  for (let round = 0; round < 300; round++) {
    const table = Array.from(
      { length: 1 + Math.floor(7 * random()) },
      () => [0.5 + random(), 1 + 20 * random()] as const,
    );
    const current = 25 * random();
    const enough = table.filter(([, carried]) => carried >= current).map(([section]) => section);
    const chosen = sectionFor(
      {
        i: q(current, 'A'),
        A: table.map(([section]) => q(section, 'm²')),
        I: table.map(([, carried]) => q(carried, 'A')),
      },
      'test',
    ).value;
    expect(chosen).toBe(Math.min(...enough));
  }
});
