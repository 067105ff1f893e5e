// Hostile input: thousands of seeded mutations of the examples, and texts made to hurt, each end with problems that have
// a place or with a machine; never with an exception, a hang or a full memory.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { build } from 'esbuild';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assessText, exampleMachines } from './support/examples.ts';
import { type Answer, answerOf } from './support/hostile-answer.ts';
import { seeded } from './support/seeded.ts';

const heap_MB = 300;
/** Guards against a hang, not benchmarks; texts made to hurt get more, since other tests share the machine. */
const guard_ms = 1000;
const hurting_ms = 10_000;

/** The child that reads; started anew after it died, so that one bad text does not hide the next. */
class Reader {
  readonly #script: string;
  #child: ChildProcess | undefined;
  #waiting: ((answer: Answer | string) => void) | undefined;

  constructor(script: string) {
    this.#script = script;
  }

  #start(): ChildProcess {
    const child = spawn(process.execPath, [`--max-old-space-size=${heap_MB}`, this.#script], {
      stdio: ['pipe', 'pipe', 'pipe'],
    });
    let said = '';
    child.stderr!.on('data', (data) => {
      said += data;
    });
    createInterface({ input: child.stdout! }).on('line', (line) => this.#waiting?.(JSON.parse(line)));
    child.on('exit', (code) => {
      if (this.#child !== child) return;
      this.#child = undefined;
      this.#waiting?.(`died with ${code}: ${said.slice(-600)}`);
    });
    return child;
  }

  /** What the child made of a text, or how it failed. */
  async read(text: string, within_ms = guard_ms): Promise<Answer | string> {
    this.#child ??= this.#start();
    const child = this.#child;
    return new Promise((done) => {
      const guard = setTimeout(() => {
        this.#waiting = undefined;
        this.#child = undefined;
        child.kill('SIGKILL');
        done(`took more than ${within_ms} ms`);
      }, within_ms);
      this.#waiting = (answer) => {
        clearTimeout(guard);
        this.#waiting = undefined;
        done(answer);
      };
      child.stdin!.write(`${JSON.stringify(text)}\n`);
    });
  }

  stop(): void {
    this.#child?.kill();
  }
}

const folder = mkdtempSync(join(tmpdir(), 'layshaft-hostile-'));
const script = join(folder, 'child.mjs');
let reader: Reader;

beforeAll(async () => {
  await build({
    entryPoints: ['tests/hostile.child.ts'],
    outfile: script,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    loader: { '.yaml': 'text' },
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    logLevel: 'error',
  });
  reader = new Reader(script);
  // The first text pays for starting and warming up.
  for (let round = 0; round < 3; round++) await reader.read(exampleMachines()[0]!.text);
});
afterAll(() => {
  reader.stop();
  rmSync(folder, { recursive: true });
});

/** One mutation: octets, lines, or values swapped. */
function mutate(text: string, random: () => number): string {
  const whole = (below: number): number => Math.floor(random() * below);
  const at = whole(text.length);
  const lines = text.split('\n');
  const line = whole(lines.length);
  const words = [...text.matchAll(/[^\s{}[\],:]+/g)];
  const pick = (): RegExpExecArray => words[whole(words.length)]!;
  const kinds: readonly (() => string)[] = [
    () => text.slice(0, at) + String.fromCharCode(whole(0x250)) + text.slice(at + 1),
    () => text.slice(0, at) + text.slice(at + 1 + whole(30)),
    () => text.slice(0, at) + '{}[]:,#&*!|>%@`"\'-?\t'[whole(21)] + text.slice(at),
    () => [...lines.slice(0, line), ...lines.slice(line + 1 + whole(3))].join('\n'),
    () => [...lines.slice(0, line), lines[whole(lines.length)]!, ...lines.slice(line)].join('\n'),
    () => lines.map((each, index) => (index === line ? ' '.repeat(whole(9)) + each.trimStart() : each)).join('\n'),
    () => {
      const [a, b] = [pick(), pick()];
      return text.slice(0, a.index) + b[0] + text.slice(a.index + a[0].length);
    },
    () => {
      const word = pick();
      const by = [
        'open',
        'unknown',
        '-1',
        '0',
        '1e400',
        'NaN',
        'null',
        '~',
        'true',
        '__proto__',
        'constructor',
        'toString',
        '1 m',
        '1e-320 s',
        '٣',
        '1,5',
        '99999999999999999999',
        'a'.repeat(300),
      ][whole(18)]!;
      return text.slice(0, word.index) + by + text.slice(word.index + word[0].length);
    },
  ];
  return kinds[whole(kinds.length)]!();
}

