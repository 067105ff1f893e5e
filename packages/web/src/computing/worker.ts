// The computing library in a worker of its own, so that the page stays quick; it answers requests in their order.
import { openDesk } from './desk.ts';
import type { Answer, Request } from './protocol.ts';

const desk = openDesk();

self.addEventListener('message', ({ data }: MessageEvent<Request>) => {
  const { id, kind, ask } = data;
  const say = (answer: Answer): void => self.postMessage(answer);
  // A defect of the program: the page says so and goes on with what it has.
  const fail = (error: unknown): void =>
    say({ id, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  try {
    const answer = (desk[kind] as (ask: unknown) => unknown)(ask);
    if (answer instanceof Promise) answer.then((later: unknown) => say({ id, answer: later }), fail);
    else say({ id, answer });
  } catch (error) {
    fail(error);
  }
});
