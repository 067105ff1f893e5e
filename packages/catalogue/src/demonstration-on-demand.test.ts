// The demonstration parts, each read when it is asked for, against all of them read at once.
import { readCatalogue } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { indexOf } from '../../core/src/machine/catalogue-on-demand.ts';
import { demonstration, demonstrationName, demonstrationTexts } from './demonstration.ts';

const whole = readCatalogue(demonstrationName, demonstrationTexts);

describe('the demonstration texts', () => {
  it('read without a problem', () => expect(whole.problems).toEqual([]));

  it('are laid out so that no part is read before it is asked for', () => {
    expect([...(indexOf(demonstrationTexts) ?? [])].map(([name, { kind }]) => [name, kind])).toEqual([...whole.kinds]);
  });
});

describe('the demonstration parts', () => {
  it('are the same when each is asked for alone', () => {
    expect(whole.parts.size).toBeGreaterThan(100);
    for (const [name, part] of whole.parts) expect(demonstration().take([name]), name).toStrictEqual([part]);
  });

  it('are the same, and in the same order, when all are asked for', () => {
    const { kinds, parts } = demonstration();
    expect([...kinds]).toEqual([...whole.kinds]);
    expect([...parts]).toStrictEqual([...whole.parts]);
  });
});
