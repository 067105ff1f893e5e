// The syntax tree of a file, so that a rule sees code and never a comment or a text that looks like code.
import { parseAst } from 'vitest/node';
import type { SourceFile } from './files.ts';

/** A node in the ESTree form with the TypeScript additions; which further fields it has depends on its type. */
export interface Node {
  readonly type: string;
  readonly start: number;
  readonly [field: string]: unknown;
}

/** Each node of a file with the node it hangs on and the field it hangs on by; a file that does not parse throws. */
export function nodesOf({ path, text }: SourceFile): Visit[] {
  const lang = /\.tsx?$/.exec(path)?.[0].slice(1) === 'tsx' ? 'tsx' : 'ts';
  return nodesUnder(parseAst(text, { lang }, path) as unknown as Node);
}

export interface Visit {
  readonly node: Node;
  readonly parent?: Node;
  readonly field?: string;
}

/** A node and all that hangs on it, in the order of the text. */
export function nodesUnder(node: Node, parent?: Node, field?: string): Visit[] {
  const visits: Visit[] = [{ node, ...(parent && { parent }), ...(field !== undefined && { field }) }];
  for (const [name, child] of Object.entries(node)) {
    for (const item of Array.isArray(child) ? child : [child]) {
      if (isNode(item)) visits.push(...nodesUnder(item, node, name));
    }
  }
  return visits;
}

export function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
}

/** The place of an offset as `path:line`. */
export function placeOf({ path, text }: SourceFile, offset: number): string {
  return `${path}:${text.slice(0, offset).split('\n').length}`;
}
