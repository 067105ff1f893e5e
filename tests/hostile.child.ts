// Reads hostile texts, one a line as JSON on standard input, and answers each; only the test of hostile input starts it,
// with little memory.
import { createInterface } from 'node:readline';
import { assessText } from './support/examples.ts';
import { answerOf } from './support/hostile-answer.ts';

for await (const line of createInterface({ input: process.stdin })) {
  process.stdout.write(`${JSON.stringify(answerOf(assessText(JSON.parse(line) as string, 'hostile.yaml')))}\n`);
}
