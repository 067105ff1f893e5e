// The house rules that a formatter does not know: headers, names, sizes, words, links, and tests that test.
import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isCode, isTest, type Rule, repositoryFiles, type SourceFile } from './support/files.ts';
import { isNode, type Node, nodesOf, nodesUnder, placeOf } from './support/syntax.ts';

const opensWithSentence: Rule = (files) =>
  files
    .filter((file) => isCode(file) && !/^\S+( \S+){2,}?[.:;?!]( |$)/.test(headerOf(file)))
    .map(({ path }) => `${path}:1: a file opens with a comment that says in a sentence what it is for`);

const namesItsExports: Rule = (files) =>
  files
    .filter((file) => isCode(file) && !/\.(d|config)\.ts$/.test(file.path))
    .flatMap((file) =>
      nodesOf(file)
        .filter(({ node }) => node.type === 'ExportDefaultDeclaration' || nameOf(node.exported) === 'default')
        .map(({ node }) => `${placeOf(file, node.start)}: an export has a name, not default`),
    );

/** Capital names are for the few documents that every repository has; expected files are named after what they show. */
const hasKebabCaseName: Rule = (files) =>
  files
    .filter(({ path }) => !path.includes('/expected/'))
    .filter(({ path }) => path.split('/').some((part) => !/^(\.?[a-z0-9]+([-.][a-z0-9]+)*|[A-Z]+(\.md)?)$/.test(part)))
    .map(({ path }) => `${path}:1: files and folders have kebab-case names`);

const saysWhyItIsLong: Rule = (files) =>
  files
    .filter((file) => isCode(file) && file.text.split('\n').length > 401 && !/\blong because\b/.test(headerOf(file)))
    .map(({ path }) => `${path}:1: over 400 lines: split it, or say in the header that it is 'long because …'`);

const hasOneDoor: Rule = (files) =>
  files
    .filter(({ path }) => /^packages\/[^/]+\/src\/.+\/index\.tsx?$/.test(path))
    .map(({ path }) => `${path}:1: a package has one index.ts, in its src`);

/** The brackets keep the words themselves out of this file. A form field may have the attribute, a style its selector. */
const unfinished = [/\b(TO[D]O|FIX[M]E|XX[X])\b/, /not i[m]plemented|coming s[o]on|(?<!:)\bplaceh[o]lder\b(?!\s*=)/i];
const isFinished: Rule = (files) =>
  files.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line, row) =>
      unfinished.flatMap((words) => {
        const found = words.exec(line)?.[0];
        return found === undefined ? [] : [`${path}:${row + 1}: '${found}' marks unfinished work`];
      }),
    ),
  );

/** `runIf` and `skipIf` are for programs that a machine may lack; see support/foreign-program.ts. */
const runsAllTests: Rule = (files) =>
  files.filter(isTest).flatMap((file) =>
    nodesOf(file)
      .filter(({ node }) => leavesTestsOut(node))
      .map(({ node }) => `${placeOf(file, node.start)}: only a missing foreign program may keep a test from running`),
  );

/** The brackets keep what is looked for out of this file. */
const drawing = /<sv[g]\b|createElement[N]S|w3\.org\/2000\/sv[g]/;
const leavesDrawingToThePrinter: Rule = (files) =>
  files
    .filter((file) => isCode(file) && !isTest(file) && !file.path.startsWith('packages/core/src/pictures/'))
    .filter(({ text }) => drawing.test(text))
    .map(({ path }) => `${path}:1: pictures are data; packages/core/src/pictures alone prints SVG`);

const expectsSomething: Rule = (files) =>
  files
    .filter(
      (file) =>
        isTest(file) &&
        !nodesOf(file).some(({ node }) => node.type === 'CallExpression' && nameOf(node.callee) === 'expect'),
    )
    .map(({ path }) => `${path}:1: a test file without expect() checks nothing`);

/** Links to files and headings of the repository; addresses on the network are not asked. */
const linksResolve: Rule = (files) => {
  const anchorsOf = new Map(files.map((file) => [file.path, anchors(file)]));
  const exists = (path: string) =>
    path === '.' || anchorsOf.has(path) || files.some((file) => file.path.startsWith(`${path}/`));
  return files.filter(isMarkdown).flatMap((file) =>
    links(file).flatMap(({ target, line }) => {
      const [path = '', anchor] = decodeURI(target).split('#');
      const goal = path === '' ? file.path : posix.join(posix.dirname(file.path), path).replace(/\/$/, '');
      if (!exists(goal)) return [`${file.path}:${line}: no file ${goal}`];
      return anchor === undefined || anchorsOf.get(goal)?.has(anchor)
        ? []
        : [`${file.path}:${line}: no heading #${anchor} in ${goal}`];
    }),
  );
};

