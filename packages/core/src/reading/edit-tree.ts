// Changes in plain trees without text: a node replaced, removed or added, everything else shared with the tree before.
import type { Entry, MapNode, Node, Span } from './tree.ts';

/** A node on the way from the root of a section, its place among its siblings, and its key where it has one. */
export interface Step {
  readonly node: Node;
  readonly index: number;
  readonly keySpan: Span | undefined;
}

/** From the root of a section down to a node. */
export type Trail = readonly Step[];

export const rootOf = (entry: Entry): Trail => [{ node: entry.value, index: 0, keySpan: entry.keySpan }];
export const lastOf = (trail: Trail): Step => trail.at(-1)!;

export const childrenOf = (node: Node): readonly Node[] =>
  node.kind === 'map' ? node.entries.map((entry) => entry.value) : node.kind === 'list' ? node.items : [];

export function stepInto(node: Node, index: number): Step {
  if (node.kind === 'map') return { node: node.entries[index]!.value, index, keySpan: node.entries[index]!.keySpan };
  return { node: childrenOf(node)[index]!, index, keySpan: undefined };
}

/** The way to the node of a span. Reading makes maps of leaves and merges maps; their spans stay those of the text. */
export function trailTo(span: Span, from: Trail): Trail | undefined {
  const { node } = lastOf(from);
  if (node.from === span.from && node.to === span.to) return from;
  for (let index = 0; index < childrenOf(node).length; index++) {
    const found = trailTo(span, [...from, stepInto(node, index)]);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The tree with the last node of the trail replaced. */
export const replacing = (trail: Trail, by: Node): Node =>
  trail.reduceRight((inner, step, depth) => {
    const above = trail[depth - 1]?.node;
    return above === undefined ? inner : withChild(above, step.index, inner);
  }, by);

/** The tree without the last node of the trail; a trail of one is a whole section and has no tree left. */
export function removing(trail: Trail): Node {
  const above = trail.slice(0, -1);
  const { index } = lastOf(trail);
  const { node } = lastOf(above);
  if (node.kind === 'map') return replacing(above, { ...node, entries: node.entries.filter((_, at) => at !== index) });
  if (node.kind === 'list') return replacing(above, { ...node, items: node.items.filter((_, at) => at !== index) });
  return replacing(above, node);
}

/** An entry, or an item of a list, which has no key. */
export type Child = Omit<Entry, 'key'> & { readonly key: string | undefined };

/** The tree with a child added to the last node of the trail: an entry, or an item where there is no key. */
export function adding(trail: Trail, index: number, { key, keySpan, value }: Child): Node {
  const { node } = lastOf(trail);
  const span = { from: node.from, to: node.to };
  if (key === undefined) {
    const items = node.kind === 'list' ? node.items : [];
    return replacing(trail, { ...span, kind: 'list', items: items.toSpliced(index, 0, value) });
  }
  const entries = node.kind === 'map' ? node.entries : [];
  return replacing(trail, {
    ...span,
    kind: 'map',
    entries: entries.toSpliced(index, 0, { key, keySpan, value }),
  });
}

function withChild(node: Node, index: number, child: Node): Node {
  if (node.kind === 'list') return { ...node, items: node.items.with(index, child) };
  if (node.kind === 'map')
    return { ...node, entries: node.entries.with(index, { ...node.entries[index]!, value: child }) };
  return node;
}

/** Maps inside one another, down to a value; where a key is undefined stands a list of one item. */
export const nested = (keys: readonly (string | undefined)[], value: Node): Node =>
  keys.reduceRight<Node>(
    (inner, key) =>
      key === undefined
        ? { kind: 'list', from: 0, to: 0, items: [inner] }
        : { kind: 'map', from: 0, to: 0, entries: [{ key, keySpan: inner, value: inner }] },
    value,
  );

/** A plain name where a map could stand is the name of a part; as a map it has room for more. */
export const besidePart = (part: Node, keys: readonly (string | undefined)[], value: Node): Node => {
  const more = nested(keys, value) as MapNode;
  return { ...more, entries: [{ key: 'part', keySpan: part, value: part }, ...more.entries] };
};

/** The tree with all its spans moved. */
export function shifted(node: Node, by: number): Node {
  const span = { from: node.from + by, to: node.to + by };
  if (node.kind === 'leaf') return { ...node, ...span };
  if (node.kind === 'list') return { ...node, ...span, items: node.items.map((item) => shifted(item, by)) };
  return { ...node, ...span, entries: node.entries.map((entry) => shiftedEntry(entry, by)) };
}

export const shiftedEntry = ({ key, keySpan, value }: Entry, by: number): Entry => ({
  key,
  keySpan: { from: keySpan.from + by, to: keySpan.to + by },
  value: shifted(value, by),
});

/** Whether two trees say the same: keys, their order, and texts. */
export function saysTheSame(a: Node, b: Node): boolean {
  if (a.kind === 'leaf') return b.kind === 'leaf' && a.text === b.text && meant(a) === meant(b);
  if (a.kind === 'list') {
    return (
      b.kind === 'list' &&
      a.items.length === b.items.length &&
      a.items.every((item, at) => saysTheSame(item, b.items[at]!))
    );
  }
  return (
    b.kind === 'map' &&
    a.entries.length === b.entries.length &&
    a.entries.every(({ key, value }, at) => key === b.entries[at]!.key && saysTheSame(value, b.entries[at]!.value))
  );
}

/** Quotes make a text of these two words, and change nothing else. */
const meant = (leaf: { readonly text: string; readonly quoted: boolean }): boolean =>
  leaf.quoted && (leaf.text === 'open' || leaf.text === 'unknown');
