// What `show` tells of an axis: its demand, case by case, phase by phase, its train and the course of its cycle.
import type { Cell, Input, LaterTable, Table, View } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { losersHead, losersTable, optionsHead, optionsTable } from './choice-tables.ts';
import { type Choice, isChoosable } from './choose.ts';
import { curves } from './curves.ts';
import type { AxisDemand, Case } from './demand.ts';
import { driveHeatRows } from './drive-heat.ts';
import type { Line } from './line.ts';
import { lostMotionRows } from './lost-motion.ts';
import { ownEncoderRows } from './own-encoder.ts';
import { traceOf } from './trace.ts';
import { warming } from './warming.ts';
import { fullRollOf } from './winder.ts';
import { saysWarmth, windingOf } from './winding.ts';

/** `chosen` makes the choice of parts for an axis that leaves one open; nothing where none is. */
export function axisView(demand: AxisDemand, chosen: () => Value<Choice> | undefined): View {
  const { axis, cases } = demand;
  const known = cases instanceof Missing ? [] : cases;
  return {
    address: axis.path,
    title: `Axis ${axis.name}`,
    says: result(demand),
    inputs: inputsOf(demand),
    pictures: [curves(demand), ...warming(demand)],
    tables: [
      demandTable(demand),
      ...rollTables(axis),
      ...(known.length === 0 ? [] : [casesTable(known), phasesTable(known[0]!)]),
      ...(demand.line instanceof Missing ? [] : [trainTable(demand.line)]),
    ],
    later: [...choiceLater(demand, chosen), ...known.map((each) => curveTable(each))],
  };
}

/** The result of all axes in a few words. */
export function axesGist(demands: readonly AxisDemand[]): readonly Cell[] {
  const known = demands.flatMap(({ peak }) => (peak instanceof Missing ? [] : [peak]));
  const highest = known.reduce<Quantity | undefined>(
    (most, each) => (most && most.value >= each.value ? most : each),
    undefined,
  );
  const open = demands.length - known.length;
  if (highest === undefined) return ['what they demand is not known yet'];
  return [...(open === 0 ? [] : [`${open} of ${demands.length} not known yet; `]), highest, ' at the highest'];
}

function result({ peak, rms, speed, axis }: AxisDemand): readonly Cell[] {
  if (peak instanceof Missing || rms instanceof Missing || speed instanceof Missing)
    return ['What the axis demands is not known yet.'];
  const rotor = axis.motor.inertia instanceof Missing ? ', the rotor not counted' : '';
  return [
    'The motor must give ',
    peak,
    ' at the highest and ',
    rms,
    ' effective (root mean square), at up to ',
    speed,
    `${rotor}.`,
  ];
}

function demandTable(demand: AxisDemand): Table {
  const { axis, peak, rms, speed, inertia, holding } = demand;
  const { motor, lossesOn, lossesSaid } = axis;
  const rows: readonly (readonly Cell[])[] = [
    ['highest torque', peak, ...limit(motor.torque_peak, motor.absent)],
    ['effective torque over the cycle', rms, ...limit(motor.torque, motor.absent)],
    ['highest speed', speed, ...limit(motor.speed, motor.absent)],
    ['inertia of the load', inertia, ...limit(motor.inertia, motor.absent)],
    ...(holding === undefined ? [] : [['torque that holds the load', holding, ...limit(motor.brake, motor.absent)]]),
    ...(saysWarmth(demand) ? windingRows(demand) : []),
    ...[...lostMotionRows(demand), ...ownEncoderRows(demand), ...driveHeatRows(demand)].map(([what, value]) => [
      what,
      value,
      '',
    ]),
    [
      'losses act on',
      `${lossesOn instanceof Missing ? 'not known' : lossesOn.replaceAll('_', ' ')}${lossesSaid ? '' : ', for the file says nothing else'}`,
      '',
    ],
  ];
  return {
    name: 'demand',
    title: 'What the axis demands at the motor shaft',
    columns: ['what', 'demand', 'the motor has'],
    rows,
  };
}

/** How much web a winder takes, and for how long. */
function rollTables(axis: Axis): readonly Table[] {
  const roll = fullRollOf(axis);
  if (roll === undefined) return [];
  return [
    {
      name: 'roll',
      title: 'The full roll',
      columns: ['what', 'value'],
      rows: [
        ['length of web', roll.length],
        ['turns of web', roll.turns],
        ['time for it at the speed of the line', roll.time],
      ],
    },
  ];
}

function windingRows(demand: AxisDemand): readonly (readonly Cell[])[] {
  const winding = windingOf(demand);
  const hottest = winding instanceof Missing ? winding : winding.hottest;
  const warmAfter = winding instanceof Missing ? winding : winding.warmAfter;
  return [
    ['hottest winding in the long run', hottest, demand.axis.motor.winding_at_most],
    ['until it has 95 % of that rise', warmAfter, ''],
  ];
}

const limit = (value: Value<Quantity>, absent: boolean): readonly [Cell] => [absent ? 'open' : value];

function casesTable(cases: readonly Case[]): Table {
  return {
    name: 'cases',
    title: 'Case by case',
    note: 'a ramp or a stop of a motion that goes with its master: one cycle at full speed with the acceleration of the master added',
    columns: ['case', 'peak', 'effective', 'speed', 'mean speed', 'power', 'mean power'],
    rows: cases.map(({ title, peak, rms, speed, meanSpeed, power, meanPower }) => [
      title,
      peak,
      rms,
      speed ?? 'none',
      meanSpeed,
      power,
      meanPower,
    ]),
  };
}

