// Methods over a whole case: the point nearest to what a motor gives, what a gear carries, what a drive gives.
import { openMethod } from '../working/formula.ts';

const walked = { source: 'judgement', proof: 'has the energy of its case' } as const;

export const torqueThere = openMethod({
  ...walked,
  id: 'axes.area.torque',
  title: 'torque at the point of the case that comes nearest to what the motor gives at its speed',
  prose: 'the case walked in short steps; the least margin against the peak torque at the speed of each',
  gives: 'N·m',
});
export const speedThere = openMethod({
  ...walked,
  id: 'axes.area.speed',
  title: 'speed at the point of the case that comes nearest to what the motor gives at its speed',
  prose: 'the case walked in short steps; the least margin against the peak torque at the speed of each',
  gives: 'rad/s',
  as: 'rpm',
});
export const overload = openMethod({
  ...walked,
  id: 'axes.drive.overload',
  title: 'longest overload of the drive, as time at its peak current',
  prose:
    'the case walked in short steps; over each stretch above the continuous current the square of the current less that of ' +
    'the continuous one, as time for which the peak current gives as much; the largest of these',
  gives: 's',
});

export const meanCurrent = openMethod({
  ...walked,
  id: 'axes.drive.mean_current',
  title: 'mean current of the drive over the case, without its sign',
  prose: 'the case walked in short steps, cut where the current goes through nothing',
  gives: 'A',
});

const turnedRound = {
  source: 'judgement',
  proof: 'the torque through a train goes between its ends: by hand, and sampled finely',
  gives: 'N·m',
} as const;

export const lowestThrough = openMethod({
  ...turnedRound,
  id: 'axes.train.lowest_torque',
  title: 'lowest torque through the train in the cycle, below 0 where it holds the load back',
  prose: 'the cycle walked in short steps, at the motor shaft, without what the rotor needs for itself',
});
export const highestThrough = openMethod({
  ...turnedRound,
  id: 'axes.train.highest_torque',
  title: 'highest torque through the train in the cycle, below 0 where it holds the load back',
  prose: 'the cycle walked in short steps, at the motor shaft, without what the rotor needs for itself',
});

const carried = {
  source: 'judgement',
  proof: 'a gear carries what is behind it: by hand for a drum that hoists and stands',
} as const;

export const gearPeak = openMethod({
  ...carried,
  id: 'axes.gear.peak',
  title: 'highest torque at the output of the gear',
  prose: 'the case walked in short steps, at the shaft of the gear at its side of the tool',
  gives: 'N·m',
});
export const gearMean = openMethod({
  ...carried,
  id: 'axes.gear.mean',
  title: 'mean torque at the output of the gear, by the power with which torque wears it',
  prose: 'the case walked in short steps, each counted by how far the shaft turns in it',
  gives: 'N·m',
});
export const gearPeakSpeed = openMethod({
  ...carried,
  id: 'axes.gear.peak_speed',
  title: 'highest speed at the output of the gear',
  prose: 'the case walked in short steps, at the shaft of the gear at its side of the tool',
  gives: 'rad/s',
  as: 'rpm',
});
export const gearMeanSpeed = openMethod({
  ...carried,
  id: 'axes.gear.mean_speed',
  title: 'mean speed at the output of the gear',
  prose: 'the case walked in short steps, standstill counted',
  gives: 'rad/s',
  as: 'rpm',
});
