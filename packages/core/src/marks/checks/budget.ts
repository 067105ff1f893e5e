// marks.budget: is a mark, an edge or a length exact enough?
import { question } from '../../checks/finding.ts';
import { given, Missing } from '../../working/missing.ts';
import { print } from '../../working/working.ts';
import type { MarkDemand } from '../demand.ts';

export const about = {
  name: ({ mark }: MarkDemand) => mark.name,
  path: ({ mark }: MarkDemand) => mark.path,
};

export const budget = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.budget',
  title: 'Tolerance of a mark',
  asks: 'Is the mark exact enough at the highest speed of the web?',
  page: `Demand: what it is off by on average, without its sign, and three combined standard uncertainties. Capacity: the
tolerance to either side. All of the tolerance is needed at a Cpk of 1; in the middle, a reserve of a quarter is a Cpk of
1.33. It is asked in this form, and not as an expanded uncertainty for 95 %, since it has the unit of the tolerance and says
the same as the Cpk that customers ask for. \`layshaft show FILE marks.NAME\` tells the expanded uncertainty, Cp, Cpk, the
share outside, the worst case and trials beside it.

The standard uncertainty is the root of the sum of the squares of all contributions (JCGM 100:2008, eq. 10; eq. 16 where
some are correlated), each times its sensitivity, less what is compensated. Contributions come from the eye (\`jitter\`), the
capture (polled: anywhere in the way of a period; stamped: anywhere in the way of a step; latched: anywhere in a count; the
jitter of its input, the clock, and what a position between two samples is off by while the web changes its speed), the
measuring roll, the web between eye and tool, the train of the axis, a web askew, a speed that varies, and all that stands
under \`spread\`. A bare number there is a standard deviation; \`rectangular\`, \`triangular\` and \`arcsine\` are half widths; a
\`sample\` brings its own mean and degrees of freedom; trials draw its values, wider about their mean by the root of n/(n − 1), so
that they have the same standard deviation. A time becomes a length at the speed of the web. Of a length between two edges, what
is by chance counts for each edge.

The train of the axis (\`stiffness\`, \`backlash\`) counts by what it winds up between the lowest and the highest torque of a
cycle at full speed, without what the rotor needs for itself, and by its play where that torque turns round; at other speeds
of the web it is taken as the same. It is counted as arcsine (our judgement): a train lies at its ends more often than between
them. \`lost_motion\` says another value. A length on a measuring roll has nothing of it.

Delays that are the same each time move the mark by speed times delay; \`compensated\` says how much of that a lead takes out.
A length is moved by what the eye is slower off than on instead, and by its hysteresis. A speed that varies (\`speed_spread\`)
moves what is off by times on average; of times that scatter it would make the product of both shares, which is left out.

With \`correct\`, what the control adds counts as a contribution: all that scatters is taken as new in each repeat, and as
both measured and of the product, which is more than is true of what swings slowly, such as a roll out of round.

A web askew is an effect of second order: its mean and its standard deviation are exact for an angle that is normally
distributed. So are \`products\`: two contributions whose product over a length moves the result, such as the tilt of a printed
edge over its width times what the web wanders sideways, or one twice for its square. They count by what both are off by chance,
before their sensitivity, which may be 0 where neither moves the result alone; what one of them is on average stands as the
sensitivity of the other. Contributions of products that are correlated are normally distributed.

Where terms of second order are more than a tenth of the variance, or there is no first order, the errors are not normally
distributed: no expanded uncertainty and no Cpk are told, the trials tell the interval and the share outside, and the demand is
what it is off by on average and everything at its worst, normal contributions at three standard deviations.`,
  advice: 'the largest contribution first, a lead for delays, a slower web',
  subjects: (marks) => marks,
  path: ({ mark }) => `${mark.path}.tolerance`,
  reserve: {
    share: 0.25,
    source: 'common-practice',
    because: 'in the middle of the tolerance a quarter is a Cpk of 1.33',
  },
  demand: ({ known }) => given({ known }, (all) => all.known.needed),
  capacity: ({ mark }) => mark.said.tolerance,
  says: (demand, capacity, { capability, mark }) =>
    `${mark.said.length === undefined ? 'the mark' : 'the length'} needs ${demand} to either side${
      capability === 'untold' ? ' at its worst, since its first order is meaningless' : ''
    }, ${capacity} are allowed${
      capability instanceof Missing || capability === 'untold' ? '' : `: Cpk ${print(capability.cpk)}`
    }`,
});
