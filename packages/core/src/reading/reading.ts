// What goes along while a text is read: the problems met so far, and where each path stands.
import type { ProblemCode } from '../problems/codes.ts';
import type { Place, Problem } from '../problems/problem.ts';
import { type Lack, Missing } from '../working/missing.ts';
import type { Field } from './field.ts';
import { type PlacedSection, placeIn } from './parse.ts';
import type { Node, Span } from './tree.ts';

/** A node with the path at which it stands, and the path at which it is written when the two differ by sharing. */
export interface Cursor {
  readonly node: Node;
  readonly path: string;
  readonly writtenAt: string;
  readonly via: readonly string[];
  /** Where its key is written; the node's own span where it has no key. */
  readonly keySpan: Span;
  readonly section: PlacedSection;
}

export interface Wording {
  readonly code: ProblemCode;
  readonly message: string;
  readonly remedy: string;
  /** What would stand at the place instead, where it is that simple: the nearest spelling. */
  readonly instead?: string | undefined;
  readonly notes?: readonly { readonly message: string; readonly place: Place }[];
}

/** Which part of a node a problem means; a span counts from the start of the node's text. */
export type Part = 'key' | 'value' | Span;

/** `machine` for what a user asks for, `catalogue` for what a part states: some fields differ between the two. */
export type Dialect = 'machine' | 'catalogue';

/** The link in the chain of a value that the planner wrote. */
export const plannedVia = 'planned';

/** What is said of names that are not there; it may be wrong where a part of the text could not be read. */
const ofNames: readonly ProblemCode[] = [
  'name-unknown',
  'station-not-wired',
  'runs-apart',
  'set-in-vain',
  'part-unknown',
];

/** More problems than this are not told in one run (our judgement: nobody reads further, and a broken file has any number). */
export const mostProblems = 500;

export class Reading {
  readonly dialect: Dialect;
  /** Sections that the file has under another name, by the names that are meant. */
  readonly misspelt = new Set<string>();
  // Met while reading, and put in order by path only when somebody asks.
  readonly #met: Cursor[] = [];
  readonly #read: [string, Field<unknown>][] = [];
  #places: Map<string, Cursor> | undefined;
  #fields: Map<string, Field<unknown>> | undefined;
  readonly #problems = new Map<string, Problem>();
  readonly #remarks = new Map<string, Problem>();
  readonly #planned = new Map<string, Cursor>();
  readonly #plannedUsed = new Set<string>();
  #sharing: Map<string, string[]> | undefined;
  #damaged = false;

  constructor(dialect: Dialect) {
    this.dialect = dialect;
  }

  /** Remembers where a path stands. */
  meet(at: Cursor): Cursor {
    this.#met.push(at);
    this.#places = undefined;
    return at;
  }

  /** Remembers the field that has read the leaf at a path; of a field around another, the outer one. */
  readBy(path: string, field: Field<unknown>): void {
    this.#read.push([path, field]);
    this.#fields = undefined;
  }

  /** Where each path stands. */
  get places(): ReadonlyMap<string, Cursor> {
    this.#places ??= new Map(this.#met.map((at) => [at.path, at]));
    return this.#places;
  }

  /** The field that has read the leaf at a path, where the leaf can be read again alone. */
  get fields(): ReadonlyMap<string, Field<unknown>> {
    this.#fields ??= new Map(this.#read);
    return this.#fields;
  }

  get problems(): readonly Problem[] {
    return [...this.#problems.values()];
  }

  /** What is no problem but worth saying: a value that goes before another, a planned value that fills nothing. */
  get remarks(): readonly Problem[] {
    return [...this.#remarks.values()];
  }

  /** The paths whose value is written at a given path: itself, and all that share it. */
  sharing(writtenAt: string): readonly string[] {
    if (this.#sharing === undefined) {
      this.#sharing = new Map();
      for (const [path, at] of this.places) {
        const known = this.#sharing.get(at.writtenAt);
        if (known === undefined) this.#sharing.set(at.writtenAt, [path]);
        else known.push(path);
      }
    }
    return this.#sharing.get(writtenAt) ?? [];
  }

  /** Makes known what the planner chose for a path; it stands in for `open` there. */
  plan(path: string, at: Cursor): void {
    this.#planned.set(path, at);
  }

  /** What the planner chose for a path, as a cursor at that path. */
  planned(path: string): Cursor | undefined {
    const at = this.#planned.get(path);
    if (at === undefined) return undefined;
    this.#plannedUsed.add(path);
    return { ...at, path, writtenAt: `planned.${path}`, via: [plannedVia] };
  }

  /** The planned values that no `open` has taken up. */
  get plannedInVain(): readonly Cursor[] {
    return [...this.#planned].filter(([path]) => !this.#plannedUsed.has(path)).map(([, at]) => at);
  }

  remark(at: Cursor, part: Part, wording: Wording): void {
    const problem = this.#problemAt(at, part, wording);
    this.#remarks.set(keyOf(problem), problem);
  }

  /** Says that a part of the text could not be read: names may stand in it, so that they are not missed. */
  damage(): void {
    this.#damaged = true;
  }

  /**
   * Reports a problem at a node. One that several entries inherit is reported once, where it is written; in a section
   * that could not be parsed to its end, nothing else is reported.
   */
  problem(at: Cursor, part: Part, wording: Wording): void {
    if (at.section.parsed.broken) return;
    this.add(this.#problemAt(at, part, wording));
  }

  #problemAt(at: Cursor, part: Part, wording: Wording): Problem {
    const { instead, ...said } = wording;
    const repair = instead === undefined ? {} : { instead };
    return {
      ...said,
      ...repair,
      notes: wording.notes ?? [],
      place: placeIn(at.section, spanOf(at, part)),
      path: at.writtenAt,
    };
  }

  add(problem: Problem): void {
    if (this.#damaged && ofNames.includes(problem.code)) return;
    if (this.#problems.size >= mostProblems) return;
    const key = keyOf(problem);
    if (!this.#problems.has(key)) this.#problems.set(key, problem);
  }

  place(at: Cursor, part: Part = 'value'): Place {
    return placeIn(at.section, spanOf(at, part));
  }
}

const keyOf = ({ place: { file, line, column }, code }: Problem): string => `${file}:${line}:${column} ${code}`;

function spanOf(at: Cursor, part: Part): Span {
  if (part === 'key') return at.keySpan;
  if (part === 'value' || (at.node.kind === 'leaf' && at.node.isRewritten))
    return at.node.to > at.node.from ? at.node : at.keySpan;
  const quote = at.node.kind === 'leaf' && at.node.quoted ? 1 : 0;
  return { from: at.node.from + quote + part.from, to: at.node.from + quote + part.to };
}

/** What a value that has a problem is from then on: missing, so that all that rests on it is unknown. */
export const spoilt = (path: string, due: string, example: string): Missing =>
  new Missing([{ path, why: 'problem', due, example } satisfies Lack]);