function phasesTable({ phases, title }: Case): Table {
  return {
    name: 'phases',
    title: `Phase by phase: ${title}`,
    note: 'torque: at its highest, below 0 where the motor brakes',
    columns: ['phase', 'time', 'torque', 'effective', 'power', 'given', 'taken back'],
    rows: phases.map((each) => [
      each.phase.title,
      each.phase.duration,
      each.torque,
      each.effective,
      each.power,
      each.given,
      each.returned,
    ]),
  };
}

function trainTable({ stages }: Line): Table {
  const list = (name: string, quantities: readonly Quantity[]): readonly (readonly Cell[])[] =>
    quantities.map((each): readonly Cell[] => [name, each, sourceOf(each)]);
  return {
    name: 'train',
    title: 'The train, from the tool to the motor shaft',
    columns: ['what', 'value', 'from'],
    rows: stages.flatMap(({ name, inertias, constants, frictions, transform, told }) => [
      [name, '', ''],
      ...told.flatMap(([what, value]) => list(what, [value])),
      ...list('mass or inertia', inertias),
      ...list('constant load', constants),
      ...list(
        'friction',
        frictions.flatMap(({ coulomb }) => coulomb ?? []),
      ),
      ...list(
        'friction that grows with speed',
        frictions.flatMap(({ viscous }) => viscous ?? []),
      ),
      ...list(
        'friction at rest',
        frictions.flatMap(({ breakaway }) => breakaway ?? []),
      ),
      ...(transform === undefined
        ? []
        : [
            ...list(transformNames[transform.kind], [transform.by]),
            ...list('efficiency', transform.driving ? [transform.driving] : []),
            ...list(
              'efficiency when the load drives',
              transform.driven === undefined || transform.driven === transform.driving ? [] : [transform.driven],
            ),
          ]),
    ]),
  };
}

const transformNames = { screw: 'lead', wheel: 'diameter', gear: 'ratio' } as const;

const sourceOf = (quantity: Quantity): string => (isLeaf(quantity) ? (quantity.by as Origin).kind : 'computed');

const none: Choice = { options: [], losers: [], weighed: 0, brakeNeeded: false, untold: [] };

/** What the catalogues have for an axis whose motor, gear or drive is open. Both tables are made of one choice. */
function choiceLater({ axis }: AxisDemand, chosen: () => Value<Choice> | undefined): readonly LaterTable[] {
  if (!isChoosable(axis)) return [];
  let made: Value<Choice> | undefined;
  const choice = (): Choice => {
    made ??= chosen();
    return made === undefined || made instanceof Missing ? none : made;
  };
  return [
    { ...optionsHead, make: () => optionsTable(choice()) },
    { ...losersHead, make: () => losersTable(choice()) },
  ];
}

/** The course of a case as plain numbers, for a spreadsheet. */
function curveTable(each: Case): LaterTable {
  const head = { name: `curve_${each.name}`, title: `The course: ${each.title}` };
  const digits = (value: number): string => String(Number(value.toPrecision(6)));
  return {
    ...head,
    alone: true,
    make: () => ({
      ...head,
      note: 'tool in m or rad and s, motor in N·m and rad/s',
      columns: ['time', 'position', 'speed', 'acceleration', 'torque', 'motor speed'],
      rows: traceOf(each, 12).map(({ time_s, position, velocity, acceleration, torque, speed }) =>
        [time_s, position, velocity, acceleration, torque, speed].map(digits),
      ),
    }),
  };
}

/** What one would move to see the axis follow: the values that its motion, its train and its master are told by. */
function inputsOf({ motion, line, axis }: AxisDemand): readonly Input[] {
  const leaves = new Map<string, Quantity>();
  const add = (value: unknown): void => {
    if (Array.isArray(value)) for (const each of value) add(each);
    else if (value instanceof Quantity && isLeaf(value) && (value.by as Origin).kind === 'given')
      leaves.set(value.about, value);
  };
  const master = axis.master;
  if (master !== undefined && !(master instanceof Missing)) add(master.speed);
  if (!(motion instanceof Missing))
    for (const { inputs } of motion.phases) for (const each of Object.values(inputs)) add(each);
  if (!(line instanceof Missing))
    for (const { inertias, transform } of line.stages) add([...inertias, transform?.by, transform?.driving]);
  return [...leaves.values()].slice(0, mostInputs).map((value) => ({
    path: value.about,
    title: inputTitle(value.about, [...leaves.keys()]),
    value,
    ...(value.value > 0 && {
      span: { least: value.value / 10, most: value.unit === '1' && value.value <= 1 ? 1 : 3 * value.value },
    }),
  }));
}

/** By the words of the file, the thing last: 'mass of the belt'. Elements of one kind are told apart by where they stand. */
function inputTitle(path: string, all: readonly string[]): string {
  const [section, name = '', ...rest] = path.split('.');
  const words = (keys: readonly string[]): string =>
    keys.map((key) => (/^\d+$/.test(key) ? String(Number(key) + 1) : key.replaceAll('_', ' '))).join(' ');
  if (section === 'masters') return `${words(rest)} of ${name}`;
  const [of, at = '', kind = '', ...keys] = rest;
  // Of a motion that is told in steps, which one.
  if (of === 'motion' && at === 'steps') return `step ${words([kind])}: ${words(keys)}`;
  if (of === 'motion' && kind !== '') return `${words([at])}: ${words([kind, ...keys])}`;
  if (of !== 'train' || keys.length === 0) return words(rest);
  const isOther = (other: string): boolean => new RegExp(`\\.train\\.(?!${at}\\.)\\d+\\.${kind}\\.`).test(other);
  return `${words(keys)} of the ${words([kind])}${all.some(isOther) ? `, element ${words([at])}` : ''}`;
}

/** More sliders than this nobody looks for the right one among (our judgement); a cam of a thousand points has none. */
const mostInputs = 8;
