// axes.count_frequency, axes.encoder_cable, axes.ripple: is the position of a master that is counted counted right?
import { question } from '../../checks/finding.ts';
import { assumed } from '../../working/assumed.ts';
import { given } from '../../working/missing.ts';
import { rippleTorqueAtMost } from '../calc/encoder.ts';
import type { Counted, Follower } from '../counted.ts';

const named = ({ master }: Counted): string => master.name;

export const countFrequency = question<readonly Counted[], Counted>({
  id: 'axes.count_frequency',
  title: 'Counting frequency',
  asks: 'Does the input count every line of the encoder at full speed?',
  page: `Asked of every master with an encoder. Demand: the frequency of one track at the speed of production.
Capacity: \`frequency_at_most\` of its input. An input that states how many edges it counts in a second counts as many
of them for each line as \`counted\` says: divide.`,
  advice: 'fewer lines, a larger measuring wheel, a quicker input',
  subjects: (counted) => counted,
  name: named,
  path: ({ encoder }) => encoder.path,
  reserve: {
    share: 0.2,
    source: 'judgement',
    because: 'edges are not evenly spaced, and a machine overshoots its speed',
  },
  demand: ({ track }) => track,
  capacity: ({ encoder }) => encoder.frequency_at_most,
  says: (demand, capacity) => `a track changes with ${demand} at full speed, the input counts up to ${capacity}`,
});

export const encoderCable = question<readonly Counted[], Counted>({
  id: 'axes.encoder_cable',
  title: 'Cable of the encoder',
  asks: 'Does the signal of the encoder reach its input?',
  page: `Asked of every encoder whose cable the file says. Demand: its length. Capacity: \`cable_at_most\`, from the data of
the input; where that is not said and the receiver is differential, what the guideline of TIA-422 allows at the frequency
of a track: 1200 m up to 100 000 changes in a second, and less in proportion above. For other receivers no general
figure is known.`,
  advice: 'a shorter cable, a differential receiver, fewer lines',
  subjects: (counted) => counted.filter(({ encoder }) => encoder.cable !== undefined),
  name: named,
  path: ({ encoder }) => `${encoder.path}.cable`,
  reserve: { share: 0.2, source: 'judgement', because: 'a noisy neighbourhood takes more of the signal' },
  demand: ({ encoder }) => encoder.cable!,
  capacity: ({ cableAtMost }) => cableAtMost,
  says: (demand, capacity) => `the cable is ${demand} long, its signal reaches ${capacity}`,
});

export const ripple = question<readonly Counted[], Follower>({
  id: 'axes.ripple',
  title: 'Ripple of the master',
  asks: 'Do the followers bear that their master is known in whole counts?',
  page: `Asked of every axis with a motor whose master is counted. Between two samples the master moves a whole number of
counts, so its speed as it is seen swings by one count for each sample; a filter takes most of that away. Every follower
swings by the same share of its speed. Demand: the torque for that swing from one sample to the next, by the inertia of
load and rotor, as if the drive followed it whole; a drive that interpolates or that is slow follows less. Capacity: a
tenth of the torque that the motor gives for any length of time; more is heard and warms the motor.`,
  advice: 'more lines, a longer filter with a lead for its lag',
  subjects: (counted) =>
    counted.flatMap(({ followers }) => followers.filter(({ demand }) => !demand.axis.motor.absent)),
  name: ({ demand }) => demand.axis.name,
  path: ({ demand }) => demand.axis.path,
  reserve: { share: 0, source: 'judgement', because: 'the tenth is a judgement already' },
  demand: ({ torque }) => torque,
  capacity: ({ demand: { axis } }) =>
    given({ T: axis.motor.torque }, ({ T }) => rippleTorqueAtMost({ s: aTenth, T }, axis.name)),
  says: (demand, capacity) => `the counts of the master ask for ${demand} to and fro, ${capacity} are borne`,
});

const aTenth = assumed('axes.ripple_share', 0.1, '1', {
  source: 'judgement',
  because: 'below that nobody hears it',
  as: '%',
});
