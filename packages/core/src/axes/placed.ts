// Loads that depend on where the tool is or on the time: windows of a force, the cut of a knife, a weight beside its axis,
// a crank and an eccentric.
import type { Quantity } from '../working/quantity.ts';
import {
  crankCurvature,
  crankFrictionTorque,
  crankInertia,
  crankKernels,
  crankSwing,
  crankTransmission,
  eccentricCurvature,
  eccentricKernels,
  eccentricTransmission,
} from './calc/crank.ts';
import { mostEdges, type Placed, TooManyEdges } from './calc/drive-line.ts';
import { accelerationTorque, offCentreTorque, opposedTorque } from './calc/load.ts';
import { wheelTorque } from './calc/transform.ts';
import { type PlacedElement, type PlacedTorques, tailOf } from './line.ts';

const none: Placed = { against: 0, friction: 0, inertia: 0, swing: 0 };
const nothing: PlacedTorques = { against: [], friction: [], inertial: [] };

const within =
  (edges: readonly number[]) =>
  (low: number, high: number): readonly number[] =>
    edges.filter((edge) => edge > low && edge < high);

/** The same edges on each pitch, however many pitches there are between two positions. */
const everyTurn =
  (pitch: number, edges: readonly number[]) =>
  (low: number, high: number): readonly number[] =>
    edges.flatMap((edge) => {
      const first = Math.floor((low - edge) / pitch) + 1;
      const count = Math.max(0, Math.ceil((high - edge) / pitch) - first);
      if (!(count <= mostEdges)) throw new TooManyEdges();
      return Array.from({ length: count }, (_, at) => edge + (first + at) * pitch);
    });

/** A force or torque between two positions of the tool, or two times in the cycle. */
export function windowLoad(
  { F, a, b }: { readonly F: Quantity; readonly a: Quantity; readonly b: Quantity },
  timed: boolean,
  about: string,
): PlacedElement {
  return {
    about: tailOf(about),
    inputs: { F, a, b },
    means: { F: 'force or torque', a: 'where it begins', b: 'where it ends' },
    plain: (against = 0, from = 0, to = 0) => ({
      at: (position, time) => {
        const x = timed ? time : position;
        return x >= from && x < to ? { ...none, against } : none;
      },
      bends: false,
      ...(timed ? { times: [from, to] } : { edges: within([from, to]) }),
    }),
    at: ({ position, time_s }) => {
      const x = timed ? time_s : position.value;
      return x >= a.value && x < b.value ? { ...nothing, against: [F] } : nothing;
    },
  };
}

interface Cutting {
  readonly F: Quantity<'N'>;
  readonly D: Quantity<'m'>;
  readonly w: Quantity<'rad'>;
  readonly n: Quantity<'1'>;
}

/** How far the nearest blade is beyond its cut, in rad of the knife: 0 in the cut. */
const fromCut = (position: number, blades: number): number => {
  const pitch = (2 * Math.PI) / blades;
  return position - pitch * Math.round(position / pitch);
};

export function cuttingLoad({ F, D, w, n }: Cutting, about: string): PlacedElement {
  return {
    about: tailOf(about),
    inputs: { F, D, w, n },
    means: { F: 'force at the blade', D: 'diameter over the blades', w: 'angle of the cut', n: 'blades' },
    plain: (force = 0, diameter = 0, over = 0, blades = 1) => ({
      at: (position) =>
        Math.abs(fromCut(position, blades)) <= over / 2 ? { ...none, friction: (force * diameter) / 2 } : none,
      bends: false,
      edges: everyTurn((2 * Math.PI) / blades, [-over / 2, over / 2]),
    }),
    at: ({ position }, at) =>
      Math.abs(fromCut(position.value, n.value)) <= w.value / 2
        ? { ...nothing, friction: [wheelTorque({ F, D }, at)] }
        : nothing,
  };
}

interface OffCentre {
  readonly g: Quantity<'m/s²'>;
  readonly m: Quantity<'kg'>;
  readonly r: Quantity<'m'>;
  readonly u: Quantity<'1'>;
  readonly δ: Quantity<'rad'>;
}

