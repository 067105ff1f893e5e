// The files under examples/problems/, each of which shows one kind of problem.
import { readdirSync, readFileSync } from 'node:fs';
import type { ProblemCode } from '../../packages/core/src/problems/codes.ts';
import { largestText_octets } from '../../packages/core/src/reading/parse.ts';
import type { Example } from './examples.ts';

const folder = 'examples/problems';

/** All of them; their name is the code that they show. The one that would be too large to keep is made here. */
export function problemExamples(): readonly Example[] {
  const kept = readdirSync(folder)
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => `${folder}/${file}`)
    .map((path) => exampleOf(path, readFileSync(path, 'utf8')));
  return [...kept, tooLarge()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

const exampleOf = (path: string, text: string): Example => ({
  name: path.slice(folder.length + 1, -'.yaml'.length),
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
