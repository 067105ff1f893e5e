// layshaft simulate --capture: what is written, read back by a foreign program, and what is refused.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hasForeignProgram } from '../../../tests/support/foreign-program.ts';
import { layshaft, type Outcome } from './fake-io.ts';

const simulate = (options: string): Promise<Outcome> =>
  layshaft(`simulate examples/labeller ${options}`, { folder: '.' });

describe('layshaft simulate --capture', () => {
  it('writes some cycles of what is simulated, the same again for the same seed', async () => {
    const [one, again, other] = await Promise.all([
      simulate('--capture w.pcapng --from 40 --for 3'),
      simulate('--capture w.pcapng --from 40 --for 3 --cycles 1e6 --seed 1'),
      simulate('--capture w.pcapng --from 43 --for 1'),
    ]);
    expect([one.status, one.out, one.err]).toEqual([0, 'w.pcapng is written: cycles 40 to 42, 36 frames.\n', '']);
    expect(one.octets?.['w.pcapng']?.length).toBeGreaterThan(36 * 64);
    expect(again).toEqual(one);
    expect(other.out).toBe('w.pcapng is written: cycle 43, 12 frames.\n');
  });

  it('is not written over a file that is there, unless that is said', async () => {
    const world = { files: { 'w.pcapng': 'theirs', 'm.yaml': quiet } };
    const line = 'simulate m.yaml --cycles 100 --capture w.pcapng';
    const kept = await layshaft(line, world);
    expect([kept.status, kept.out, kept.err, kept.octets]).toEqual([
      2,
      '',
      'w.pcapng is there already and stays as it is. Give another name, or add --overwrite.\n',
      undefined,
    ]);
    const over = await layshaft(`${line} --overwrite`, world);
    expect([over.status, over.out]).toEqual([0, 'w.pcapng is written: cycles 0 to 99, 200 frames.\n']);
    expect(over.octets?.['w.pcapng']?.length).toBeGreaterThan(200 * 64);
  });

  it('says so where the file has problems', async () => {
    const { status, out, err } = await layshaft('simulate m.yaml --cycles 100 --capture w.pcapng', {
      files: { 'm.yaml': `${quiet}colour: red\n` },
    });
    expect([status, out]).toEqual([2, expect.stringContaining('w.pcapng is written')]);
    expect(err).toContain('m.yaml has 1 problem; layshaft check shows what and where.');
  });

  it.each([
    ['--capture w.txt', 'A capture goes into a file whose name ends with .pcapng, not into w.txt.'],
    ['--capture -', 'not into -.'],
    ['--capture w.pcapng --cycles 100 --from 99 --for 2', 'ends behind the last of the 100 cycles of the simulation.'],
    ['--capture w.pcapng --cycles 1e7 --for 1e6', 'A capture has at most 500000 frames: ask for fewer cycles.'],
    [
      '--capture w.pcapng --skip-ahead --only bit_errors',
      'Cycles that are jumped over have no frames to capture. Leave --skip-ahead out.',
    ],
    ['--capture w.pcapng --from -1', 'Write a whole number of cycles from 0 on, such as 1200.'],
    ['--capture w.pcapng --for 0', 'Write a whole number of cycles from 1 on'],
    ['--capture w.pcapng --table runs', 'cannot be used with'],
    ['--from 3', '--from goes with --capture, which is not given.'],
    ['--overwrite', '--overwrite goes with --capture, which is not given.'],
  ])('refuses %s', async (options, message) => {
    const { status, out, err, octets } = await simulate(options);
    expect([status, out, octets]).toEqual([2, '', undefined]);
    expect(err).toContain(message);
  });

  it('tells where it cannot be written', async () => {
    const files = { 'm.yaml': quiet };
    const none = await layshaft('simulate m.yaml --capture none/w.pcapng', { files, unwritable: 'ENOENT' });
    expect(none.err).toBe('There is no folder none. Make it first, or give another name.\n');
    const full = await layshaft('simulate m.yaml --capture w.pcapng', { files, unwritable: 'ENOSPC' });
    expect(full.err).toBe('w.pcapng cannot be written (ENOSPC). Give another name.\n');
  });
});

const quiet = `layshaft: 1
networks:
  line:
    profile: polled_100
    cycle: 1 ms
    nodes: { near: { turnaround: 2 µs, forwarding: 1 µs, command: 30 octets, answer: 30 octets } }
    runs: [[controller, near, 2 m, solid]]
    noise: { bit_errors: 1e-9 }
`;

describe.runIf(hasForeignProgram('tshark'))('tshark', () => {
  it('reads the labeller: a command and an answer for each axis and cycle, in time, with what became of it', async () => {
    const { octets } = await simulate('--capture w.pcapng --from 40 --for 3');
    const folder = mkdtempSync(join(tmpdir(), 'layshaft-capture-'));
    try {
      const path = join(folder, 'w.pcapng');
      writeFileSync(path, octets!['w.pcapng']!);
      const fields = ['frame.time_epoch', 'frame.len', 'eth.type', 'eth.fcs.status', 'frame.comment'];
      const asked = ['-r', path, '-o', 'eth.check_fcs:TRUE', '-T', 'fields', ...fields.flatMap((each) => ['-e', each])];
      const { status, stdout, stderr } = spawnSync('tshark', asked, { encoding: 'utf8' });
      expect(status, stderr).toBe(0);
      const rows = stdout
        .trimEnd()
        .split('\n')
        .map((row) => row.split('\t')); // prettier-ignore
      const stations = ['infeed_screw', 'label_feed', 'star_wheel', 'web_tension', 'wrap_belt', 'outfeed'];
      const due = [40, 41, 42].flatMap((cycle) =>
        stations.flatMap((name) =>
          ['command', 'answer'].map((which) => `cycle ${cycle}, ${name}: ${which}, first try, not lost`),
        ),
      );
      expect(rows.map(([, , , , comment]) => comment)).toEqual(due);
      for (const [at, [stamp, length, type, check]] of rows.entries()) {
        expect([type, check]).toEqual(['0x88b5', '1']);
        // Every axis fills the shortest frame; only the last one answers more.
        expect(length).toBe(at % 12 === 11 ? '68' : '64');
        // The cycle is 500 µs, and is not full.
        const since_us = (Number(stamp) - 0.02) * 1e6;
        expect(Math.floor(since_us / 500)).toBe(Math.floor(at / 12));
        if (at > 0) expect(Number(stamp)).toBeGreaterThan(Number(rows[at - 1]![0]));
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
