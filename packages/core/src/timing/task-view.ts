// What `show` tells of a task.

import { moved } from '../checks/moved-input.ts';
import type { Cell, Table, View } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import { taskShare } from './calc/among.ts';
import { lanes, titleOf } from './lanes.ts';
import type { PlannedCore, PlannedTask } from './tasks.ts';
import { watchedOf } from './watchdog.ts';

export function taskView(core: PlannedCore, task: PlannedTask): View {
  const { name, path, estimate, section } = task;
  return {
    address: path,
    title: `Task ${name}`,
    says: result(task),
    inputs: [
      ...moved(
        `${path}.every`,
        'Period',
        section?.every,
        section?.every instanceof Missing || section?.every?.unit === 's' ? undefined : 1,
      ),
      ...moved(`${path}.events_apart`, 'Least distance of events', section?.events_apart),
      ...(estimate === undefined ? moved(`${path}.takes`, 'Longest execution', task.takes) : []),
      ...moved(`${path}.blocks`, 'Longest stretch without interruption', section?.blocks),
      ...moved(`${path}.deadline`, 'Deadline', section?.deadline),
    ],
    pictures: [lanes(core, task)],
    tables: [
      timesTable(core, task),
      sumsTable(task),
      ...watchdogTable(task),
      ...(estimate === undefined ? [] : [estimateTable(task)]),
    ],
    later: [],
  };
}

function result({ name, response, deadline, takes, estimate, unbounded }: PlannedTask): readonly Cell[] {
  if (!(response instanceof Missing) && unbounded() !== undefined)
    return [
      unbounded() === 'length'
        ? 'The search for the longest response grew too long and was given up: what is certain is that '
        : 'More is asked of the core than all of its time: what is certain is that ',
      name,
      ' is not done before ',
      response,
      '.',
    ];
  if (response instanceof Missing || deadline instanceof Missing || takes instanceof Missing)
    return [`How long ${name} takes to answer is not known yet.`];
  return [
    'The task takes ',
    takes,
    estimate === undefined ? ' by itself' : ' by itself, by estimate,',
    ' and is done after ',
    response,
    ' at the latest; it is due after ',
    deadline,
    '.',
  ];
}

function timesTable({ tasks }: PlannedCore, task: PlannedTask): Table {
  return {
    name: 'times',
    title: `Tasks of its core, the more urgent first`,
    columns: ['task', 'priority', 'period', 'execution', 'share', 'response'],
    rows: tasks.map((each) => [
      each === task ? `${titleOf(each)}, this one` : titleOf(each),
      each.kind === 'kernel' ? 'before all' : each.priority,
      each.period,
      each.takes,
      given({ C: each.takes, T: each.period }, (known) => taskShare(known, each.name)),
      each.response,
    ]),
  };
}

function sumsTable({ sums, jitter }: PlannedTask): Table {
  const found = sums();
  const known = found instanceof Missing ? [] : found;
  const shown = known.length > mostSums ? [...known.slice(0, mostSums - 1), known.at(-1)!] : known;
  const late = jitter instanceof Missing || jitter.value === 0 ? '' : '; the jitter comes on top';
  return {
    name: 'sums',
    title: 'How the response is found: each sum counts what starts before the one above',
    note: `it ends where a sum gives itself again${late}`,
    columns: ['sum', 'time'],
    rows: found instanceof Missing ? [['', found]] : shown.map((each) => [String(known.indexOf(each) + 1), each]),
  };
}

/** Longer ones are cut before the last (our judgement). */
const mostSums = 16;

function watchdogTable(task: PlannedTask): readonly Table[] {
  const watched = watchedOf(task);
  if (watched === undefined) return [];
  const { after, silence, slowest } = watched;
  return [
    {
      name: 'watchdog',
      title: 'What the device hears that watches over its values',
      note: 'the slowest period counts the response as it is now',
      columns: ['what', 'time'],
      rows: [
        ['longest silence', silence],
        ['it faults after', after],
        ['slowest period that it bears', slowest],
      ],
    },
  ];
}

const contentNames = {
  axes: 'axes that go by themselves',
  geared: 'axes that follow by a gear',
  cammed: 'axes that follow in another way',
  cams: 'cams',
  blocks: 'motion blocks',
  points: 'points',
  messages: 'messages',
  lines: 'lines of logic',
} as const;

function estimateTable({ estimate, response, likelyResponse }: PlannedTask): Table {
  const { parts, takes, likely } = estimate!;
  return {
    name: 'estimate',
    title: 'Its execution, estimated from what it contains',
    note: 'a measured execution goes before it; the file says it as takes: { measured: …, date: …, count: … }',
    columns: ['what', 'how many', 'each, at most'],
    rows: [
      ...parts.map(({ content, count, cost }) => [contentNames[content], count, cost]),
      ['together, with every cost at most', '', takes],
      ['together, with every cost as it usually is', '', likely],
      ['response, with every cost of its core at most', '', response],
      ['response, with every cost of its core as it usually is', '', likelyResponse()],
    ],
  };
}
