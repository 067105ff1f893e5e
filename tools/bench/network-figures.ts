// Figures of the bench about large machines: planning against plain C, re-reading after an edit, variants, explaining.
import { demonstration } from '@layshaft/catalogue';
import { assess, explain, flatten, read, resolve, vary } from '@layshaft/core';
import { parseDocument } from 'yaml';
import { plan } from '../../packages/core/src/networks/planned.ts';
import { exampleMachines, hasNetworks } from '../../tests/support/examples.ts';
import type { Figure } from './figures.ts';
import { type CompareOptions, compare, three } from './measure.ts';
import { inPlainC } from './plain-c.ts';

const warm: CompareOptions = { batches: 21, batch_s: 0.02 };
const large = 'print-line';
const stations = 44;

export function* networkFigures(): Generator<Figure> {
  const text = exampleMachines().find(({ name }) => name === large)!.text;
  const catalogues = [demonstration()];
  yield rereading(text);
  for (const { name, text: each } of exampleMachines().filter(hasNetworks)) yield variants(name, each);
  yield explaining(text);
  const c_s = inPlainC('polled.c', ({ run }) => run(stations, 100_000)[0]!);
  if (c_s !== undefined) yield againstC(c_s);

  /** An edit in one axis; the other sections are taken from the reading before. */
  function rereading(whole: string): Figure {
    const previous = read(whole);
    const edits = [10, 20].map((size) => whole.replace(/(?<=plate_1:[\s{]+drive: drive_)\d+/, String(size)));
    if (new Set(edits).size < 2) throw new Error('the edit meets nothing in the text any more');
    let turn = 0;
    const { subject_s, ratio } = compare(
      () => read(edits[++turn % 2]!, { previous }),
      () => parseDocument(whole),
      warm,
    );
    return {
      what: `read ${large} again after an edit in one axis`,
      measured: `${three(subject_s * 1e3)} ms`,
      baseline: 'parsing all its YAML',
      ratio,
      aim: { text: 'under 10 ms', kept: subject_s < 10e-3 },
    };
  }

  /** A variant is made with vary, resolved and assessed through the public door. */
  function variants(name: string, whole: string): Figure {
    const machine = read(whole);
    const path = `${machine.networks[0]!.path}.cycle`;
    let turn = 0;
    const { subject_s, ratio } = compare(
      () => assess(resolve(vary(machine, path, `${400 + (++turn % 500)} µs`)!, catalogues)),
      () => parseDocument(whole),
      warm,
    );
    const least = 10_000;
    return {
      what: `variants of ${name}, made and assessed`,
      measured: `${Math.round(1 / subject_s)} a second`,
      baseline: 'parsing its YAML',
      ratio,
      ...(name === 'labeller' && { aim: { text: `at least ${least} a second`, kept: 1 / subject_s >= least } }),
    };
  }

  /** The working that rests on most numbers, each once, as JSON. */
  function explaining(whole: string): Figure {
    const assessment = assess(resolve(read(whole), catalogues));
    const address = `networks.cycle@${assessment.networks[0]!.network.name}`;
    const json = () => JSON.stringify(flatten(explain(assessment, address)!));
    const { subject_s, ratio } = compare(json, () => parseDocument(whole), warm);
    return {
      what: `the deepest working of ${large} as JSON, ${Math.round(json().length / 1024)} kB`,
      measured: `${three(subject_s * 1e3)} ms`,
      baseline: 'parsing its YAML',
      ratio,
      aim: { text: 'under 5 ms', kept: subject_s < 5e-3 },
    };
  }

  /** Planning a polled line, working kept, against the same closed forms in C. */
  function againstC(baseline_s: number): Figure {
    const runs = Array.from(
      { length: stations },
      (_, index) => `      - [${index === 0 ? 'controller' : `a${index - 1}`}, a${index}, 0.5 m, solid]`,
    ).join('\n');
    const axes = Array.from({ length: stations }, (_, index) => `  a${index}: { drive: drive_5 }`).join('\n');
    const line = read(
      `layshaft: 1\ncontroller: controller_l\naxes:\n${axes}\nnetworks:\n  n:\n    profile: polled_100\n    cycle: 4 ms\n    repeats: 2\n    non_cyclic: 512 octets\n    runs:\n${runs}\n`,
    );
    const network = resolve(line, catalogues).networks[0]!;
    const { subject_s } = compare(
      () => plan(network),
      () => 0,
      warm,
    );
    return {
      what: `plan a polled line of ${stations}, working kept`,
      measured: `${three(subject_s * 1e6)} µs`,
      baseline: 'the same closed forms in plain C (-O2)',
      ratio: subject_s / baseline_s,
    };
  }
}
