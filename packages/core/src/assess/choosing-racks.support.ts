// Racks chosen by trying every combination of small parts, for the tests of choosing.
import { readCatalogue } from '../machine/catalogue.ts';

/** Small parts, so that every combination can be tried: modules of 3, 4 and 6 channels in racks of 3, 4 and 6 places. */
const smallParts = `layshaft_catalogue: 1
source: made up
parts:
  box: { kind: controller, title: Box, cost: 0, rack_places: 0, rack_draws: 0 A }
  r3: { kind: rack, title: R3, cost: 20, places: 3, width: 100 mm }
  r4: { kind: rack, title: R4, cost: 26, places: 4, width: 130 mm }
  r6: { kind: rack, title: R6, cost: 41, places: 6, width: 190 mm }
  p: { kind: power, title: P, cost: 30, places: 1, gives: 1 A, feed: dc, lowest: 19 V, highest: 30 V }
  pp: { kind: power, title: PP, cost: 47, places: 1, gives: 2 A, feed: dc, lowest: 19 V, highest: 30 V }
  i3: { kind: module, title: I3, cost: 11, places: 1, draws: 0.2 A, octets_in: 1 octets, octets_out: 0 octets, channels: [{ kinds: [digital_in], count: 3, terminals: 1, commons: 1 }] }
  i6: { kind: module, title: I6, cost: 19, places: 1, draws: 0.3 A, octets_in: 1 octets, octets_out: 0 octets, channels: [{ kinds: [digital_in], count: 6, terminals: 1, commons: 1 }] }
  o4: { kind: module, title: O4, cost: 17, places: 1, draws: 0.3 A, octets_in: 0 octets, octets_out: 1 octets, channels: [{ kinds: [digital_out], count: 4, current: 2 A, current_sum: 2 A, terminals: 1, commons: 1 }] }
  m6: { kind: module, title: M6, cost: 31, places: 2, draws: 0.4 A, octets_in: 1 octets, octets_out: 1 octets, channels: [{ kinds: [digital_in, digital_out], count: 6, current: 1 A, current_sum: 3 A, terminals: 1, commons: 1 }] }
`;

/** Places and cost of each. */
export const smallRacks = [
  [3, 20],
  [4, 26],
  [6, 41],
] as const;

export const small = readCatalogue('small', [{ file: 'small.yaml', text: smallParts }]);

/** Every count of every module in every rack with every supply, the loads packed by trying all ways. */
export function cheapest(
  inputs: number,
  loads: readonly Load[],
  spare: number,
  racks: readonly (readonly [number, number])[],
): number | undefined {
  const free = (used: number): number => (used === 0 ? 0 : Math.ceil((spare / (1 - spare)) * used - 1e-9));
  const [freeIn, freeOut] = [free(inputs), free(loads.length)];
  let best: number | undefined;
  for (const [places, rackCost] of racks)
    for (const [gives, powerCost] of [
      [1, 30],
      [2, 47],
    ] as const)
      for (let i3 = 0; i3 < places; i3++)
        for (let i6 = 0; i3 + i6 < places; i6++)
          for (let o4 = 0; i3 + i6 + o4 < places; o4++)
            for (let m6 = 0; i3 + i6 + o4 + 2 * m6 < places; m6++) {
              if (0.2 * i3 + 0.3 * i6 + 0.3 * o4 + 0.4 * m6 > gives * 0.8 + 1e-9) continue;
              const cost = rackCost + powerCost + 11 * i3 + 19 * i6 + 17 * o4 + 31 * m6;
              if (best !== undefined && cost >= best) continue;
              if (goes({ i: 3 * i3 + 6 * i6, o4, m6 }, inputs, loads, freeIn, freeOut)) best = cost;
            }
  return best;
}

export interface Load {
  readonly current_A: number;
  readonly potential: string;
  readonly company: 'together' | 'apart' | undefined;
  /** Behind its current in the file. */
  readonly says: string;
}

export function loadOf(current_A: number, hasCompany: boolean, random: () => number): Load {
  if (!hasCompany) return { current_A, potential: '', company: undefined, says: '' };
  const potential = random() < 0.4 ? 'p' : '';
  const drawn = random();
  const company = drawn < 0.3 ? 'together' : drawn < 0.6 ? 'apart' : undefined;
  const says = (potential === '' ? '' : ', potential: p') + (company === undefined ? '' : `, ${company}: ${company}s`);
  return { current_A, potential, company, says };
}

/** An output module while loads are packed: all its channels are one group. */
interface Bin {
  readonly left: number;
  readonly most: number;
  readonly free: number;
  readonly either: boolean;
  readonly potential?: string;
  readonly company?: readonly unknown[];
}

function goes(
  { i, o4, m6 }: { i: number; o4: number; m6: number },
  inputs: number,
  loads: readonly Load[],
  freeIn: number,
  freeOut: number,
): boolean {
  const bins: readonly Bin[] = [
    ...Array<Bin>(o4).fill({ left: 2, most: 2, free: 4, either: false }),
    ...Array<Bin>(m6).fill({ left: 3, most: 1, free: 6, either: true }),
  ];
  const freeOf = (state: readonly Bin[], counts: (bin: Bin) => boolean): number =>
    state.reduce((sum, bin) => sum + (counts(bin) ? bin.free : 0), 0);
  const pack = (at: number, state: readonly Bin[]): boolean => {
    if (at === loads.length) {
      // An input has no potential of its own, and shares a group with no load that has one.
      if (inputs - i > freeOf(state, ({ either, potential }) => either && !potential)) return false;
      const wantedIn = Math.max(0, inputs + freeIn - i);
      const wantedOut = Math.max(0, freeOut - freeOf(state, ({ either }) => !either));
      return wantedIn + wantedOut <= freeOf(state, ({ either }) => either);
    }
    const { current_A, potential, company } = loads[at]!;
    const home = state.findIndex((bin) => bin.company?.includes('together'));
    return state.some((bin, which) => {
      if (bin.free === 0 || bin.left + 1e-9 < current_A || bin.most + 1e-9 < current_A) return false;
      if (bin.potential !== undefined && bin.potential !== potential) return false;
      if (company === 'apart' && bin.company?.includes('apart')) return false;
      if (company === 'together' && home >= 0 && home !== which) return false;
      const { free, left, company: there = [] } = bin;
      const filled = { ...bin, free: free - 1, left: left - current_A, potential, company: [...there, company] };
      return pack(at + 1, state.with(which, filled));
    });
  };
  return pack(0, bins);
}
