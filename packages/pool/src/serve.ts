// The thread's side: does what a message asks and answers with the result, or with the error that stood in its way.
import { type TaskName, tasks } from './tasks.ts';

export interface Ask {
  readonly id: number;
  readonly task: TaskName;
  readonly chunk: unknown;
}

export type Answer = { readonly id: number } & (
  | { readonly result: unknown }
  | { readonly failed: { readonly name: string; readonly message: string; readonly stack: string | undefined } }
);

export function answerTo({ id, task, chunk }: Ask): Answer {
  try {
    return { id, result: (tasks[task] as (chunk: unknown) => unknown)(chunk) };
  } catch (error) {
    const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
    return { id, failed: { name, message, stack } };
  }
}
