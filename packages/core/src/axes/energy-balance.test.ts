// The energy balance of every mechanism: work at the motor shaft against what masses, heights, forces and losses take.
// It is long because each mechanism stands here twice: as a file, and by hand.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { exampleMachines } from '../../../../tests/support/examples.ts';
import { seeded } from '../../../../tests/support/seeded.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { known } from '../working/testing.support.ts';
import type { Axis } from './axis.ts';
import { type Case, demandOf } from './demand.ts';
import {
  type Balance,
  balanceOf,
  body,
  constant,
  coulomb,
  cuts,
  type Entry,
  slider,
  stored,
  type Train,
  timed,
  viscous,
  window,
} from './energy-balance.support.ts';
import type { ElementSection } from './section.ts';
import { traceOf } from './trace.ts';

/** In parts of the peak energy: quadrature and rounding leave 2e-13. */
const tolerance = 1e-9;
/** What a thing that is left out is off by at least. */
const clearly = 1e-6;
/** The standard acceleration of gravity, in m/s². */
const g = 9.80665;

// ── mechanisms ───────────────────────────────────────────────────────────────────────────────────────────────────────

interface Mechanism {
  readonly name: string;
  readonly tool: 'goes along' | 'turns';
  /** Whether it drives the motor on the way forwards. */
  readonly pulls?: boolean;
  /** The train of the file, and by hand what takes energy in it; the sizes are near those that are named. */
  readonly of: (near: (size: number) => number) => {
    readonly train: string;
    readonly more?: string;
    readonly takes: Train;
  };
}

const motions = {
  'goes along': {
    up: '{ runs: { speed: 0.8 m/s, for: 0.4 s, ramp_up: 0.3 s } }',
    toAndFro:
      '{ cycle: 2 s, steps: [{ move: 0.4 m, in: 0.8 s, law: modified_sine }, { dwell: 0.2 s }, { move: -0.4 m, in: 0.7 s, ramp: 0.25 s }] }',
  },
  turns: {
    up: '{ runs: { speed: 8 rad/s, for: 1.1 s, ramp_up: 0.4 s } }',
    toAndFro:
      '{ cycle: 3 s, steps: [{ turn: 9 rad, in: 1.3 s, law: polynomial_345 }, { dwell: 0.2 s }, { turn: -9 rad, in: 1.2 s, ramp: 0.4 s }] }',
  },
} as const;

/** A tool that goes along, with nothing but a wheel without mass or loss between it and the motor. */
const onWheel = (diameter: number, element: string, entries: readonly Entry[]) => ({
  train: `[${element}, { rack: { diameter: ${diameter} m, wheel_inertia: 0 kg·m² } }]`,
  takes: {
    stations: [
      { ratio: 1, entries },
      { ratio: 2 / diameter, entries: [] },
    ],
  },
});
/** A tool that turns with the motor. */
const onShaft = (elements: string, entries: readonly Entry[]) => ({
  train: `[${elements}]`,
  takes: { stations: [{ ratio: 1, entries }] },
});

