// Asking backwards on the examples: every bracket is proven on the text itself, spliced and read again.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { examples, withProblems } from '../machine/edits.support.ts';
import { type Machine, read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { splice } from '../machine/splice.ts';
import { readQuantity } from '../units/read-quantity.ts';
import type { Quantity } from '../working/quantity.ts';
import { type Assessment, assess } from './assess.ts';
import { type Asking, type AskingOptions, askBackwards } from './backwards.ts';
import { type Candidate, inputsOf } from './inputs-of.ts';
import { numbersOf } from './numbers.ts';

const catalogues = [demonstration()];
const texts = new Map(examples);
const example = (name: string): Machine => read(texts.get(name)!);
const assessed = (machine: Machine): Assessment => assess(resolve(machine, catalogues));
const findingOf = (machine: Machine, address: string) =>
  assess(resolve(machine, catalogues), { only: address }).findings.find((each) => each.address === address);

const ask = (machine: Machine, address: string, path: string, options?: AskingOptions): Asking =>
  askBackwards(machine, catalogues, address, path, options);

function bracketOf(machine: Machine, address: string, path: string, options?: AskingOptions) {
  const asked = ask(machine, address, path, options);
  if (asked.kind !== 'just keeps') throw new Error(JSON.stringify(asked));
  return asked;
}

/** The machine that the file would be with a value written at a path. */
function withText(machine: Machine, path: string, value: string, at: 'here' | 'source' = 'here'): Machine {
  const spliced = splice(machine, { path, value, at });
  if (spliced.kind !== 'edit') throw new Error(`${path}: ${JSON.stringify(spliced)}`);
  return read(spliced.text);
}

/** Holds an answer against the text; the verdict with each value that it names is what it says. */
function prove(machine: Machine, address: string, { path, text }: Candidate, asked: Asking): void {
  const told = `${address} by ${path}: ${JSON.stringify(asked)}`;
  const verdictWith = (value: string) => findingOf(withText(machine, path, value), address)?.verdict;
  switch (asked.kind) {
    case 'just keeps': {
      expect(verdictWith(asked.value.text), told).toBe('holds');
      expect(verdictWith(asked.beyond), told).toBe(asked.verdictBeyond);
      expect(asked.verdictBeyond, told).not.toBe('holds');
      const [number, next] = [asked.value.text, asked.beyond].map((each) => Number.parseFloat(each));
      expect(next! > number! ? 'at most' : 'at least', told).toBe(asked.side);
      // Four digits: one unit in the last of them is between a thousandth and a ten-thousandth; a count goes by one.
      const apart = Math.abs(next! - number!);
      expect(apart === 1 || apart / Math.max(next!, number!) < 1.001e-3, told).toBe(true);
      const read = readQuantity(asked.value.text, asked.value.unit as Quantity['unit']);
      expect(read.ok ? read.value : number, told).toBe(asked.value.value);
      return;
    }
    case 'always holds':
    case 'never holds':
      for (const end of [asked.from, asked.upTo])
        expect(verdictWith(end) === 'holds', told).toBe(asked.kind === 'always holds');
      return;
    case 'does not matter': {
      const before = findingOf(machine, address)!;
      // Some values cannot be three times as much: a share, a factor of quadrature.
      const after = [3, 0.5]
        .map((factor) => text.replace(/^[\d.]+/, (number) => String(Number(number) * factor)))
        .map((changed) => findingOf(withText(machine, path, changed), address))
        // With some values the question is not asked: at a temperature at which a drive gives nothing.
        .find((found) => found?.demand !== undefined && found.capacity !== undefined)!;
      expect([after.demand?.value, after.capacity?.value], told).toEqual([
        before.demand?.value,
        before.capacity?.value,
      ]);
      return;
    }
    case 'refused':
      expect(told).toBe('never refused');
  }
}

describe('the answer of asking backwards', () => {
  // A whole example takes long where it is large, so that some of what can be asked is drawn.
  it.each<[string, number]>([
    ['labeller', 0.1],
    ['die-cutter', 0.05],
    ['cartoner', 0.05],
    ['print-line', 0.007],
  ])(
    'holds on the text of %s',
    (name, share) => {
      const random = seeded(5);
      const machine = example(name);
      const assessment = assessed(machine);
      const kinds: string[] = [];
      for (const { address } of assessment.findings) {
        for (const candidate of inputsOf(assessment, address)) {
          if (random() >= share || (address.startsWith('networks.port') && candidate.origin === 'given')) continue;
          const asked = ask(machine, address, candidate.path);
          prove(machine, address, candidate, asked);
          kinds.push(asked.kind);
        }
      }
      expect(kinds.filter((kind) => kind === 'just keeps').length).toBeGreaterThan(5);
    },
    120_000,
  );

  it.each<[string, string, string, (si: number) => number]>([
    ['labeller', 'drives', '274.1 µs', (s) => s * 1e6],
    ['cartoner', 'motion', '0.4864 ms', (s) => s * 1e3],
    ['die-cutter', 'cutter', '362.2 µs', (s) => s * 1e6],
  ])(
    'is the shortest cycle of %s: what is used over what may be, rounded up in the fourth digit',
    (name, network, text, inUnit) => {
      const machine = example(name);
      const { demand, reserve } = findingOf(machine, `networks.cycle@${network}`)!;
      const shortest = inUnit(demand!.value / (1 - reserve!.value));
      const lastDigit = 10 ** (Math.floor(Math.log10(shortest)) - 3);
      const { value, side } = bracketOf(machine, `networks.cycle@${network}`, `networks.${network}.cycle`);
      expect(value.text).toBe(text);
      expect(side).toBe('at least');
      expect(Number.parseFloat(value.text)).toBeCloseTo(Math.ceil(shortest / lastDigit) * lastDigit, 9);
    },
  );

  it.each([
    ['labeller', 'drives'],
    ['cartoner', 'motion'],
    ['print-line', 'shaft'],
  ])('is the number of repeats that fit into %s', (name, network) => {
    const machine = example(name);
    const { demand, capacity, reserve } = findingOf(machine, `networks.cycle@${network}`)!;
    const one_s = numbersOf(assessed(machine)).get(`networks.cycle.repeats@${network}`)!.value / 2;
    const fit = 2 + Math.floor((capacity!.value * (1 - reserve!.value) - demand!.value) / one_s);
    const { value, beyond, side } = bracketOf(machine, `networks.cycle@${network}`, `networks.${network}.repeats`);
    expect([value.text, beyond, side]).toEqual([String(fit), String(fit + 1), 'at most']);
  });

  it('is the margin itself for the reserve', () => {
    const machine = example('labeller');
    const { margin } = findingOf(machine, 'networks.cycle@drives')!;
    const { value } = bracketOf(machine, 'networks.cycle@drives', 'reserves.networks.cycle');
    expect(value.text).toBe(`${Math.floor(margin!.value * 1e4) / 100} %`);
  });

  it('starts from what the user wrote, also with more digits than an answer has', () => {
    const machine = read(texts.get('labeller')!.replace('cycle: 500 µs', 'cycle: 274.0839 µs'));
    const { value, beyond } = bracketOf(machine, 'networks.cycle@drives', 'networks.drives.cycle');
    expect([value.text, beyond]).toEqual(['274.1 µs', '274 µs']);
  });

  it('is about one place of what others share, or about all of them at the source', () => {
    const machine = example('cartoner');
    const [address, path] = ['networks.update@carton_opener', 'axes.carton_opener.cycle_at_most'];
    expect(bracketOf(machine, address, path).value.address).toBe(path);
    const turnaround = 'axes.pusher_1.drive.turnaround';
    const cycle = 'networks.cycle@motion';
    expect(ask(machine, cycle, turnaround)).toMatchObject({
      kind: 'refused',
      says: expect.stringMatching(/range pusher_/),
    });
    const all = bracketOf(machine, cycle, turnaround, { at: 'source' });
    const verdicts = [all.value.text, all.beyond].map(
      (text) => findingOf(withText(machine, turnaround, text, 'source'), cycle)!.verdict,
    );
    expect(verdicts).toEqual(['holds', 'thin']);
  });

  it('is asked at the place of a range and of a line of set', () => {
    const machine = example('cartoner');
    expect(bracketOf(machine, 'networks.update@pusher_1', 'set.0.value')).toMatchObject({ side: 'at least' });
    const every = ask(machine, 'networks.kernel@controller', 'networks.motion.nodes.rack_[1..3].every');
    expect(every).toMatchObject({ kind: 'always holds', from: '1 cycle' });
  });

  it('replaces a measurement, or changes it', () => {
    const machine = example('labeller');
    const path = 'axes.outfeed.drive.turnaround';
    const [replaced, changed] = [path, `${path}.measured`].map((each) =>
      bracketOf(machine, 'networks.cycle@drives', each),
    );
    expect(replaced!.value.text).toBe(changed!.value.text);
    expect(changed!.value.address).toBe(`${path}.measured`);
  });

  it('is of yes or no as well; where only a few values hold, it is about the nearest', () => {
    const machine = example('labeller');
    expect(ask(machine, 'networks.offered@drives', 'networks.drives.cycle')).toMatchObject({
      kind: 'just keeps',
      value: { text: '500 µs' },
      beyond: '500.1 µs',
      verdictBeyond: 'fails',
    });
    const ports = read(texts.get('labeller')!.replace('port: 1', 'port: 3'));
    expect(ask(ports, 'networks.port@port_3', 'controller.ports')).toMatchObject({
      kind: 'just keeps',
      value: { text: '3' },
      side: 'at least',
    });
  });

  it('says that nothing moves', () => {
    const machine = example('labeller');
    expect(ask(machine, 'networks.stations@drives', 'networks.drives.cycle').kind).toBe('does not matter');
    // No axis waits for a rack here, so that the time for its octets is multiplied with nothing.
    expect(ask(machine, 'networks.kernel@controller', 'controller.kernel_per_octet').kind).toBe('does not matter');
  });

  it('is not given with too few values', () => {
    const machine = example('labeller');
    const [address, path] = ['networks.cycle@drives', 'networks.drives.cycle'];
    const { tried } = bracketOf(machine, address, path);
    expect(tried).toBeLessThan(60);
    expect(ask(machine, address, path, { most: tried - 2 })).toMatchObject({
      kind: 'refused',
      says: expect.stringMatching(/^After \d+ values it is not settled: .* µs keeps it, .* µs does not\.$/),
    });
    expect(bracketOf(machine, address, path, { most: tried + 1 })).toMatchObject({ tried });
  });
});

describe('what cannot be asked backwards', () => {
  const machine = example('labeller');
  const open = read(texts.get('labeller')!.replace('cycle: 500 µs', 'cycle: open'));
  it.each<[string, Machine, string, string, string, string]>([
    [
      'a finding that is not there',
      machine,
      'networks.cycle@drive',
      'networks.drives.cycle',
      `There is no finding 'networks.cycle@drive'.`,
      `Did you mean 'networks.cycle@drives'?`,
    ],
    [
      'a finding that nothing is like',
      machine,
      'x',
      'networks.drives.cycle',
      `There is no finding 'x'.`,
      'Name one of the findings of the machine.',
    ],
    [
      'a value that is not there',
      machine,
      'networks.cycle@drives',
      'networks.drives.speed',
      `No finding rests on a number at 'networks.drives.speed'.`,
      'Ask for an input of the finding.',
    ],
    [
      'a word',
      machine,
      'networks.cycle@drives',
      'networks.drives.profile',
      `No finding rests on a number at 'networks.drives.profile'.`,
      'Ask for an input of the finding.',
    ],
    [
      'a number that is computed',
      machine,
      'networks.cycle@drives',
      'networks.cycle.used@drives',
      `No finding rests on a number at 'networks.cycle.used@drives'.`,
      'Ask for an input of the finding.',
    ],
    [
      'a number that is counted',
      machine,
      'networks.stations@drives',
      'networks.drives.runs.stations',
      `'networks.drives.runs.stations' is counted in networks.drives.runs.`,
      'Change networks.drives.runs, and it is counted anew.',
    ],
    [
      'one of several values of a part',
      machine,
      'networks.offered@drives',
      'parts.controller_m.cycles.0',
      `'parts.controller_m.cycles.0' is one of several values of a part.`,
      'Choose another part.',
    ],
    [
      'a finding that goes when the value changes',
      machine,
      'networks.port@port_1',
      'networks.drives.port',
      `No other value at 'networks.drives.port' leaves networks.port@port_1 with a verdict.`,
      'Ask for another input.',
    ],
    [
      'what is open',
      open,
      'networks.kernel@controller',
      'networks.drives.cycle',
      `'networks.drives.cycle' is open.`,
      'Write a value there, from which the search can start.',
    ],
    [
      'a finding that is unknown',
      open,
      'networks.cycle@drives',
      'networks.drives.repeats',
      'The finding networks.cycle@drives is unknown: networks.drives.cycle is open: a time, such as 500 µs.',
      'Settle that first.',
    ],
  ])('%s', (_, of, address, path, says, advice) => {
    expect(ask(of, address, path)).toEqual({ kind: 'refused', says, advice });
  });

  it('throws nothing, whatever the file is like', () => {
    let asked = 0;
    for (const [, text] of withProblems) {
      const broken = read(text);
      const assessment = assessed(broken);
      const paths = [...broken.reading.places.keys()];
      for (const { address } of assessment.findings.slice(0, 3)) {
        for (const path of ['', '.', 'a..b', 'axes', ...paths.slice(-4)]) {
          expect(ask(broken, address, path, { most: 12 })).toHaveProperty('kind');
          asked++;
        }
      }
    }
    expect(asked).toBeGreaterThan(300);
  });
});
