// The plain tree that a text becomes before anything is known about its meaning: leaves of text, maps, lists.
// Offsets count from the start of the top-level section, so that a cached tree stays right when text above it changes.

import type { PlacedSection } from './parse.ts';

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** For a node that is shared into another place: where it is written, and how it came here, nearest first. */
export interface Shared {
  readonly section: PlacedSection;
  readonly path: string;
  readonly via: readonly string[];
  readonly keySpan: Span;
}

export interface LeafNode extends Span {
  readonly shared?: Shared;
  /** Put here by a line of `set`. */
  readonly set?: true;
  readonly kind: 'leaf';
  readonly text: string;
  readonly quoted: boolean;
  /** The text is what was made of what stands at the span, so that a part of it has no span of its own. */
  readonly isRewritten?: true;
}

export interface MapNode extends Span {
  readonly shared?: Shared;
  /** Put here by a line of `set`. */
  readonly set?: true;
  readonly kind: 'map';
  readonly entries: readonly Entry[];
}

export interface ListNode extends Span {
  readonly shared?: Shared;
  /** Put here by a line of `set`. */
  readonly set?: true;
  readonly kind: 'list';
  readonly items: readonly Node[];
}

export type Node = LeafNode | MapNode | ListNode;

export interface Entry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: Node;
}

export const entryOf = (node: Node, key: string): Entry | undefined =>
  node.kind === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;

/** What a node is, in the words of a message. */
export const nounOf = (node: Node): string =>
  node.kind === 'leaf'
    ? node.text === ''
      ? 'nothing'
      : `'${node.text}'`
    : node.kind === 'map'
      ? 'a map of keys'
      : 'a list';

/** Names that a user chooses: small letters, digits and _, the first a letter. */
export const namePattern = '^[a-z][a-z0-9_]*$';
export const nameForm = new RegExp(namePattern);
