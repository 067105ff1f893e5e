// Every number rests on steps that can be done again, has one address, and is what the report says at that address.
import { numbersOf, print, type ReportJson, reportJson } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { addressOf, isLeaf, isStep, Quantity } from '../packages/core/src/working/quantity.ts';
import { replay } from '../packages/core/src/working/working.ts';
import { assessText, exampleMachines } from './support/examples.ts';
import { quantitiesOf } from './support/quantities.ts';

/** Addresses of numbers that come out otherwise when they are computed again. */
const notReplayed = (quantities: readonly Quantity[]): readonly string[] =>
  quantities.filter((each) => !Object.is(replay(each), each.value)).map(addressOf);

/** Addresses under which two numbers differ in value, unit or formula. */
function twoMeanings(quantities: readonly Quantity[]): readonly string[] {
  const first = new Map<string, Quantity>();
  return quantities
    .map((each): string | undefined => {
      const address = addressOf(each);
      const other = first.get(address);
      if (other === undefined) first.set(address, each);
      return other === undefined || sameMeaning(other, each) ? undefined : address;
    })
    .filter((address) => address !== undefined);
}

const sameMeaning = (a: Quantity, b: Quantity): boolean =>
  Object.is(a.value, b.value) && a.unit === b.unit && (isStep(a) ? a.by === b.by : isLeaf(b) && print(a) === print(b));

interface ShownNumber {
  readonly address: string;
  readonly value: number;
  readonly unit: string;
  readonly text: string;
}

/** Every number that the report holds, wherever in it it stands. */
function shownIn(value: unknown): readonly ShownNumber[] {
  if (typeof value !== 'object' || value === null) return [];
  const own = 'value' in value && 'unit' in value ? [value as ShownNumber] : [];
  return [...own, ...Object.values(value).flatMap(shownIn)];
}

/** What the report shows and no number of that address is, digits included. */
const notFound = (report: unknown, numbers: ReadonlyMap<string, Quantity>): readonly string[] =>
  shownIn(report)
    .filter(({ address, value, unit, text }) => {
      const number = numbers.get(address);
      return number === undefined || number.value !== value || number.unit !== unit || print(number) !== text;
    })
    .map(({ address }) => address);

/** Sentences of findings with a demand or a capacity that do not say it in the digits that its address has. */
const otherDigits = ({ findings }: ReportJson): readonly string[] =>
  findings
    .filter(({ demand, capacity, lacks, says }) =>
      lacks.length > 0 ? false : [demand, capacity].some((each) => each !== undefined && !says.includes(each.text)),
    )
    .map(({ address }) => address);

describe.each(exampleMachines())('numbers of $name', ({ text, path }) => {
  const assessment = assessText(text, path);
  const quantities = quantitiesOf(assessment);
  const numbers = numbersOf(assessment);
  const report = reportJson(assessment);

  it('replay to the identical bits', () => {
    expect(quantities.filter(isStep).length).toBeGreaterThan(20);
    expect(notReplayed(quantities)).toEqual([]);
  });

  it('have one address each, and all are found by it', () => {
    expect(twoMeanings(quantities)).toEqual([]);
    expect([...new Set(quantities.map(addressOf))].filter((address) => !numbers.has(address))).toEqual([]);
    expect(assessment.findings.filter(({ margin, address }) => margin && numbers.get(address) !== margin)).toEqual([]);
  });

  it('are what the report says, digits included', () => {
    expect(shownIn(report).length).toBeGreaterThan(10);
    expect(notFound(report, numbers)).toEqual([]);
    expect(otherDigits(report)).toEqual([]);
  });

  it('fail each of these tests when one of them is changed', () => {
    const step = quantities.find((each) => isStep(each) && each.value > 0)!;
    const changed = new Quantity(step.value * (1 + 2 ** -50), step.unit, step.by, step.inputs, step.about);
    expect(notReplayed([changed])).toEqual([addressOf(step)]);
    expect(twoMeanings([...quantities, changed])).toContain(addressOf(step));
    expect(notFound(report, new Map())).toHaveLength(shownIn(report).length);
    const [finding] = report.findings.filter(({ demand }) => demand !== undefined);
    const rounded = { ...finding!, demand: { ...finding!.demand!, text: '1.2345 ms' } };
    expect(notFound([rounded], numbers)).toEqual([rounded.demand.address]);
    expect(otherDigits({ ...report, findings: [rounded] })).toEqual([rounded.address]);
  });
});
