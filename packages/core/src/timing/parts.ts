// What a controller states of its tasks: what each thing that a task does costs, and what its memories hold.
import { figure } from '../reading/figure.ts';
import { quantity } from '../reading/values.ts';

const cost = (about: string, example: string) => figure('s', { about, least: 0, example });

/** What a task can be said to contain, each with the figure of the controller that it costs. */
export const contents = ['axes', 'geared', 'cammed', 'cams', 'blocks', 'points', 'messages', 'lines'] as const;
export type Content = (typeof contents)[number];

export const costOf = {
  axes: 'task_per_axis',
  geared: 'task_per_geared',
  cammed: 'task_per_cammed',
  cams: 'task_per_cam',
  blocks: 'task_per_block',
  points: 'task_per_point',
  messages: 'task_per_message',
  lines: 'task_per_line',
} as const satisfies Record<Content, string>;

export const memoryOf = {
  retained: 'memory_retained',
  cam_tables: 'memory_cam_tables',
  logs: 'memory_logs',
} as const;

export const controllerTaskFields = {
  task_base: cost('Time of a task that does nothing, in each run.', '12 µs'),
  task_per_axis: cost('Time of a task for each axis that it commands.', '6 µs'),
  task_per_geared: cost(
    'The same for one that follows a master by an electronic gear, where that takes another time.',
    '4 µs',
  ),
  task_per_cammed: cost('The same for one that follows a master in any other way, by a cam or a knife.', '9 µs'),
  task_per_cam: cost('Time of a task for each cam that it switches or reads.', '9 µs'),
  task_per_block: cost('Time of a task for each motion block that it calls.', '15 µs'),
  task_per_point: cost('Time of a task for each point that it reads or writes.', '0.4 µs'),
  task_per_message: cost('Time of a task for each message that it sends or answers.', '60 µs'),
  task_per_line: cost('Time of a task for each line of logic.', '0.1 µs'),
  [memoryOf.retained]: quantity('bit', {
    about: 'Memory for variables that last while the power is off.',
    least: 0,
    example: '65536 octets',
  }),
  [memoryOf.cam_tables]: quantity('bit', { about: 'Memory for tables of cams.', least: 0, example: '4000000 octets' }),
  [memoryOf.logs]: quantity('bit', { about: 'Memory for logs.', least: 0, example: '16000000 octets' }),
};
