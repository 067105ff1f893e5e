// racks.placed, racks.suits, racks.spare: has every point a channel that suits it, and are enough left free?
import { question } from '../../checks/finding.ts';
import { listed } from '../../problems/wording.ts';
import { Missing, unique } from '../../working/missing.ts';
import type { KindOfPoints, PlannedLocation, PlannedRacks } from '../planned.ts';

const withPoints = ({ locations }: PlannedRacks): readonly PlannedLocation[] =>
  locations.filter(({ location }) => location.points.length > 0);

/** More names than these are not read in a sentence (our judgement). */
const mostNames = 6;

const namesOf = (names: readonly string[]): string =>
  names.length <= mostNames + 1
    ? listed(names)
    : `${names.slice(0, mostNames).join(', ')} and ${names.length - mostNames} more`;

export const placed = question<PlannedRacks, PlannedLocation>({
  id: 'racks.placed',
  title: 'Points on channels',
  asks: 'Has every point a channel?',
  page: `Asked of every location with points. A point has a channel when its \`channel\` says which one, such as main.3.7.
\`layshaft choose FILE racks --write\` finds a channel for each point that has none; those that have one stay where they are.`,
  advice: 'layshaft choose FILE racks --write',
  subjects: withPoints,
  name: ({ location }) => location.name,
  path: ({ location }) => location.path,
  answer: ({ location, unplaced }) =>
    location.racks instanceof Missing
      ? location.racks
      : unplaced.length === 0
        ? { yes: true, because: `each of ${location.points.length} has one` }
        : {
            yes: false,
            because: `${namesOf(unplaced.map(({ name }) => name))} ${unplaced.length === 1 ? 'has' : 'have'} none`,
          },
});

export const suits = question<PlannedRacks, PlannedLocation>({
  id: 'racks.suits',
  title: 'Channels that suit',
  asks: 'Does every channel suit the point on it?',
  page: `Asked of every location with points on channels. A channel must be there, carry one point, and be of its kind; its type by IEC
61131-2, whether it takes or gives current, its range, its sensor, its current, its highest frequency and its filter must do for
the point, as far as both say something of it. Points that shall be together sit on one module, no two that shall be apart do,
and points of different potential share no group of channels. Where it is not known what stands in a rack or how wide it is, nobody
can say which channel a point sits on.`,
  advice: 'another channel for the point, another module',
  subjects: (racks) => withPoints(racks).filter(({ location, unplaced }) => unplaced.length < location.points.length),
  name: ({ location }) => location.name,
  path: ({ location }) => location.path,
  answer: ({ location, wrong, unsettled, placed: there }) =>
    location.racks instanceof Missing
      ? location.racks
      : wrong.length === 0 && unsettled.length > 0
        ? new Missing(unique(unsettled.flatMap(({ lacks }) => lacks)))
        : wrong.length === 0
          ? { yes: true, because: `each of ${there.length} does` }
          : {
              yes: false,
              because: `${wrong
                .slice(0, 3)
                .map(({ why }) => why)
                .join('; ')}${wrong.length > 3 ? `; and ${wrong.length - 3} more` : ''}`,
            },
});

export const spare = question<PlannedRacks, KindOfPoints>({
  id: 'racks.spare',
  title: 'Spare channels',
  asks: 'Are enough channels of each kind left free?',
  page: `Asked of every kind of point at every location. Demand: the points of the kind. Capacity: the channels that can be of the kind;
one that can be of several kinds counts for each as long as no other uses it. Free are the channels without a point; their share of
all channels is the margin. The reserve is \`reserves: { racks.spare: { digital_in: 15 % } }\`, of all channels unless
\`share_of: used\` says that it counts on those used: 75 free ones beside 225 used ones are 33 % of the used and 25 % of all.`,
  advice: 'another module of the kind, a module with more channels',
  subjects: ({ locations }) => locations.flatMap(({ kinds }) => kinds),
  name: ({ location, kind }) => `${location}.${kind}`,
  path: ({ path }) => path,
  reserve: {
    share: 0.2,
    source: 'common-practice',
    because: 'one channel in five is left for what is added while the machine is put to work',
  },
  wish: ({ spare: wanted }) => wanted,
  demand: ({ used }) => used,
  capacity: ({ there }) => there,
  says: (demand, capacity) => `${demand} of ${capacity} channels are used`,
});
