// The contributions of a mark's budget, each made a length at the speed of the web: from the eye and the input, the roll, the
// web, and what else the file names; and what the mark is off by on average.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { delayOffset, halfCount, halfWindow, rampAcceleration, stampInterpolation } from './calc/capture.ts';
import { offsetLeft, partOfResult, wayOfTime } from './calc/contribution.ts';
import { bothEdges, edgeBias, gapBias, polledLength } from './calc/length.ts';
import { noneOf, type PlacedMark } from './mark.ts';
import { type Maker, makerOf, noPart, type Part } from './part.ts';
import { rollParts, skewPart, webPart } from './roll-and-web.ts';
import { trainPart } from './train-part.ts';

/** What a mark is off by on average, and what of it goes with the speed. */
export interface Offset {
  readonly name: string;
  readonly b: Quantity<'m'>;
  readonly timed: Quantity<'m'> | undefined;
}

export interface Parts {
  readonly parts: readonly Value<Part>[];
  readonly offsets: readonly Value<Offset>[];
}

/** `about` names the mark, and the speed where it is not that of the file. */
export function partsOf(mark: PlacedMark, v: Value<Quantity<'m/s'>>, about: string): Parts {
  const { said } = mark;
  const maker = makerOf(v, about, said.length !== undefined);
  const told = said.spread.map((each) => maker.told(each.name, each));
  const own = [
    ...eyeParts(mark, maker),
    ...captureParts(mark, v, maker),
    ...rollParts(mark, maker),
    ...webPart(mark, maker),
    ...trainPart(mark, maker),
  ];
  const parts = [...own, ...told, ...skewPart(mark, about)];
  return { parts, offsets: [...delayOffsets(mark, v, about), ...parts.flatMap(offsetOfPart)] };
}

const offsetOfPart = (part: Value<Part>): readonly Value<Offset>[] =>
  part instanceof Missing
    ? []
    : part.offset === undefined
      ? []
      : [{ name: part.name, b: part.offset, timed: part.isOffsetTimed ? part.offset : undefined }];

const otherWay = assumed('marks.gap.sign', -1, '1', {
  source: 'definition',
  because: 'a gap is seen too short by what a product is seen too long',
});

// ── eye and input ────────────────────────────────────────────────────────────────────────────────────────────────────

function eyeParts({ said: { eye } }: PlacedMark, { told }: Maker): readonly Value<Part>[] {
  return eye?.jitter === undefined ? [] : [told('eye_jitter', eye.jitter, 'each edge')];
}

function captureParts(mark: PlacedMark, v: Value<Quantity<'m/s'>>, maker: Maker): readonly Value<Part>[] {
  const { said, path } = mark;
  const { capture } = said;
  if (capture === undefined) return [];
  const { jitter, clock, sample, kind } = capture;
  const common = [
    ...(jitter === undefined ? [] : [maker.told('input_jitter', jitter, 'each edge')]),
    ...(clock === undefined ? [] : [maker.told('clock_offset', clock, 'each edge')]),
    ...(sample === undefined ? [] : [interpolation(mark, sample, v, maker)]),
  ];
  if (kind instanceof Missing) return [...common, kind];
  const isLength = said.length !== undefined;
  const where = `${path}.capture.${kind}`;
  const steps = { polled: 'poll_window', stamped: 'stamp_step', latched: 'latch_count' } as const;
  const name = steps[kind as keyof typeof steps];
  const about = `${maker.about}.${name}`;
  const limit = ((): Value<Quantity<'m'>> => {
    if (kind === 'latched') {
      const count = capture.latched!;
      return given({ w: count }, ({ w }) => (isLength ? w : halfCount({ w }, about)));
    }
    const step = (kind === 'polled' ? capture.polled : capture.stamped)!;
    return given({ v, step }, ({ v, step }) =>
      isLength ? polledLength({ v, T: step }, about) : halfWindow({ v, q: step }, about),
    );
  })();
  return [...common, maker.within(name, where, isLength ? 'triangular' : 'rectangular', limit)];
}

