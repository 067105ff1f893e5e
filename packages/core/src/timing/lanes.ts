// The critical instant of a task as a picture: one lane for each task that comes in between, and who runs when.
import { type Drawn, type Mark, notDrawn, type Picture, pen, type Row } from '../pictures/picture.ts';
import { given, Missing } from '../working/missing.ts';
import { print } from '../working/working.ts';
import { blocked } from './calc/among.ts';
import { type CriticalInstant, criticalInstant } from './calc/critical-instant.ts';
import { seconds } from './calc/picoseconds.ts';
import type { PlannedCore, PlannedTask } from './tasks.ts';

/** More stretches than this nobody tells apart (our judgement). */
const mostBars = 2000;

export function lanes(core: PlannedCore, task: PlannedTask): Drawn {
  const name = 'lanes';
  const title = `The critical instant of ${task.name}`;
  const found = instantOf(core, task);
  const why = (text: string): Drawn => ({ picture: notDrawn(name, title, text), numbers: [] });
  if (found instanceof Missing) return why('Not known yet: the times of all tasks of the core.');
  if (found === undefined) return why('The core is asked for more than the whole time: there is no longest response.');
  if (found.bars.length > mostBars) return why(`${found.bars.length} stretches are too many to be drawn.`);
  return { picture: drawn(core, task, found, title), numbers: numbersOf(task) };
}

function instantOf({ tasks }: PlannedCore, task: PlannedTask): CriticalInstant | undefined | Missing {
  const all = tasks.map((each) =>
    given(
      { C: each.takes, T: each.period, J: each.jitter, P: each.priority, D: each.deadline, b: each.blocks },
      ({ C, T, J, P, D, b }) => [C.value, T.value, J.value, P.value, D.value, b.value] as const,
    ),
  );
  return given({ all, response: task.response }, (known) =>
    criticalInstant(blocked(known.all as Parameters<typeof blocked>[0]), tasks.indexOf(task)),
  );
}

const numbersOf = ({ response, deadline, takes }: PlannedTask) =>
  [response, deadline, takes].flatMap((each) => (each instanceof Missing ? [] : [each]));

function drawn({ tasks }: PlannedCore, task: PlannedTask, found: CriticalInstant, title: string): Picture {
  const { write } = pen();
  // The more urgent first, the task itself last: those that never run are left out.
  const shown = tasks.map((_, at) => at).filter((at) => found.releases_ps[at]!.length > 0);
  const order = [...shown.filter((at) => tasks[at] !== task), tasks.indexOf(task)];
  const end = seconds(found.finish_ps);
  const from = Math.min(0, seconds(found.release_ps));
  const due = task.deadline instanceof Missing ? end : seconds(found.release_ps) + task.deadline.value;
  const to = Math.max(end, due);
  const rows: readonly Row[] = [
    ...order.map((at): Row => ({ height: 1.5, above: 0.4, label: [titleOf(tasks[at]!)], grid: true })),
    { height: 1.6, above: 0.2, ticks: true },
    { height: 1.7, above: 0.2 },
  ];
  const [ticks, measure] = [order.length, order.length + 1];
  const rowOf = (at: number): number => order.indexOf(at);
  const marks: readonly Mark[] = [
    ...(found.blocked_ps > 0
      ? [
          {
            kind: 'bar',
            row: rowOf(tasks.indexOf(task)),
            from: 0,
            to: seconds(found.blocked_ps),
            fill: 'hatched',
            tone: 'quiet',
          } as const,
        ]
      : []),
    ...found.bars.map(
      (bar): Mark => ({
        kind: 'bar',
        row: rowOf(bar.task),
        from: seconds(bar.from_ps),
        to: seconds(bar.to_ps),
        fill: tasks[bar.task] === task ? 'solid' : 'tinted',
        tone: 'traffic',
        about: tasks[bar.task]!.path,
      }),
    ),
    ...order.flatMap((at): readonly Mark[] =>
      found.releases_ps[at]!.map((release) => ({
        kind: 'line',
        points: [
          { x: seconds(release), row: rowOf(at), y: 0 },
          { x: seconds(release), row: rowOf(at), y: 1 },
        ],
        weight: 'fine',
        tone: 'plain',
      })),
    ),
    {
      kind: 'line',
      points: [
        { x: due, row: 0, y: 1 },
        { x: due, row: ticks - 1, y: 0 },
      ],
      weight: 'rail',
      tone: 'plain',
    },
    ...(task.response instanceof Missing
      ? []
      : [
          {
            kind: 'measure',
            row: measure,
            from: seconds(found.release_ps),
            to: end,
            forms: [['response ', write(task.response)], [write(task.response)]],
          } as const,
        ]),
  ];
  return {
    name: 'lanes',
    title,
    caption: `All that is more urgent starts together with ${task.name}${found.blocked_ps > 0 ? ', while a less urgent task cannot be interrupted' : ''}; the heavy line is the deadline.`,
    scale: { from, to, unit: 's' },
    rows,
    marks,
    legend: [
      { fill: 'solid', tone: 'traffic', means: `${task.name} runs` },
      ...(order.length > 1 ? [{ fill: 'tinted', tone: 'traffic', means: 'a more urgent task runs' } as const] : []),
      ...(found.blocked_ps > 0
        ? [{ fill: 'hatched', tone: 'quiet', means: 'a less urgent one cannot be interrupted' } as const]
        : []),
    ],
    text: textOf(tasks, task, found, write),
  };
}

function textOf(
  tasks: readonly PlannedTask[],
  task: PlannedTask,
  { bars }: CriticalInstant,
  write: ReturnType<typeof pen>['write'],
): Picture['text'] {
  const jobs = (at: number): number => new Set(bars.filter((bar) => bar.task === at).map((bar) => bar.job)).size;
  return [
    [
      `${task.name} is done `,
      ...(task.response instanceof Missing ? ['at a time that is not known'] : ['after ', write(task.response)]),
      ...(task.deadline instanceof Missing ? [] : [`; it is due after ${print(task.deadline)}`]),
      '.',
    ],
    ...tasks.flatMap((each, at) =>
      each === task || jobs(at) === 0
        ? []
        : [[`${titleOf(each)} comes in between ${jobs(at) === 1 ? 'once' : `${jobs(at)} times`}.`]],
    ),
  ];
}

export const titleOf = ({ kind, name, network }: Pick<PlannedTask, 'kind' | 'name' | 'network'>): string =>
  kind === 'kernel' ? (name === 'kernel' ? 'motion kernel' : `motion kernel of ${network}`) : name;