export function offCentreLoad({ g, m, r, u, δ }: OffCentre, about: string): PlacedElement {
  return {
    about: tailOf(about),
    inputs: { g, m, r, u, δ },
    means: {
      g: 'acceleration of gravity',
      m: 'mass',
      r: 'distance from the axis',
      u: 'how far it stands up',
      δ: 'angle at position 0',
    },
    plain: (gravity = 0, mass = 0, radius = 0, upright = 0, angle = 0) => ({
      at: (position) => ({ ...none, against: gravity * mass * radius * upright * Math.sin(position + angle) }),
      bends: true,
    }),
    at: ({ position }, at) => ({
      ...nothing,
      against: [offCentreTorque({ g, m, r, u, φ: position as Quantity<'rad'>, δ }, at)],
    }),
  };
}

interface Crank {
  readonly r: Quantity<'m'>;
  readonly l: Quantity<'m'>;
  readonly m: Quantity<'kg'>;
  readonly F?: Quantity<'N'>;
}

/** A crank and its slider: the inertia changes with the angle, and the slider's acceleration asks for torque by itself. */
export function crankLoad({ r, l, m, F }: Crank, about: string): PlacedElement {
  return swung(
    about,
    { r, l, m, ...(F && { F }) },
    {
      plain: (radius = 0, rod = 0) => ({
        y: (φ) => crankKernels.transmission_m(radius, rod, φ),
        z: (φ) => crankKernels.curvature_m(radius, rod, φ),
      }),
      masses: { m, F },
      transmission: (φ, at) => crankTransmission({ r, l, φ }, at),
      curvature: (φ, at) => crankCurvature({ r, l, φ }, at),
    },
  );
}

export function eccentricLoad({ r, m, F }: Omit<Crank, 'l'>, about: string): PlacedElement {
  return swung(
    about,
    { r, m, ...(F && { F }) },
    {
      plain: (radius = 0) => ({
        y: (φ) => eccentricKernels.transmission_m(radius, φ),
        z: (φ) => eccentricKernels.curvature_m(radius, φ),
      }),
      masses: { m, F },
      transmission: (φ, at) => eccentricTransmission({ r, φ }, at),
      curvature: (φ, at) => eccentricCurvature({ r, φ }, at),
    },
  );
}

interface Swung {
  /** Way of the slider for each part of the angle, and how that changes; from the values of the inputs. */
  readonly plain: (...values: number[]) => { readonly y: (φ: number) => number; readonly z: (φ: number) => number };
  readonly masses: { readonly m: Quantity<'kg'>; readonly F: Quantity<'N'> | undefined };
  readonly transmission: (φ: Quantity<'rad'>, about: string) => Quantity<'m'>;
  readonly curvature: (φ: Quantity<'rad'>, about: string) => Quantity<'m'>;
}

function swung(
  about: string,
  inputs: Readonly<Record<string, Quantity>>,
  { plain, masses: { m, F }, transmission, curvature }: Swung,
): PlacedElement {
  const keys = Object.keys(inputs);
  return {
    about: tailOf(about),
    inputs,
    means: { r: 'radius', l: 'length of the rod', m: 'mass of the slider', F: 'force against the slider' },
    plain: (...values) => {
      const { y, z } = plain(...values);
      const mass = values[keys.indexOf('m')]!;
      const force = F === undefined ? 0 : values[keys.indexOf('F')]!;
      return {
        at: (φ) => ({
          against: 0,
          friction: force * Math.abs(y(φ)),
          inertia: mass * y(φ) ** 2,
          swing: mass * y(φ) * z(φ),
        }),
        bends: true,
        // The friction of the slider has a kink at the dead points.
        edges: everyTurn(Math.PI, [0]),
      };
    },
    at: ({ position, speed, acceleration, backwards }, at) => {
      const y = transmission(position as Quantity<'rad'>, at);
      const forwards =
        speed && crankSwing({ m, y, z: curvature(position as Quantity<'rad'>, at), ω: speed as Quantity<'rad/s'> }, at);
      const swing = forwards && backwards ? opposedTorque({ F: forwards }, at) : forwards;
      const moved =
        acceleration &&
        accelerationTorque({ J: crankInertia({ m, y }, at), α: acceleration as Quantity<'rad/s²'> }, at);
      return {
        against: [],
        friction: F === undefined ? [] : [crankFrictionTorque({ F, y }, at)],
        inertial: [...(swing ? [swing] : []), ...(moved ? [moved] : [])],
      };
    },
  };
}
