// Reading part by part against reading all: texts laid out in any way, and texts in which something was changed at random.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import type { Part } from '../reading/parts.ts';
import { type Catalogue, type CatalogueText, readCatalogue } from './catalogue.ts';
import { catalogueOnDemand, indexOf } from './catalogue-on-demand.ts';

const asTexts = (texts: readonly string[]): readonly CatalogueText[] =>
  texts.map((text, at) => ({ file: `own/${at}.yaml`, text }));

/** Without where the parts that it requires are named, which is told of texts that are read whole alone. */
const said = (part: Part | undefined) => part && { ...part, values: { ...part.values, requires: undefined } };
const saidOf = ({ kinds, parts }: Catalogue) => [[...kinds], [...parts].map(([name, part]) => [name, said(part)])];

/** Compares all at once, each part as the only one, and one after another, from the last and from the first. */
function sameAsWhole(texts: readonly CatalogueText[], whole: Catalogue, told: string): void {
  expect(saidOf(catalogueOnDemand('own', texts)), told).toStrictEqual(saidOf(whole));
  const names = [...whole.parts.keys()];
  for (const order of [...names.map((name) => [name]), names, names.toReversed()]) {
    const { take } = catalogueOnDemand('own', texts);
    const parts = order.map((name) => take(['none', name]));
    for (const [at, part] of parts.flat().entries())
      expect(said(part), told).toStrictEqual(said(whole.parts.get(order[at]!)));
    // Part by part, no object is replaced by another one of the same part.
    expect(take(order).every((part, at) => part === parts[at]?.[0])).toBe(true);
  }
}

const head = 'layshaft_catalogue: 1\nsource: our data sheets\nparts:\n';
const usual = `# Ours.

${head}
  # ── drives ──
  near: { kind: drive, title: "Drive at hand, 5 A", cost: 700, version: 1.10, current: 5 A, plugs: 2,
    turnaround: { typical: 1.5 µs, at_most: 2 µs, condition: one encoder, source: sheet 7 }, command: 24 octets,
    requires: [{ part: hub, version: 2.0 }, { part: wire }] }
  far: { like: near, title: "Drive far off", current: 7 A, turnaround: { at_most: 3 µs } }
  further: { like: far, cost: 900 }
# ── between them ──
  hub:
    kind: hub
    title: |
      Hub
        # of metal
    plugs: 6       # all alike

    forwarding: { typical: 440 ns, at_most: 460 ns }
  wire:
    kind: cable
    delay: 5 ns/m`;

/** A text of which the last part is written so. */
const lastly = (part: string): string => `${usual}\n${part}\n`;