const mechanisms: readonly Mechanism[] = [
  {
    name: 'slide up a way, with counterweight and preload',
    tool: 'goes along',
    of: (near) => {
      const [m, c, μ, N, φ] = [near(30), near(8), near(0.05), near(200), near(1)];
      const slide = `{ slide: { mass: ${m} kg, counterweight: ${c} kg, friction: ${μ}, preload: ${N} N, inclination: ${φ} rad } }`;
      return onWheel(near(0.08), slide, [
        body('mass', m),
        body('mass of the counterweight', c),
        stored(
          'height',
          (x) => m * g * Math.sin(φ) * x,
          () => m * g * Math.sin(φ),
        ),
        stored(
          'height of the counterweight',
          (x) => -c * g * x,
          () => -c * g,
        ),
        coulomb('friction', μ * (m * g * Math.cos(φ) + N)),
      ]);
    },
  },
  {
    name: 'slide on a level way',
    tool: 'goes along',
    of: (near) => {
      const [m, μ] = [near(12), near(0.1)];
      return onWheel(near(0.05), `{ slide: { mass: ${m} kg, friction: ${μ}, breakaway: 0.2 } }`, [
        body('mass', m),
        coulomb('friction', μ * m * g),
      ]);
    },
  },
  ...[
    { name: 'web that is pulled', before: 150, after: 90, pulls: false },
    { name: 'web that pulls', before: 60, after: 140, pulls: true },
  ].map(
    ({ name, before, after, pulls }): Mechanism => ({
      name,
      pulls,
      tool: 'goes along',
      of: (near) => {
        const [B, A] = [near(before), near(after)];
        return onWheel(near(0.12), `{ web: { tension_in: ${B} N, tension_out: ${A} N } }`, [
          constant('web before', B),
          constant('web after', -A),
        ]);
      },
    }),
  ),
  {
    name: 'force all along',
    tool: 'goes along',
    pulls: true,
    of: (near) => {
      const F = -near(40);
      return onWheel(near(0.1), `{ force: { against: ${F} N } }`, [constant('force', F)]);
    },
  },
  {
    name: 'force on a part of the way',
    tool: 'goes along',
    of: (near) => {
      const [F, a, b] = [near(600), near(0.06), near(0.25)];
      return onWheel(near(0.1), `{ force: { against: ${F} N, from: ${a} m, to: ${b} m } }`, [window('force', F, a, b)]);
    },
  },
  {
    name: 'force for a time',
    tool: 'goes along',
    pulls: true,
    of: (near) => {
      const [F, a, b] = [near(-80), near(0.25), near(1.2)];
      return onWheel(near(0.1), `{ force: { against: ${F} N, after: ${a} s, until: ${b} s } }`, [
        timed('force', F, a, b),
      ]);
    },
  },
  {
    name: 'torque all along',
    tool: 'turns',
    of: (near) => {
      const T = near(7);
      return onShaft(`{ torque: { against: ${T} N·m } }`, [constant('torque', T)]);
    },
  },
  {
    name: 'torque on a part of the turn',
    tool: 'turns',
    of: (near) => {
      const [T, a, b] = [near(9), near(0.7), near(3)];
      return onShaft(`{ torque: { against: ${T} N·m, from: ${a} rad, to: ${b} rad } }`, [window('torque', T, a, b)]);
    },
  },
  {
    name: 'torque for a time',
    tool: 'turns',
    of: (near) => {
      const [T, a, b] = [near(9), near(0.4), near(2)];
      return onShaft(`{ torque: { against: ${T} N·m, after: ${a} s, until: ${b} s } }`, [timed('torque', T, a, b)]);
    },
  },
  {
    name: 'friction along a way',
    tool: 'goes along',
    of: (near) => {
      const [m, C, b] = [near(40), near(20), near(40)];
      const train = `{ slide: { mass: ${m} kg } }, { friction: { force: ${C} N, viscous: ${b} N·s/m, breakaway: 90 N } }`;
      return onWheel(near(0.1), train, [body('mass', m), coulomb('friction', C), viscous('viscous friction', b)]);
    },
  },
  {
    name: 'friction of a shaft',
    tool: 'turns',
    of: (near) => {
      const [J, C, b] = [near(0.3), near(1.1), near(0.08)];
      const train = `{ inertia: ${J} kg·m² }, { friction: { torque: ${C} N·m, viscous: ${b} N·m·s/rad, breakaway: 2 N·m } }`;
      return onShaft(train, [body('inertia', J), coulomb('friction', C), viscous('viscous friction', b)]);
    },
  },
  {
    name: 'cut of a knife',
    tool: 'turns',
    of: (near) => {
      const [J, F, D, w] = [near(0.4), near(600), near(0.16), near(0.15)];
      const train = `{ inertia: ${J} kg·m² }, { cutting: { force: ${F} N, diameter: ${D} m, over: ${w} rad, blades: 2 } }`;
      return onShaft(train, [body('inertia', J), cuts('cutting', (F * D) / 2, w, 2)]);
    },
  },
  {
    name: 'cylinder that is a tube',
    tool: 'turns',
    of: (near) => {
      const [D, l, w, ρ] = [near(0.2), near(0.7), near(0.014), near(7850)];
      const [R, r] = [D / 2, D / 2 - w];
      return onShaft(`{ cylinder: { diameter: ${D} m, length: ${l} m, wall: ${w} m, density: ${ρ} kg/m³ } }`, [
        body('outer cylinder', (Math.PI * R ** 2 * l * ρ * R ** 2) / 2),
        body('what it lacks', -(Math.PI * r ** 2 * l * ρ * r ** 2) / 2),
      ]);
    },
  },
  {
    name: 'discs beside the shaft',
    tool: 'turns',
    of: (near) => {
      const [D, d, m, a] = [near(0.1), near(0.03), near(2), near(0.25)];
      return onShaft(`{ disc: { diameter: ${D} m, bore: ${d} m, mass: ${m} kg, off_axis: ${a} m, count: 6 } }`, [
        body('about their own axes', (6 * m * ((D / 2) ** 2 + (d / 2) ** 2)) / 2),
        body('about the shaft', 6 * m * a ** 2),
      ]);
    },
  },
  {
    name: 'disc by its radius of gyration',
    tool: 'turns',
    of: (near) => {
      const [m, k] = [near(22), near(0.3)];
      return onShaft(`{ disc: { mass: ${m} kg, gyration: ${k} m } }`, [body('disc', m * k ** 2)]);
    },
  },
  {
    name: 'inertia and coupling',
    tool: 'turns',
    of: (near) => {
      const [J, K] = [near(0.02), near(0.003)];
      return onShaft(`{ inertia: ${J} kg·m² }, { coupling: { inertia: ${K} kg·m² } }`, [
        body('inertia', J),
        body('coupling', K),
      ]);
    },
  },
  {
    name: 'mass beside its axis',
    tool: 'turns',
    of: (near) => {
      const [m, r, J, δ, u] = [near(5), near(0.3), near(0.05), near(0.6), near(0.7)];
      const train = `{ off_centre: { mass: ${m} kg, radius: ${r} m, inertia: ${J} kg·m², at: ${δ} rad, upright: ${u} } }`;
      return onShaft(train, [
        body('about its own axis', J),
        body('about the shaft', m * r ** 2),
        stored(
          'height',
          (φ) => -m * g * u * r * Math.cos(φ + δ),
          (φ) => m * g * u * r * Math.sin(φ + δ),
        ),
      ]);
    },
  },
  {
    name: 'crank',
    tool: 'turns',
    of: (near) => {
      const [r, l, m, F] = [near(0.06), near(0.2), near(20), near(50)];
      const train = `{ crank: { radius: ${r} m, rod: ${l} m, mass: ${m} kg, force: ${F} N } }`;
      return onShaft(train, slider('slider', m, F, r, l));
    },
  },
  {
    name: 'eccentric',
    tool: 'turns',
    of: (near) => {
      const [r, m, F] = [near(0.03), near(15), near(20)];
      const train = `{ eccentric: { radius: ${r} m, mass: ${m} kg, force: ${F} N } }`;
      return onShaft(train, slider('yoke', m, F, r, Infinity));
    },
  },
  ...[
    { name: 'screw of a lift', back: 0.6 },
    { name: 'screw that locks itself', back: 0 },
  ].map(
    ({ name, back }): Mechanism => ({
      name,
      tool: 'goes along',
      of: (near) => {
        const [m, p, D, l, η, ζ] = [near(60), near(0.02), near(0.032), near(0.9), near(0.8), near(back)];
        const screw = `{ lead: ${p} m, diameter: ${D} m, length: ${l} m, density: 7850 kg/m³, efficiency: ${η}, efficiency_back: ${ζ} }`;
        return {
          train: `[{ slide: { mass: ${m} kg, inclination: 90° } }, { screw: ${screw} }]`,
          takes: {
            stations: [
              {
                ratio: 1,
                entries: [
                  body('mass', m),
                  stored(
                    'height',
                    (x) => m * g * x,
                    () => m * g,
                  ),
                ],
                passes: { name: 'screw', driving: η, driven: ζ },
              },
              {
                ratio: (2 * Math.PI) / p,
                entries: [body('inertia of the screw', (7850 * l * Math.PI * (D / 2) ** 4) / 2)],
              },
            ],
          },
        };
      },
    }),
  ),
  {
    name: 'sliding screw with a collar',
    tool: 'goes along',
    of: (near) => {
      const [m, p, d, μ, β, D, κ, J] = [
        near(60),
        near(0.06),
        near(0.03),
        near(0.1),
        near(0.25),
        near(0.04),
        near(0.05),
        near(0.002),
      ];
      // By the angles of the lead and of the friction, as on an inclined plane.
      const lead = Math.atan(p / (Math.PI * d));
      const friction = Math.atan(μ / Math.cos(β));
      const collar = (κ * D) / d;
      return {
        train: `[{ slide: { mass: ${m} kg, inclination: 90° } }, { screw: { lead: ${p} m, inertia: ${J} kg·m², thread: { diameter: ${d} m, friction: ${μ}, flank: ${β} rad }, collar: { diameter: ${D} m, friction: ${κ} } } }]`,
        takes: {
          stations: [
            {
              ratio: 1,
              entries: [
                body('mass', m),
                stored(
                  'height',
                  (x) => m * g * x,
                  () => m * g,
                ),
              ],
              passes: {
                name: 'thread and collar',
                driving: Math.tan(lead) / (Math.tan(lead + friction) + collar),
                driven: (Math.tan(lead - friction) - collar) / Math.tan(lead),
              },
            },
            { ratio: (2 * Math.PI) / p, entries: [body('inertia of the screw', J)] },
          ],
        },
      };
    },
  },
  ...(['belt', 'conveyor', 'rack'] as const).map(
    (kind): Mechanism => ({
      name: kind,
      tool: 'goes along',
      of: (near) => {
        const [D, n, M, m, η, ζ] = [near(0.08), kind === 'rack' ? 1 : 2, near(0.6), near(5), near(0.8), near(0.7)];
        // A rack says the inertia of its pinion, the others the masses of their wheels.
        const J = kind === 'rack' ? near(0.002) : (M * (D / 2) ** 2) / 2;
        const wheels = kind === 'rack' ? `wheel_inertia: ${J} kg·m²` : `wheels: ${n}, wheel_mass: ${M} kg`;
        return {
          train: `[{ ${kind}: { diameter: ${D} m, ${wheels}, mass: ${m} kg, efficiency: ${η}, efficiency_back: ${ζ} } }]`,
          takes: {
            stations: [
              { ratio: 1, entries: [body('mass', m)], passes: { name: kind, driving: η, driven: ζ } },
              { ratio: 2 / D, entries: [body('wheels', n * J)] },
            ],
          },
        };
      },
    }),
  ),
  {
    name: 'drum of a hoist',
    tool: 'goes along',
    of: (near) => {
      const [m, D, M, η, ζ] = [near(45), near(0.2), near(9), near(0.8), near(0.75)];
      return {
        train: `[{ slide: { mass: ${m} kg, inclination: 90° } }, { drum: { diameter: ${D} m, mass: ${M} kg, efficiency: ${η}, efficiency_back: ${ζ} } }]`,
        takes: {
          stations: [
            {
              ratio: 1,
              entries: [
                body('mass', m),
                stored(
                  'height',
                  (x) => m * g * x,
                  () => m * g,
                ),
              ],
              passes: { name: 'drum', driving: η, driven: ζ },
            },
            { ratio: 2 / D, entries: [body('drum', (M * (D / 2) ** 2) / 2)] },
          ],
        },
      };
    },
  },
  {
    name: 'roll with a web',
    tool: 'goes along',
    of: (near) => {
      const [B, A, D, l, η] = [near(180), near(80), near(0.12), near(0.42), near(0.8)];
      return {
        train: `[{ web: { tension_in: ${B} N, tension_out: ${A} N } }, { roll: { diameter: ${D} m, length: ${l} m, density: 2700 kg/m³, efficiency: ${η} } }]`,
        takes: {
          stations: [
            {
              ratio: 1,
              entries: [constant('web before', B), constant('web after', -A)],
              // Nothing else is said of the way back.
              passes: { name: 'roll', driving: η, driven: η },
            },
            { ratio: 2 / D, entries: [body('roll', (2700 * l * Math.PI * (D / 2) ** 4) / 2)] },
          ],
        },
      };
    },
  },
  {
    name: 'gear',
    tool: 'turns',
    of: (near) => {
      const [J, i, K, η, ζ] = [near(0.5), near(7), near(0.0008), near(0.8), near(0.7)];
      return {
        train: `[{ inertia: ${J} kg·m² }, { gear: { ratio: ${i}, inertia: ${K} kg·m², efficiency: ${η}, efficiency_back: ${ζ} } }]`,
        takes: {
          stations: [
            { ratio: 1, entries: [body('inertia', J)], passes: { name: 'gear', driving: η, driven: ζ } },
            { ratio: i, entries: [body('inertia of the gear', K)] },
          ],
        },
      };
    },
  },
  ...(['load_and_inertia', 'load'] as const).map(
    (losses): Mechanism => ({
      name: `whole train, losses on ${losses}`,
      tool: 'goes along',
      of: (near) => {
        const [m, μ, C, D, M, η] = [near(30), near(0.05), near(15), near(0.08), near(0.6), near(0.8)];
        const [K, T, b, i, ζ, ξ] = [near(0.0004), near(0.8), near(0.002), near(6), near(0.8), near(0.7)];
        const [J, R] = [near(0.0001), near(0.0003)];
        return {
          train: `[{ slide: { mass: ${m} kg, friction: ${μ}, inclination: 90°, counterweight: 8 kg, preload: 50 N } }, { friction: { force: ${C} N } }, { belt: { diameter: ${D} m, wheels: 2, wheel_mass: ${M} kg, efficiency: ${η} } }, { coupling: { inertia: ${K} kg·m² } }, { friction: { torque: ${T} N·m, viscous: ${b} N·m·s/rad } }, { gear: { ratio: ${i}, efficiency: ${ζ}, efficiency_back: ${ξ}, inertia: ${J} kg·m² } }]`,
          more: `\n    losses_on: ${losses}\n    motor: { inertia: ${R} kg·m² }`,
          takes: {
            spareInertia: losses === 'load',
            stations: [
              {
                ratio: 1,
                entries: [
                  body('mass', m),
                  body('mass of the counterweight', 8),
                  stored(
                    'heights',
                    (x) => (m - 8) * g * x,
                    () => (m - 8) * g,
                  ),
                  coulomb('friction of the slide', μ * 50),
                  coulomb('friction along the way', C),
                ],
                passes: { name: 'belt', driving: η, driven: η },
              },
              {
                ratio: 2 / D,
                entries: [
                  body('wheels', M * (D / 2) ** 2),
                  body('coupling', K),
                  coulomb('friction of the shaft', T),
                  viscous('viscous friction', b),
                ],
                passes: { name: 'gear', driving: ζ, driven: ξ },
              },
              { ratio: (2 / D) * i, entries: [body('inertia of the gear', J), body('rotor', R)] },
            ],
          },
        };
      },
    }),
  ),
];

