// What stands at an address, as text: a finding, a number, a value that is missing, a place of the file, or several.
import { type FindingJson, lackSentence, marginBar, type Problem, printProblem, where } from '@layshaft/core';
import type { Meaning } from './find-address.ts';
import { inColumns, indent, paragraphs } from './layout.ts';
import { printFindings } from './print-finding.ts';
import { printOrigin } from './print-origin.ts';
import { printWorking } from './print-working.ts';
import type { Style } from './style.ts';

type Known = Exclude<Meaning, { readonly kind: 'nothing' }>;
type Of<K extends Known['kind']> = Extract<Known, { readonly kind: K }>;

export function printMeaning(meaning: Known, style: Style): readonly string[] {
  switch (meaning.kind) {
    case 'finding':
      return printFinding(meaning, style);
    case 'number':
      return paragraphs([
        printWorking(meaning.working, style),
        printAddresses('Findings that rest on it:', meaning.findings),
      ]);
    case 'missing':
      return paragraphs([
        printLacks([meaning.lack], style),
        printAddresses('Findings that wait for it:', meaning.findings),
      ]);
    case 'text':
      return indent(`${meaning.path} stands at ${where(meaning.place)}; no number rests on it.`, 0, style.look.columns);
    case 'several':
      return printSeveral(meaning, style);
  }
}

function printFinding({ finding, working, reserve, about }: Of<'finding'>, style: Style): readonly string[] {
  const { look, design } = style;
  const sentences: string[] = [];
  if (reserve?.origin !== undefined) {
    if (finding.verdict !== 'unknown') sentences.push(`${marginBar(finding).text}.`);
    sentences.push(`Reserve ${reserve.text}: ${reserve.address}, ${printOrigin(reserve.origin, design)}.`);
  }
  if (about !== undefined) sentences.push('Answered by yes or no, without a margin.');
  return paragraphs([
    [...printFindings([finding], look), ...sentences.flatMap((each) => indent(each, 4, look.columns))],
    printLacks(finding.lacks, style),
    working === undefined || finding.verdict !== 'unknown' ? [] : ['What is known of it:'],
    working === undefined ? [] : printWorking(working, style),
    about === undefined ? [] : printWorking(about, style),
  ]);
}

/** What is missing and what would settle it: the problem that is the cause, or where in the file the value belongs. */
function printLacks(lacks: FindingJson['lacks'], { look, design }: Style): readonly string[] {
  const { machine, problems } = design;
  const causesOf = ({ path }: FindingJson['lacks'][number]): readonly Problem[] =>
    problems.filter((problem) => problem.path === path || ancestors(path).includes(problem.path ?? ''));
  const sentences = lacks
    .filter((lack) => causesOf(lack).length === 0)
    .flatMap((lack) => {
      const written = [lack.path, ...ancestors(lack.path)].find((path) => machine.where(path) !== undefined);
      const place = written === undefined ? undefined : machine.where(written);
      const there = written === lack.path ? 'See' : `It belongs to ${written},`;
      return indent(
        `${lackSentence([lack])}.${place === undefined ? '' : ` ${there} ${where(place)}.`}`,
        0,
        look.columns,
      );
    });
  return paragraphs(
    [...new Set(lacks.flatMap(causesOf))].map((problem) => [printProblem(problem)]).concat([sentences]),
  );
}

/** `a.b.c` has `a.b` and `a`. */
function ancestors(path: string): readonly string[] {
  const end = path.lastIndexOf('.');
  return end < 0 ? [] : [path.slice(0, end), ...ancestors(path.slice(0, end))];
}

const printAddresses = (title: string, addresses: readonly string[]): readonly string[] =>
  addresses.length === 0 ? [] : [title, ...addresses.map((each) => `  ${each}`)];

/** More lines than this are shown on request only: about one screen (our judgement). */
const mostLines = 40;

function printSeveral({ addresses }: Of<'several'>, { look, lists }: Style): readonly string[] {
  const shown = lists === 'whole' || addresses.length <= mostLines ? addresses : addresses.slice(0, mostLines);
  const left = addresses.length - shown.length;
  return paragraphs([
    inColumns(
      shown.map(({ address, text }) => [address, text]),
      0,
      look.columns,
    ),
    left > 0 ? [`${left} more, shown with --all.`] : [],
  ]);
}