/** Between two samples the position is drawn as if the speed were constant. */
function interpolation(
  { said, path, line }: PlacedMark,
  sample: Value<Quantity<'s'>>,
  v: Value<Quantity<'m/s'>>,
  maker: Maker,
): Value<Part> {
  const about = `${maker.about}.interpolation`;
  const ramps = line === undefined || line instanceof Missing ? [] : line.ramps;
  const shortest = ramps.reduce<Quantity<'s'> | undefined>(
    (least, each) => (least && least.value <= each.value ? least : each),
    undefined,
  );
  const fromRamp = shortest && given({ v }, (known) => rampAcceleration({ v: known.v, t: shortest }, about));
  const a =
    said.capture?.acceleration ??
    fromRamp ??
    missing(`${path}.capture.acceleration`, 'absent', 'an acceleration', '0.5 m/s²');
  const limit = given({ a, T: sample }, (known) => {
    const edge = stampInterpolation(known, about);
    return said.length === undefined ? edge : bothEdges({ a: edge }, about);
  });
  return maker.within('interpolation', `${path}.capture.sample`, 'rectangular', limit);
}

/** Delays that are the same each time, less what a lead takes out, and what an eye makes of a length. */
function delayOffsets({ said, path }: PlacedMark, v: Value<Quantity<'m/s'>>, about: string): readonly Value<Offset>[] {
  const { eye, capture, offset, length, edges } = said;
  const fixed: Value<Offset>[] =
    offset === undefined ? [] : [given({ b: offset }, ({ b }): Offset => ({ name: 'offset', b, timed: undefined }))];
  if (length !== undefined) {
    if (eye?.rise_fall_difference === undefined && eye?.hysteresis === undefined) return fixed;
    const ends = edges ?? missing(`${path}.edges`, 'absent', 'the two edges', '[rising, falling]');
    if (ends instanceof Missing) return [...fixed, ends];
    const asked = { v, d: eye.rise_fall_difference, h: eye.hysteresis, first: ends.first, last: ends.last };
    const bias = given(asked, (known): Offset | undefined => {
      // The eye is as late at both ends.
      if (known.first === known.last) return undefined;
      const values = {
        v: known.v,
        d: known.d ?? noneOf(`${path}.eye.rise_fall_difference`, 's', 'none unless said'),
        h: known.h ?? noneOf(`${path}.eye.hysteresis`, 'm', 'none unless said'),
      };
      const isGap = known.first === 'falling';
      // The way of a hysteresis is the same at any speed.
      const way = known.d && wayOfTime({ v: known.v, t: known.d }, `${about}.eye`);
      return {
        name: 'eye',
        b: isGap ? gapBias(values, about) : edgeBias(values, about),
        timed: way && isGap ? partOfResult({ c: otherWay, k: noPart, u: way }, `${about}.eye`) : way,
      };
    });
    return bias === undefined ? fixed : [...fixed, bias as Value<Offset>];
  }
  const k =
    said.compensated ??
    assumed(`${path}.compensated`, 0, '1', {
      source: 'judgement',
      because: 'a delay that nobody takes out moves the mark',
      as: '%',
    }); // prettier-ignore
  const late = (name: string, way: Value<Quantity<'m'>>): Value<Offset> =>
    given({ way, k }, (known): Offset => {
      const b = offsetLeft({ k: known.k, b: known.way }, `${about}.${name}`);
      return { name, b, timed: b };
    });
  const delay = (name: string, t: Value<Quantity<'s'>> | undefined): readonly Value<Offset>[] =>
    t === undefined
      ? []
      : [
          late(
            name,
            given({ v, t }, (known) => delayOffset(known, `${about}.${name}`)),
          ),
        ];
  const polled =
    capture?.kind === 'polled'
      ? [
          late(
            'poll_middle',
            given({ v, q: capture.polled! }, (known) => halfWindow(known, `${about}.poll_window`)),
          ),
        ]
      : [];
  return [
    ...fixed,
    ...delay('eye_delay', eye?.delay),
    ...delay('input_delay', capture?.delay),
    ...delay('input_filter', capture?.filter),
    ...polled,
  ];
}
