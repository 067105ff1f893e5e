// What each element of a train brings to it: masses, loads, friction, and how it leads to the next shaft.
import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { assumed } from '../working/assumed.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { bodyInertia, bodyMass } from './body.ts';
import { inertiaAtRadius, offAxisInertia, solidCylinderInertia, timesInertia } from './calc/inertia.ts';
import { gravityForce, slideFriction, webForce } from './calc/load.ts';
import { flankFriction, slidingScrewDriven, slidingScrewDriving } from './calc/screw-friction.ts';
import { stiffnessAtScrew, stiffnessOnWheel } from './calc/stiffness.ts';
import { strainAfterDraw, webTension } from './calc/winder.ts';
import { type Friction, type PlacedElement, type Stage, type Transform, tailOf } from './line.ts';
import { inUnit } from './phase-makers.ts';
import { crankLoad, cuttingLoad, eccentricLoad, offCentreLoad, windowLoad } from './placed.ts';
import type { ElementSection } from './section.ts';

/** What an element brings: to the stage that it sits in, and the transform with which it ends it. */
export interface Brought {
  readonly inertias?: readonly Quantity[];
  readonly constants?: readonly Quantity[];
  readonly frictions?: readonly Friction[];
  readonly placed?: readonly PlacedElement[];
  readonly transform?: Transform;
  /** Stiffness of what gives way at the shaft that it sits on. */
  readonly springs?: readonly Quantity<'N·m/rad'>[];
  /** What turns with the shaft behind the transform, and what gives way there. */
  readonly behind?: readonly Quantity<'kg·m²'>[];
  readonly springsBehind?: readonly Quantity<'N·m/rad'>[];
  readonly told?: Stage['told'];
}

interface Where {
  readonly path: string;
  readonly about: string;
  readonly side: 'm' | 'rad';
  readonly gravity: Quantity<'m/s²'>;
}

/** What adds nothing unless it is said. */
const nothing = <U extends Unit>(path: string, unit: U): Quantity<U> =>
  assumed(path, 0, unit, { source: 'judgement', because: 'nothing unless said' });

export function elementOf(element: ElementSection, where: Where): Value<Brought> {
  const { path, about, side, gravity } = where;
  switch (element.kind) {
    case 'slide':
      return slide(element.slide!, where);
    case 'web':
      return web(element.web!, where);
    case 'force':
      return window(element.force!.against, element.force!, where);
    case 'torque':
      return window(element.torque!.against, element.torque!, where);
    case 'friction':
      return friction(element.friction!, where);
    case 'cutting': {
      const {
        force: F,
        diameter: D,
        over: w,
        blades = assumed(`${path}.blades`, 1, '1', { source: 'judgement', because: 'one blade unless said' }),
      } = element.cutting!;
      return given({ F, D, w, n: blades }, (known) => ({ placed: [cuttingLoad(known, about)] }));
    }
    case 'cylinder':
    case 'disc':
      return round(element[element.kind]!, where);
    case 'inertia':
      return given({ J: element.inertia! }, ({ J }) => ({ inertias: [J] }));
    case 'off_centre': {
      const { mass: m, radius: r, inertia, at, upright } = element.off_centre!;
      const asked = {
        m,
        r,
        J: inertia,
        δ: at ?? nothing(`${path}.at`, 'rad'),
        u: upright ?? nothing(`${path}.upright`, '1'),
      };
      return given(asked, ({ m, r, J, δ, u }) => ({
        inertias: [
          J === undefined
            ? inertiaAtRadius({ m, r }, about)
            : offAxisInertia({ J: J as Quantity<'kg·m²'>, m, r }, about),
        ],
        ...(u.value === 0 ? {} : { placed: [offCentreLoad({ g: gravity, m, r, u, δ }, about)] }),
      }));
    }
    case 'crank': {
      const { radius: r, rod: l, mass: m, force } = element.crank!;
      return given({ r, l, m, F: force }, ({ r, l, m, F }) =>
        r.value < l.value
          ? { placed: [crankLoad({ r, l, m, ...(F && { F: F as Quantity<'N'> }) }, about)] }
          : missing(`${path}.rod`, 'problem', 'a rod longer than the radius', '240 mm'),
      ) as Value<Brought>;
    }
    case 'eccentric': {
      const { radius: r, mass: m, force } = element.eccentric!;
      return given({ r, m, F: force }, ({ r, m, F }) => ({
        placed: [eccentricLoad({ r, m, ...(F && { F: F as Quantity<'N'> }) }, about)],
      }));
    }
    case 'coupling': {
      const { inertia: J, stiffness: K } = element.coupling!;
      return given({ J, K }, ({ J, K }) => ({
        inertias: J === undefined ? [] : [J as Quantity<'kg·m²'>],
        springs: K === undefined ? [] : [K as Quantity<'N·m/rad'>],
      }));
    }
    case 'screw': {
      const { lead, stiffness: k, ...body } = element.screw!;
      const losses = screwLosses(element.screw!, where);
      const screw = given({ losses }, (known) =>
        transformed('screw', lead, known.losses, bodyInertia(body, body.diameter, path, about), where),
      );
      return givingWay(
        screw,
        given({ k, p: lead }, ({ k, p }) =>
          k === undefined ? undefined : stiffnessAtScrew({ k: k as Quantity<'N/m'>, p }, about),
        ),
      );
    }
    case 'drum':
    case 'roll': {
      const body = element[element.kind]!;
      return transformed('wheel', body.diameter, body, bodyInertia(body, body.diameter, path, about), where);
    }
    case 'belt':
    case 'conveyor':
    case 'rack':
      return wheels(element[element.kind]!, where);
    case 'gear': {
      const gear = element.gear!;
      const inertia = gear.inertia === undefined || isAbsent(gear.inertia) ? undefined : gear.inertia;
      const K = isAbsent(gear.stiffness) ? undefined : gear.stiffness;
      const ratio = gear.ratio ?? missing(`${path}.ratio`, 'absent', 'a ratio', '5');
      const through = transformed('gear', ratio, gear as Losses, inertia, where);
      return K === undefined ? through : given({ through, K }, (known) => ({ ...known.through, springs: [known.K] }));
    }
    default:
      throw new Error(`${path} is read and not built in the train; side ${side}`);
  }
}