/** As the file says it. */
const exactly = (size: number): number => size;
/** Up to a fifth more or less, with so many digits as a file would say. */
function roughly(seed: number): (size: number) => number {
  const random = seeded(seed);
  return (size) => Number((size * (0.8 + 0.4 * random())).toPrecision(4));
}

interface Asked {
  readonly cycle: keyof (typeof motions)['turns'];
  readonly near: (size: number) => number;
}

/** The mechanism in a file, as often as it is asked for, each an axis with nothing else. */
function balancesOf(mechanism: Mechanism, asked: readonly Asked[]) {
  const built = asked.map(({ near }) => mechanism.of(near));
  const axes = built.map(({ train, more = '' }, index) => {
    const motion = motions[mechanism.tool][asked[index]!.cycle];
    return `  axis_${index}:\n    motion: ${motion}\n    train: ${train}${more}\n`;
  });
  const machine = read(`layshaft: 1\naxes:\n${axes.join('')}`);
  expect(machine.problems).toEqual([]);
  const design = resolve(machine, []);
  return design.axes.map((axis, index) => {
    const { cases } = demandOf(axis, design.gravity);
    if (cases instanceof Missing) throw new Error(JSON.stringify(cases));
    const each = cases[0]!;
    const { takes } = built[index]!;
    return { each, takes, balance: balanceOf(each, takes) };
  });
}