/** The first comment of a file without its marks, on one line; empty when code comes first. */
function headerOf({ text }: SourceFile): string {
  const code = text.replace(/^#!.*\n/, '');
  const comment = /^(?:\/\/.*\n)+|^\/\*[\s\S]*?\*\//.exec(code)?.[0] ?? '';
  return comment
    .replace(/^[ /*]+|[ /*]+$/gm, '')
    .replaceAll('\n', ' ')
    .trim();
}

/** Whether a node is `it.only`, `describe.skip`, `it(name, { skip: true }, …)`, `context.skip()` or `runIf(anything)`. */
function leavesTestsOut(node: Node): boolean {
  const isTestCall = /^(it|test|describe|suite|context)$/.test(rootName(node));
  if (node.type === 'MemberExpression') return isTestCall && isDodge(node.property);
  if (node.type !== 'CallExpression' || !isTestCall || !isNode(node.callee)) return false;
  const args = node.arguments as Node[];
  if (/^(runIf|skipIf)$/.test(nameOf(node.callee.property))) return !args.some(asksForForeignProgram);
  return args.some(
    ({ type, properties }) => type === 'ObjectExpression' && (properties as Node[]).some((p) => isDodge(p.key)),
  );
}

const isDodge = (name: unknown): boolean => /^(only|skip|todo|fails)$/.test(nameOf(name));
const nameOf = (node: unknown): string => (isNode(node) && typeof node.name === 'string' ? node.name : '');

/** The name that a chain of calls and fields starts from: `it` in `it.each(rows)(title, run)`. */
function rootName(node: Node): string {
  const inner = node.object ?? node.callee;
  return isNode(inner) ? rootName(inner) : nameOf(node);
}

function asksForForeignProgram(argument: Node): boolean {
  return nodesUnder(argument).some(({ node }) => nameOf(node) === 'hasForeignProgram');
}

const isMarkdown = ({ path }: SourceFile): boolean => path.endsWith('.md');

/** Lines of prose: examples in fences and `code` say nothing about headings and links. */
function proseOf({ text }: SourceFile): string[] {
  const blank = (code: string) => code.replace(/[^\n]/g, '');
  return text.replace(/^(```|~~~)[\s\S]*?^\1/gm, blank).split('\n');
}

function links(file: SourceFile): { target: string; line: number }[] {
  return proseOf(file).flatMap((text, row) =>
    [...text.replace(/`[^`]*`/g, '').matchAll(/\]\(<?([^)\s>]+)|^\[[^\]]+\]:\s*(\S+)|\b(?:href|src)="([^"]+)"/g)]
      .map(([, inline, reference, html]) => ({ target: inline ?? reference ?? html ?? '', line: row + 1 }))
      .filter(({ target }) => !/^[a-z]+:/.test(target)),
  );
}

/** The anchors that a Markdown file has by its headings, a repeated one with a number behind it. */
function anchors(file: SourceFile): Set<string> {
  const found = new Set<string>();
  for (const line of isMarkdown(file) ? proseOf(file) : []) {
    const heading = /^#{1,6} +(.*?)[ #]*$/.exec(line)?.[1];
    if (heading === undefined) continue;
    const words = heading.replace(/\]\([^)]*\)/g, '').toLowerCase();
    const anchor = words.replace(/[^\p{L}\p{N}_ -]/gu, '').replaceAll(' ', '-');
    let name = anchor;
    for (let again = 1; found.has(name); again += 1) name = `${anchor}-${again}`;
    found.add(name);
  }
  return found;
}

