// Error counters of whole files: faults that were planted are found where they are, and nowhere else.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sound, tableIn, textOf } from '../assess/noise.support.ts';

describe('counters along a line', () => {
  const ports = (rows: readonly string[], intervals?: string) =>
    sound(
      textOf({
        stations: 4,
        noise: ['bit_errors: 1e-10'],
        more: [
          '    counters:',
          '      ports:',
          ...rows.map((each) => `        - [${each}]`),
          ...(intervals === undefined ? [] : [`      intervals: [${intervals}]`]),
        ],
      }),
    );
  const saysOf = (assessment: ReturnType<typeof ports>) =>
    assessment.findings.find(({ check }) => check === 'networks.counters')!;
  const frames = 50_000_000;

  it('a faulty run among sound ones is found: a hundred planted faults, out and back', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3 }),
        fc.integer({ min: 200, max: 5000 }),
        fc.boolean(),
        (at, spoilt, back) => {
          const names = ['controller', 's1', 's2', 's3', 's4'];
          const rows = [0, 1, 2, 3].map((run): string => {
            // All ports behind the fault count what it spoilt; each cable adds one by chance.
            const passed = back ? run <= at : run >= at;
            const ends = back ? [names[run + 1], names[run]] : [names[run], names[run + 1]];
            return `${ends.join(', ')}, ${frames}, ${(passed ? spoilt : 0) + (back ? 4 - run : run + 1)}`;
          });
          const { verdict, says } = saysOf(ports(rows));
          expect(verdict).toBe('fails');
          const named = back ? `from ${names[at + 1]} to ${names[at]}` : `from ${names[at]} to ${names[at + 1]}`;
          expect(says).toContain(`the run ${named} spoilt ${spoilt + 1} frames`);
          expect(says).not.toContain('other run');
        },
      ),
      { seed: 12, numRuns: 100 },
    );
  });
  it('are explained by chance where they are what the noise brings about', () => {
    const { verdict } = saysOf(ports(['controller, s1, 50000000, 3', 's1, s2, 50000000, 5', 's2, s3, 50000000, 8']));
    expect(verdict).toBe('holds');
  });
  it('are explained by the frames that pass: long ones where they carry the data of all stations', () => {
    const verdictOf = (profile: string) =>
      saysOf(
        sound(
          textOf({
            stations: 4,
            profile,
            command: 190,
            answer: 150,
            noise: ['bit_errors: 1e-10'],
            more: ['    counters: { ports: [[controller, s1, 50000000, 50]] }'],
          }),
        ),
      ).verdict;
    // 1392, 788 and 218 octets at the longest: 56, 32 and 9 of 50 million by chance.
    expect(['summation_100', 'chained_100', 'polled_100'].map(verdictOf)).toEqual(['holds', 'fails', 'fails']);
    const rarer = textOf({
      stations: 4,
      profile: 'chained_100',
      command: 190,
      noise: ['bit_errors: 1e-10'],
      more: ['    counters: { ports: [[controller, s1, 50000000, 35]] }'],
    });
    expect(saysOf(sound(rarer)).verdict).toBe('holds');
    expect(saysOf(sound(rarer.replace('chained_100', 'polled_100'))).verdict).toBe('fails');
  });
  it('tell bursts from an even cause by counts in intervals', () => {
    const row = ['controller, s1, 50000000, 400'];
    expect(saysOf(ports(row, '[controller, s1, [2, 0, 395, 3]]')).says).toContain('they come in bursts');
    expect(saysOf(ports(row, '[controller, s1, [96, 104, 99, 101]]')).says).toContain('they come evenly');
    expect(saysOf(ports(row)).says).toContain('counts in intervals would tell');
  });
  it('name what is tried first', () => {
    const table = tableIn(ports(['controller, s1, 50000000, 400']), 'remedies');
    expect(table.rows[0]![0]).toMatch(/^plug both ends anew/);
    expect(table.note).toContain('common practice, no source');
  });
  it('are refused where more are spoilt than came in', () =>
    expect(saysOf(ports(['controller, s1, 10, 11'])).lacks[0]).toMatchObject({
      why: 'problem',
      due: 'no more errors than frames',
    }));
});
