// The titles of tests, as they stand in the text of their files.
import { isTest, type SourceFile } from './files.ts';
import { isNode, nodesOf } from './syntax.ts';

/** The titles of all tests and groups of tests that stand as a text in these files. */
export function titlesOf(files: readonly SourceFile[]): readonly string[] {
  return files.filter(isTest).flatMap((file) =>
    nodesOf(file).flatMap(({ node }) => {
      const [title] = Array.isArray(node.arguments) ? node.arguments : [];
      if (node.type !== 'CallExpression' || !isNode(title) || !/^(it|test|describe)$/.test(calledName(node))) return [];
      const [part, other] = Array.isArray(title.quasis) ? title.quasis : [title];
      const text: unknown = part.value?.cooked ?? part.value;
      return typeof text === 'string' && other === undefined ? [text] : [];
    }),
  );
}

function calledName(node: unknown): string {
  if (!isNode(node)) return '';
  return typeof node.name === 'string' ? node.name : calledName(node.callee ?? node.object ?? node.tag);
}
