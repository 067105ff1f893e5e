// axes.torque_peak, axes.torque_rms, axes.speed, axes.inertia_ratio, axes.holding: is the given motor enough?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { assumed } from '../../working/assumed.ts';
import { given, isAbsent, Missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { inertiaRatio, usualInertiaRatio } from '../calc/inertia.ts';
import { peakTorque } from '../calc/rms.ts';
import type { AxisDemand, Case } from '../demand.ts';
import { atLowMains, continuousTorque, warmest } from './limits.ts';

const withoutRotor = ({ axis: { motor } }: AxisDemand): string =>
  isAbsent(motor.inertia) ? '; without its rotor, whose inertia is not given' : '';
const named = ({ axis }: AxisDemand): string => axis.name;
/** A motor of which the file says nothing is not asked about. */
const motored = (axes: readonly AxisDemand[]): readonly AxisDemand[] => axes.filter(({ axis }) => !axis.motor.absent);

/** What is wrong with a motion or a train is told, also where no motor is asked about yet. */
const motoredOrWrong = (axes: readonly AxisDemand[]): readonly AxisDemand[] =>
  axes.filter(
    ({ axis, peak }) =>
      !axis.motor.absent || (peak instanceof Missing && peak.lacks.some(({ why }) => why === 'problem')),
  );

export const torquePeak = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.torque_peak',
  title: 'Peak torque',
  asks: 'Does the motor give the highest torque of all cases?',
  page: `Demand: the highest torque at the motor shaft, either way, over the product cycle, the ramps of the master and
its stops; a winder at each diameter that is looked at. Moving off counts with the friction at rest. A follower that goes
with a ramp or a stop of its master counts at full speed, in the phase of its cycle where that asks for most. The rotor
counts where its inertia is given, and the finding says where it does not. A ramp or a stop whose time is unknown leaves
the answer unknown. Capacity: the peak torque of the motor. How it falls with the speed, and what the drive
can give, \`axes.torque_at_speed\` and \`axes.drive_peak\` ask.`,
  advice: 'a smoother motion, less inertia, another ratio or motor',
  subjects: motoredOrWrong,
  name: named,
  path: ({ axis }) => `${axis.path}.motor`,
  reserve: { share: 0.1, source: 'judgement', because: 'frictions and masses are seldom known better' },
  demand: ({ peak }) => peak,
  capacity: ({ axis }) => axis.motor.torque_peak,
  says: (demand, capacity, subject) =>
    `${demand} are asked for at the highest, the motor gives ${capacity}${withoutRotor(subject)}`,
});

export const torqueRms = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.torque_rms',
  title: 'Effective torque',
  asks: 'Does the motor stay cool enough over the cycle?',
  page: `Demand: the root of the mean square of the torque over the whole product cycle, dwells included; of a winder at
the diameter that asks for most, as if it stayed there. A motor that is cooled less at standstill counts its dwells with
the share of cooling that it keeps. Capacity: the torque that the motor gives for any length of time, at the mean speed of
that case where its rated point is known, and less in surroundings that are warmer or higher than it is stated for.`,
  advice: 'a longer cycle, less inertia, another ratio or motor',
  subjects: motored,
  name: named,
  path: ({ axis }) => `${axis.path}.motor`,
  reserve: { share: 0.15, source: 'judgement', because: 'warm surroundings and friction that grows' },
  demand: ({ rms }) => rms,
  capacity: (demand) => given({ each: warmest(demand) }, ({ each }) => continuousTorque(demand, each as Case)),
  says: (demand, capacity, subject) =>
    `${demand} over the cycle, the motor gives ${capacity} for any length of time${withoutRotor(subject)}`,
});

export const speed = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.speed',
  title: 'Motor speed',
  asks: 'Does the motor turn fast enough?',
  page: `Demand: the highest speed of the tool over all cases, through the train. Capacity: the highest speed of the motor,
and where it says the mains that this is stated for, in proportion to the lowest mains of the machine.`,
  advice: 'a smaller gear ratio, a slower motion',
  subjects: motored,
  name: named,
  path: ({ axis }) => `${axis.path}.motor`,
  reserve: { share: 0.05, source: 'judgement', because: 'room for correcting moves on top of the motion' },
  demand: ({ speed: highest }) => highest,
  capacity: ({ axis }) => atLowMains(axis, axis.motor.speed, 'highest'),
  says: (demand, capacity) => `${demand} are asked for, the motor turns at ${capacity} at most`,
});

export const ratio = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.inertia_ratio',
  title: 'Inertia ratio',
  asks: 'Is the load light enough for the rotor?',
  page: `Demand: the inertia of the load at the motor shaft for each part of the rotor’s; of a winder with a full roll, of
a crank at its largest. Capacity: \`inertia_ratio_at_most\` of the axis, 10 unless it says another. The ratio is a rule of
thumb; what counts is how stiff the train is.`,
  advice: 'a larger gear ratio, a larger rotor, a stiffer train',
  subjects: motored,
  name: named,
  path: ({ axis }) => `${axis.path}.motor`,
  reserve: { share: 0, source: 'judgement', because: 'the limit is a rule of thumb already' },
  demand: ({ inertia, axis }) =>
    given({ J: inertia, M: axis.motor.inertia }, (known) => inertiaRatio(known, axis.name)),
  capacity: ({ axis }) =>
    axis.inertiaRatioAtMost ??
    assumed(`${axis.path}.inertia_ratio_at_most`, usualInertiaRatio, '1', {
      source: 'common-practice',
      because: 'a rule of thumb for belts and gears',
    }),
  says: (demand, capacity) => `${demand} to 1, at most ${capacity} are wanted`,
});

interface Held {
  readonly demand: AxisDemand;
  readonly holding: Value<Quantity<'N·m'>>;
}

export const holding = question<readonly AxisDemand[], Held>({
  id: 'axes.holding',
  title: 'Holding brake',
  asks: 'Does the holding brake hold what pulls at the axis at standstill?',
  page: `Asked of every axis whose motor has a holding brake. Demand: the torque of weights, webs and constant forces at
the motor shaft, neither friction nor losses counted, since neither can be relied upon. Capacity: what the brake holds.

Caution: whether a brake may be relied upon to protect people from a load that can fall is not answered here. It is for
the risk assessment of the machine, local codes and licensed practice.

\`layshaft choose\` takes only motors with a brake that holds where a weight or a constant force would turn the axis at
standstill. A web would not, since it goes slack; nor would what drives a screw that locks itself.`,
  advice: 'a larger brake, a counterweight',
  subjects: (axes) =>
    axes.flatMap((demand) =>
      demand.holding === undefined || isAbsent(demand.axis.motor.brake) ? [] : [{ demand, holding: demand.holding }],
    ),
  name: ({ demand }) => demand.axis.name,
  path: ({ demand }) => `${demand.axis.path}.motor.brake`,
  reserve: { share: 0.3, source: 'judgement', because: 'brakes wear' },
  demand: ({ holding: torque, demand: { axis } }) =>
    torque instanceof Missing ? torque : given({ T: torque }, ({ T }) => heldEitherWay(T, axis.name)),
  capacity: ({ demand }) => demand.axis.motor.brake,
  says: (demand, capacity) =>
    `${demand} pull at the shaft, the brake holds ${capacity}; whether people may rely on it is for the risk assessment and local codes`,
});

const heldEitherWay = (T: Quantity<'N·m'>, name: string): Quantity<'N·m'> => peakTorque({ T: [T] }, `${name}.holding`);
