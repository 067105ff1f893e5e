// The register of sources: every formula, default and limit names one of these, and every one of these is used.

export type SourceKind =
  | 'published'
  | 'standard'
  | 'definition'
  | 'common practice'
  | 'our judgement'
  | 'demonstration';

export interface Source {
  readonly kind: SourceKind;
  /** As it is printed beside a number. */
  readonly cite: string;
}

const register = {
  definition: { kind: 'definition', cite: 'by definition' },
  'common-practice': { kind: 'common practice', cite: 'common practice, no source' },
  judgement: { kind: 'our judgement', cite: 'our judgement' },
  'wilamowski-irwin': {
    kind: 'published',
    cite: 'Wilamowski and Irwin (eds.), Industrial Communication Systems, 2011, chapter 39',
  },
  inet: { kind: 'published', cite: 'INET framework 4.6, showcases' },
  'open-type-13': { kind: 'published', cite: 'constants of an open stack for IEC 61158 type 13' },
  'vdi-2143': { kind: 'standard', cite: 'VDI 2143, motion laws' },
  rothbart: { kind: 'published', cite: 'Rothbart, Cam Design Handbook' },
  'khurmi-gupta': { kind: 'published', cite: 'Khurmi and Gupta, Theory of Machines' },
  dubey: { kind: 'published', cite: 'Dubey, Fundamentals of Electrical Drives' },
  jindal: { kind: 'published', cite: 'Jindal, Machine Design' },
  kosow: { kind: 'published', cite: 'Kosow, Electric Machinery and Transformers' },
  downey: { kind: 'published', cite: 'Downey, Modeling and Simulation in Python' },
  ruckig: { kind: 'published', cite: 'Ruckig test suite' },
  'tia-422': { kind: 'standard', cite: 'TIA-422, guideline on the length of cables, from memory' },
  'ieee-802.3': { kind: 'standard', cite: 'IEEE Std 802.3' },
} as const satisfies Record<string, Source>;

export type SourceId = keyof typeof register;

export const sources: Readonly<Record<SourceId, Source>> = register;

/** The citation with the place in it: 'RFC 5180, appendix A, table 1'. */
export const cite = (id: SourceId, at?: string): string =>
  at === undefined ? sources[id].cite : `${sources[id].cite}, ${at}`;
