// What is told of a key that nothing reads: that it is not known there, what is near it, and what can stand there.
import { describe, expect, it } from 'vitest';
import { toldOf } from '../machine/told.support.ts';

const network = (keys: string): string => `layshaft: 1\nnetworks: { drives: { ${keys} } }\n`;

describe('a key that is not known', () => {
  it('is told with all keys of its place when none is near', () => {
    expect(toldOf(network('retries: 2'))).toEqual([
      {
        code: 'key-unknown',
        path: 'networks.drives.retries',
        marked: 'retries',
        message: `the key 'retries' is not known here`,
        remedy:
          'The keys that can stand here: port, profile, cycle, repeats, non_cyclic, clock, offset, start_jitter, sync_event, runs, nodes, noise, counters.',
      },
    ]);
  });

  it('is told with the nearest spelling first', () => {
    expect(toldOf(network('repeat: 2'))[0]?.remedy).toBe(
      `Did you mean 'repeats'? The keys that can stand here: port, profile, cycle, repeats, non_cyclic, clock, offset, start_jitter, sync_event, runs, nodes, noise, counters.`,
    );
  });

  it('in a place that takes very many is told with the first of them', () => {
    expect(toldOf(network('profile: { colour: red }'))[0]?.remedy).toMatch(
      /^The keys that can stand here: part, version, discipline, .* ring_frames and \d+ more\.$/,
    );
  });

  it('at the top is no section', () => {
    expect(toldOf('layshaft: 1\nmotors: {}\n')).toMatchObject([
      { message: `no section is called 'motors'`, remedy: expect.stringMatching(/^The sections: layshaft, machine, /) },
    ]);
    expect(toldOf('layshaft: 1\nnetwork: {}\n')[0]?.remedy).toMatch(/^Did you mean 'networks'\? The sections: /);
  });
});