/** The balance stands, and falls with each thing that is named; the demand has the same energy by its own quadrature. */
function expectBalance({ off, given_J, returned_J }: Balance, { phases }: Case, named: readonly string[]): void {
  expect(off()).toBeLessThan(tolerance);
  const demanded_J = phases.reduce((sum, { given, returned }) => sum + given.value - returned.value, 0);
  expect(Math.abs(demanded_J - (given_J - returned_J))).toBeLessThan(tolerance * (given_J + returned_J));
  for (const name of named) expect(off(name), `without ${name}`).toBeGreaterThan(clearly);
}

/** What the motor gives and what it takes back, each by itself. */
function expectDemand({ given_J, returned_J }: Balance, { phases }: Case): void {
  const sum = (of: 'given' | 'returned') => phases.reduce((energy, phase) => energy + phase[of].value, 0);
  expect(Math.abs(sum('given') - given_J)).toBeLessThan(1e-6 * (given_J + returned_J));
  expect(Math.abs(sum('returned') - returned_J)).toBeLessThan(1e-6 * (given_J + returned_J));
}

const names = ({ stations }: Train, ways: readonly string[]): readonly string[] =>
  stations.flatMap(({ entries, passes }) => [
    ...entries.map(({ name }) => name),
    ...(passes === undefined ? [] : ways.map((way) => `${passes.name}, ${way}`)),
  ]);

