// What can be written at the cursor: the keys and words of the schema, names of the file, parts of the catalogues.
import {
  autocompletion,
  type Completion,
  type CompletionContext,
  type CompletionResult,
  completionKeymap,
} from '@codemirror/autocomplete';
import { type EditorState, type Extension, Prec } from '@codemirror/state';
import { keymap } from '@codemirror/view';
import { namesInFile } from './names-in-file.ts';
import { type Spot, spotAt } from './path-at.ts';
import { fieldAt, type JsonSchema, keysAt, type Path, takesPart, valuesAt } from './schema-at.ts';

export interface OfferedPart {
  readonly name: string;
  readonly kind: string;
  readonly title: string;
}

export interface Offering {
  readonly schema: JsonSchema;
  /** The parts in the catalogues, by kind. */
  readonly parts: Readonly<Record<string, readonly OfferedPart[]>>;
}

/** Asked at every completion, since the catalogues in use may have changed; nothing while it is not known. */
export type AskOffering = () => Promise<Offering | undefined>;

/** Nothing is chosen before an arrow key chooses it, so that Enter never writes what nobody asked for. */
export const fileCompletion = (ask: AskOffering): Extension => [
  autocompletion({
    override: [(context) => completionsFor(context, ask)],
    icons: false,
    selectOnOpen: false,
    defaultKeymap: false,
  }),
  Prec.highest(keymap.of([...completionKeymap])),
];

/** All that may be written at a position, in the order of the schema. */
export function completionsAt(state: EditorState, position: number, offering: Offering): CompletionResult | undefined {
  const spot = spotAt(state, position);
  if (spot === undefined) return undefined;
  const keys = spot.at === 'key' ? keysFor(state, spot, offering) : [];
  // Where nothing else stands, what is typed may still become a word of its own instead of the first key of a map.
  const words = spot.at === 'value' || (spot.taken.length === 0 && !spot.colon) ? wordsFor(state, spot, offering) : [];
  const options = [...keys, ...words];
  if (options.length === 0) return undefined;
  return { from: spot.from, to: spot.to, options, validFor: /^[^\s,:[\]{}#]*$/ };
}

async function completionsFor(context: CompletionContext, ask: AskOffering): Promise<CompletionResult | null> {
  const offering = await ask();
  const result = offering && completionsAt(context.state, context.pos, offering);
  if (result === undefined) return null;
  // A number that is typed is nobody's beginning of an example; unasked, only words are completed.
  const typed = context.state.sliceDoc(result.from, context.pos);
  return context.explicit || /^[a-z]/i.test(typed) ? result : null;
}

function keysFor(state: EditorState, spot: Spot, { schema }: Offering): readonly Completion[] {
  const column = spot.from - state.doc.lineAt(spot.from).from;
  return keysAt(schema, spot.path)
    .filter(({ key }) => !spot.taken.includes(key))
    .map(({ key, about, opens }) => {
      const rest = opens && !spot.inBrackets ? `:\n${' '.repeat(column + 2)}` : ': ';
      return { label: key, ...(spot.colon ? {} : { apply: key + rest }), ...informed(about) };
    });
}

function wordsFor(state: EditorState, { path }: Spot, { schema, parts }: Offering): readonly Completion[] {
  const names = namesInFile(state, schema, path);
  const use = path.at(-1) === 'part' && takesPart(schema, path.slice(0, -1)) ? path.slice(0, -1) : path;
  const fitting = takesPart(schema, use) ? partsFor(schema, use, parts) : [];
  // An example stands in for a name only as long as no real one is known.
  if (names.length > 0 || fitting.length > 0) {
    const told = fitting.map(({ name, kind, title }) => ({ label: name, detail: kind, ...informed(title) }));
    return [...new Set(names)].map((label): Completion => ({ label })).concat(told);
  }
  return valuesAt(schema, path).map(({ text, about }) => ({ label: text, ...informed(about) }));
}

/** The kind is the word of the schema for the place, as `drive` and `cable`; where the user chose the word, any may fit. */
function partsFor(schema: JsonSchema, use: Path, parts: Offering['parts']): readonly OfferedPart[] {
  const kind = fieldAt(schema, use) ?? '';
  return Object.hasOwn(parts, kind) ? parts[kind]! : Object.values(parts).flat();
}

const informed = (about: string): Partial<Completion> => (about === '' ? {} : { info: about });
