// The settings of wiring with every default filled in, each with its origin.

import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { assumed, type Reason } from '../working/assumed.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { cite } from '../working/sources.ts';
import { inputTypes } from './parts.ts';
import { type ColourSet, coloursBy, type WireColour } from './wiring-colours.ts';
import { type Designated, designated, type WiringSection } from './wiring-fields.ts';

export type InputType = (typeof inputTypes)[number];

export interface WiringSettings {
  readonly set: Value<ColourSet>;
  readonly colour: (of: WireColour) => Value<string>;
  /** Of every conductor whose point says no other, where the file says one. */
  readonly section: Value<Quantity<'m²'>> | undefined;
  /** Of a conductor that carries no more than a signal. */
  readonly ofSignals: Quantity<'m²'>;
  readonly carries: Value<
    readonly { readonly section: Value<Quantity<'m²'>>; readonly current: Value<Quantity<'A'>> }[]
  >;
  readonly voltage: Value<Quantity<'V'>>;
  readonly warmest: Value<Quantity<'K abs'>>;
  readonly resistivity: Value<Quantity<'Ω·m'>>;
  readonly resistivityAt: Value<Quantity<'K abs'>>;
  readonly coefficient: Value<Quantity<'1/K'>>;
  readonly inputs: Readonly<
    Record<InputType, { readonly onFrom: Value<Quantity<'V'>>; readonly draws: Value<Quantity<'A'>> }>
  >;
  /** The cables from boxes to racks. */
  readonly boxes: ReadonlyMap<string, Value<Quantity<'m'>>>;
  readonly letter: (of: Designated) => Value<string>;
  /** Whether the file says letters of its own. */
  readonly hasOwnLetters: boolean;
  /** What the external stop circuit asks of the contact of the controller; nothing where it is not said. */
  readonly stopCircuit: { readonly [K in 'voltage' | 'current']: WiringSection['stop_circuit'][K] };
}

const at = 'cabinet.wiring';

const fallback = <U extends Unit>(key: string, value: number, unit: U, reason: Reason): Quantity<U> =>
  assumed(`${at}.${key}`, value, unit, reason);

/** Section in mm² and current in A of copper in PVC at 40 °C, laid by method B2. */
const iecTable = [
  [0.75, 8.5],
  [1, 10.1],
  [1.5, 13.1],
  [2.5, 17.4],
  [4, 23],
  [6, 30],
  [10, 40],
] as const;

const usualCarries = iecTable.map(([section_mm2, current_A], row) => {
  const because = 'copper in PVC at 40 °C, laid as B2, before factors for grouping and warmth';
  const path = `carries.${row}`;
  return {
    section: fallback(`${path}.section`, section_mm2 * 1e-6, 'm²', { source: 'iec-60204-1', because, as: 'mm²' }),
    current: fallback(`${path}.current`, current_A, 'A', { source: 'iec-60204-1', because }),
  };
});

const usualSignals = fallback('section', 0.75e-6, 'm²', {
  source: 'common-practice',
  because: 'a wire of a signal is chosen for its strength, not for its current',
  as: 'mm²',
});
const usualVoltage = fallback('voltage', 20.4, 'V', {
  source: 'iec-61131-2',
  because: 'the lowest of 24 V −15 %',
});
const usualWarmest = fallback('warmest', 343.15, 'K abs', {
  source: 'iec-60204-1',
  because: 'the highest temperature of a conductor in PVC',
  as: '°C',
});
const usualResistivity = fallback('resistivity', 0.0178e-6, 'Ω·m', {
  source: 'common-practice',
  because: 'stranded copper',
  as: 'Ω·mm²/m',
});
const usualResistivityAt = fallback('resistivity_at', 293.15, 'K abs', {
  source: 'iec-60028',
  because: 'resistivities are stated at 20 °C',
  as: '°C',
});
const usualCoefficient = fallback('temperature_coefficient', 0.00393, '1/K', {
  source: 'iec-60028',
  because: 'copper',
});

/** On from, in V, and most current, in A; the currents are from memory. */
const byType = { '1': [15, 0.015], '2': [11, 0.03], '3': [11, 0.015] } as const;
const usualInputs = Object.fromEntries(
  Object.entries(byType).map(([type, [on_V, most_A]]) => {
    const because = `an input of type ${type}`;
    return [
      type,
      {
        onFrom: fallback(`inputs.type_${type}.on_from`, on_V, 'V', { source: 'iec-61131-2', because }),
        draws: fallback(`inputs.type_${type}.draws`, most_A, 'A', { source: 'iec-61131-2', because }),
      },
    ];
  }),
) as Record<InputType, { readonly onFrom: Quantity<'V'>; readonly draws: Quantity<'A'> }>;

/** Classes of IEC 81346-2, from memory: who wants others, or two letters, says so in the file. */
const letters: Readonly<Record<Designated, string>> = {
  rack: 'U',
  module: 'K',
  supply: 'T',
  sensor: 'B',
  switch: 'S',
  load: 'Q',
  line: 'K',
  terminal: 'X',
  cable: 'W',
};
export const lettersAreOf = cite('iec-81346-2');

export function wiringSettings(said: WiringSection): WiringSettings {
  const set = said.colours ?? 'iec_60204_1';
  return {
    set,
    colour: (of) => said.other_colours[of] ?? (set instanceof Missing ? set : coloursBy[set].of[of]),
    section: said.section,
    ofSignals: usualSignals,
    carries:
      said.carries === undefined
        ? usualCarries
        : said.carries instanceof Missing
          ? said.carries
          : said.carries.map((row) => (row instanceof Missing ? { section: row, current: row } : row)),
    voltage: said.voltage ?? usualVoltage,
    warmest: said.warmest ?? usualWarmest,
    resistivity: said.resistivity ?? usualResistivity,
    resistivityAt: said.resistivity_at ?? usualResistivityAt,
    coefficient: said.temperature_coefficient ?? usualCoefficient,
    inputs: Object.fromEntries(
      inputTypes.map((type) => {
        const { on_from, draws } = said.inputs[`type_${type}`];
        return [type, { onFrom: on_from ?? usualInputs[type].onFrom, draws: draws ?? usualInputs[type].draws }];
      }),
    ) as WiringSettings['inputs'],
    boxes: new Map(said.boxes.map(({ name, wire }) => [name, wire])),
    letter: (of) => said.letters[of] ?? letters[of],
    hasOwnLetters: designated.some((each) => said.letters[each] !== undefined),
    stopCircuit: said.stop_circuit,
  };
}