describe.each(mechanisms)('shaft work of a $name is what it takes', (mechanism) => {
  const { pulls = false } = mechanism;
  it('from rest to its speed and on', () => {
    const [found] = balancesOf(mechanism, [{ cycle: 'up', near: exactly }]);
    const { each, takes, balance } = found!;
    const [more, less] = pulls ? [balance.returned_J, balance.given_J] : [balance.given_J, balance.returned_J];
    expect(more).toBeGreaterThan(less);
    expectBalance(balance, each, names(takes, ['driving']));
    expectDemand(balance, each);
  });
  it('to and fro, where the motor drives and is driven', () => {
    const [found] = balancesOf(mechanism, [{ cycle: 'toAndFro', near: exactly }]);
    const { each, takes, balance } = found!;
    expect(balance.given_J).toBeGreaterThan(0.05 * balance.returned_J);
    expect(balance.returned_J).toBeGreaterThan(0.05 * balance.given_J);
    expectBalance(balance, each, names(takes, ['driving', 'driven']));
    expectDemand(balance, each);
    for (const { speed, velocity } of traceOf(each, 5))
      expect(speed).toBeCloseTo(takes.stations.at(-1)!.ratio * velocity, 9);
  });
  it('whatever its sizes', () => {
    const asked = Array.from(
      { length: 12 },
      (_, seed): Asked => ({
        cycle: seed % 3 === 0 ? 'up' : 'toAndFro',
        near: roughly(seed),
      }),
    );
    for (const { each, takes, balance } of balancesOf(mechanism, asked)) expectBalance(balance, each, names(takes, []));
  });
});

