// Sharing inside a file, on plain trees: ranges in names, `like` between entries of a group, `set` for many at once.
// Each node that comes from elsewhere says where it is written, so that an edit and a problem find their place.
import { nearest } from '../units/nearest.ts';
import type { Cursor, Reading } from './reading.ts';
import { type Entry, entryOf, type MapNode, type Node, nameForm, type Shared, type Span } from './tree.ts';
import { enter } from './walk.ts';

/** Entries of a group after ranges are spread and `like` is followed. Circles and unknown bases are reported. */
export function entriesOf(at: Cursor, reading: Reading): readonly Entry[] {
  if (at.node.kind !== 'map') return [];
  const entries = onceEach(
    at,
    at.node.entries.flatMap((entry) => spread(at, entry, reading)),
    reading,
  );
  if (!entries.some((entry) => entryOf(entry.value, 'like') !== undefined)) return entries;
  const family = new Family(at, entries, reading);
  return entries.map((entry) => ({ ...entry, value: family.over(entry) }));
}

/** A name that a range stands for may not stand there again; the first one counts, as with a key that stands twice. */
function onceEach(at: Cursor, entries: readonly Entry[], reading: Reading): readonly Entry[] {
  const names = new Set<string>();
  return entries.filter((entry) => {
    if (!names.has(entry.key)) return names.add(entry.key);
    // The parser has told of keys that are written twice.
    if (entries.some((each) => each.key === entry.key && each.value.shared !== undefined))
      reading.problem(enter(at, entry, reading), 'key', {
        code: 'key-twice',
        message: `'${entry.key}' stands here already, a range stands for it`,
        remedy: 'Give it another name, or leave it out of the range.',
      });
    return false;
  });
}

/** The entries of a group that may be like one another. Every entry is followed once, however many are like it. */
class Family {
  readonly #at: Cursor;
  readonly #reading: Reading;
  readonly #byName: ReadonlyMap<string, Entry>;
  readonly #bases = new Map<string, Node>();
  readonly #way: string[] = [];

  constructor(at: Cursor, entries: readonly Entry[], reading: Reading) {
    this.#at = at;
    this.#reading = reading;
    this.#byName = new Map(entries.map((entry) => [entry.key, entry]));
  }

