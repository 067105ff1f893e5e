// The files under examples/problems/: each shows one kind of problem, each under slips/ a figure reckoned wrong.
import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { ProblemCode } from '../../packages/core/src/problems/codes.ts';
import { largestText_octets } from '../../packages/core/src/reading/parse.ts';
import type { Example } from './examples.ts';

const folder = 'examples/problems';

/** All of them; their name is the code that they show. The one that would be too large to keep is made here. */
export function problemExamples(): readonly Example[] {
  return [...examplesIn(folder), tooLarge()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The files under slips/: a figure in each is off by a slip that was published or is made again and again. */
export const slipExamples = (): readonly Example[] => examplesIn(`${folder}/slips`);

const examplesIn = (place: string): readonly Example[] =>
  readdirSync(place)
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => `${place}/${file}`)
    .map((path) => exampleOf(path, readFileSync(path, 'utf8')));

const exampleOf = (path: string, text: string): Example => ({
  name: basename(path, '.yaml'),
  path,
  text,
});

/** A trace of measured values saved under the name of the machine. */
function tooLarge(): Example {
  const line = '# 12.5 ms: position 104.2 mm\n';
  return exampleOf(
    `${folder}/${'text-too-large' satisfies ProblemCode}.yaml`,
    line.repeat(Math.ceil((largestText_octets + 1) / line.length)),
  );
}
