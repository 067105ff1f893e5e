// A train as stages: all that sits at one shaft or moves along one way, and what leads from it to the next.

import { type Values, valuesOf } from '../working/formula.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { total } from '../working/total.ts';
import type { PlacedLoad, PlainLine, PlainStage } from './calc/drive-line.ts';
import type { LossActsOn } from './calc/efficiency.ts';
import { type TransformKind, transforms } from './line-kit.ts';

export interface Friction {
  /** N or N·m, while it moves. */
  readonly coulomb?: Quantity | undefined;
  /** While it stands, where that is more. */
  readonly breakaway?: Quantity | undefined;
  readonly viscous?: Quantity | undefined;
  /** Where it is in the train, for addresses. */
  readonly about: string;
}

/** What asks for a force or torque that depends on the position of the tool or on the time in the cycle. */
export interface PlacedElement {
  readonly about: string;
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly means: Readonly<Record<string, string>>;
  readonly plain: (...values: number[]) => PlacedLoad;
  /** The same as quantities, at one instant. */
  readonly at: (instant: PlacedInstant, about: string) => PlacedTorques;
}

export interface PlacedInstant {
  /** Position of the tool, in rad or m, with where it is counted from. */
  readonly position: Quantity;
  readonly time_s: number;
  /** Speed without its sign; nothing at rest. */
  readonly speed: Quantity | undefined;
  /** Along the motion; nothing at constant speed. */
  readonly acceleration: Quantity | undefined;
  readonly backwards: boolean;
}

/** Over 0 against a motion forwards; friction against any motion; inertial torques in the direction of the motion. */
export interface PlacedTorques {
  readonly against: readonly Quantity[];
  readonly friction: readonly Quantity[];
  readonly inertial: readonly Quantity[];
}

/** The last name of an address: that of the element within its axis. */
export const tailOf = (about: string): string => about.slice(about.lastIndexOf('.') + 1);

export interface Stage {
  /** The elements that it is made of, for people. */
  readonly name: string;
  readonly side: 'm' | 'rad';
  /** Masses in kg or inertias in kg·m². */
  readonly inertias: readonly Quantity[];
  /** Forces or torques over 0 against a motion forwards. */
  readonly constants: readonly Quantity[];
  readonly frictions: readonly Friction[];
  readonly placed: readonly PlacedElement[];
  /** Stiffness of what gives way at this shaft. */
  readonly springs: readonly Quantity<'N·m/rad'>[];
  readonly transform: Transform | undefined;
  /** What people want to see on the way to these, by name. */
  readonly told: readonly (readonly [name: string, value: Quantity])[];
}

export interface Transform {
  readonly kind: TransformKind;
  /** Lead, diameter or ratio. */
  readonly by: Quantity;
  /** When the motor drives; nothing where no loss is said. */
  readonly driving: Quantity<'1'> | undefined;
  /** When the load drives. */
  readonly driven: Quantity<'1'> | undefined;
  readonly about: string;
}

export interface Line {
  readonly stages: readonly Stage[];
  readonly lossesOn: LossActsOn;
}

interface Part {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
}

/** All that a line rests on, by symbol, and how to build the plain line from the values in that order. */
export interface PlainForm extends Part {
  readonly build: (values: Values) => PlainLine;
}

const symbols = ['J', 'F', 'C', 'B', 'b', 'i', 'η', 'ζ'] as const;
const meanings: Readonly<Record<(typeof symbols)[number], string>> = {
  J: 'masses or inertias',
  F: 'constant forces or torques',
  C: 'friction in motion',
  B: 'friction at rest, where that is more',
  b: 'friction that grows with the speed',
  i: 'lead, diameter or ratio',
  η: 'efficiency when the motor drives',
  ζ: 'efficiency when the load drives',
};

export function plainForm({ stages, lossesOn }: Line): PlainForm {
  const inputs: Record<string, Quantity | readonly Quantity[]> = {};
  const means: Record<string, string> = {};
  const put = (symbol: string, value: Quantity | readonly Quantity[] | undefined, meaning: string): number => {
    if (value === undefined || (Array.isArray(value) && value.length === 0)) return -1;
    inputs[symbol] = value;
    means[symbol] = meaning;
    return Object.keys(inputs).length - 1;
  };
  const plans = stages.map((stage, index) => {
    const tag = `_${index + 1}`;
    const own: Readonly<Record<(typeof symbols)[number], Quantity | readonly Quantity[] | undefined>> = {
      J: stage.inertias,
      F: stage.constants,
      C: stage.frictions.flatMap(({ coulomb }) => coulomb ?? []),
      B: stage.frictions.flatMap(({ coulomb, breakaway }) => greater(breakaway, coulomb) ?? []),
      b: stage.frictions.flatMap(({ viscous }) => viscous ?? []),
      i: stage.transform?.by,
      η: stage.transform?.driving,
      ζ: stage.transform?.driven,
    };
    const at = Object.fromEntries(
      symbols.map((symbol) => [symbol, put(symbol + tag, own[symbol], `${meanings[symbol]} of ${stage.name}`)]),
    ) as Record<(typeof symbols)[number], number>;
    const placed = stage.placed.map((element, which) => ({
      element,
      at: Object.entries(element.inputs).map(([key, value]) =>
        put(`${key}${tag}_${which + 1}`, value, element.means[key] ?? ''),
      ),
    }));
    return { stage, at, placed };
  });
  return {
    inputs,
    means,
    build: (values) => {
      const sum = (at: number): number => {
        const value = at < 0 ? 0 : values[at]!;
        return typeof value === 'number' ? value : total(value);
      };
      let ratio = 1;
      const plain = plans.map(({ stage: { transform }, at, placed }): PlainStage => {
        const pass = transform === undefined ? 1 : transforms[transform.kind].pass(sum(at.i));
        const driving = at.η < 0 ? 1 : sum(at.η);
        const stage = {
          ratio,
          inertia: sum(at.J),
          constant: sum(at.F),
          coulomb: sum(at.C),
          breakaway: sum(at.B),
          viscous: sum(at.b),
          placed: placed.map(({ element, at: places }) => element.plain(...places.map(sum))),
          pass,
          driving,
          driven: at.ζ < 0 ? driving : sum(at.ζ),
        };
        ratio /= pass;
        return stage;
      });
      return { stages: plain, lossOnInertia: lossesOn === 'load_and_inertia' };
    },
  };
}

/** Friction at rest counts where it is more than that in motion. */
const greater = (one: Quantity | undefined, other: Quantity | undefined): Quantity | undefined =>
  one === undefined || (other !== undefined && other.value >= one.value) ? other : one;

export const plainLine = (form: PlainForm): PlainLine => form.build(valuesOf(form.inputs));
