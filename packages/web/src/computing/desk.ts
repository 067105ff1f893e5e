// What the worker keeps between requests: one text, read, filled and assessed; and the catalogues that were handed in.
import { demonstration, demonstrationName } from '@layshaft/catalogue';
import {
  type Assessment,
  askBackwards,
  assess,
  type Catalogue,
  cataloguesNamed,
  cataloguesOf,
  compare,
  explain,
  type Input,
  inputsOf,
  type LongJob,
  lackSentence,
  type Machine,
  machineSchema,
  type PointsTable,
  type Problem,
  previewOf,
  printSvg,
  problemsOfTable,
  read,
  readAsked,
  readCatalogue,
  readPointsTable,
  resolve,
  show,
  spliceEach,
  type Table,
  tablesNamed,
  textAfter,
  textAt,
  textOf,
  viewOfFinding,
  withTables,
  writePlanned,
  writePoints,
} from '@layshaft/core';
import type { OfferedPart, Offering } from '../file-pane/file-pane.ts';
import type { At, Edited, Entry, ListAt, Looking, RequestKind, Requests, Snapshot } from './protocol.ts';
import { RackChoosing } from './rack-choosing.ts';
import { snapshotOf, tableAt, type Views, viewsOf, workingAt } from './snapshot.ts';

/** What is answered when the solver of the page has done its part. */
type Later = 'choose' | 'solved';
type AnswerTo<K extends RequestKind> = K extends Later ? Promise<Requests[K]['answer']> : Requests[K]['answer'];
type Handlers = { [K in RequestKind]: (ask: Requests[K]['ask']) => AnswerTo<K> };

