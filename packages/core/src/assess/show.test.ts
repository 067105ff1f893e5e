// Numbers that are only shown are found by their address, and no view is made for an address that cannot be in one.
import { describe, expect, it } from 'vitest';
import { assessText, exampleMachines } from '../../../../tests/support/examples.ts';
import { quantitiesIn } from '../checks/view.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import { walk } from '../working/working.ts';
import type { Assessment } from './assess.ts';
import { explain, numbersOf } from './numbers.ts';
import { numberShown, show, shownAddresses } from './show.ts';

const { text, path } = exampleMachines().find(({ name }) => name === 'labeller')!;
const assessment = assessText(text, path);

/** The same machine, with catalogues that must not be looked into: what a view of a network begins with. */
const viewsFail = (): Assessment => {
  const fail = (): never => {
    throw new Error('a view is made');
  };
  const { design } = assessment;
  return { ...assessment, design: { ...design, alternatives: { controllers: fail, profiles: fail, centres: fail } } };
};

describe('numberShown', () => {
  it('finds every number of every view', () => {
    const all = new Map<string, Quantity>();
    const seen = new Set<Quantity>();
    for (const view of shownAddresses(assessment).flatMap((address) => show(assessment, address)))
      for (const quantity of quantitiesIn(view)) walk(quantity, (each) => void all.set(addressOf(each), each), seen);
    const findings = numbersOf(assessment);
    const only = [...all].filter(([address]) => !findings.has(address));
    expect(only.length).toBeGreaterThan(500);
    // A view takes long to make; of the many numbers of one formula and of one part, the first stands for all.
    const kinds = new Map(
      only
        .toReversed()
        .map(([address, number]) => [address.replace(/(?<=^parts\.\w+\.).*|@.*/, ''), { address, number }]),
    );
    expect(kinds.size).toBeGreaterThan(20);
    for (const { address, number } of kinds.values())
      expect(numberShown(assessment, address)?.value, address).toBe(number.value);
  });

  it.each([
    'axes.infeed_screw.nothing',
    'something',
    'networks.cycle@drive',
    'networks.cycle.used@drivesmore',
    'networks.cycle.usd@drives.over_polled_100',
    'margin@networks.cycle@drives.x',
  ])('makes no view for %s', (address) => {
    expect(explain(viewsFail(), address)).toBeUndefined();
  });

  it('makes one for what may be in it', () => {
    for (const address of ['networks.cycle.used@drives.over_nothing', 'parts.polled_100.rates'])
      expect(() => explain(viewsFail(), address), address).toThrow('a view is made');
  });
});
