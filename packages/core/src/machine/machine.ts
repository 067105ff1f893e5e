// A machine file, read: every section with its values, the problems met, and where each path stands.
import { boardBuses, followMasters, pairAxes } from '../axes/section.ts';
import { placeMarks } from '../marks/section.ts';
import { compareMultiples, follow, type Wiring } from '../networks/section.ts';
import { inOrder, type Place, type Problem } from '../problems/problem.ts';
import { compareRacks } from '../racks/section.ts';
import type { Field } from '../reading/field.ts';
import { type Defect, type ParsedText, type PlacedSection, parseText } from '../reading/parse.ts';
import { type Cursor, Reading } from '../reading/reading.ts';
import { withSettings } from '../reading/share.ts';
import { compareTiming } from '../timing/section.ts';
import { nearest } from '../units/nearest.ts';
import { Missing } from '../working/missing.ts';
import { format, type Sections } from './format.ts';
import { joinTables, type PointTables } from './point-tables.ts';
import { reportLeftovers, takePlanned } from './settings.ts';

export interface Machine extends Sections {
  readonly file: string;
  readonly problems: readonly Problem[];
  /** What is no problem but worth saying. */
  readonly remarks: readonly Problem[];
  /** By the name of the network. */
  readonly wirings: ReadonlyMap<string, Wiring>;
  /** Where a path stands in the text; a path that is not written has no place. */
  readonly where: (path: string) => Place | undefined;
  readonly reading: Reading;
  readonly parsed: ParsedText;
  /** The tables that were handed in, by the name that the file has for them. */
  readonly tables: PointTables;
}

export interface ReadOptions {
  readonly file?: string;
  /** An earlier reading of the same file; unchanged sections are not parsed again. */
  readonly previous?: Pick<Machine, 'parsed'>;
  /** The tables that the file names, by name, as far as the host could read them. */
  readonly tables?: PointTables;
}

/** Reads a machine file. Never throws. */
export function read(text: string, { file = 'machine.yaml', previous, tables = new Map() }: ReadOptions = {}): Machine {
  return readParsed(parseText(file, text, previous?.parsed), tables);
}

/** The same machine with the tables that it names. */
export const withTables = ({ parsed }: Machine, tables: PointTables): Machine => readParsed(parsed, tables);

/** Gives trees their meaning: ranges, `like`, `set` and `planned` first, then section by section. */
export function readParsed(parsed: ParsedText, tables: PointTables): Machine {
  const reading = new Reading('machine');
  const starts = sectionsOf(parsed, Object.keys(format), reading);
  const version = format.layshaft.read(starts.get('layshaft'), 'layshaft', reading);
  const refused = version instanceof Missing && starts.has('layshaft');
  const said = refused ? new Map<string, Cursor>() : starts;
  const { open, remarks } = joinTables(said, tables, reading);
  takePlanned(open.get('planned'), reading);
  const settings = format.set.read(open.get('set'), 'set', reading);
  const placed = new Map([...open].map(([key, at]) => [key, withSettings(at, settings, reading)]));
  const sections = Object.fromEntries(
    Object.entries(format).map(([key, field]) => [key, (field as Field<unknown>).read(placed.get(key), key, reading)]),
  ) as unknown as Sections;
  reportLeftovers(settings, open, reading);
  const misspelt = parsed.sections.some(({ parsed: { entry, text } }) =>
    nearest(entry?.key ?? text.split(/\W/, 1)[0]!, ['layshaft']),
  );
  if (!starts.has('layshaft') && !misspelt && parsed.defects.length === 0) missingVersion(parsed, reading);
  followMasters(sections.axes, sections.masters, reading);
  pairAxes(sections.axes, reading);
  boardBuses(sections.buses, sections.axes, reading);
  placeMarks(sections.marks, sections.axes, sections.masters, reading);
  const axes = sections.axes.map((axis) => axis.name);
  const wirings = new Map(sections.networks.map((network) => [network.name, follow(network, axes, reading)]));
  for (const network of sections.networks) {
    const drives = sections.axes.map((axis) => [axis.name, axis.drive] as const);
    const nodes = network.nodes.map((node) => [node.name, node] as const);
    compareMultiples(wirings.get(network.name)!, new Map([...drives, ...nodes]), reading);
  }
  compareRacks(
    sections.racks.locations,
    sections.networks.flatMap(({ nodes }) => nodes.map(({ name }) => name)),
    reading,
  );
  compareTiming(
    {
      ...sections,
      networks: sections.networks.map(({ name }) => name),
      masters: sections.masters.map(({ name }) => name),
      stations: [...wirings.values()].flatMap(({ stations }) => stations),
    },
    reading,
  );
  return {
    ...sections,
    file: parsed.source.file,
    problems: inOrder(reading.problems),
    remarks: inOrder([...reading.remarks, ...remarks]),
    wirings,
    where: (path) => {
      // Points that only tables have are counted where the tables are named.
      const at = reading.places.get(path) ?? (path === 'points' ? reading.places.get('points_from') : undefined);
      return at && reading.place(at, 'key');
    },
    reading,
    parsed,
    tables,
  };
}

/** A cursor for each top-level section; reports the defects of the text and sections that are not known. */
export function sectionsOf(
  parsed: ParsedText,
  known: readonly string[],
  reading: Reading,
): ReadonlyMap<string, Cursor> {
  const whole: PlacedSection = {
    source: parsed.source,
    start: 0,
    parsed: { text: '', entry: undefined, defects: [], broken: false },
  };
  for (const defect of parsed.defects) report(defect, whole, reading);
  const found = new Map<string, Cursor>();
  if (parsed.defects.length > 0 || parsed.sections.some((section) => section.parsed.defects.length > 0))
    reading.damage();
  for (const section of parsed.sections) {
    for (const defect of section.parsed.defects) report(defect, section, reading);
    const entry = section.parsed.entry;
    if (entry === undefined) continue;
    const cursor: Cursor = {
      node: entry.value,
      path: entry.key,
      writtenAt: entry.key,
      via: [],
      keySpan: entry.keySpan,
      section,
    };
    if (known.includes(entry.key)) {
      found.set(entry.key, reading.meet(cursor));
      continue;
    }
    const near = nearest(entry.key, known);
    if (near !== undefined) reading.misspelt.add(near);
    if (near === 'axes') reading.damage();
    reading.problem(cursor, 'key', {
      code: 'key-unknown',
      message: `no section is called '${entry.key}'`,
      remedy: `${near === undefined ? '' : `Did you mean '${near}'? `}The sections: ${known.join(', ')}.`,
      instead: near,
    });
  }
  return found;
}

function report(defect: Defect, section: PlacedSection, reading: Reading): void {
  const place = section.source.place(section.start + defect.from, section.start + defect.to);
  const other = defect.other;
  const notes =
    other === undefined
      ? []
      : [
          {
            message: other.message,
            place: section.source.place(section.start + other.span.from, section.start + other.span.to),
          },
        ];
  reading.add({ code: defect.code, message: defect.message, remedy: defect.remedy, place, notes });
}

function missingVersion(parsed: ParsedText, reading: Reading): void {
  reading.add({
    code: 'key-missing',
    message: 'the file does not say which version of the format it is written in',
    remedy: 'Add the line layshaft: 1 at the top.',
    place: parsed.source.place(0, 1),
    notes: [],
  });
}