/** Answers the requests of one page. All it does is call the doors of the computing library. */
export function openDesk(): Handlers {
  const builtIn = demonstration();
  const had = new Map<string, Catalogue>();
  let tables: ReadonlyMap<string, PointsTable> = new Map();
  let machine: Machine = read('');
  let catalogues: readonly Catalogue[] = [builtIn];
  let assessment: Assessment = assess(resolve(machine, catalogues));
  /** What was shown last: its inputs are what is moved next. */
  let shown: Views = viewsOf(assessment, undefined);
  /** Long work of this text that is under way, and the tables that it has made. */
  const jobs = new Map<number, { readonly key: string; readonly job: LongJob }>();
  const made = new Map<string, Table>();
  let lastJob = 0;
  const racks = new RackChoosing((table) => made.set(keyOf('racks', table.name), table));
  const filled = () => ({ machine, catalogues, builtIn: demonstrationName });

  const take = (next: Machine): void => {
    // Catalogues and tables are named from where the machine file lies.
    if (next.file !== machine.file) {
      had.clear();
      tables = new Map();
    }
    machine = next.tables === tables ? next : withTables(next, tables);
    jobs.clear();
    made.clear();
    racks.forget();
    catalogues = cataloguesOf(machine, builtIn, had);
    assessment = assess(resolve(machine, catalogues));
  };
  const snapshot = (looking: Looking): Snapshot => {
    const wanting = [
      ...cataloguesNamed(machine, demonstrationName).filter((name) => !had.has(name)),
      ...tablesNamed(machine).filter((name) => !tables.has(name)),
    ];
    shown = viewsOf(assessment, looking.address);
    return snapshotOf(assessment, shown, looking.width_px, wanting);
  };
  const write = (entries: readonly Entry[], at: At, looking: Looking): Edited => {
    return edited(spliced(machine, entries, at), looking);
  };
  const edited = (result: ReturnType<typeof spliceEach>, looking: Looking): Edited => {
    if (result.kind === 'choice') return result;
    if (result.kind === 'refused') return { kind: 'refused', says: result.message, advice: result.remedy };
    const { edits } = result;
    if (edits.length === 0) return { kind: 'unchanged' };
    take(result.machine);
    return { kind: 'edit', edits, snapshot: snapshot(looking) };
  };
  const inputAt = (path: string): Input | undefined =>
    [...shown.chapters.flatMap(({ views }) => views), ...shown.looked]
      .flatMap(({ inputs }) => inputs)
      .find((input) => input.path === path);

  return {
    read: ({ file, text, looking }) => {
      take(read(text, { file, previous: machine, ...(file === machine.file && { tables }) }));
      return snapshot(looking);
    },
    catalogues: ({ texts, looking }) => {
      const asTable = new Set(tablesNamed(machine));
      for (const { name, file, text } of texts) {
        if (asTable.has(name)) tables = new Map([...tables, [name, readPointsTable(file, text)]]);
        else had.set(name, readCatalogue(name, [{ file, text }]));
      }
      take(machine);
      return snapshot(looking);
    },
    look: ({ looking }) => snapshot(looking),
    write: ({ entries, at, looking }) => write(entries, at, looking),
    move: ({ path, by, at, looking }) => {
      const input = inputAt(path);
      const text = input && ('place' in by ? textAt(input, by.place) : textAfter(input, by.steps));
      return text === undefined
        ? { kind: 'refused', says: `${path} cannot be moved.`, advice: 'Type a value with its unit.' }
        : write([{ path, value: text }], at, looking);
    },
    list: ({ text }) => listAt(text),
    writeList: ({ text, looking }) => edited(writePoints(machine, readPointsTable(pasted, text)), looking),
    explain: ({ address }) => {
      const working = explain(assessment, address, [...made.values()]);
      const view = viewOfFinding(assessment, shown.chapters, address);
      return working && { ...workingAt(address, working, filled()), ...(view !== undefined && { view }) };
    },
    table: ({ address, name }) => {
      const own = made.get(keyOf(address, name));
      if (own !== undefined) return tableAt(own);
      const later = show(assessment, address)
        .flatMap((view) => view.later)
        .find((each) => each.name === name);
      return later && tableAt(later.make());
    },
    work: ({ address, name, count, seed }) => {
      const work = show(assessment, address)
        .flatMap(({ works }) => works ?? [])
        .find((each) => each.name === name);
      const asked = work && readAsked(work, { count, seed });
      if (work === undefined || asked === undefined) return undefined;
      if ('advice' in asked) return { refused: asked.advice };
      const job = work.job(asked);
      if ('lacks' in job) return { refused: `This can have no ${work.counts}: ${lackSentence(job.lacks)}.` };
      const key = keyOf(address, name);
      for (const [id, other] of jobs) if (other.key === key) jobs.delete(id);
      jobs.set(++lastJob, { key, job });
      return { id: lastJob, task: job.task, chunks: job.chunks, count: asked.count };
    },
    merge: ({ id, results }) => {
      const under = jobs.get(id);
      if (under === undefined) return { refused: 'The file has changed since: this was of the text before.' };
      jobs.delete(id);
      const table = under.job.merge(results);
      made.set(under.key, table);
      return tableAt(table);
    },
    choose: (asked) => racks.start(assessment.design, asked),
    solved: (asked) => racks.goOn(asked),
    picture: ({ address, name, width_px }) => {
      const drawn = show(assessment, address)
        .flatMap(({ pictures }) => pictures)
        .find(({ picture }) => picture.name === name);
      return drawn && printSvg(drawn.picture, { width_px, standalone: true });
    },
    inputs: ({ finding }) => inputsOf(assessment, finding),
    backwards: ({ finding, path }) => askBackwards(machine, catalogues, finding, path),
    compare: ({ with: text }) => {
      const other = read(text, { file: machine.file, tables });
      return compare(assess(resolve(other, cataloguesOf(other, builtIn, had))), assessment);
    },
    completion: () => ({ schema: machineSchema(), parts: partsOf(catalogues) }),
  };
}

/** What a list that is in no file is called. */
const pasted = 'the list';

function listAt(text: string): ListAt {
  const table = readPointsTable(pasted, text);
  const said = ({ place, message, remedy }: Problem): string => `Line ${place.line}: ${message}. ${remedy}`;
  return {
    text,
    count: table.entries.length,
    ...(table.columns.length > 0 && { columns: tableAt(previewOf(table)) }),
    problems: problemsOfTable(table).map(said),
    remarks: table.remarks.map(said),
  };
}

/** What stands under `planned` may be a thousand lines, and is written at once. */
function spliced(machine: Machine, entries: readonly Entry[], at: At) {
  const planned = entries.flatMap(({ path, value }) =>
    path.startsWith('planned.') ? [{ path: path.slice('planned.'.length), value }] : [],
  );
  if (planned.length === entries.length) return writePlanned(machine, planned);
  return spliceEach(
    machine,
    entries.map(({ path, value }) => ({ path, value, ...(at && { at }) })),
  );
}

const keyOf = (address: string, name: string): string => `${address} ${name}`;

/** All parts, by kind; one of a later catalogue goes before an earlier one of its name. */
function partsOf(catalogues: readonly Catalogue[]): Offering['parts'] {
  const all = new Map(catalogues.flatMap(({ parts }) => [...parts]));
  const byKind: Record<string, OfferedPart[]> = {};
  for (const [name, { kind, title }] of all) {
    byKind[kind] = [...(byKind[kind] ?? []), { name, kind, title: textOf(title) ?? '' }];
  }
  return byKind;
}
