// axes.bandwidth, axes.following: does the train let the loops do what is asked of them?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { assumed } from '../../working/assumed.ts';
import { given, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { followingAngle, followingWay } from '../calc/following.ts';
import { usableBandwidth, usableShares, wantedBandwidth } from '../calc/stiffness.ts';
import type { AxisDemand } from '../demand.ts';
import { type GivingWay, givingWayOf } from '../stiffness-of.ts';

interface Soft {
  readonly demand: AxisDemand;
  readonly givingWay: GivingWay;
}

export const bandwidth = question<readonly AxisDemand[], Soft>({
  id: 'axes.bandwidth',
  title: 'Bandwidth',
  asks: 'Is the train stiff enough for the gain of the position loop?',
  page: `Asked of every axis with a gain whose train says a stiffness; all that it says stands in series, and what it does
not say counts as rigid. Demand: the bandwidth of the speed loop that the gain asks for, four times that of the position
loop. Capacity: a third of the antiresonance of the load on that stiffness, the rotor held fast.

The ratio of inertias does not enter: a stiff train bears a large one, and a soft one does not bear a small one. It is
shown as a policy, by \`axes.inertia_ratio\`. Left out: filters in the drive that a third is exceeded with.`,
  advice: 'a stiffer coupling, belt or gear, a lighter load, a lower gain',
  subjects: (axes) =>
    axes.flatMap((demand) => {
      const givingWay = demand.axis.gain === undefined ? undefined : givingWayOf(demand);
      return givingWay === undefined ? [] : [{ demand, givingWay }];
    }),
  name: ({ demand }) => demand.axis.name,
  path: ({ demand }) => `${demand.axis.path}.gain`,
  reserve: { share: 0, source: 'judgement', because: 'the third is a cautious share already' },
  demand: ({ demand: { axis } }) =>
    given({ k: axis.gain! }, ({ k }) => wantedBandwidth({ n: timesAsQuick, k: k as Quantity<'1/s'> }, axis.name)),
  capacity: ({ demand: { axis }, givingWay }) =>
    given({ f: givingWay.antiresonance }, ({ f }) => usableBandwidth({ s: aThird, f }, axis.name)),
  says: (demand, capacity) => `the gain asks for ${demand}, the train lets a loop have ${capacity}`,
});

export const timesAsQuick = assumed('axes.times_as_quick', 4, '1', {
  source: 'common-practice',
  because: 'so that the position loop does not overshoot',
});
export const aThird = assumed('axes.usable_share', usableShares.usual, '1', {
  source: 'common-practice',
  because: 'a third to a half of the antiresonance',
  as: '%',
});

export const following = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.following',
  title: 'Following error',
  asks: 'Does the axis stay close enough behind its setpoint?',
  page: `Asked of every axis that says \`follows_within\`. Demand: the highest speed of the tool over the gain of the
position loop, less the share that is fed forward (\`feed_forward\`; none unless said). Capacity: \`follows_within\`.`,
  advice: 'a higher gain, a speed that is fed forward, a slower motion',
  subjects: (axes) => axes.filter(({ axis }) => axis.followsWithin !== undefined),
  name: ({ axis }) => axis.name,
  path: ({ axis }) => `${axis.path}.follows_within`,
  reserve: { share: 0.1, source: 'judgement', because: 'the gain is set on site' },
  demand: (demand) => followingError(demand),
  capacity: ({ axis }) => axis.followsWithin!,
  says: (demand, capacity) => `the tool is ${demand} behind at its highest speed, ${capacity} are allowed`,
});

function followingError({ axis, motion, toolSpeed }: AxisDemand): Value<Quantity> {
  const k = axis.gain ?? missing(`${axis.path}.gain`, 'absent', 'a gain', '60 1/s');
  return given({ k, f: axis.feedForward, v: toolSpeed, motion, within: axis.followsWithin! }, (known) => {
    const along = known.motion.unit === 'm';
    if ((known.within as Quantity).unit !== known.motion.unit)
      return missing(
        `${axis.path}.follows_within`,
        'problem',
        along ? 'a length' : 'an angle',
        along ? '2 mm' : '0.5°',
      );
    const { f, k: gain } = known as { readonly f: Quantity<'1'>; readonly k: Quantity<'1/s'> };
    return along
      ? followingWay({ v: known.v as Quantity<'m/s'>, f, k: gain }, axis.name)
      : followingAngle({ v: known.v as Quantity<'rad/s'>, f, k: gain }, axis.name);
  }) as Value<Quantity>;
}
