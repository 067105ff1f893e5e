// The patterns in which pulses come, and the times that each of them has where a file says nothing.
import type { SourceId } from '../working/sources.ts';
import { fastTransients } from './calc/pulse-pattern.ts';

export const patterns = ['fast_transient', 'contactor', 'welder', 'drive_switching', 'dropout', 'recorded'] as const;
export type Pattern = (typeof patterns)[number];

/** What a station does while an update is missing. */
export const missedRules = ['hold', 'extrapolate'] as const;
export type MissedRule = (typeof missedRules)[number];

/** A time that holds where the file says none. */
export interface PresetTime {
  readonly time_s: number;
  readonly source: SourceId;
  readonly because: string;
}

type Times = 'pulse' | 'pulse_every' | 'burst' | 'period';

const preset = (time_s: number, source: SourceId, because: string): PresetTime => ({ time_s, source, because });
const [slow_s] = fastTransients.pulseEvery_s;

/** A fast transient's burst is not here: it is 75 pulses, whatever lies between them. */
export const presets: Readonly<Record<Pattern, Partial<Readonly<Record<Times, PresetTime>>>>> = {
  fast_transient: {
    pulse: preset(fastTransients.pulse_s, 'iec-61000-4-4', 'width at half height'),
    pulse_every: preset(slow_s, 'iec-61000-4-4', '5 kHz, the older setting; 100 kHz is the other one'),
    period: preset(fastTransients.period_s, 'iec-61000-4-4', 'one burst in 300 ms'),
  },
  contactor: {
    pulse: preset(100e-9, 'judgement', 'a spark at an opening contact, with the ringing behind it'),
    pulse_every: preset(20e-6, 'judgement', 'the contact sparks again and again while it opens'),
    burst: preset(3e-3, 'common-practice', 'contacts bounce for one to five milliseconds'),
    period: preset(1, 'judgement', 'it is switched once a second'),
  },
  welder: {
    pulse: preset(0.5e-3, 'judgement', 'the current rises steeply at each firing'),
    pulse_every: preset(10e-3, 'common-practice', 'one firing in each half wave of mains of 50 Hz'),
    burst: preset(0.2, 'common-practice', 'a spot of ten periods of the mains'),
    period: preset(3, 'judgement', 'one spot in three seconds'),
  },
  drive_switching: {
    pulse: preset(100e-9, 'judgement', 'the edge of a power stage, with the ringing behind it'),
    pulse_every: preset(62.5e-6, 'common-practice', 'two edges in each period of a carrier of 8 kHz'),
  },
  dropout: {},
  recorded: {
    pulse: preset(1e-6, 'judgement', 'a recording rarely says how long a pulse was'),
  },
};
