// axes.agrees: does what somebody else states of an axis follow from the rest of the file? axes.plausible: can it be at all?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { printQuantity } from '../../units/print-quantity.ts';
import { given, isAbsent, Missing, missing } from '../../working/missing.ts';
import type { Origin } from '../../working/origin.ts';
import { isLeaf, Quantity } from '../../working/quantity.ts';
import { print, walk } from '../../working/working.ts';
import { circumferenceOf } from '../calc/cutter.ts';
import { highestSpeed, highestTurningSpeed } from '../calc/cycle-demand.ts';
import { wheelSpeed } from '../calc/transform.ts';
import type { AxisDemand } from '../demand.ts';
import { highestAcceleration } from '../highest-acceleration.ts';
import { fullRollOf } from '../winder.ts';

interface Stated {
  readonly demand: AxisDemand;
  readonly key: string;
  readonly stated: Value<Quantity>;
  readonly found: Value<Quantity>;
}

/** Figures are stated to about three digits (our judgement). */
const agreeWithin = 0.01;

interface Slip {
  readonly factor: number;
  readonly sign: string;
  readonly reason: string;
}

/** Slips that are published or seen again and again; the reasons are common practice, no source. */
const slips: readonly Slip[] = [
  { factor: 2, sign: '2', reason: 'as when a radius is taken for a diameter' },
  { factor: 4, sign: '4', reason: 'as when a triangular move is reckoned with way/time² instead of 4·way/time²' },
  { factor: 60, sign: '60', reason: 'as when minutes and seconds are mixed up' },
  { factor: 2 * Math.PI, sign: '2π', reason: 'as when revolutions and radians are mixed up' },
  {
    factor: Math.sqrt(3),
    sign: '√3',
    reason: 'as when the torque of a triangular move is taken for a triangle, though it is a rectangle',
  },
];

/** For each gear its ratio and the square of it. */
function slipsOfGears({ line }: AxisDemand): readonly Slip[] {
  if (line instanceof Missing) return [];
  return line.stages.flatMap(({ transform }): readonly Slip[] => {
    if (transform?.kind !== 'gear') return [];
    const { value, about } = transform.by;
    return [
      {
        factor: value ** 2,
        sign: `the square of ${about}`,
        reason: 'as when an inertia goes through one gear more or less',
      },
      { factor: value, sign: about, reason: 'as when a torque or speed goes through one gear more or less' },
    ];
  });
}

export const agrees = question<readonly AxisDemand[], Stated>({
  id: 'axes.agrees',
  title: 'Stated figures',
  asks: 'Does a figure that somebody else states follow from the rest of the file?',
  page: `Asked of every figure under \`stated\`. It agrees within 1 %. Where it does not, the answer names the given values
that it contradicts and by which factor, and says so when that is the factor of a usual slip: 2, 4, 60, 2π, √3, the ratio
of a gear or its square.`,
  advice: 'the figure that is right in the place of the other',
  subjects: (axes) => axes.flatMap(statedOf),
  name: ({ demand, key }) => `${demand.axis.name}.${key}`,
  path: ({ demand, key }) => `${demand.axis.path}.stated.${key}`,
  answer: ({ demand, stated, found }) =>
    given({ stated, found }, (known) => {
      const said = known.stated as Quantity;
      const follows = known.found as Quantity;
      if (said.unit !== follows.unit)
        return {
          yes: false,
          because: `${print(said)} is stated, and what follows is ${print(follows)}: they measure different things`,
        };
      const values = `${print(said)} is stated, ${printQuantity(follows.value, follows.unit, { as: (said.by as Origin).writtenUnit })} follows`;
      const ratio = follows.value / said.value;
      if (Math.abs(ratio - 1) <= agreeWithin) return { yes: true, because: values };
      const slip = [...slipsOfGears(demand), ...slips].find(
        ({ factor }) => near(ratio, factor) || near(1 / ratio, factor),
      );
      const from = `from ${givenIn(follows)}`;
      return {
        yes: false,
        because:
          slip === undefined
            ? `${values} ${from}: ${printQuantity(Math.abs(ratio), '1')} times as much`
            : `${values} ${from}: they differ by the factor ${slip.sign}, ${slip.reason}`,
      };
    }),
});

const near = (ratio: number, factor: number): boolean => Math.abs(ratio / factor - 1) <= agreeWithin;

