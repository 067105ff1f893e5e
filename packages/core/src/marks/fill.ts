// Eye and capture of a mark with what their parts state; what the mark says itself goes first.
import { fill, type PartLookUp, type PartUse } from '../reading/parts.ts';
import { isAbsent, Missing, missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { captureKind, eyeKind } from './parts.ts';
import type { MarkSection } from './section.ts';
import type { SpreadSection } from './spread-field.ts';

export const filled = (said: MarkSection, partOf: PartLookUp): MarkSection => ({
  ...said,
  eye: said.eye && withEye(said.eye, partOf),
  capture: said.capture && withCapture(said.capture, partOf),
});

type Eye = NonNullable<MarkSection['eye']>;
type Capture = NonNullable<MarkSection['capture']>;

function withEye(eye: Eye, partOf: PartLookUp): Eye {
  if (isAbsent(eye.part)) return eye;
  const stated = statedOf({ ...unsaid, ...pick(eye), kinds: [eyeKind.kind] }, eyeKind.fields, partOf);
  return { ...stated, ...said(eye) } as Eye;
}

function withCapture(capture: Capture, partOf: PartLookUp): Capture {
  if (capture.part === undefined) return capture;
  const { kind, path, part } = capture;
  const use = { ...unsaid, path, part, kinds: [captureKind.kind] };
  const { stamped, ...stated } = statedOf(use, captureKind.fields, partOf);
  // How the edge becomes a position stands in the mark, or a part that stamps says it.
  const how = !isAbsent(kind) ? {} : stamped === undefined ? {} : { kind: 'stamped' as const, stamped };
  return { ...stated, ...said(capture), ...how } as Capture;
}

const unsaid = { via: [], version: undefined, absent: false } as const;
const pick = ({ path, via, part, version }: Eye) => ({ path, via, part, version });

/** Without what nobody says. */
const said = <T extends object>(of: T): Partial<T> =>
  Object.fromEntries(Object.entries(of).filter(([, value]) => value !== undefined)) as Partial<T>;

type Use = Pick<PartUse<typeof eyeKind.fields>, 'path' | 'via' | 'part' | 'version' | 'kinds' | 'absent'>;

/** Of a part they are limits, so that all in between counts as equally likely. */
const spreads = ['jitter', 'clock'];
const withinLimit = (value: unknown, path: string): SpreadSection =>
  value instanceof Quantity
    ? ({ path, kind: 'rectangular', rectangular: value } as unknown as SpreadSection)
    : ({ path, kind: value } as unknown as SpreadSection);

/** What the part states, each at its place in the mark; what is lacking with a part that is open or none is told there. */
function statedOf(use: Use, fields: typeof eyeKind.fields | typeof captureKind.fields, partOf: PartLookUp) {
  const part = partOf(use as PartUse<typeof eyeKind.fields>);
  // A name that no catalogue has is reported; nothing may be reckoned as if it stated nothing.
  const unfound = part === undefined && !(use.part instanceof Missing);
  if (unfound) return { jitter: withinLimit(missing(`${use.path}.part`, 'problem', 'a part that there is', ''), '') };
  const figures = fill(use, part, fields as typeof eyeKind.fields) as Readonly<Record<string, unknown>>;
  return Object.fromEntries(
    Object.entries(figures).flatMap(([key, value]) =>
      isAbsent(value) ? [] : [[key, spreads.includes(key) ? withinLimit(value, `${use.path}.${key}`) : value]],
    ),
  );
}
