// The picture of a motion: position, speed and acceleration of the tool and the torque of the motor over one cycle.
import { type Drawn, type Mark, notDrawn, type Picture, pen, type Row } from '../pictures/picture.ts';
import { printQuantity } from '../units/print-quantity.ts';
import type { Unit } from '../units/si.ts';
import { Missing } from '../working/missing.ts';
import type { AxisDemand } from './demand.ts';
import { type TracePoint, traceOf } from './trace.ts';

interface Curve {
  readonly label: string;
  readonly unit: Unit;
  readonly of: (point: TracePoint) => number;
}

/** Enough that a quarter of a sine looks round (our judgement). */
const pointsOnPiece = 24;

export function curves({ axis, cases, motion }: AxisDemand): Drawn {
  const name = 'curves';
  const title = `One cycle of ${axis.name}`;
  const found = cases instanceof Missing ? undefined : cases[0];
  if (found === undefined || motion instanceof Missing)
    return { picture: notDrawn(name, title, 'Motion or train are not known yet.'), numbers: [] };
  const points = traceOf(found, pointsOnPiece);
  const { numbers, write } = pen();
  const along = motion.unit === 'm';
  const shownCurves: readonly Curve[] = [
    { label: 'position', unit: along ? 'm' : 'rad', of: ({ position }) => position },
    { label: 'speed', unit: along ? 'm/s' : 'rad/s', of: ({ velocity }) => velocity },
    { label: 'acceleration', unit: along ? 'm/s²' : 'rad/s²', of: ({ acceleration }) => acceleration },
    { label: 'motor torque', unit: 'N·m', of: ({ torque }) => torque },
  ];
  const end = points.at(-1)?.time_s ?? 0;
  const extent = (curve: Curve): readonly [number, number] => {
    const values = points.map(curve.of);
    const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
    if (least === most) return [0, 1];
    // What rounding leaves of nothing is nothing.
    const little = 1e-9 * (most - least);
    return [least > -little ? 0 : least, most < little ? 0 : most];
  };
  const rows = shownCurves.map((curve): Row => {
    const [from, to] = extent(curve);
    const flat = points.every((point) => curve.of(point) === 0);
    const margin = 0.08 * (to - from);
    return {
      label: [curve.label],
      end: [
        flat
          ? `${printQuantity(0, curve.unit)} throughout`
          : `${printQuantity(from, curve.unit)} to ${printQuantity(to, curve.unit)}`,
      ],
      height: 3,
      above: 0.5,
      scale: { from: from - margin, to: to + margin, unit: curve.unit },
      grid: true,
    };
  });
  const marks = shownCurves.flatMap((curve, row): readonly Mark[] => [
    {
      kind: 'line',
      weight: 'fine',
      tone: 'quiet',
      points: [
        { x: 0, row, y: 0 },
        { x: end, row, y: 0 },
      ],
    },
    {
      kind: 'line',
      weight: 'edge',
      tone: row === 3 ? 'traffic' : 'plain',
      points: points.map((point) => ({ x: point.time_s, row, y: curve.of(point) })),
      about: axis.path,
    },
  ]);
  const picture: Picture = {
    name,
    title,
    caption:
      'The tool as it moves, and the torque that the motor gives for it; a motor that brakes gives less than none.',
    scale: { from: 0, to: end, unit: 's' },
    rows: [...rows, { height: 1, ticks: true }],
    marks,
    legend: [],
    text: [
      ['The cycle takes ', write(motion.cycle), '.'],
      ['The highest torque is ', write(found.peak), ', the effective one ', write(found.rms), '.'],
      ...found.phases.map(({ phase, torque }) => [
        `${phase.title}: `,
        write(phase.duration),
        ', ',
        write(torque),
        ' at its highest.',
      ]),
    ],
  };
  return { picture, numbers };
}
