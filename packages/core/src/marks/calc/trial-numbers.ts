// The numbers that trials tell, as methods with their sources.
import { openMethod } from '../../working/formula.ts';

export const trialDeviation = openMethod({
  id: 'marks.trials.deviation',
  title: 'standard deviation of so many trials',
  prose: 'trials of all contributions, drawn from their distributions with a stated seed',
  gives: 'm',
  source: 'jcgm-101',
  at: '7.6',
  proof: 'the standard deviation of 200 seeded budgets is covered by its 99 % interval',
});

export const trialMean = openMethod({
  id: 'marks.trials.mean',
  title: 'mean of so many trials',
  prose: 'trials of all contributions, drawn from their distributions with a stated seed',
  gives: 'm',
  source: 'jcgm-101',
  at: '7.6',
  proof: 'JCGM 101:2008, 9.2: the sum of four',
});

export const trialError = openMethod({
  id: 'marks.trials.error',
  title: 'standard uncertainty of a number that so many trials tell',
  prose: 'what the same number scatters by among chunks of the trials, over the root of their number',
  gives: 'm',
  source: 'jcgm-101',
  at: '7.9.4',
  proof: 'the standard deviation of 200 seeded budgets is covered by its 99 % interval',
});

export const trialEnd = openMethod({
  id: 'marks.trials.end',
  title: 'end of the interval that covers a share of all trials',
  prose: 'the quantile, or the end of the shortest interval, of trials drawn with a stated seed',
  gives: 'm',
  source: 'jcgm-101',
  at: '7.7',
  proof: 'JCGM 101:2008, 9.2: the sum of four',
});

export const trialOutside = openMethod({
  id: 'marks.trials.outside',
  title: 'share of so many trials outside the tolerance',
  prose: 'trials beyond either limit over all of them, those of a bin that a limit cuts in proportion',
  gives: '1',
  as: 'ppm',
  source: 'jcgm-101',
  at: '7.5',
  proof: 'the share of trials outside limits is that of the distribution',
});

export const trialOutsideError = openMethod({
  id: 'marks.trials.outside_error',
  title: 'standard uncertainty of a share that so many trials tell',
  prose: 'the standard deviation of the beta distribution that so many trials outside and inside leave',
  gives: '1',
  as: 'ppm',
  source: 'definition',
  proof: 'the share of trials outside limits is that of the distribution',
});
