// Screens and commands contain no calculation: outside core nobody does arithmetic on the value of a quantity.
// The rule knows a value by its name: a field `value`, or a variable of the same file that was set to one. It does not
// follow a value through a call, a list or another file, and takes any other `value` for one of a quantity as well.
import { describe, expect, it } from 'vitest';
import { isCode, isTest, type Rule, repositoryFiles, type SourceFile } from './support/files.ts';
import { isNode, type Node, nodesOf, nodesUnder, placeOf } from './support/syntax.ts';

const noArithmeticOnValues: Rule = (files) =>
  files.filter(isOutsideCore).flatMap((file) => {
    const nodes = nodesOf(file).map(({ node }) => node);
    const variables = new Set(nodes.flatMap(variablesSetToValues));
    return nodes
      .filter((node) => operandsOf(node).some((operand) => isValue(operand, variables)))
      .map((node) => `${placeOf(file, node.start)}: arithmetic on the value of a quantity belongs into core`);
  });

const isOutsideCore = (file: SourceFile): boolean =>
  isCode(file) && !isTest(file) && /^packages\/(?!core\/)[^/]+\/src\//.test(file.path);

/** What an arithmetic expression works on; nothing for any other node. Everything inside a call of Math counts. */
function operandsOf(node: Node): unknown[] {
  switch (node.type) {
    case 'BinaryExpression':
    case 'AssignmentExpression':
      return /^([-+*/%]|\*\*)=?$/.test(String(node.operator)) ? [node.left, node.right] : [];
    case 'UnaryExpression':
    case 'UpdateExpression':
      return /^[-+]+$/.test(String(node.operator)) ? [node.argument] : [];
    case 'CallExpression':
      return isMath(node.callee)
        ? (node.arguments as Node[]).flatMap((a) => nodesUnder(a).map((visit) => visit.node))
        : [];
    default:
      return [];
  }
}

function isMath(callee: unknown): boolean {
  return isNode(callee) && isNode(callee.object) && callee.object.name === 'Math';
}

/** Whether an expression is a value, also behind a type assertion, a `?.` or one arm of a choice. */
function isValue(node: unknown, variables: ReadonlySet<unknown>): boolean {
  if (!isNode(node)) return false;
  switch (node.type) {
    case 'MemberExpression':
      return isNode(node.property) && (node.computed ? node.property.value : node.property.name) === 'value';
    case 'Identifier':
      return variables.has(node.name);
    case 'LogicalExpression':
      return isValue(node.left, variables) || isValue(node.right, variables);
    case 'ConditionalExpression':
      return isValue(node.consequent, variables) || isValue(node.alternate, variables);
    default:
      return isValue(node.expression, variables);
  }
}

/** `const x = q.value` and, in any pattern, `{ value }` or `{ value: x }`. */
function variablesSetToValues(node: Node): unknown[] {
  if (node.type === 'VariableDeclarator' && isNode(node.id) && isValue(node.init, new Set())) return [node.id.name];
  if (node.type !== 'ObjectPattern') return [];
  return (node.properties as Node[]).flatMap(({ key, value }) => {
    if (!isNode(key) || key.name !== 'value' || !isNode(value)) return [];
    return [value.type === 'AssignmentPattern' && isNode(value.left) ? value.left.name : value.name];
  });
}

describe('no arithmetic outside core', () => {
  const rule = (text: string, path = 'packages/cli/src/planted.ts') => noArithmeticOnValues([{ path, text }]);

  it('holds in every package', () => {
    const tree = repositoryFiles();
    expect(tree.filter(isOutsideCore).length).toBeGreaterThan(0);
    expect(noArithmeticOnValues(tree)).toEqual([]);
  });

  it.each([
    'show(q.value * 1000);',
    'show(1 - demand.value / 2);',
    'const sum = list.reduce((sum, q) => sum + q.value, 0);',
    'total += finding.margin.value;',
    'q.value **= 2;',
    'q.value++;',
    'show(-q.value);',
    'show((q.value as number)! % 2);',
    'show((found?.value ?? 0) * 2);',
    'show((known ? q.value : 0) * 2);',
    `show(q['value'] * 2);`,
    'show(Math.round(q.value));',
    'show(Math.max(...list.map((q) => q.value)));',
    'const seconds = q.value; show(seconds * 1000);',
    'const { value } = q; show(value * 1000);',
    'const show = ({ value: seconds = 0 }) => seconds * 1000;',
  ])('refuses %s', (text) => {
    expect(rule(text)).toEqual([
      'packages/cli/src/planted.ts:1: arithmetic on the value of a quantity belongs into core',
    ]);
  });

  it('says the line', () => {
    expect(rule('// q.value * 2\nshow(q.value);\nshow(q.value * 2);')).toEqual([
      expect.stringContaining('planted.ts:3:'),
    ]);
  });

  it.each([
    `show(\`\${q.value} \${q.unit}\`); // q.value * 1000`,
    'if (q.value > limit.value) show(q);',
    'const text = "q.value * 2"; const width = columns - 2;',
    'const { length } = list; show(length * 2);',
  ])('allows %s', (text) => {
    expect(rule(text)).toEqual([]);
  });

  it('leaves core and tests alone', () => {
    expect(rule('f(q.value * 2);', 'packages/core/src/planted.ts')).toEqual([]);
    expect(rule('f(q.value * 2);', 'packages/cli/src/planted.test.ts')).toEqual([]);
  });
});
