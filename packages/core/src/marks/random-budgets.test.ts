// Budgets drawn at random, written as files and read again, against the same budget on plain numbers; every number replays.
import { expect, it } from 'vitest';
import { quantitiesOf } from '../../../../tests/support/quantities.ts';
import { seeded } from '../../../../tests/support/seeded.ts';
import { assess } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { quantitiesIn } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { isStep } from '../working/quantity.ts';
import { replay } from '../working/working.ts';
import { type Contribution, combined, type Distribution, worstCase } from './calc/budget.ts';

interface Drawn {
  readonly text: string;
  readonly contribution: Contribution;
}

function drawn(random: () => number, name: string, speed: number): Drawn {
  const timed = random() < 0.4;
  const digits = (value: number): number => Number(value.toPrecision(4));
  const size = digits(timed ? 1 + 20 * random() : 1 + 60 * random());
  const unit = timed ? 'µs' : 'µm';
  const metres = (value: number): number => value * 1e-6 * (timed ? speed : 1);
  const sensitivity = random() < 0.3 ? digits(2 * random() - 1) : undefined;
  const compensated = random() < 0.3 ? digits(random()) : undefined;
  const degrees = random() < 0.3 ? 1 + Math.floor(20 * random()) : undefined;
  const offset = random() < 0.2 ? digits(10 * random() - 5) : undefined;
  const shape = (['normal', 'rectangular', 'triangular', 'arcsine', 'sample'] as const)[Math.floor(5 * random())]!;
  const values = Array.from({ length: 2 + Math.floor(6 * random()) }, () => digits(40 * random() - 20));
  const of = random() < 0.5 ? 'one' : 'mean';
  const more = [
    ...(sensitivity === undefined ? [] : [`sensitivity: ${sensitivity}`]),
    ...(compensated === undefined ? [] : [`compensated: ${compensated}`]),
    ...(degrees === undefined || shape === 'sample' ? [] : [`degrees: ${degrees}`]),
    ...(offset === undefined || shape === 'sample' ? [] : [`offset: ${offset} ${unit}`]),
    ...(shape === 'sample' ? [`of: ${of}`] : []),
  ];
  const told = shape === 'sample' ? `[${values.map((each) => `${each} ${unit}`).join(', ')}]` : `${size} ${unit}`;
  const spread: Distribution =
    shape === 'normal'
      ? { shape, deviation: metres(size) }
      : shape === 'sample'
        ? { shape, values: values.map(metres), of }
        : { shape, halfWidth: metres(size) };
  return {
    text: `      ${name}: { ${[`${shape}: ${told}`, ...more].join(', ')} }\n`,
    contribution: {
      name,
      spread,
      sensitivity: (sensitivity ?? 1) * (1 - (compensated ?? 0)),
      ...(degrees !== undefined && shape !== 'sample' && { degrees }),
      ...(offset !== undefined && shape !== 'sample' && { offset: metres(offset) }),
    },
  };
}

it('seeded: a budget from a file is that of its contributions, and all of its numbers replay', () => {
  const random = seeded(2026);
  for (let trial = 0; trial < 150; trial++) {
    const speed = Number((0.5 + 5 * random()).toPrecision(3));
    const all = Array.from({ length: 1 + Math.floor(7 * random()) }, (_, at) => drawn(random, `c${at}`, speed));
    const text = `layshaft: 1\nmarks:\n  a:\n    speed: ${speed} m/s\n    tolerance: ±0.5 mm\n    spread:\n${all.map((each) => each.text).join('')}`;
    const machine = read(text);
    expect(machine.problems, text).toEqual([]);
    const assessment = assess(resolve(machine, []));
    const { known } = assessment.marks[0]!;
    if (known instanceof Missing) throw new Error(`${text}${JSON.stringify(known.lacks)}`);
    const contributions = all.map(({ contribution }) => contribution);
    const plain = combined(contributions, { coverage: 0.95 })!;
    const near = (found: number, due: number) =>
      expect(Math.abs(found - due), text).toBeLessThan(1e-9 * Math.abs(due) + 1e-18);
    near(known.u.value, plain.standard);
    near(known.offset.value, plain.offset);
    near(known.worst.value, worstCase(contributions, { deviations: 3 }));
    const degrees = typeof known.degrees === 'string' ? Infinity : known.degrees.value;
    if (degrees !== plain.degrees) near(degrees, plain.degrees!);
    near(known.expanded!.value, plain.expanded!);
    for (const [at, share] of plain.shares.entries()) near(known.parts[at]!.share.value, share);
    const told = assessment.findings.find(({ check }) => check === 'marks.budget')!;
    near(told.demand!.value, Math.abs(plain.offset) + 3 * plain.standard);
    // Trials and sweeps of a few, since they take longer.
    const shown = trial % 50 === 0 ? show(assessment, 'marks.a').flatMap((view) => [...quantitiesIn(view)]) : [];
    for (const each of [...quantitiesOf(assessment), ...shown])
      if (isStep(each)) expect(Object.is(replay(each), each.value), each.by.id).toBe(true);
  }
});
