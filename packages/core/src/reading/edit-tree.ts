// Changes in plain trees without text: replace, add or remove a node, everything else shared with the tree before.
import { type Entry, entryOf, type MapNode, type Node } from './tree.ts';

const same = (a: Node, b: Node): boolean => a.kind === b.kind && a.from === b.from && a.to === b.to;

/** The tree with `target` (found by its span) replaced; the same tree when it is not in it. */
export function replaceNode(tree: Node, target: Node, by: Node): Node {
  if (same(tree, target)) return by;
  if (tree.kind === 'leaf') return tree;
  if (tree.kind === 'list') {
    const items = tree.items.map((item) => replaceNode(item, target, by));
    return items.some((item, index) => item !== tree.items[index]) ? { ...tree, items } : tree;
  }
  const entries = tree.entries.map((entry) => {
    const value = replaceNode(entry.value, target, by);
    return value === entry.value ? entry : { ...entry, value };
  });
  return entries.some((entry, index) => entry !== tree.entries[index]) ? { ...tree, entries } : tree;
}

/** A map with an entry added, or with the value of an entry replaced. */
export function withEntry(map: MapNode, key: string, value: Node): MapNode {
  const old = entryOf(map, key);
  const entry: Entry = { key, keySpan: value, value };
  return {
    ...map,
    entries:
      old === undefined
        ? [...map.entries, entry]
        : map.entries.map((each) => (each === old ? { ...each, value } : each)),
  };
}

export const withoutEntry = (map: MapNode, key: string): MapNode => ({
  ...map,
  entries: map.entries.filter((entry) => entry.key !== key),
});

/** A leaf that stands in no text. Its span is unique by `number`, and negative: no span of a text is. */
export const leafOf = (text: string, number: number): Node => ({
  kind: 'leaf',
  text,
  quoted: false,
  from: -number,
  to: -number,
});

/** Maps inside one another, down to a value: `['drive', 'turnaround']` gives `{ drive: { turnaround: value } }`. */
export const nested = (keys: readonly string[], value: Node): Node =>
  keys.reduceRight<Node>(
    (inner, key) => ({
      kind: 'map',
      from: inner.from,
      to: inner.to - 1,
      entries: [{ key, keySpan: inner, value: inner }],
    }),
    value,
  );