/** The web before the roll by its tension, or by how it is stretched. */
function web(
  { tension_in, tension_out: A, draw }: NonNullable<ElementSection['web']>,
  { path, about }: Where,
): Value<Brought> {
  if (draw === undefined) {
    const B = tension_in ?? missing(`${path}.tension_in`, 'absent', 'a tension, or a draw', '90 N');
    return given({ A, B }, (known) => ({ constants: [webForce(known, about)] }));
  }
  if (tension_in !== undefined)
    return missing(
      `${path}.tension_in`,
      'problem',
      'a tension or a draw, not both',
      'draw: { by: 0.3 %, modulus: 3 GPa }',
    );
  const { by: δ, modulus: E, width: w, thickness: h } = draw;
  const ε =
    draw.strain ??
    assumed(`${path}.draw.strain`, 0, '1', { source: 'judgement', because: 'none unless said', as: '%' });
  return given({ A, δ, ε, E, w, h }, ({ A, δ, ε, E, w, h }) => {
    const strain = strainAfterDraw({ ε, δ }, about);
    const B = webTension({ ε: strain, E, w, h }, about);
    return {
      constants: [webForce({ A, B }, about)],
      told: [
        ['strain of the web', strain],
        ['tension before the roll', B],
      ],
    };
  });
}

interface Losses {
  readonly efficiency?: Value<Quantity<'1'>> | undefined;
  readonly efficiency_back?: Value<Quantity<'1'>> | undefined;
}

const noLoss = (path: string): Quantity<'1'> =>
  assumed(path, 1, '1', { source: 'judgement', because: 'no loss unless said', as: '%' });

/** As they are said, or of a thread that slides, from its friction and that of its collar. */
function screwLosses(screw: NonNullable<ElementSection['screw']>, { path, about }: Where): Value<Losses> {
  const { lead: p, thread, collar, efficiency, efficiency_back } = screw;
  if (thread === undefined)
    return collar === undefined
      ? { efficiency, efficiency_back }
      : missing(
          `${path}.thread`,
          'absent',
          'the thread of a screw with a collar',
          '{ diameter: 27 mm, friction: 0.15 }',
        );
  if (efficiency !== undefined || efficiency_back !== undefined)
    return missing(
      `${path}.${efficiency === undefined ? 'efficiency_back' : 'efficiency'}`,
      'problem',
      'an efficiency or a thread with its friction, not both',
      'thread: { diameter: 27 mm, friction: 0.15 }',
    );
  const asked = {
    p,
    d: thread.diameter,
    μ: thread.friction,
    β: thread.flank,
    κ: collar?.friction ?? nothing(`${path}.collar.friction`, '1'),
    D: collar?.diameter ?? nothing(`${path}.collar.diameter`, 'm'),
  };
  return given(asked, ({ p, d, μ: own, β, κ, D }): Value<Losses> => {
    if (β !== undefined && !(β.value < Math.PI / 2))
      return missing(`${path}.thread.flank`, 'problem', 'flanks that lean by less than 90°', '15°');
    const μ = β === undefined ? own : flankFriction({ μ: own, β: β as Quantity<'rad'> }, about);
    if (μ.value * p.value >= Math.PI * d.value)
      return missing(`${path}.thread.friction`, 'problem', 'a friction against which the screw can turn', '0.15');
    const sizes = { p, d, μ, κ, D };
    return { efficiency: slidingScrewDriving(sizes, about), efficiency_back: slidingScrewDriven(sizes, about) };
  }) as Value<Losses>;
}