describe('tidy', () => {
  const tree = repositoryFiles();
  const body = "import { expect, it } from 'vitest';\nit('adds', () => expect(1 + 1).toBe(2));\n";
  const todo = ['TO', 'DO'].join('');

  /** Each rule with files that break it once each, and files that keep it. */
  const rules: { name: string; rule: Rule; breaks: Record<string, string>; keeps: Record<string, string> }[] = [
    {
      name: 'each file of code opens with a sentence',
      rule: opensWithSentence,
      breaks: {
        'a.ts': 'export const a = 1;\n',
        'b.mjs': '// helpers\nimport "c";\n',
        'c.ts': '\n// It comes too late.\n',
      },
      keeps: {
        'a.ts': '// Adds two\n// numbers. And more\n',
        'b.js': '#!/usr/bin/env node\n/** Starts the command. */\n',
      },
    },
    {
      name: 'exports have names',
      rule: namesItsExports,
      breaks: { 'a.ts': 'export default 1;', 'b.ts': 'const b = 1; export { b as default };' },
      keeps: { 'a.d.ts': 'declare const a: 1; export default a;', 'b.ts': '// export default 1;\nexport const b = 1;' },
    },
    {
      name: 'names are in kebab-case',
      rule: hasKebabCaseName,
      breaks: { 'src/rmsTorque.ts': '', 'src/rms_torque.ts': '', 'Docs/a.md': '' },
      keeps: {
        'README.md': '',
        '.ci/run': '',
        'a-b/rms-torque.published.test.ts': '',
        'x/expected/axes.print_2.svg': '',
      },
    },
    {
      name: 'a long file says why',
      rule: saysWhyItIsLong,
      breaks: { 'a.ts': `// Adds two numbers.\n${'\n'.repeat(400)}` },
      keeps: { 'a.ts': `// Adds.\n${'\n'.repeat(399)}`, 'b.ts': `// Adds; long because so.\n${'\n'.repeat(400)}` },
    },
    {
      name: 'a package has one door',
      rule: hasOneDoor,
      breaks: { 'packages/core/src/axes/index.ts': '' },
      keeps: { 'packages/core/src/index.ts': '' },
    },
    {
      name: 'nothing is marked as unfinished',
      rule: isFinished,
      breaks: {
        'a.ts': `// ${todo}: more`,
        'b.md': ['Coming', 'soon'].join(' '),
        'c.ts': `throw new Error('${['not', 'implemented'].join(' ')}')`,
        'd.yaml': `name: ${['place', 'holder'].join('')}`,
      },
      keeps: { 'a.html': `<input ${['place', 'holder'].join('')}="1 kg">`, 'b.ts': `const mas${todo}n = 1;` },
    },
    {
      name: 'no test is left out',
      rule: runsAllTests,
      breaks: {
        'a.test.ts': 'it.only("a", f);',
        'b.test.ts': 'describe.skip("a", f);',
        'c.test.ts': 'it.each([1]).skip("a", f);',
        'd.test.ts': 'it("a", { todo: true }, f);',
        'e.test.ts': 'it("a", (context) => context.skip());',
        'f.test.ts': 'it.skipIf(process.platform === "win32")("a", f);',
      },
      keeps: {
        'a.test.ts': 'describe.runIf(hasForeignProgram("gcc"))("a", f); // it.only',
        'b.test.ts': 'it("a", () => assess(design, { only: "axes" }));',
        'c.ts': 'it.only("a", f);',
      },
    },
    {
      name: 'one printer of SVG',
      rule: leavesDrawingToThePrinter,
      breaks: {
        'packages/web/src/a.tsx': `const a = <${'sv'}g />;`,
        'packages/core/src/networks/b.ts': `const b = '<${'sv'}g>';`,
        'packages/cli/src/c.ts': `document.createElement${'N'}S(a, 'g');`,
      },
      keeps: {
        'packages/core/src/pictures/a.ts': `const a = '<${'sv'}g>';`,
        'packages/web/src/b.tsx': 'const a = <svgs />;',
      },
    },
    {
      name: 'each test file expects something',
      rule: expectsSomething,
      breaks: { 'a.test.ts': 'it("a", () => { add(1, 1); /* expect(2) */ });' },
      keeps: { 'a.test.ts': body, 'b.ts': '' },
    },
    {
      name: 'links between documents resolve',
      rule: linksResolve,
      breaks: {
        'README.md': '[a](docs/none.md)',
        'docs/a.md': '# One\n[a](#two)',
        'docs/b.md': '[a](a.md#three)',
        'docs/c.md': 'See [a].\n\n[a]: ../none.md',
      },
      keeps: {
        'README.md': '[a](docs/a.md#one--two-3-1), [b](docs), `[c](none.md)`, [d](https://example.org/#x), ![e](e.svg)',
        'docs/a.md': '# `One` & Two 3\n## One & *Two* 3\n```\n[a](none.md)\n```\n[up](../README.md)',
        'e.svg': '',
      },
    },
  ];

  it.each(rules)('$name', ({ rule, breaks, keeps }) => {
    const files = (planted: Record<string, string>) => Object.entries(planted).map(([path, text]) => ({ path, text }));
    expect(rule(files(breaks)).map((violation) => violation.split(':')[0])).toEqual(Object.keys(breaks));
    expect(rule(files(keeps))).toEqual([]);
    expect(rule(tree)).toEqual([]);
  });
});
