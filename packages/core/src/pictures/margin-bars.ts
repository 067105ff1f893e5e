// All findings as bars under each other, with one rail for all capacities.
import type { Quantity } from '../working/quantity.ts';
import { marginBar } from './margin-bar.ts';
import { type Drawn, type Mark, type Meaning, pen, type Row, type Words } from './picture.ts';

/** What a finding says, as far as a bar shows it. */
export interface Weighty {
  readonly title: string;
  readonly subject: string;
  readonly address: string;
  readonly verdict: 'fails' | 'thin' | 'unknown' | 'holds';
  readonly says: string;
  readonly demand: Quantity | undefined;
  readonly capacity: Quantity | undefined;
  readonly margin: Quantity | undefined;
  readonly reserve: Quantity | undefined;
  readonly lacks: readonly { readonly path: string }[];
}

/** Solid means urgent; see `barMarks`. */
export const barLegend: readonly Meaning[] = [
  { fill: 'tinted', tone: 'holds', means: 'left, the reserve is kept' },
  { fill: 'hatched', tone: 'thin', means: 'taken of the reserve' },
  { fill: 'solid', tone: 'thin', means: 'left' },
  { fill: 'hatched', tone: 'fails', means: 'the reserve, all taken' },
  { fill: 'solid', tone: 'fails', means: 'more than is there' },
  { fill: 'dashed', tone: 'unknown', means: 'not known' },
];

/** The findings in the order given, which is the tightest first. */
export function marginsPicture(findings: readonly Weighty[]): Drawn {
  const { numbers, write } = pen();
  const rows: Row[] = [];
  const marks: Mark[] = [];
  const text: Words[] = [];
  for (const finding of findings) {
    const { title, subject, verdict, margin, says, lacks } = finding;
    const row = rows.length;
    const { demand, notch, rail } = marginBar(finding);
    const share = margin && write(margin);
    const end: Words = share ? [`${verdict} `, share] : [verdict];
    rows.push({ height: 1, above: row === 0 ? 0 : 0.25, label: [`${title}, ${subject}`], end });
    marks.push(...barMarks(row, { demand, notch: finding.capacity && notch, rail }, verdict, finding.address));
    if (verdict === 'unknown' && lacks[0] !== undefined) {
      const forms = [[`${lacks.map(({ path }) => path).join(', ')}?`], [`${lacks[0].path}?`], []];
      marks.push({ kind: 'label', row, x: 0, align: 'start', within: [0, rail], forms, tone: 'unknown' });
    }
    text.push([`${title}, ${subject}: ${verdict}`, ...(share ? [', margin ', share] : []), `; ${says}.`]);
  }
  if (rows.length > 0) {
    const { rail } = marginBar({});
    const points = [
      { x: rail, row: 0, y: 1.1 },
      { x: rail, row: rows.length - 1, y: -0.1 },
    ];
    marks.push({ kind: 'line', points, weight: 'rail', tone: 'plain' });
  }
  return {
    picture: {
      name: 'margins',
      title: 'Margins, tightest first',
      caption:
        'A line is what is needed, the rail at its right what is there, the bar between them what is left; the triangle shows where the wanted reserve begins.',
      scale: { from: 0, to: 1, unit: '1' },
      rows,
      marks,
      legend: barLegend,
      text,
    },
    numbers,
  };
}

export interface Bounds {
  readonly demand?: number | undefined;
  /** Up to here the demand keeps the wanted reserve. */
  readonly notch?: number | undefined;
  readonly rail: number;
}

/**
 * One bar, but for its rail: a line for what is needed, then what is left. What is kept is open, what is thin is solid with
 * the shortfall hatched, what fails goes through the rail as an arrow, what is unknown is dashed.
 */
export function barMarks(
  row: number,
  { demand, notch, rail }: Bounds,
  verdict: Weighty['verdict'],
  about: string | undefined,
): readonly Mark[] {
  const marks: Mark[] = [];
  const bar = (from: number, to: number, fill: Meaning['fill'], arrow?: true): void => {
    const of = about === undefined ? {} : { about };
    marks.push({ kind: 'bar', row, from, to, high: [0.2, 0.8], fill, tone: verdict, ...of, ...(arrow && { arrow }) });
  };
  if (verdict === 'unknown' && (demand ?? 0) < rail) bar(demand ?? 0, rail, 'dashed');
  const end = Math.min(demand ?? 0, rail);
  const kept = Math.min(end, Math.max(notch ?? end, 0));
  if (kept > 0) {
    const points = [0, kept].map((x) => ({ x, row, y: 0.5 }));
    marks.push({ kind: 'line', points, weight: 'edge', tone: 'plain' });
  }
  if (demand !== undefined && verdict === 'holds' && demand < rail) bar(demand, rail, 'tinted');
  if (demand !== undefined && verdict === 'thin') {
    if (kept < end) bar(kept, end, 'hatched');
    if (demand < rail) bar(end, rail, 'solid');
  }
  if (verdict === 'fails') {
    if (kept < end) bar(kept, end, 'hatched');
    bar(rail, Math.max(demand ?? rail, rail), 'solid', true);
  }
  if (notch !== undefined && notch < rail) marks.push({ kind: 'notch', row, x: notch, y: 0.8 });
  return marks;
}
