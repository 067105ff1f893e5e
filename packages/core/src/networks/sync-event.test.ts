// The shift from the start of a cycle to the common sync event, as whole files.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { show } from '../assess/show.ts';
import { known } from '../working/testing.support.ts';

const file = (more: string, of = ''): string => `layshaft: 1
controller: controller_m
axes: { near: { drive: { part: drive_5${of} } }, far: { drive: { part: drive_5${of} } } }
networks:
  n:
    port: 1
    profile: polled_100
    cycle: 500 µs
    repeats: 0
    non_cyclic: 0 octets
    runs: [[controller, near, 2 m, solid], [near, far, 50 m, solid]]${more}
`;
const assessed = (text: string) => assessText(text, 'machine.yaml');
const finding = (text: string) => assessed(text).findings.find(({ address }) => address === 'networks.sync@n');

describe('question 19 as a file: which shift between frame and sync event', () => {
  it('question 19: jitter, what is on the wire until the last command has left, and its way', () => {
    const text = file('\n    start_jitter: 5 µs\n    sync_event: 100 µs');
    const [network] = assessed(text).networks;
    const [near, far] = network!.exchanges;
    // Polled: the whole exchange with the near one goes before the command to the far one.
    const wire = known(network!.start) + known(near!.turn) + known(far!.command);
    const { demand, capacity, verdict } = finding(text)!;
    expect(demand!.value).toBeCloseTo(5e-6 + wire + known(far!.there), 12);
    expect([capacity!.value, verdict]).toEqual([100e-6, 'holds']);
    expect(finding(text.replace('100 µs', '20 µs'))!.verdict).toBe('fails');
  });

  it('a cycle whose jitter is not said starts in time, which is listed; without a sync event nothing is asked', () => {
    const text = file('\n    sync_event: 100 µs');
    const [network] = assessed(text).networks;
    expect(finding(text)!.demand!.value).toBe(known(network!.syncShift));
    expect(finding(file(''))).toBeUndefined();
  });

  it('of stations that take turns the cycle counts in which the last command comes latest', () => {
    const both = finding(file('\n    sync_event: 100 µs'))!.demand!.value;
    const turns = finding(file('\n    sync_event: 100 µs', ', every: 2 cycles'))!.demand!.value;
    const [network] = assessed(file('', ', every: 2 cycles')).networks;
    const [near, far] = network!.exchanges;
    expect(turns).toBeLessThan(both);
    const after = Math.max(...[near!, far!].map((each) => known(each.command) + known(each.there)));
    expect(turns).toBeCloseTo(known(network!.start) + after, 12);
  });

  it('stands beside the earliest one in the room of the cycle', () => {
    const [view] = show(assessed(file('\n    start_jitter: 5 µs\n    sync_event: 100 µs')), 'networks.n');
    const rows = view!.tables.find(({ name }) => name === 'room')!.rows.map(([title]) => title);
    expect(rows).toEqual(expect.arrayContaining(['the same in a cycle that starts as late as it may', 'sync event']));
  });
});
