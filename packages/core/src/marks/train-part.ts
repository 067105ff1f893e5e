// What the tool moves by against its motor: wind-up and play of the train of the axis that acts on the mark.
import type { Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { halfLostMotion } from './calc/contribution.ts';
import type { PlacedMark } from './mark.ts';
import type { Maker, Part } from './part.ts';

/** A typed one goes before what follows from the train; a length on a measuring roll is none of the train's. */
export function trainPart({ said, path, train }: PlacedMark, maker: Maker): readonly Value<Part>[] {
  const { lost_motion } = said;
  const where = `${path}.lost_motion`;
  if (lost_motion !== undefined) return [maker.told('lost_motion', lost_motion, 'each edge')];
  if (train?.known === undefined || isOnRoll(said)) return [];
  const span = given({ known: train.known }, ({ known }) => known.span);
  if (span === undefined) return [];
  const limit = given(
    { span },
    ({ span: w }): Value<Quantity<'m'>> =>
      w.unit === 'm'
        ? halfLostMotion({ w: w as Quantity<'m'> }, `${maker.about}.lost_motion`)
        : missing(
            where,
            'absent',
            `a length, since ${train.axis} turns and does not say how much web a turn is`,
            '20 µm',
          ),
  );
  return [maker.within('lost_motion', where, 'arcsine', limit as Value<Quantity<'m'>>, 'each edge')];
}

const isOnRoll = ({ length, roll }: PlacedMark['said']): boolean => length !== undefined && roll !== undefined;

/** Where it comes from; nothing where the mark has no axis that the file describes, a typed value, or a roll of its own. */
export function trainTable({ said, train, path }: PlacedMark): readonly Table[] {
  if (train === undefined || said.lost_motion !== undefined || isOnRoll(said)) return [];
  const head = {
    name: 'train',
    title: `Lost motion of the train of ${train.axis}`,
    columns: ['what', 'value'],
  };
  const { known } = train;
  if (known === undefined)
    return [{ ...head, rows: [['none is counted', none[train.counts === 'changing' ? 'changing' : 'unsaid']]] }];
  if (known instanceof Missing) return [{ ...head, rows: [['from one end to the other', known]] }];
  const { lowest, highest, reverses, windUp, play, span } = known;
  return [
    {
      ...head,
      note: `in the cycle at full speed; counted as arcsine, since a train lies at its ends more often than between them; ${path}.lost_motion can say another value`,
      rows: [
        ['lowest torque through it, at the motor shaft', lowest],
        ['highest torque through it', highest],
        ['does the torque turn round?', turnsRound(reverses, play !== undefined)],
        ...(windUp === undefined ? [] : [['wind-up between both torques', windUp]]),
        ...(play === undefined ? [] : [['play', play]]),
        ['from one end to the other', span ?? 'none, as the torque'],
      ],
    },
  ];
}

const turnsRound = (reverses: boolean, saysPlay: boolean): string =>
  reverses ? `yes${saysPlay ? ': play counts' : '; no play is said'}` : `no${saysPlay ? ': play does not count' : ''}`;

const none = {
  unsaid: 'the train says neither stiffness nor play',
  changing: 'the roll of web changes',
} as const;
