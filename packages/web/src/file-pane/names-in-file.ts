// The names that the file itself gives, where the schema asks for one: siblings for `like`, stations for a run.
import type { EditorState } from '@codemirror/state';
import { keysUnder } from './path-at.ts';
import { fieldAt, type JsonSchema, type Path } from './schema-at.ts';

/** None where the schema asks for no name of the file. */
export function namesInFile(state: EditorState, schema: JsonSchema, path: Path): readonly string[] {
  const field = fieldAt(schema, path);
  if (field === 'like') {
    const group = path.slice(0, -2);
    return namesUnder(state, group).filter((name) => name !== path.at(-2));
  }
  const runs = path.lastIndexOf('runs');
  if (runs < 0 || (field !== 'from' && field !== 'to')) return [];
  return ['controller', ...namesUnder(state, [...path.slice(0, runs), 'nodes']), ...namesUnder(state, ['axes'])];
}

const namesUnder = (state: EditorState, path: Path): readonly string[] => keysUnder(state, path).flatMap(namesOf);

/** A key that is a range of names stands for each of them: `rack_[1..3]`. */
function namesOf(key: string): readonly string[] {
  const range = /^(.*)\[(\d+)\.\.(\d+)\](.*)$/.exec(key);
  if (range === null) return [key];
  const [, head, first, last, tail] = range;
  const count = Math.min(Number(last) - Number(first) + 1, mostOfRange);
  return Array.from({ length: Math.max(0, count) }, (_, at) => `${head}${Number(first) + at}${tail}`);
}

/** How many names of one range are offered; our judgement, longer lists are not read by anybody. */
const mostOfRange = 200;
