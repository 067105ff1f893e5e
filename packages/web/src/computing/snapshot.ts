// An assessment as the page shows it: plain data, with pictures drawn at the width that the page has.
import {
  type Assessment,
  type Chapter,
  cellJson,
  chapters,
  type Drawn,
  findingJson,
  type Input,
  marginBar,
  type Origin,
  type Problem,
  placeOf,
  plainText,
  printSvg,
  setWorking,
  show,
  type Table,
  tellOrigin,
  type View,
  type Working,
} from '@layshaft/core';
import type {
  ChapterAt,
  FindingAt,
  InputAt,
  NumberAt,
  PictureAt,
  ProblemAt,
  Snapshot,
  TableAt,
  ViewAt,
  WorkingAt,
} from './protocol.ts';

/** The views that are on the page: those of the chapters, and the one that is looked at where it is another. */
export interface Views {
  readonly chapters: readonly Chapter[];
  readonly looked: readonly View[];
}

export function viewsOf(assessment: Assessment, address: string | undefined): Views {
  const all = chapters(assessment);
  const isOwn = all.some(({ views }) => views.some((view) => view.address === address));
  return { chapters: all, looked: address === undefined || isOwn ? [] : show(assessment, address) };
}

export function snapshotOf(
  assessment: Assessment,
  views: Views,
  width_px: number,
  wanting: readonly string[],
): Snapshot {
  const { machine } = assessment.design;
  const lineOf = (path: string): { readonly line?: number } => {
    const place = machine.where(path);
    return place === undefined || place.file !== machine.file ? {} : { line: place.line };
  };
  const writtenAt = (path: string): string | undefined => {
    const node = machine.reading.places.get(path)?.node;
    return node?.kind === 'leaf' ? node.text : undefined;
  };
  const view = (each: View): ViewAt => viewAt(each, width_px, lineOf, writtenAt);
  const offsets = lineStarts(machine.parsed.source.text);
  return {
    text: machine.parsed.source.text,
    machine: typeof machine.machine.name === 'string' ? machine.machine.name : undefined,
    problems: [
      ...assessment.design.problems.map((problem) => problemAt(problem, 'problem', machine.file, offsets)),
      ...machine.remarks.map((remark) => problemAt(remark, 'remark', machine.file, offsets)),
    ],
    findings: assessment.findings.map(
      (finding): FindingAt => ({ ...findingJson(finding), bar: marginBar(finding), ...lineOf(finding.path) }),
    ),
    chapters: views.chapters.map((chapter) => chapterAt(chapter, view)),
    looked: views.looked.map(view),
    wanting,
  };
}

const chapterAt = ({ domain, title, gist, verdicts, views }: Chapter, view: (of: View) => ViewAt): ChapterAt => ({
  domain,
  title,
  gist: gist.map(cellJson),
  verdicts,
  views: views.map(view),
});

type LineOf = (path: string) => { readonly line?: number };
type WrittenAt = (path: string) => string | undefined;

const viewAt = (view: View, width_px: number, lineOf: LineOf, writtenAt: WrittenAt): ViewAt => ({
  address: view.address,
  title: view.title,
  says: view.says.map(cellJson),
  inputs: view.inputs.map((input) => inputAt(input, lineOf, writtenAt(input.path))),
  pictures: view.pictures.map((drawn) => pictureAt(drawn, view.address, width_px)),
  tables: view.tables.map(tableAt),
  later: view.later.map(({ name, title }) => ({ name, title })),
  works: (view.works ?? []).map(({ job: _, ...work }) => work),
  ...(view.choosing && { choosing: view.choosing }),
});

function inputAt(input: Input, lineOf: LineOf, written: string | undefined): InputAt {
  const place = placeOf(input);
  return {
    path: input.path,
    title: input.title,
    value: cellJson(input.value),
    ...(written === undefined ? {} : { written }),
    ...(place === undefined ? {} : { place }),
    ...(input.offered && { offered: input.offered.map((each) => cellJson(each).text) }),
    ...lineOf(input.path),
  };
}

const pictureAt = ({ picture }: Drawn, address: string, width_px: number): PictureAt => ({
  name: picture.name,
  title: picture.title,
  caption: picture.caption,
  svg: printSvg(picture, { width_px, id: `${address}.${picture.name}`.replaceAll('.', '-') }),
  text: picture.text.map(plainText),
});

export const tableAt = ({ name, title, note, columns, rows, takes, takesAll }: Table): TableAt => ({
  name,
  title,
  ...(note === undefined ? {} : { note }),
  columns,
  rows: rows.map((row) => row.map(cellJson)),
  ...(takes && { takes }),
  ...(takesAll && { takesAll }),
});

type Filled = Parameters<typeof tellOrigin>[1];

/** One number explained, one step deep, with the lines of the file that it rests on all the way down. */
export function workingAt(asked: string, working: Working, filled: Filled): WorkingAt {
  const { step } = working;
  const set = setWorking(working);
  return {
    asked,
    number: numberAt(working, filled),
    ...(step && {
      step: {
        title: step.title,
        formula: step.formula,
        ...(set === undefined ? { prose: step.text } : { set }),
        substituted: step.substituted,
        ...(step.when === undefined ? {} : { when: step.when }),
        source: step.source,
        proof: step.proof,
        inputs: step.inputs.map(({ symbol, means, values }) => ({
          symbol,
          means,
          values: values.map((each) => numberAt(each, filled)),
        })),
      },
    }),
    lines: linesUnder(working, filled),
  };
}

function numberAt({ address, value, unit, text, origin }: Working, filled: Filled): NumberAt {
  const line = origin && lineOf(origin, filled);
  return {
    address,
    value,
    unit,
    text,
    origin: origin?.kind ?? 'derived',
    ...(origin && { told: tellOrigin(origin, filled) }),
    ...(line === undefined ? {} : { line }),
  };
}

/** Nothing for what stands in a table, which is no text of the file pane. */
function lineOf({ kind, writtenAt, path }: Origin, { machine }: Filled): number | undefined {
  const place = kind === 'assumed' ? undefined : (machine.where(writtenAt) ?? machine.where(path));
  return place?.file === machine.file ? place.line : undefined;
}

function linesUnder(working: Working, filled: Filled): readonly number[] {
  const lines = new Set<number>();
  const seen = new Set<Working>();
  const visit = (each: Working): void => {
    if (seen.has(each)) return;
    seen.add(each);
    const line = each.origin && lineOf(each.origin, filled);
    if (line !== undefined) lines.add(line);
    for (const input of each.step?.inputs ?? []) for (const value of input.values) visit(value);
  };
  visit(working);
  return [...lines].sort((a, b) => a - b);
}

function problemAt(
  problem: Problem,
  severity: ProblemAt['severity'],
  file: string,
  starts: readonly number[],
): ProblemAt {
  const { place, message, remedy, instead } = problem;
  const own = place.file === file;
  const from = own ? (starts[place.line - 1] ?? 0) + place.column - 1 : 0;
  return {
    from,
    to: own ? from + place.length : 0,
    line: place.line,
    column: place.column,
    message,
    remedy,
    severity,
    ...(instead === undefined ? {} : { replacement: instead }),
    ...(own ? {} : { elsewhere: place.file }),
  };
}

const lineStarts = (text: string): readonly number[] => [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
