// A finding rests on what its working names: each given number is changed, and what moves must name it.
import { demonstration } from '@layshaft/catalogue';
import { type Assessment, assess, type Finding, resolve, vary } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { isLeaf, leaf, type Quantity } from '../packages/core/src/working/quantity.ts';
import { assessText, exampleMachines } from './support/examples.ts';
import { restsOn } from './support/quantities.ts';

interface GivenNumber {
  /** Where the number is written, and the paths of all that share it. */
  readonly paths: readonly string[];
  /** Where the number stands in the text, without its unit. */
  readonly from: number;
  readonly to: number;
  readonly changed: string;
  /** What stands behind the number. */
  readonly unit: string;
}

/** Every number that the text gives: leaves of the machine file that begin with one, dates and the version aside. */
function givenNumbers(text: string, { reading }: Assessment['design']['machine']): readonly GivenNumber[] {
  const found = new Map<number, GivenNumber>();
  for (const [path, { node, section, writtenAt }] of reading.places) {
    // A stop category of IEC 60204-1 is a word that looks like a number.
    if (node.kind !== 'leaf' || path === 'layshaft' || path.endsWith('.category')) continue;
    const from = section.start + node.from;
    const [, number, unit = ''] = /^(\d+(?:\.\d+)?) ?(1\/.+|[^\d\s-].*)?$/.exec(node.text) ?? [];
    if (number === undefined || !text.startsWith(number, from)) continue;
    const paths = [...(found.get(from)?.paths ?? [writtenAt]), path];
    found.set(from, {
      paths,
      from,
      to: from + number.length,
      changed: changeOf(number, unit),
      unit: node.text.slice(number.length),
    });
  }
  return [...found.values()];
}

/** A count, of octets, cycles and repeats too, by one; everything else by one per cent. */
const changeOf = (number: string, unit: string): string =>
  /^(octets|cycles|repeats|)$/.test(unit)
    ? String(Number(number) + 1)
    : String(Number((Number(number) * 1.01).toPrecision(6)));

type Weighed = Pick<Finding, 'address' | 'demand' | 'capacity'>;

/** Findings whose demand or capacity has moved, as they were and as they are now. */
const moved = (
  before: readonly Weighed[],
  after: readonly Weighed[],
): readonly (readonly [Weighed, Weighed | undefined])[] =>
  before
    .map((was) => [was, after.find(({ address }) => address === was.address)] as const)
    .filter(([was, is]) => is?.demand?.value !== was.demand?.value || is?.capacity?.value !== was.capacity?.value);

/** Those of them whose working, neither then nor now, names one of the paths that were changed. */
const movedUnnamed = (before: readonly Weighed[], after: readonly Weighed[], paths: readonly string[]) =>
  moved(before, after)
    .filter(([was, is]) => !restsOn([was.demand, was.capacity, is?.demand, is?.capacity]).some(names(paths)))
    .map(([{ address }]) => address);

const names =
  (paths: readonly string[]) =>
  (quantity: Quantity): boolean =>
    isLeaf(quantity) &&
    [quantity.by.path, quantity.by.writtenAt].some(
      (each) => paths.includes(each) || paths.includes(`${each}.measured`),
    );

describe.each(exampleMachines())('every given number of $name', ({ text, path: file }) => {
  const before = assessText(text, file);
  const given = givenNumbers(text, before.design.machine);
  const changes = given.map((number) => {
    const changed = text.slice(0, number.from) + number.changed + text.slice(number.to);
    return { ...number, after: assessText(changed, file).findings };
  });

  it('is found in the text', () => {
    const plain = text.replace(/#.*|^layshaft: 1|\d{4}-\d\d-\d\d|category: \d/gm, '');
    expect(given).toHaveLength(plain.match(/(?<=[:[{,]\s*)\d+(\.\d+)?(?!\.\.)/g)?.length ?? 0);
  });

  it('is named by the working of every finding that it moves', () => {
    for (const { paths, after } of changes) expect(movedUnnamed(before.findings, after, paths), paths[0]).toEqual([]);
  });

  it('leaves unknown what it moves, where it is said to be unknown', () => {
    for (const { paths, from, to, unit, after } of changes) {
      const touched = moved(before.findings, after).map(([{ address }]) => address);
      if (touched.length === 0) continue;
      const { findings } = assessText(`${text.slice(0, from)}unknown${text.slice(to + unit.length)}`, file);
      const left = findings.filter(({ address, verdict }) => touched.includes(address) && verdict !== 'unknown');
      expect(
        left.map(({ address }) => address),
        paths[0],
      ).toEqual([]);
    }
  }, 120_000);

  it('is changed by vary as by an edit of the text', () => {
    for (const { paths, changed, after, unit } of changes) {
      const path = paths[0]!;
      const varied = vary(before.design.machine, path, `${changed}${unit}`, { at: 'source' });
      expect(varied, path).toBeDefined();
      const findings = assess(resolve(varied!, [demonstration()])).findings;
      expect(
        findings.map(({ address, demand, capacity }) => [address, demand?.value, capacity?.value]),
        path,
      ).toEqual(after.map(({ address, demand, capacity }) => [address, demand?.value, capacity?.value]));
    }
  });

  it('moves some finding in many cases', () => {
    expect(changes.filter(({ after }) => moved(before.findings, after).length > 0).length).toBeGreaterThan(10);
  });

  it('is missed by a finding whose working is cut off', () => {
    const cut = (findings: readonly Weighed[]) =>
      findings.map(({ address, demand, capacity }) => ({
        address,
        demand: demand && fromElsewhere(demand),
        capacity: capacity && fromElsewhere(capacity),
      }));
    for (const { paths, after } of changes)
      expect(movedUnnamed(cut(before.findings), cut(after), paths), paths[0]).toEqual(
        moved(before.findings, after).map(([{ address }]) => address),
      );
  });
});

/** The same number with an origin that names nothing of the file. */
const fromElsewhere = ({ value, unit }: Quantity): Quantity =>
  leaf(value, unit, { kind: 'given', path: '-', via: [], writtenAt: '-', written: String(value), writtenUnit: unit });
