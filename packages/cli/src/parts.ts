// layshaft parts: what the catalogue has, by kind, and one part with all its figures.
import { dirname, join } from 'node:path';
import { demonstration } from '@layshaft/catalogue';
import { type Catalogue, figuresOf, nearest, type Part, printProblem, readCatalogue, textOf } from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { inColumns, indent, paragraphs } from './layout.ts';
import { codeOf, decode } from './read-file.ts';
import { type Look, type LookOptions, lookOf } from './terminal.ts';

export interface PartsOptions extends LookOptions {
  /** A catalogue file to look into as well; its parts go before those of the demonstration. */
  readonly catalogue?: string;
}

/** Lists kinds, the parts of a kind, or one part. Throws a UserError for a word that is neither. */
export async function parts(word: string | undefined, options: PartsOptions, io: Io): Promise<number> {
  const own = options.catalogue === undefined ? undefined : await catalogueAt(options.catalogue, io);
  const all = new Map([...demonstration().parts, ...(own?.parts ?? [])]);
  const look = lookOf(options, io);
  for (const problem of own?.problems ?? []) io.stderr.write(`${printProblem(problem)}\n`);
  io.stdout.write(`${lines(word, all, look).join('\n')}\n`);
  return (own?.problems.length ?? 0) > 0 ? exit.unusable : exit.fine;
}

async function catalogueAt(file: string, io: Io): Promise<Catalogue> {
  try {
    return readCatalogue(file, [
      {
        file: join(dirname(file), file.slice(dirname(file).length).replace(/^[/\\]/, '')),
        text: decode(await io.readFile(file)),
      },
    ]);
  } catch (error) {
    if (codeOf(error) === undefined) throw error;
    throw new UserError(`There is no catalogue ${file}. Look at its spelling, and at the folder you are in.`);
  }
}

function lines(word: string | undefined, all: ReadonlyMap<string, Part>, look: Look): readonly string[] {
  const kinds = [...new Set([...all.values()].map(({ kind }) => kind))];
  if (word === undefined) {
    const rows = kinds.map((kind) => [kind, namesOf(kind, all).join(', ')]);
    return [
      ...inColumns(rows, 0, look.columns),
      '',
      ...indent(
        'layshaft parts KIND lists a kind with its figures, layshaft parts NAME shows one part with conditions and sources.',
        0,
        look.columns,
      ),
    ];
  }
  if (kinds.includes(word))
    return paragraphs([...all.values()].filter(({ kind }) => kind === word).map((part) => short(part, look)));
  const part = all.get(word);
  if (part !== undefined) return long(part, look);
  const near = nearest(word, [...kinds, ...all.keys()]);
  throw new UserError(
    `No kind and no part is called ${word}.${near === undefined ? '' : ` Did you mean ${near}?`} Kinds are ${kinds.join(', ')}.`,
  );
}

const namesOf = (kind: string, all: ReadonlyMap<string, Part>): readonly string[] =>
  [...all.values()].filter((part) => part.kind === kind).map(({ name }) => name);

const head = (part: Part, look: Look): string => {
  const cost = textOf(part.cost);
  return `${look.strong(part.name)}  ${textOf(part.title) ?? part.kind}${cost === undefined ? '' : `, cost ${cost}`}`;
};

const short = (part: Part, look: Look): readonly string[] => [
  head(part, look),
  ...indent(
    figuresOf(part)
      .map(({ key, text }) => `${key} ${text}`)
      .join('; '),
    4,
    look.columns,
  ),
];

function long(part: Part, look: Look): readonly string[] {
  const rows = figuresOf(part).map(({ key, text, typical, condition, source }) => [
    key,
    text,
    [
      typical === undefined ? '' : `usually ${typical}`,
      condition === undefined ? '' : `holds for: ${condition}`,
      source ?? '',
    ]
      .filter((each) => each !== '')
      .join('; '),
  ]);
  const version = textOf(part.version);
  const needs = part.requires.map(
    (each) => `${each.part}${each.version === undefined ? '' : ` of version ${each.version} or later`}`,
  );
  return [
    head(part, look),
    ...indent(
      `A part of kind ${part.kind}, catalogue ${part.catalogue}${version === undefined ? '' : `, version ${version}`}.`,
      4,
      look.columns,
    ),
    ...(needs.length === 0 ? [] : indent(`Requires ${needs.join(' and ')}.`, 4, look.columns)),
    ...inColumns(rows, 4, look.columns),
  ];
}