/** The values of the file that a number rests on. */
function givenIn(quantity: Quantity): string {
  const paths = new Set<string>();
  walk(quantity, (each) => {
    if (isLeaf(each) && ['given', 'measured', 'catalogue', 'planned'].includes((each.by as Origin).kind))
      paths.add(each.about);
  });
  const [first = 'what is assumed', ...rest] = paths;
  return rest.length === 0
    ? first
    : `${[first, ...rest.slice(0, mostNamed - 1)].join(', ')}${rest.length >= mostNamed ? ' and others' : ''}`;
}

const mostNamed = 6;

function statedOf(demand: AxisDemand): readonly Stated[] {
  const { axis, inertia, peak, rms, cases } = demand;
  const { stated, name, motion } = axis;
  if (stated === undefined) return [];
  const first = given({ cases }, (known) => known.cases[0]!);
  const roll = motion.winds ?? motion.unwinds;
  const noWinder = missing(`${motion.path}.winds`, 'absent', 'a winder', 'winds: { core: 76 mm, full: 800 mm }');
  const follows: Readonly<Record<string, () => Value<Quantity>>> = {
    speed: () =>
      given({ first }, ({ first: { phases } }) => {
        const x = phases.flatMap(({ toolSpeed }) => toolSpeed ?? []);
        return x.some(({ unit }) => unit === 'rad/s')
          ? highestTurningSpeed({ x: x as Quantity<'rad/s'>[] }, `${name}.tool`)
          : highestSpeed({ x: x as Quantity<'m/s'>[] }, `${name}.tool`);
      }) as Value<Quantity>,
    acceleration: () => highestAcceleration(demand),
    motor_speed: () =>
      given({ first }, ({ first: { speed } }) => speed ?? missing(motion.path, 'absent', 'a motion', '')),
    inertia: () => inertia,
    torque_peak: () => peak,
    torque_rms: () => rms,
    roll_length: () => fullRollOf(axis)?.length ?? noWinder,
    roll_speed: () =>
      roll === undefined || axis.master === undefined
        ? noWinder
        : given({ master: axis.master, D: roll.core }, ({ master, D }) =>
            given({ v: master.speed as Value<Quantity<'m/s'>> }, ({ v }) => wheelSpeed({ v, D }, `${name}.core`)),
          ),
    circumference: () => {
      const D = diameterOf(demand);
      return given({ D }, (known) => circumferenceOf(known, name));
    },
  };
  return Object.entries(follows).flatMap(([key, make]): readonly Stated[] => {
    const value = (stated as unknown as Readonly<Record<string, Value<Quantity> | undefined>>)[key];
    return value === undefined || isAbsent(value) ? [] : [{ demand, key, stated: value, found: make() }];
  });
}

/** Of the roll that the web runs on, or of the knife. */
function diameterOf({ line, axis }: AxisDemand): Value<Quantity<'m'>> {
  if (line instanceof Missing) return line;
  const wheel = line.stages.find(({ transform }) => transform?.kind === 'wheel')?.transform?.by;
  if (wheel !== undefined) return wheel as Quantity<'m'>;
  const { train } = axis;
  const found =
    train instanceof Missing
      ? undefined
      : train.map(({ cutting, cylinder }) => cutting?.diameter ?? cylinder?.diameter);
  return (
    found?.find((each) => each !== undefined) ??
    missing(`${axis.path}.train`, 'absent', 'a roll or a knife', 'roll: { diameter: 120 mm }')
  );
}

/** In air of 20 °C, from memory; nothing that a machine carries goes faster. */
const sound_m_per_s = 343;

export const plausible = question<readonly AxisDemand[], { readonly demand: AxisDemand; readonly speed: Quantity }>({
  id: 'axes.plausible',
  title: 'Faster than sound',
  asks: 'Is the speed one that a machine can have?',
  page: `Asked only where a tool or its web would go faster than sound in air (343 m/s, a figure from memory).`,
  advice: 'the unit of the speed: feet a minute, not a second',
  subjects: (axes) =>
    axes.flatMap((demand) => {
      const { master } = demand.axis;
      const speed = master === undefined || master instanceof Missing ? undefined : master.speed;
      return speed instanceof Quantity && speed.unit === 'm/s' && speed.value > sound_m_per_s
        ? [{ demand, speed }]
        : [];
    }),
  name: ({ demand }) => demand.axis.name,
  path: ({ speed }) => speed.about,
  answer: ({ speed }) => ({
    yes: false,
    because: `${print(speed)} at ${speed.about} is ${printQuantity(speed.value, 'm/s', { as: 'm/s' })}, faster than sound; by the factor 60 less, in a minute instead of a second, it is ${printQuantity(speed.value / 60, 'm/s', { as: 'm/s' })}`,
  }),
});
