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
  thomson: { kind: 'published', cite: 'Thomson, Theory of Vibration with Applications' },
  mott: { kind: 'published', cite: 'Mott, Machine Elements in Mechanical Design' },
  ruckig: { kind: 'published', cite: 'Ruckig test suite' },
  'liu-layland': { kind: 'published', cite: 'Liu and Layland, Journal of the ACM 20(1), 1973' },
  'bini-buttazzo': {
    kind: 'published',
    cite: 'Bini, Buttazzo and Buttazzo, Rate monotonic analysis: the hyperbolic bound, 2003',
  },
  lehoczky: { kind: 'published', cite: 'Lehoczky, Fixed priority scheduling with arbitrary deadlines, 1990' },
  davare: {
    kind: 'published',
    cite: 'Davare and others, Period optimization for distributed automotive systems, 2007',
  },
  duerr: {
    kind: 'published',
    cite: 'Dürr and others, End-to-end timing analysis of sporadic cause-effect chains, 2019',
  },
  guenzel: {
    kind: 'published',
    cite: 'Günzel and others, On the equivalence of maximum reaction time and maximum data age, ECRTS 2023',
  },
  bird: { kind: 'published', cite: 'Bird, Electrical Circuit Theory and Technology, chapter 3' },
  'iec-60204-1': { kind: 'standard', cite: 'IEC 60204-1, at second hand and from memory' },
  'nfpa-79': { kind: 'standard', cite: 'NFPA 79, from memory' },
  'iec-61131-2': { kind: 'standard', cite: 'IEC 61131-2, from data sheets of modules and from memory' },
  'iec-81346-2': { kind: 'standard', cite: 'IEC 81346-2, from memory' },
  'iec-60028': { kind: 'standard', cite: 'IEC 60028, from memory' },
  pang: { kind: 'published', cite: 'Pang, An Introduction to Computational Physics' },
  'tia-422': { kind: 'standard', cite: 'TIA-422, guideline on the length of cables, from memory' },
  'ucd-comp20320': { kind: 'published', cite: 'UCD COMP20320, problem set on frame errors' },
  feller: {
    kind: 'published',
    cite: 'Feller, An Introduction to Probability Theory and Its Applications, volume 1',
  },
  lntwww: { kind: 'published', cite: 'LNTwww, Channel Models: burst error channels' },
  'clopper-pearson': { kind: 'published', cite: 'Clopper and Pearson, Biometrika 26, 1934' },
  'iec-61000-4-4': { kind: 'standard', cite: 'IEC 61000-4-4, from secondary sources' },
  'ieee-802.3': { kind: 'standard', cite: 'IEEE Std 802.3' },
  'jcgm-100': { kind: 'standard', cite: 'JCGM 100:2008, Guide to the expression of uncertainty in measurement' },
  'jcgm-101': { kind: 'standard', cite: 'JCGM 101:2008, Propagation of distributions using a Monte Carlo method' },
  bissell: {
    kind: 'published',
    cite: 'Bissell, How reliable is your capability index?, Applied Statistics 39(3), 1990, as quoted by Rodriguez, Recent developments in process capability analysis, Journal of Quality Technology 24(4), 1992',
  },
  'miller-freund': {
    kind: 'published',
    cite: "Miller and Freund's Probability and Statistics for Engineers",
  },
  'levin-may': {
    kind: 'published',
    cite: 'Levin and May, A note on difference-delay equations, Theoretical Population Biology 9, 1976, from memory',
  },
} as const satisfies Record<string, Source>;

export type SourceId = keyof typeof register;

export const sources: Readonly<Record<SourceId, Source>> = register;

/** The citation with the place in it: 'RFC 5180, appendix A, table 1'. */
export const cite = (id: SourceId, at?: string): string =>
  at === undefined ? sources[id].cite : `${sources[id].cite}, ${at}`;
