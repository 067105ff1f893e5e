// The reference page of the problems that a file can have, with the example that shows each.
import type { Assessment } from '@layshaft/core';
import { problemCodes } from '../../packages/core/src/problems/codes.ts';
import { printProblem } from '../../packages/core/src/problems/problem.ts';
import type { Example } from '../../tests/support/examples.ts';
import { page } from './markdown.ts';

export async function problemsPage(
  examples: readonly Example[],
  assess: (example: Example) => Promise<Assessment>,
): Promise<string> {
  const section = async ([code, explanation]: readonly [string, string]): Promise<string> => {
    const example = examples.find(({ name }) => name === code);
    if (example === undefined) throw new Error(`examples/problems/ has no ${code}.yaml`);
    const { problems, machine } = (await assess(example)).design;
    const shown = [...problems, ...machine.remarks].map(printProblem).join('\n\n');
    return `## ${code}\n\n${explanation}\n\n\`\`\`text\n${shown}\n\`\`\``;
  };
  return page(
    'Problems',
    'What can be wrong in a file. Each kind has a code, which stands at the end of its first line. Each example is a file under [examples/problems](../../examples/problems); a file never shows more than its one problem.',
    ...(await Promise.all(Object.entries(problemCodes).map(section))),
  );
}