describe('hostile input', () => {
  const examples = exampleMachines();
  const large = examples.find(({ name }) => name === 'print-line')!;
  const others = examples.filter((example) => example !== large);
  const stations = { name: 'stations', text: readFileSync('tests/browser/support/stations.yaml', 'utf8') };
  const mutations = 4_000;

  it(`is told or read, in ${mutations} seeded mutations`, async () => {
    const failures: string[] = [];
    let withProblems = 0;
    for (let seed = 1; seed <= mutations; seed++) {
      const random = seeded(seed);
      // Examples take longer than stations alone, the large one as long as five others.
      const { name, text } = seed % 20 === 0 ? large : seed % 4 === 0 ? others[seed % others.length]! : stations;
      let mutated = text;
      for (let count = 1 + Math.floor(random() * 3); count > 0; count--) mutated = mutate(mutated, random);
      const answer = await reader.read(mutated);
      if (typeof answer === 'string' || !answer.placed || !answer.said)
        failures.push(`seed ${seed}, ${name}: ${JSON.stringify(answer)}`);
      else if (answer.problems > 0) withProblems++;
    }
    expect(failures).toEqual([]);
    expect(withProblems).toBeGreaterThan(mutations / 3);
  }, 240_000);

  it('is told or read, in structures that no example has', async () => {
    const word = fc.constantFrom(
      'axes',
      'networks',
      'drives',
      'runs',
      'like',
      'part',
      'set',
      'path',
      'value',
      'planned',
      'drive',
      'cycle',
      'nodes',
      'profile',
      '__proto__',
      'constructor',
      'a_[1..3]',
      'a_[3..1]',
    );
    const tree = fc.letrec<{ any: unknown }>((tie) => ({
      any: fc.oneof(
        { maxDepth: 5 },
        fc.constantFrom('open', 'unknown', 'drive_5', '1 ms', 'a', '', '[1..2]'),
        fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(word, tie('any'), { maxKeys: 4 }),
      ),
    })).any;
    await fc.assert(
      fc.asyncProperty(fc.dictionary(word, tree, { maxKeys: 5 }), async (made) => {
        const text = `layshaft: 1\n${Object.entries(made)
          .map(([key, value]) => `${key}: ${JSON.stringify(value)}\n`)
          .join('')}`;
        const answer = await reader.read(text);
        expect(answer, text).toMatchObject({ placed: true, said: true });
      }),
      { seed: 5, numRuns: 1500 },
    );
  }, 120_000);

  it.each<[string, string]>([
    ['a bomb of brackets', `layshaft: 1\naxes: ${'['.repeat(100_000)}`],
    ['a bomb of maps', `layshaft: 1\naxes: ${'{a: '.repeat(50_000)}`],
    ['a bomb of list marks', `layshaft: 1\naxes:\n  ${'- '.repeat(50_000)}a`],
    [
      'a bomb of indentation',
      `layshaft: 1\n${Array.from({ length: 2000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')}`,
    ],
    ['two million characters', `layshaft: 1\n${'# line of a comment\n'.repeat(110_000)}`],
    ['a quote that never closes', `layshaft: 1\naxes: "${'a: b\n'.repeat(3000)}`],
    ['a range of a million', 'layshaft: 1\naxes:\n  a_[1..999999]: { drive: drive_5 }\n'],
    [
      'ranges of ranges',
      `layshaft: 1\naxes:\n${Array.from({ length: 12 }, (_, index) => `  a${index}_[1..2000]: { drive: drive_5 }`).join('\n')}\n`,
    ],
    ['aliases of aliases', `layshaft: 1\naxes: &a { x: &b { y: *a } }\n`],
    ['merge keys and tags', 'layshaft: 1\naxes: { <<: { a: {} }, b: !!binary aGk= }\n'],
    [
      'a chain of a thousand likes',
      `layshaft: 1\naxes:\n  a0: { drive: drive_5 }\n${Array.from({ length: 1000 }, (_, index) => `  a${index + 1}: { like: a${index} }`).join('\n')}\n`,
    ],
    [
      'names that objects have',
      'layshaft: 1\naxes: { constructor: { drive: __proto__ }, __proto__: { drive: toString } }\nreserves: { toString: 3, __proto__: 4 }\nnetworks: { hasOwnProperty: { runs: [[controller, constructor, 1 m, valueOf]] } }\n',
    ],
    ['binary rubbish', String.fromCharCode(...Array.from({ length: 4000 }, (_, index) => (index * 7919) % 256))],
    ['text in another encoding', '\uFFFD\uFFFDl\u0000a\u0000y\u0000'],
    ['nothing', ''],
    ['only a comment', '# nothing yet'],
    ['Windows line ends', examples[0]!.text.replaceAll('\n', '\r\n')],
    [
      'a thousand settings',
      `layshaft: 1\naxes:\n${Array.from({ length: 40 }, (_, index) => `  a${index}: { drive: drive_5 }`).join('\n')}\nset:\n${'  - { path: axes.a*.cycle_at_most, value: 1 ms }\n'.repeat(1000)}`,
    ],
    [
      'multiples that never meet',
      `layshaft: 1\naxes:\n${[61, 62, 63, 59].map((every, index) => `  a${index}: { drive: { part: drive_5, every: ${every} cycles } }`).join('\n')}\nnetworks: { n: { cycle: 1 ms, profile: polled_100, runs: [[controller, a0, 1 m, solid], [a0, a1, 1 m, solid], [a1, a2, 1 m, solid], [a2, a3, 1 m, solid]] } }\n`,
    ],
  ])('is told or read: %s', async (_what, text) => {
    expect(await reader.read(text, hurting_ms)).toMatchObject({ placed: true, said: true });
  });

  it('leaves nothing behind: the untouched examples read afterwards are as ever', async () => {
    for (const { text } of examples) expect(await reader.read(text)).toEqual(answerTo(text));
  });

  it('would be caught: a reader that dies, one that hangs, and the next text after either', async () => {
    const dying = new Reader(join(folder, 'not-there.mjs'));
    expect(await dying.read('x')).toMatch(/^died with 1/);
    const silent = join(folder, 'silent.mjs');
    writeFileSync(silent, 'setInterval(() => undefined, 1000);');
    const hanging = new Reader(silent);
    expect(await hanging.read('x')).toBe(`took more than ${guard_ms} ms`);
    expect(await hanging.read('y')).toBe(`took more than ${guard_ms} ms`);
    hanging.stop();
  });

  it('one slip that swallows names is one problem: a quote that is not closed', async () => {
    const text = examples
      .find(({ name }) => name === 'labeller')!
      .text.replace('drive: drive_5 }', 'drive: "drive_5 }');
    const codes = new Set(assessText(text, 'hostile.yaml').design.problems.map(({ code }) => code));
    expect([...codes]).toEqual(['yaml']);
  });
});

const answerTo = (text: string): Answer => answerOf(assessText(text, 'hostile.yaml'));
