// What is found when catalogues have one name for several parts, and what is said of names that none of them has.
import { describe, expect, it } from 'vitest';
import { readCatalogue } from './catalogue.ts';
import { read } from './machine.ts';
import { type Design, resolve } from './resolve.ts';

const withParts = (...each: readonly (readonly string[])[]): ((drive: string) => Design) => {
  const catalogues = each.map((parts, at) => {
    const text = ['layshaft_catalogue: 1', 'source: ours', 'parts:', ...parts.map((part) => `  ${part}`)].join('\n');
    return readCatalogue(`c${at}.yaml`, [{ file: `c${at}.yaml`, text }]);
  });
  return (drive) => resolve(read(`layshaft: 1\naxes: { a: { drive: ${drive} } }`), catalogues);
};
const drives = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, at) => `drive_${10 * (at + 1)}: { kind: drive }`);
const remedyOf = ({ problems }: Design): string | undefined => problems[0]?.remedy;

describe('a later catalogue', () => {
  const design = withParts(
    ['one: { kind: drive, plugs: 2 }', 'two: { kind: drive }', 'hub: { kind: hub }'],
    ['hub: { kind: drive }', 'one: { kind: drive, plugs: 3 }', 'two: { kind: hub }'],
  );

  it('goes before an earlier one, in the place of which its part stands', () => {
    expect(
      design('one')
        .offered('drive')
        .map(({ name, catalogue }) => `${name} ${catalogue}`),
    ).toEqual(['one c1.yaml', 'hub c1.yaml']);
    expect(
      design('one')
        .alternatives.centres()
        .map(({ name }) => name),
    ).toEqual(['two']);
  });

  it('takes a part of an earlier one away by one of another kind', () => {
    expect(design('hub').problems).toEqual([]);
    expect(design('two').problems.map(({ message }) => message)).toEqual([
      "'two' is a part of kind hub; a drive is due here",
    ]);
    expect(remedyOf(design('two'))).toBe('Parts of kind drive: one, hub.');
    expect(remedyOf(design('twoo'))).toBe('Parts of kind drive: one, hub.');
  });
});

describe('the parts of the kind that is due', () => {
  it('are all told when there are few of them', () => {
    expect(remedyOf(withParts(drives(9))('none'))).toBe(
      'Parts of kind drive: drive_10, drive_20, drive_30, drive_40, drive_50, drive_60, drive_70, drive_80, drive_90.',
    );
    expect(remedyOf(withParts(['six: { kind: hub }'])('none'))).toBe('Parts of kind drive: none.');
  });

  it('are told with the nearest first when there are many, and how many are left', () => {
    expect(remedyOf(withParts(drives(20))('drive_155'))).toBe(
      "Did you mean 'drive_150'? Parts of kind drive: drive_150, drive_10, drive_50, drive_100, drive_110, drive_120, drive_130, drive_140 and 12 more; layshaft parts lists all.",
    );
    expect(remedyOf(withParts(drives(10))('servo'))).toBe(
      'Parts of kind drive: drive_10, drive_20, drive_30, drive_40, drive_50, drive_60, drive_70, drive_80 and 2 more; layshaft parts lists all.',
    );
  });
});