/** The end of a stage; what turns with its fast side begins the next one. */
function transformed(
  kind: Transform['kind'],
  by: Value<Quantity>,
  { efficiency, efficiency_back }: Losses,
  inertia: Value<Quantity<'kg·m²'>> | undefined,
  { path, about }: Where,
): Value<Brought> {
  const said = <T>(value: Value<T> | undefined): Value<T> | undefined => (isAbsent(value) ? undefined : value);
  const driving = said(efficiency) ?? (said(efficiency_back) === undefined ? undefined : noLoss(`${path}.efficiency`));
  return given({ by, driving, driven: said(efficiency_back) ?? driving, J: inertia }, ({ by, driving, driven, J }) => ({
    transform: {
      kind,
      by: by as Quantity,
      driving: driving as Quantity<'1'> | undefined,
      driven: driven as Quantity<'1'> | undefined,
      about,
    },
    behind: J === undefined ? [] : [J as Quantity<'kg·m²'>],
  }));
}

function slide(
  {
    mass: m,
    friction: μ,
    breakaway: κ,
    preload: N,
    inclination: φ,
    counterweight: c,
  }: NonNullable<ElementSection['slide']>,
  { path, about, gravity: g }: Where,
): Value<Brought> {
  const zero = (key: string, unit: 'rad' | '1' | 'kg'): Quantity => nothing(`${path}.${key}`, unit);
  const slope = φ ?? (zero('inclination', 'rad') as Quantity<'rad'>);
  const preload = N ?? nothing(`${path}.preload`, 'N');
  return given({ m, μ, κ, N: preload, φ: slope, c }, ({ m, μ, κ, N, φ, c }) => {
    const weight =
      φ.value === 0 && c === undefined
        ? []
        : [
            gravityForce(
              { g, m, φ, c: (c as Quantity<'kg'> | undefined) ?? (zero('counterweight', 'kg') as Quantity<'kg'>) },
              about,
            ),
          ];
    const rubbing = (coefficient: Quantity<'1'> | undefined, name: string): Quantity<'N'> | undefined =>
      coefficient && slideFriction({ μ: coefficient, g, m, φ, N }, name);
    const coulomb = rubbing(μ as Quantity<'1'> | undefined, about);
    const breakaway = rubbing(κ as Quantity<'1'> | undefined, `${about}.breakaway`);
    return {
      inertias: c === undefined ? [m] : [m, c as Quantity<'kg'>],
      constants: weight,
      frictions: coulomb === undefined && breakaway === undefined ? [] : [{ coulomb, breakaway, about: tailOf(about) }],
    };
  });
}

function friction(
  { force, torque, viscous, breakaway, path: own }: NonNullable<ElementSection['friction']>,
  { side, path, about }: Where,
): Value<Brought> {
  const [key, coulomb, wrong] =
    side === 'm' ? (['force', force, torque] as const) : (['torque', torque, force] as const);
  if (wrong !== undefined)
    return missing(
      `${own}.${side === 'm' ? 'torque' : 'force'}`,
      'problem',
      side === 'm' ? 'a force, since the tool goes along here' : 'a torque, since the shaft turns here',
      `friction: { ${key}: ${side === 'm' ? '20 N' : '1.1 N·m'} }`,
    );
  const units = side === 'm' ? (['N·s/m', 'N'] as const) : (['N·m·s/rad', 'N·m'] as const);
  const fits = (
    value: Value<Quantity> | undefined,
    unit: string,
    name: string,
    example: string,
  ): Value<Quantity> | undefined =>
    value === undefined || value instanceof Missing || value.unit === unit
      ? value
      : missing(`${path}.${name}`, 'problem', `a value in ${unit}`, example);
  return given(
    {
      coulomb,
      viscous: fits(viscous, units[0], 'viscous', `2 ${units[0]}`),
      breakaway: fits(breakaway, units[1], 'breakaway', `2 ${units[1]}`),
    },
    (known) => ({
      frictions: [{ ...(known as Omit<Friction, 'about'>), about: tailOf(about) }],
    }),
  );
}