describe('texts without a problem', () => {
  it.each<[string, 'indexed' | 'read whole', readonly string[]]>([
    ['as usual', 'indexed', [usual]],
    ['that end with a line break', 'indexed', [`${usual}\n`]],
    ['side by side', 'indexed', [usual, `${head}  one: { kind: gear, ratio: 5 }\n  two: { like: one, ratio: 7 }\n`]],
    ['with what looks like a part in a title', 'indexed', [usual.replace('    # of metal', '   hub_2: { kin: 1')]],
    ['with what looks like a part in quotes', 'indexed', [usual.replace(' at hand', '\n    hub_2: { of: metal')]],
    ['with parts further in', 'read whole', [usual.replace(/^ {2}/gm, '    ')]],
    ['with parts in braces', 'read whole', ['layshaft_catalogue: 1\nparts: { near: { kind: drive, plugs: 2 } }']],
    ['with no part', 'read whole', ['layshaft_catalogue: 1\nsource: ours']],
    ['with a range', 'read whole', [usual.replace('further:', 'further_[1..3]:')]],
    ['with names in quotes', 'read whole', [usual.replace('further:', '"further":')]],
    ['with a part like one below', 'read whole', [`${head}  b: { like: a }\n  a: { kind: drive, plugs: 2 }`]],
    [
      'with a part like one below that is called as a kind',
      'read whole',
      [lastly('  b: { like: gear }\n  gear: { kind: hub }')],
    ],
    ['with a part like one of another kind', 'read whole', [lastly('  last: { like: wire, kind: cable }')]],
    ['with its kind in quotes', 'read whole', [lastly('  last: { like: wire, "kind": cable }')]],
    ['with its kind in signs', 'read whole', [lastly('  last: { like: wire, "k\\u0069nd": cable }')]],
    ['with a kind further down', 'read whole', [lastly('  last:\n    plugs: 6\n    kind: hub')]],
    ['with a kind on a line of its own', 'read whole', [lastly('  last: { kind:\n    hub, plugs: 6 }')]],
    ['with a kind in a title', 'read whole', [usual.replace('Drive at hand', 'Drive, like: hub')]],
    ['with a kind that is open', 'read whole', [lastly('  last: { kind: open }')]],
    ['with line ends of another kind', 'read whole', [usual.replaceAll('\n', '\r\n')]],
    ['with lines that not all programs see', 'read whole', [usual.replace(' at hand', '\u2028  seen: { kind: gear')]],
    ['with lines of an old computer', 'read whole', [usual.replace(' at hand', '\r  seen: { kind: gear')]],
    ['with the source last', 'read whole', [`${usual.replace('source: our data sheets\n', '')}\nsource: ours\n`]],
    ['with one name in two', 'read whole', [usual, `${head}  near: { kind: gear, ratio: 5 }`]],
  ])('%s', (_how, how, written) => {
    const texts = asTexts(written);
    const whole = readCatalogue('own', texts);
    expect(whole.problems).toEqual([]);
    expect(indexOf(texts) === undefined ? 'read whole' : 'indexed').toBe(how);
    sameAsWhole(texts, whole, written.join('\n'));
  });
});

describe('texts changed at random', () => {
  const strange = [
    'kind',
    'like',
    'kind: gear, ',
    'near',
    '  ',
    '\n',
    '\n  ',
    '\n  a: { kind: gear }\n',
    '\n  b:\n    ',
  ]
    .concat(['"', "'", '{ ', ' }', '[', ']', ', ', ': ', '# ', ' |', ' >', '- ', '? ', '&a ', '*a', '!a ', '\\', '\t'])
    .concat(['\r', '\u2028', '\nparts:\n', '\nsource: x\n', 'open', '~', '%', '---\n']);

  /** Once or twice something is put in, taken out, or a line is moved. */
  function changed(text: string, random: () => number): string {
    const below = (count: number): number => Math.floor(random() * count);
    let now = text;
    for (let left = 1 + below(2); left > 0; left--) {
      const at = below(now.length);
      const lines = now.split('\n');
      const [line = ''] = lines.splice(below(lines.length), 1);
      const moved = below(lines.length);
      now = [
        now.slice(0, at) + strange[below(strange.length)] + now.slice(at),
        now.slice(0, at) + now.slice(at + 1 + below(12)),
        [...lines.slice(0, moved), line, ...lines.slice(moved)].join('\n'),
      ][below(3)]!;
    }
    return now;
  }

  it('are the same wherever nothing is wrong with them, and never break anything', () => {
    const met = { indexed: 0, whole: 0, wrong: 0 };
    for (let seed = 1; seed <= 600; seed++) {
      const texts = asTexts([changed(usual, seeded(seed))]);
      const whole = readCatalogue('own', texts);
      if (whole.problems.length > 0) {
        met.wrong++;
        const { kinds, take } = catalogueOnDemand('own', texts);
        expect(take([...kinds.keys()]).length, `seed ${seed}`).toBeLessThanOrEqual(kinds.size);
        continue;
      }
      met[indexOf(texts) === undefined ? 'whole' : 'indexed']++;
      sameAsWhole(texts, whole, `seed ${seed}`);
    }
    expect(Math.min(...Object.values(met)), JSON.stringify(met)).toBeGreaterThan(15);
  });
});
