// The colours of wires as two standards have them; every one of them can be said otherwise in the file.
import { cite } from '../working/sources.ts';

/** What wires are told apart by. `dc_return` is the 0 V of a control circuit. */
export const wireColours = [
  'protective',
  'neutral',
  'power',
  'ac_control',
  'dc_control',
  'dc_return',
  'excepted',
] as const;
export type WireColour = (typeof wireColours)[number];

/** In words. */
export const colourIsOf: Readonly<Record<WireColour, string>> = {
  protective: 'protective conductors',
  neutral: 'neutral conductors',
  power: 'power circuits',
  ac_control: 'control circuits, alternating current',
  dc_control: 'control circuits, direct current',
  dc_return: '0 V of control circuits, direct current',
  excepted: 'circuits that stay live when the machine is switched off',
};

export const colourSets = ['iec_60204_1', 'nfpa_79'] as const;
export type ColourSet = (typeof colourSets)[number];

interface Colours {
  readonly source: string;
  readonly of: Readonly<Record<WireColour, string>>;
}

export const coloursBy: Readonly<Record<ColourSet, Colours>> = {
  iec_60204_1: {
    source: cite('iec-60204-1', '13.2'),
    of: {
      protective: 'green-and-yellow',
      neutral: 'light blue',
      power: 'black',
      ac_control: 'red',
      dc_control: 'blue',
      dc_return: 'blue',
      excepted: 'orange',
    },
  },
  nfpa_79: {
    source: cite('nfpa-79', 'chapter 13'),
    of: {
      protective: 'green, with or without yellow',
      neutral: 'white or grey',
      power: 'black',
      ac_control: 'red',
      dc_control: 'blue',
      dc_return: 'white with a blue stripe',
      excepted: 'orange',
    },
  },
};