  /** An entry's node over what it inherits; without the key `like`, which has done its work. */
  over(entry: Entry): Node {
    const likeEntry = entryOf(entry.value, 'like');
    if (likeEntry === undefined || entry.value.kind !== 'map') return entry.value;
    const own: MapNode = { ...entry.value, entries: entry.value.entries.filter((each) => each.key !== 'like') };
    const here = enter(this.#at, entry, this.#reading);
    const name = this.#nameOf(enter(here, likeEntry, this.#reading), entry.key);
    if (name === undefined) return own;
    this.#way.push(entry.key);
    const inherited = this.#base(name);
    this.#way.pop();
    const baseAt = enter(this.#at, { ...this.#byName.get(name)!, value: inherited }, this.#reading);
    return over(own, here, asMap(inherited), { ...baseAt, node: inherited }, `like ${name}`, this.#reading);
  }

  /** What others inherit from an entry: its values as they are written, without what `set` did to it. */
  #base(name: string): Node {
    const known = this.#bases.get(name);
    if (known !== undefined) return known;
    const base = this.over(withoutSet(this.#byName.get(name)!));
    this.#bases.set(name, base);
    return base;
  }

  /** The base that an entry names, when there is one and following it does not lead back; reports it when not. */
  #nameOf(likeAt: Cursor, entry: string): string | undefined {
    const name = likeAt.node.kind === 'leaf' ? likeAt.node.text : '';
    if (!this.#byName.has(name)) {
      const near = nearest(
        name,
        [...this.#byName.keys()].filter((each) => each !== entry),
      );
      this.#reading.problem(likeAt, 'value', {
        code: 'name-unknown',
        message: `there is no '${name}' here to be like`,
        remedy: near === undefined ? 'Name another entry of the same group.' : `Did you mean '${near}'?`,
        instead: near,
      });
      return undefined;
    }
    if (name !== entry && !this.#way.includes(name)) return name;
    this.#reportCircle([
      ...this.#way.slice(this.#way.includes(name) ? this.#way.indexOf(name) : this.#way.length),
      entry,
    ]);
    return undefined;
  }

  /** Each in a circle is like the next, and the last like the first; it is reported at the one that stands first. */
  #reportCircle(circle: readonly string[]): void {
    const first = [...this.#byName.keys()].find((key) => circle.includes(key))!;
    const at = circle.indexOf(first);
    const [next = first, ...through] = [...circle.slice(at + 1), ...circle.slice(0, at)];
    const entry = this.#byName.get(first)!;
    const likeAt = enter(enter(this.#at, entry, this.#reading), entryOf(entry.value, 'like')!, this.#reading);
    const by = through.length === 0 ? '' : ` through ${through.join(' and ')}`;
    this.#reading.problem(likeAt, 'value', {
      code: 'like-circle',
      message: `'${first}' is like '${next}', and that leads back to '${first}'${by}`,
      remedy: 'Give the values in one of them.',
    });
  }
}

/** `own` on top of `base`: maps merge, a map over a list changes the one element of that kind, all else replaces. */
function over(own: Node, ownAt: Cursor, base: Node, baseAt: Cursor, via: string, reading: Reading): Node {
  if (own.kind !== 'map') return own;
  if (base.kind === 'list') return changeElements(own, ownAt, base.items, base, baseAt, via, reading);
  if (base.kind === 'leaf' && !isName(base.text)) return own;
  const under = asMap(base);
  const known = new Map(own.entries.map((entry) => [entry.key, entry]));
  const merged: Entry[] = [];
  for (const entry of under.entries) {
    const mine = known.get(entry.key);
    known.delete(entry.key);
    if (mine === undefined) merged.push(inherit(entry, baseAt, via));
    else
      merged.push({
        ...mine,
        value: over(mine.value, into(ownAt, mine), entry.value, into(baseAt, entry), via, reading),
      });
  }
  return { ...own, entries: [...merged, ...known.values()] };
}

function changeElements(
  own: MapNode,
  ownAt: Cursor,
  items: readonly Node[],
  base: Node,
  baseAt: Cursor,
  via: string,
  reading: Reading,
): Node {
  const changed = items.map(
    (node, index): Node => inherit({ key: String(index), keySpan: node, value: node }, baseAt, via).value,
  );
  for (const entry of own.entries) {
    const fitting = items.flatMap((node, index) =>
      node.kind === 'map' && node.entries.length === 1 && node.entries[0]!.key === entry.key ? [index] : [],
    );
    const [index] = fitting;
    if (index === undefined || fitting.length > 1) {
      reading.problem(into(ownAt, entry), 'key', {
        code: 'element-not-one',
        message:
          index === undefined
            ? `the list that is changed here has no '${entry.key}'`
            : `the list that is changed here has ${fitting.length} times '${entry.key}'`,
        remedy:
          index === undefined && kindsOf(items).length > 0
            ? `It has ${kindsOf(items).join(', ')}.`
            : 'Write the whole list here.',
      });
      continue;
    }
    const item = items[index] as MapNode;
    const itemAt = into(baseAt, { key: String(index), keySpan: item, value: item });
    const element = item.entries[0]!;
    const value = over(entry.value, into(ownAt, entry), element.value, into(itemAt, element), via, reading);
    changed[index] = {
      ...item,
      entries: [{ ...entry, value: shareAs(value, into(ownAt, entry)) }],
      shared: sharedOf(itemAt, [via, ...itemAt.via]),
    };
  }
  return { kind: 'list', items: changed, from: base.from, to: base.to, shared: sharedOf(baseAt, [via, ...baseAt.via]) };
}

const kindsOf = (items: readonly Node[]): readonly string[] =>
  items.flatMap((node) => (node.kind === 'map' ? node.entries.map((entry) => entry.key) : []));

/** An entry of the base as an entry of the one that is like it. */
function inherit(entry: Entry, baseAt: Cursor, via: string): Entry {
  const at = into(baseAt, entry);
  return { ...entry, value: { ...entry.value, shared: sharedOf(at, [via, ...at.via]) } };
}

const shareAs = (node: Node, at: Cursor): Node =>
  node.shared === undefined ? { ...node, shared: sharedOf(at, at.via) } : node;

const sharedOf = (at: Cursor, via: readonly string[]): Shared => ({
  section: at.section,
  path: at.writtenAt,
  via,
  keySpan: at.keySpan,
});

/** The cursor of an entry, without leaving a trace in the reading. */
function into(at: Cursor, { key, value, keySpan }: { key: string; value: Node; keySpan: Span }): Cursor {
  const shared = value.shared;
  const path = `${at.path}.${key}`;
  if (shared !== undefined)
    return {
      node: value,
      path,
      writtenAt: shared.path,
      via: shared.via,
      keySpan: shared.keySpan,
      section: shared.section,
    };
  return { node: value, path, writtenAt: `${at.writtenAt}.${key}`, via: at.via, keySpan, section: at.section };
}

const isName = (text: string): boolean => nameForm.test(text) && text !== 'open' && text !== 'unknown';

/** A plain name where a map could stand is the name of a part: `drive: drive_10` is `drive: { part: drive_10 }`. */
export function asMap(node: Node): MapNode {
  if (node.kind === 'map') return node;
  if (node.kind === 'list' || node.text === '') return { ...node, kind: 'map', entries: [] };
  const { shared, ...plain } = node;
  return {
    kind: 'map',
    from: node.from,
    to: node.to,
    ...(shared ? { shared } : {}),
    entries: [{ key: 'part', keySpan: node, value: plain }],
  };
}

// ── ranges in names ──────────────────────────────────────────────────────────

/** The most entries that one range may stand for (our judgement: more than any machine has of one kind). */
export const longestRange = 2000;

interface NameRange {
  readonly first: number;
  readonly count: number;
  readonly nameAt: (number: number) => string;
}

/** The range of a name such as `lid_[1..8]`; a first number with leading zeros keeps its width. */
function rangeOf(name: string): NameRange | undefined {
  const form = /^([a-z][a-z0-9_]*)\[(\d{1,6})\.\.(\d{1,6})\]([a-z0-9_]*)$/.exec(name);
  if (form === null) return undefined;
  const [, head = '', first = '', last = '', tail = ''] = form;
  const width = first.startsWith('0') ? first.length : 0;
  return {
    first: Number(first),
    count: Number(last) - Number(first) + 1,
    nameAt: (number) => `${head}${String(number).padStart(width, '0')}${tail}`,
  };
}

const isReadable = ({ count }: NameRange): boolean => count >= 1 && count <= longestRange;

/** The names that a name stands for: itself, or all of its range. */
export function namesOf(name: string): readonly string[] {
  const range = name.includes('[') ? rangeOf(name) : undefined;
  if (range === undefined || !isReadable(range)) return [name];
  return Array.from({ length: range.count }, (_, index) => range.nameAt(range.first + index));
}

/** `lid_[1..8]` as eight entries. */
function spread(at: Cursor, entry: Entry, reading: Reading): readonly Entry[] {
  if (!entry.key.includes('[')) return [entry];
  const range = rangeOf(entry.key);
  const here = enter(at, entry, reading);
  if (range === undefined || !isReadable(range)) {
    reading.problem(here, 'key', {
      code: 'range-form',
      message:
        range === undefined
          ? `'${entry.key}' is no range of names`
          : range.count < 1
            ? `the range '${entry.key}' runs backwards`
            : `the range '${entry.key}' stands for ${range.count} entries; at most ${longestRange} are read`,
      remedy: 'Write a range such as lid_[1..8].',
    });
    return [];
  }
  const value = { ...entry.value, shared: sharedOf(here, [`range ${entry.key}`, ...here.via]) };
  return namesOf(entry.key).map((key) => ({ ...entry, key, value }));
}

// ── set: one value for many ──────────────────────────────────────────────────

/** One line of `set`: where, and the value, with the cursor at which problems of it are reported. */
export interface Setting {
  readonly segments: readonly string[];
  readonly value: Cursor;
  readonly pathAt: Cursor;
  readonly label: string;
}

export function reportInVain(setting: Setting, reading: Reading): void {
  reading.problem(setting.pathAt, 'value', {
    code: 'set-in-vain',
    message: `nothing in this file has the path '${setting.segments.join('.')}'`,
    remedy: 'Look at the names in it; * stands for any letters of one name.',
  });
}

/** A section with settings put under what it gives itself. A setting that meets nothing is reported. */
export function withSettings(at: Cursor, settings: readonly Setting[], reading: Reading): Cursor {
  let node = at.node;
  for (const setting of settings) {
    if (setting.segments[0] !== at.path) continue;
    const met = { count: 0 };
    node = put(node, { ...at, node }, setting.segments.slice(1), setting, met, reading);
    if (met.count === 0) reportInVain(setting, reading);
  }
  return { ...at, node };
}

function put(
  node: Node,
  at: Cursor,
  segments: readonly string[],
  setting: Setting,
  met: { count: number },
  reading: Reading,
): Node {
  const [segment, ...rest] = segments;
  if (segment === undefined) {
    met.count++;
    return node;
  }
  if (node.kind === 'list' || (node.kind === 'leaf' && !isName(node.text))) return node;
  const before = met.count;
  const under = asMap(node);
  const entries = under.entries.flatMap((entry) => spread({ ...at, node: under }, entry, reading));
  const pattern = segment.includes('*') ? new RegExp(`^${segment.split('*').join('[a-z0-9_]*')}$`) : undefined;
  const meets = (key: string): boolean => (pattern === undefined ? key === segment : pattern.test(key));
  const changed = entries.map((entry) => {
    if (!meets(entry.key)) return entry;
    if (rest.length === 0) return keepOwn(entry, into(at, entry), setting, met, reading);
    return { ...entry, value: put(entry.value, into(at, entry), rest, setting, met, reading) };
  });
  const found = entries.some((entry) => meets(entry.key));
  if (found || pattern !== undefined) return met.count === before ? node : { ...under, entries: changed };
  return {
    ...under,
    entries: [...changed, { key: segment, keySpan: setting.value.keySpan, value: chain(rest, setting, met) }],
  };
}

/** The own value goes before the setting; the difference is remarked. A later setting goes before an earlier one. */
function keepOwn(entry: Entry, at: Cursor, setting: Setting, met: { count: number }, reading: Reading): Entry {
  met.count++;
  if (entry.value.set === true) return { ...entry, value: settingNode(setting) };
  const value = setting.value.node;
  if (entry.value.kind === 'leaf' && value.kind === 'leaf' && entry.value.text !== value.text) {
    reading.remark(at, 'value', {
      code: 'set-not-taken',
      message: `'${entry.value.text}' stands here and goes before ${value.text} of ${setting.label}`,
      remedy: 'Remove this value if the setting is meant to hold here too.',
    });
  }
  return entry;
}

function chain(segments: readonly string[], setting: Setting, met: { count: number }): Node {
  const [segment, ...rest] = segments;
  if (segment === undefined) {
    met.count++;
    return settingNode(setting);
  }
  const node = settingNode(setting);
  return {
    kind: 'map',
    from: node.from,
    to: node.to,
    set: true,
    ...(node.shared ? { shared: node.shared } : {}),
    entries: segment.includes('*')
      ? []
      : [{ key: segment, keySpan: setting.value.keySpan, value: chain(rest, setting, met) }],
  };
}

/** Problems with the place of a setting point to its path, those with its value to the value. */
const settingNode = (setting: Setting): Node => ({
  ...setting.value.node,
  set: true,
  shared: { ...sharedOf(setting.value, [setting.label]), keySpan: setting.pathAt.node },
});

/** A base as it stands in the file: `like` copies what is written there, not what `set` did to it. */
function withoutSet(entry: Entry): Entry {
  if (entry.value.kind !== 'map') return entry;
  return {
    ...entry,
    value: { ...entry.value, entries: entry.value.entries.filter((each) => each.value.set !== true).map(withoutSet) },
  };
}
