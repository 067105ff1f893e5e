// layshaft parts: what the catalogue has, by kind, and one part with all its figures.
import { demonstration } from '@layshaft/catalogue';
import {
  type Catalogue,
  figuresOf,
  type Part,
  type PartFigure,
  printProblem,
  readCatalogue,
  textOf,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { inColumns, indent, paragraphs } from './layout.ts';
import { offered } from './offered.ts';
import { decode, unreadable } from './read-file.ts';
import { type Look, type LookOptions, lookOf } from './terminal.ts';

export interface PartsOptions extends LookOptions {
  /** A catalogue file to look into as well; its parts replace those of the demonstration that have the same name. */
  readonly catalogue?: string;
}

/** Lists kinds, the parts of a kind, or one part. Throws a UserError for a word that is neither. */
export async function parts(word: string | undefined, options: PartsOptions, io: Io): Promise<number> {
  const own = options.catalogue === undefined ? undefined : await catalogueAt(options.catalogue, io);
  const problems = own?.problems ?? [];
  for (const problem of problems) io.stderr.write(`${printProblem(problem)}\n`);
  const all = new Map([...demonstration().parts, ...(own?.parts ?? [])]);
  io.stdout.write(`${about(word, all, lookOf(options, io)).join('\n')}\n`);
  return problems.length > 0 ? exit.unusable : exit.fine;
}

async function catalogueAt(file: string, io: Io): Promise<Catalogue> {
  try {
    return readCatalogue(file, [{ file, text: decode(await io.readFile(file)) }]);
  } catch (error) {
    throw unreadable(file, error);
  }
}

function about(word: string | undefined, all: ReadonlyMap<string, Part>, look: Look): readonly string[] {
  const each = [...all.values()];
  const kinds = new Map(each.map(({ kind }) => [kind, each.filter((part) => part.kind === kind)]));
  if (word === undefined) return printKinds(kinds, look);
  const ofKind = kinds.get(word);
  if (ofKind !== undefined) return printKind(ofKind, look);
  const part = all.get(word);
  if (part !== undefined) return printPart(part, look);
  const near = offered(word, [...kinds.keys(), ...all.keys()]);
  throw new UserError(
    `No kind and no part is called ${word}.${near.length === 0 ? '' : ` Did you mean ${near.join(' or ')}?`} Kinds are ${[...kinds.keys()].join(', ')}.`,
  );
}

const usage =
  'layshaft parts KIND lists a kind with its figures, layshaft parts NAME shows one part with conditions and sources.';

const printKinds = (kinds: ReadonlyMap<string, readonly Part[]>, { columns }: Look): readonly string[] =>
  paragraphs([
    inColumns(
      [...kinds].map(([kind, ofKind]) => [kind, ofKind.map(({ name }) => name).join(', ')]),
      0,
      columns,
    ),
    indent(usage, 0, columns),
  ]);

/** Each part with the figures that tell it from others of its kind; those that all have alike stand below. */
function printKind(ofKind: readonly Part[], look: Look): readonly string[] {
  const figures = ofKind.map((part) => figuresOf(part).map(({ key, text }) => `${key} ${text}`));
  const [first = [], ...others] = figures;
  const alike = others.length === 0 ? [] : first.filter((figure) => others.every((each) => each.includes(figure)));
  const listed = (lead: string, these: readonly string[], by: number): readonly string[] =>
    these.length === 0 ? [] : indent(`${lead}${these.join('; ')}`, by, look.columns);
  const own = figures.map((each) => each.filter((figure) => !alike.includes(figure)));
  return paragraphs([
    ...ofKind.map((part, at) => [heading(part, look), ...listed('', own[at]!, 4)]),
    listed('All of them: ', alike, 0),
  ]);
}

const heading = (part: Part, look: Look): string => {
  const cost = textOf(part.cost);
  return `${look.strong(part.name)}  ${textOf(part.title) ?? part.kind}${cost === undefined ? '' : `, cost ${cost}`}`;
};

/** What all figures share is said once above them. */
function printPart(part: Part, look: Look): readonly string[] {
  const { kind, catalogue, source, condition, requires } = part;
  const version = textOf(part.version);
  const needs = requires.map((each) =>
    each.version === undefined ? each.part : `${each.part} of version ${each.version} or later`,
  );
  const figures = figuresOf(part);
  const sentences = [
    `A part of kind ${kind}, catalogue ${catalogue}${version === undefined ? '' : `, version ${version}`}.`,
    ...(needs.length === 0 ? [] : [`Requires ${needs.join(' and ')}.`]),
    `Source: ${source}.${condition === undefined ? '' : ` Holds for: ${condition}.`}`,
    ...(figures.some(({ typical }) => typical !== undefined)
      ? ['Checks count with the stated limit; what is usual stands beside it for comparison only.']
      : []),
  ];
  return [
    heading(part, look),
    ...sentences.flatMap((each) => indent(each, 4, look.columns)),
    '',
    ...inColumns(
      figures.map((figure) => [figure.key, figure.text, particulars(figure, part)]),
      4,
      look.columns,
    ),
  ];
}

/** What a figure says beside its limit, and where it departs from its part. */
const particulars = ({ typical, condition, source }: PartFigure, part: Part): string =>
  [
    ...(typical === undefined ? [] : [`usually ${typical}`]),
    ...(condition === undefined || condition === part.condition ? [] : [`holds for: ${condition}`]),
    ...(source === undefined || source === part.source ? [] : [`source: ${source}`]),
  ].join('; ');