// ── the examples ─────────────────────────────────────────────────────────────────────────────────────────────────────

/** By the stages of the line; what depends on the position, by the file. */
const trainOf = ({ line: { stages, lossOnInertia } }: Case, { train }: Axis): Train => ({
  spareInertia: !lossOnInertia,
  stations: stages.map(({ ratio, inertia, constant: against, placed, ...stage }, index) => ({
    ratio,
    entries: [
      ...(inertia === 0 ? [] : [body(`inertia ${index}`, inertia)]),
      ...(against === 0 ? [] : [constant(`force ${index}`, against)]),
      ...(stage.coulomb === 0 ? [] : [coulomb(`friction ${index}`, stage.coulomb)]),
      ...(stage.viscous === 0 ? [] : [viscous(`viscous friction ${index}`, stage.viscous)]),
      ...(placed.length === 0 ? [] : (train as readonly ElementSection[]).flatMap(placedOf)),
    ],
    ...(stage.driving === 1 && stage.driven === 1
      ? {}
      : { passes: { name: `efficiency ${index}`, driving: stage.driving, driven: stage.driven } }),
  })),
});

function placedOf({ force, cutting }: ElementSection): readonly Entry[] {
  if (force?.from !== undefined && force.to !== undefined)
    return [window('force', known(force.against), known(force.from), known(force.to))];
  if (cutting?.blades === undefined) return [];
  const torque = (known(cutting.force) * known(cutting.diameter)) / 2;
  return [cuts('cutting', torque, known(cutting.over), known(cutting.blades))];
}

/** What has a motion and a train in them. */
const examples = exampleMachines().flatMap(({ name, path, text }) => {
  const design = resolve(read(text, { file: path }), [demonstration()]);
  return design.axes.flatMap((axis) => {
    const { cases } = demandOf(axis, design.gravity);
    const found = cases instanceof Missing ? [] : cases;
    return found.map((each) => [`${name}, ${axis.name}, ${each.name}`, each, axis, name] as const);
  });
});

describe('shaft work of an example is what its train takes', () => {
  it('of four machines at least', () => {
    expect(new Set(examples.map(([, , , name]) => name)).size).toBeGreaterThanOrEqual(4);
  });
  it.each(examples)('%s', (_, each, axis) => {
    const train = trainOf(each, axis);
    const losses = train.stations.flatMap(({ entries, passes }) => [
      ...entries.filter(({ kind }) => kind === 'loss').map(({ name }) => name),
      ...(passes === undefined ? [] : [passes.name]),
    ]);
    expectBalance(balanceOf(each, train), each, losses);
  });
});