function round(body: NonNullable<ElementSection['disc']>, { path, about }: Where): Value<Brought> {
  const { off_axis: r, count: n } = body;
  const own = bodyInertia(body, body.diameter, path, about);
  if (r === undefined && n === undefined) return given({ J: own }, ({ J }) => ({ inertias: [J] }));
  const mass = r === undefined ? undefined : bodyMass(body, body.diameter, path, about);
  return given({ J: own, m: mass, r, n }, ({ J, m, r, n }) => {
    const beside =
      m === undefined || r === undefined
        ? J
        : offAxisInertia({ J, m: m as Quantity<'kg'>, r: r as Quantity<'m'> }, about);
    return { inertias: [n === undefined ? beside : timesInertia({ n: n as Quantity<'1'>, J: beside }, about)] };
  });
}

/** Pulleys, rollers and pinions, with what goes along on them. */
function wheels(body: NonNullable<ElementSection['belt']>, where: Where): Value<Brought> {
  const { diameter: D, wheels: n, wheel_mass: m, wheel_inertia: J, mass } = body;
  const { path, about } = where;
  const each =
    J ??
    given({ m: m ?? missing(`${path}.wheel_mass`, 'absent', 'a mass, or wheel_inertia', '0.5 kg'), D }, (known) =>
      solidCylinderInertia(known, `${about}.wheel`),
    );
  const all = n === undefined ? each : given({ n, J: each }, (known) => timesInertia(known, `${about}.wheels`));
  const brought = transformed('wheel', D, body, all, where);
  const moving = given({ brought, mass }, (known) =>
    known.mass === undefined ? known.brought : { ...known.brought, inertias: [known.mass as Quantity<'kg'>] },
  ) as Value<Brought>;
  return givingWay(
    moving,
    given({ k: body.stiffness, D }, ({ k, D }) =>
      k === undefined ? undefined : stiffnessOnWheel({ k: k as Quantity<'N/m'>, D }, about),
    ),
  );
}

/** What gives way along the way, as it is at the shaft that the way is turned into. */
const givingWay = (brought: Value<Brought>, spring: Value<Quantity<'N·m/rad'> | undefined>): Value<Brought> =>
  given({ brought, spring }, ({ brought, spring }) =>
    spring === undefined ? brought : { ...brought, springsBehind: [spring as Quantity<'N·m/rad'>] },
  ) as Value<Brought>;

function window(
  against: Value<Quantity>,
  { from, to, after, until, path: own }: NonNullable<ElementSection['force']> | NonNullable<ElementSection['torque']>,
  { about, side }: Where,
): Value<Brought> {
  if (from === undefined && to === undefined && after === undefined && until === undefined)
    return given({ F: against }, ({ F }) => ({ constants: [F] }));
  const timed = after !== undefined || until !== undefined;
  if (timed && (from !== undefined || to !== undefined))
    return missing(own, 'problem', 'a window by position or by time, not by both', 'after: 0.2 s, until: 0.3 s');
  const placed = (value: Value<Quantity> | undefined, key: string): Value<Quantity> | undefined =>
    value === undefined || timed ? value : inUnit(value, side, `${own}.${key}`);
  const [start, end] = timed ? [after, until] : [from, to];
  const [first, last] = timed ? (['after', 'until'] as const) : (['from', 'to'] as const);
  const both = {
    F: against,
    a: placed(start, first) ?? missing(`${own}.${first}`, 'absent', 'where it begins', timed ? '0.2 s' : '10 mm'),
    b: placed(end, last) ?? missing(`${own}.${last}`, 'absent', 'where it ends', timed ? '0.3 s' : '30 mm'),
  };
  return given(both, (known) =>
    known.a.value < known.b.value
      ? { placed: [windowLoad(known, timed, about)] }
      : missing(`${own}.${last}`, 'problem', 'an end behind the beginning', timed ? '0.3 s' : '30 mm'),
  );
}
