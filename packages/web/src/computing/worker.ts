// The computing library in a worker of its own, so that the page stays quick; it answers requests in their order.
import { openDesk } from './desk.ts';
import type { Answer, Request } from './protocol.ts';

const desk = openDesk();

self.addEventListener('message', ({ data }: MessageEvent<Request>) => {
  const { id, kind, ask } = data;
  let answer: Answer;
  try {
    answer = { id, answer: (desk[kind] as (ask: unknown) => unknown)(ask) };
  } catch (error) {
    // A defect of the program: the page says so and goes on with what it has.
    answer = { id, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
  self.postMessage(answer);
});
