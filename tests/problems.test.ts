// For every kind of problem an example shows it alone: under the carets stands the slip, and the remedy helps.
import { beforeAll, describe, expect, it } from 'vitest';
import { type ProblemCode, problemCodes } from '../packages/core/src/problems/codes.ts';
import { type Problem, printProblem } from '../packages/core/src/problems/problem.ts';
import { assessExample } from './support/examples.ts';
import { problemExamples } from './support/problem-examples.ts';

/** What must stand above the carets of each example, and what its remedy must say; the nearest spelling where there is one. */
const shows: Readonly<Record<ProblemCode, readonly [marked: string, remedy: string]>> = {
  yaml: ['drive_10', 'like:'],
  'text-too-large': ['#', 'right file'],
  'text-not-plain': ['\ufffd', 'UTF-8'],
  'nested-too-deep': ['[', 'not closed'],
  'section-expected': ['second version with the longer belt', 'colon'],
  'key-twice': ['lift_1', 'the first one is read'],
  'key-unknown': ['repeat', `Did you mean 'repeats'?`],
  'key-missing': ['turnaround', 'Add date: '],
  'name-form': ['Flap-Left', 'flap_left'],
  'name-unknown': ['insrter', `Did you mean 'inserter'?`],
  'word-unknown': ['03/11/2026', 'year-month-day'],
  'map-expected': ['Palletiser for crates', 'key: value'],
  'list-expected': ['[star, spindle, solid]', '[hub, infeed, 1.5 m, solid]'],
  'value-expected': ['cycle', 'cycle: 500 µs'],
  'number-expected': ['fast', '500 µs'],
  'number-not-finite': ['1e333 s', '500 µs'],
  'decimal-comma': ['2,5', '2.5 m'],
  'digit-grouping': [`1'024`, '1024 octets'],
  'unit-missing': ['', '500 ms, 500 µs or 500 s'],
  'unit-unknown': ['usec', '500 µs'],
  'unit-wrong': ['kHz', '500 µs'],
  'unit-ambiguous': ['Mb/s', '100 Mbit/s or 100 Moctet/s'],
  'like-circle': ['black', 'one of them'],
  'element-not-one': ['controller_ram_2', 'whole list'],
  'kind-not-one': ['dwell', 'move, turn, dwell, stay'],
  'range-form': ['gate_[12..1]', 'lid_[1..8]'],
  'set-in-vain': ['axes.print_*.cycle_at_most', 'names in it'],
  'set-not-taken': ['2 ms', 'Remove this value'],
  'planned-in-vain': ['networks.stacker.cycle', 'open'],
  'catalogue-unknown': ['parts_of_2026.yaml', 'demonstration'],
  'table-unknown': ['gate_points.csv', 'points.csv'],
  'table-form': ['Nr;Art;Ort;Cable length [m]', 'name or tag'],
  'table-told': ['Drawing', 'kind, at, wire or title'],
  'out-of-range': ['-3 m', '1.5 m'],
  'version-unknown': ['2', 'layshaft: 1'],
  'part-unknown': ['drive20', `Did you mean 'drive_20'?`],
  'part-kind': ['drive_10', 'solid, flexible'],
  'station-not-wired': ['hub', '[controller, hub, 2 m, solid]'],
  'run-to-itself': ['upper', 'other end'],
  'multiples-apart': ['7 cycles', '2, 4 and 8 cycles'],
  'run-twice': ['folder', 'Remove one'],
  'runs-closed': ['head', 'Remove one'],
  'runs-apart': ['pump', '[controller, pump, 2 m, solid]'],
};

/** The mistakes in the order in which they stand in the file: code and what is marked. */
const twelve: readonly (readonly [ProblemCode, string])[] = [
  ['key-unknown', 'nam'],
  ['key-unknown', 'controler'],
  ['part-unknown', 'drive_15'],
  ['name-form', 'Flaps'],
  ['unit-missing', ''],
  ['part-kind', 'hub_6'],
  ['name-unknown', 'folder_2'],
  ['unit-wrong', 'm'],
  ['out-of-range', '1.5'],
  ['decimal-comma', '1,500'],
  ['out-of-range', '-2 m'],
  ['name-unknown', 'foldr'],
];

/** What stands above the carets as a problem is printed; trimmed, since a unit that is missing is marked behind the number. */
function marked(problem: Problem): string {
  const [, line = '', carets = ''] = printProblem(problem).split('\n');
  const from = carets.indexOf('^');
  expect(carets.slice(from), 'a row of carets').toMatch(/^\^+$/);
  return line.slice(from, carets.length).trim();
}

describe('examples of problems', () => {
  const examples = problemExamples();
  const found = new Map<string, readonly Problem[]>();
  beforeAll(async () => {
    for (const example of examples) {
      const { problems, machine } = (await assessExample(example)).design;
      found.set(example.name, [...problems, ...machine.remarks]);
    }
  });

  it('are one for each code, and twelve mistakes in one', () => {
    expect(examples.map(({ name }) => name)).toEqual([...Object.keys(problemCodes), 'twelve-mistakes'].sort());
  });

  it.each(Object.entries(shows))('%s', (code, [above, remedy]) => {
    const problems = found.get(code) ?? [];
    expect(
      problems.map((problem) => problem.code),
      'one slip is one problem',
    ).toEqual([code]);
    const [problem] = problems as readonly [Problem];
    expect(marked(problem)).toBe(above);
    expect(problem.remedy).toContain(remedy);
    expect(printProblem(problem)).toContain(`\n    ${problem.remedy}`);
    expect(`${problem.message} ${problem.remedy}`).not.toMatch(/undefined|NaN|\[object|\s[.,;:]| {2}/);
  });

  it('reports twelve mistakes in one run, and nothing else', () => {
    const problems = found.get('twelve-mistakes') ?? [];
    expect(problems.map((problem) => [problem.code, marked(problem)])).toEqual(twelve);
  });

  it.each(examples)('$name is short and says what its slip is', ({ name, text }) => {
    expect(text).toMatch(/^# \S/);
    if (name !== 'text-too-large') expect(text.split('\n').length).toBeLessThanOrEqual(25);
  });
});
