// Captures read again by a small reader of their own and by a foreign program, and the frames in them against the counts.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hasForeignProgram } from '../../../../../../tests/support/foreign-program.ts';
import { captureOf, framesOf, mostCaptured, type Telegrams } from './capture.ts';
import { caseOf, disciplines, models, ringCase } from './cases.support.ts';
import { checkSequence } from './check-sequence.ts';
import { mergeSimulation, splitSimulation } from './job.ts';
import type { PortFrame, SimulationPlan } from './plan.ts';
import { runSimulation } from './run.ts';

const window = { from: 37, cycles: 20 };

function captured(plan: SimulationPlan, ports: Telegrams['ports'] = []) {
  const telegrams: Telegrams = {
    network: 'dróżka ⚙ 𝛴',
    bits_per_s: 1e9,
    preamble_bit: 600,
    stations: plan.stations.map((_, at) => `prasa_ż${at}`),
    ports,
  };
  const chunks = splitSimulation({ plan, cycles: 1000, seed: 5 });
  const frames = framesOf(chunks, window);
  return { telegrams, chunks, frames, file: captureOf(plan, telegrams, frames, window) };
}

/** What a reader of the file must find, made from what was played. */
function expectedOf(plan: SimulationPlan, { telegrams, frames }: ReturnType<typeof captured>) {
  const stampOf = ({ cycle, at_ps }: PortFrame) => (BigInt(cycle) * BigInt(plan.cycle_ps) + BigInt(at_ps)) / 1000n;
  const inOrder = frames.toSorted((one, other) => Number(stampOf(one) - stampOf(other)));
  return inOrder.map((frame) => {
    const { stations, direction, fate } = frame;
    const [first] = stations;
    // At a nanosecond a bit, so many octets behind 600 bits of preamble.
    const real = Math.round((frame.lasts_ps / 1000 - 600) / 8);
    const station = stations.length === 1 ? `02:00:00:00:00:0${first! + 1}` : '03:00:00:00:00:01';
    const controller = '02:00:00:00:00:00';
    const [to, from] = direction === 'command' ? [station, controller] : [controller, station];
    const isBroken = direction === 'answer' && fate === 'spoilt';
    const names = first === undefined ? ['all stations'] : stations.map((each) => telegrams.stations[each]!);
    const port = Math.max(
      0,
      telegrams.ports.findIndex(({ run }) => run === frame.run),
    );
    return { stamp_ns: stampOf(frame), length: Math.max(64, real), to, from, isBroken, port, names, frame };
  });
}

interface Option {
  readonly code: number;
  readonly value: Buffer;
}

/** Blocks by their lengths, which stand before and behind; every packet with its options. */
function readAgain(file: Uint8Array) {
  const data = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const optionsFrom = (from: number, end: number): readonly Option[] => {
    const options: Option[] = [];
    let at = from;
    while (data.readUInt16LE(at) !== 0) {
      const length = data.readUInt16LE(at + 2);
      options.push({ code: data.readUInt16LE(at), value: data.subarray(at + 4, at + 4 + length) });
      at += 4 + 4 * Math.ceil(length / 4);
    }
    expect(at + 4).toBe(end);
    return options;
  };
  const blocks: { readonly type: number; readonly options: readonly Option[]; readonly at: number }[] = [];
  for (let at = 0; at < data.length; ) {
    const [type, length] = [data.readUInt32LE(at), data.readUInt32LE(at + 4)];
    const end = at + length - 4;
    expect(length % 4).toBe(0);
    expect(data.readUInt32LE(end)).toBe(length);
    const fixed = type === 0x0a0d0d0a ? 16 : type === 1 ? 8 : 20 + 4 * Math.ceil(data.readUInt32LE(at + 20) / 4);
    blocks.push({ type, at: at + 8, options: optionsFrom(at + 8 + fixed, end) });
    at += length;
  }
  const packets = blocks.slice(2).map(({ type, at, options }) => {
    const [high, low] = [data.readUInt32LE(at + 4), data.readUInt32LE(at + 8)];
    const length = data.readUInt32LE(at + 12);
    expect([type, data.readUInt32LE(at), data.readUInt32LE(at + 16)]).toEqual([6, 0, length]);
    return { stamp_ns: (BigInt(high) << 32n) | BigInt(low), octets: data.subarray(at + 20, at + 20 + length), options };
  });
  return { data, blocks, packets };
}

const textOf = (options: readonly Option[], code: number) =>
  options.find((each) => each.code === code)?.value.toString();
const address = (octets: Buffer) => [...octets].map((octet) => octet.toString(16).padStart(2, '0')).join(':');

describe('a capture', () => {
  it.each(disciplines)('of %s is read again, block by block', (discipline) => {
    const { plan } = caseOf(discipline, 'bit errors', 7);
    const played = captured(plan);
    const { data, blocks, packets } = readAgain(played.file);
    const [section, port] = blocks;
    expect([section!.type, data.readUInt32LE(section!.at), data.readUInt16LE(section!.at + 4)]).toEqual([
      0x0a0d0d0a, 0x1a2b3c4d, 1,
    ]);
    expect(textOf(section!.options, 1)).toContain('cycles 37 to 56');
    expect([port!.type, data.readUInt16LE(port!.at), textOf(port!.options, 2)]).toEqual([1, 1, 'dróżka ⚙ 𝛴']);
    expect([...port!.options.find(({ code }) => code === 9)!.value]).toEqual([9]);
    expect(port!.options.find(({ code }) => code === 8)!.value.readBigUInt64LE()).toBe(1_000_000_000n);
    const expected = expectedOf(plan, played);
    expect(packets.length).toBe(expected.length);
    expect(packets.length).toBeGreaterThan(window.cycles);
    for (const [at, { stamp_ns, octets, options }] of packets.entries()) {
      const { frame, names, port: _, ...each } = expected[at]!;
      const flags = options.find(({ code }) => code === 2)!.value.readUInt32LE();
      expect({
        stamp_ns,
        length: octets.length,
        to: address(octets.subarray(0, 6)),
        from: address(octets.subarray(6, 12)),
        isBroken: checkSequence(octets.subarray(0, -4)) !== octets.readUInt32LE(octets.length - 4),
      }).toEqual(each);
      expect(octets.readUInt16BE(12)).toBe(0x88b5);
      expect([flags & 3, (flags >>> 5) & 15, flags >>> 24 === 1]).toEqual([
        frame.direction === 'command' ? 2 : 1,
        4,
        each.isBroken,
      ]);
      const comment = textOf(options, 1)!;
      const said = [`cycle ${frame.cycle}, `, ...names, frame.direction];
      said.push(
        frame.repeat === 0 ? 'first try' : `repeat ${frame.repeat}`,
        frame.fate === 'whole' ? 'not lost' : ', lost',
      );
      for (const words of said) expect(comment).toContain(words);
    }
    expect(expected.some(({ isBroken }) => isBroken)).toBe(true);
    expect(expected.some(({ frame }) => frame.direction === 'command' && frame.fate === 'spoilt')).toBe(true);
  });

  it('has the frames that the whole job plays, wherever the chunks are cut', () => {
    const { plan } = caseOf('polled', 'two-state', 3);
    const chunks = splitSimulation({ plan, cycles: 1000, seed: 9 });
    const all: PortFrame[] = [];
    for (const chunk of chunks) runSimulation(chunk, (frame) => all.push(frame));
    const [from, cycles] = [10, 100];
    expect(framesOf(chunks, { from, cycles })).toEqual(
      all.filter(({ cycle }) => cycle >= from && cycle < from + cycles),
    );
  });

  it.each(models)('has an answer for every update and a command for every repeat that the counts have: %s', (model) => {
    for (const discipline of disciplines) {
      const { plan } = caseOf(discipline, model, 4);
      const chunks = splitSimulation({ plan, cycles: 2000, seed: 2 });
      const frames: PortFrame[] = [];
      const heard = mergeSimulation(chunks.map((chunk) => runSimulation(chunk, (frame) => frames.push(frame))));
      expect(mergeSimulation(chunks.map((chunk) => runSimulation(chunk)))).toEqual(heard);
      const { stations } = heard;
      for (const [station, { updates, lost, repeats }] of stations.entries()) {
        const own = frames.filter((frame) => frame.stations.includes(station));
        const answered = own.filter(({ direction, fate }) => direction === 'answer' && fate === 'whole');
        expect(answered.length).toBe(updates - lost);
        expect(own.filter(({ direction, repeat }) => direction === 'command' && repeat > 0).length).toBe(repeats);
      }
    }
  });

  it('tells an answer that ends behind its cycle as late', () => {
    const { plan } = caseOf('polled', 'bit errors', 7);
    const chunks = splitSimulation({ plan: { ...plan, cycle_ps: 5_000_000 }, cycles: 100, seed: 1 });
    const answers = framesOf(chunks, { from: 0, cycles: 100 }).filter(({ direction }) => direction === 'answer');
    expect(answers.length).toBeGreaterThan(0);
    expect(answers.every(({ fate }) => fate !== 'whole')).toBe(true);
    expect(answers.some(({ fate }) => fate === 'late')).toBe(true);
  });

  it('refuses a window that is none, and cycles that nobody plays', () => {
    const { plan } = caseOf('polled', 'bit errors', 7);
    const chunks = splitSimulation({ plan, cycles: 100, seed: 1 });
    for (const [from, cycles] of [
      [-1, 5],
      [0.5, 5],
      [0, 0],
      [99, 2],
    ] as const)
      expect(() => framesOf(chunks, { from, cycles })).toThrow(RangeError);
    const jumping = splitSimulation({ plan, cycles: 100, seed: 1, skipAhead: true });
    expect(() => framesOf(jumping, { from: 0, cycles: 1 })).toThrow('jumped over');
    const many = splitSimulation({ plan, cycles: mostCaptured, seed: 1 });
    expect(() => framesOf(many, { from: 0, cycles: mostCaptured })).toThrow('fewer cycles');
  });
});

describe('the check sequence', () => {
  it('IEEE Std 802.3, 3.2.9: the check value of the digits 1 to 9, and the remainder that every sound frame has', () => {
    expect(checkSequence(Buffer.from('123456789'))).toBe(0xcbf43926);
    const frame = Buffer.alloc(64, 0xa5);
    frame.writeUInt32LE(checkSequence(frame.subarray(0, 60)), 60);
    expect(~checkSequence(frame) >>> 0).toBe(0xdebb20e3);
  });
});

/** A ring of so many runs has the first and the last of them at the controller. */
function capturedRing() {
  const { plan } = ringCase(3);
  const [first, last] = [0, plan.runs - 1];
  const ports = [
    { run: first, name: 'links' },
    { run: last, name: 'rechts' },
  ];
  return { plan, ...captured(plan, ports) };
}

describe('a capture of a ring that sends both ways', () => {
  const { plan, ...played } = capturedRing();
  const { frames } = played;

  it('has a copy of each frame at each port, as it fared, and no answer without a command', () => {
    const tries = new Map<string, PortFrame[]>();
    for (const frame of frames) {
      const key = `${frame.cycle} ${frame.stations} ${frame.repeat}`;
      tries.set(key, [...(tries.get(key) ?? []), frame]);
    }
    expect(tries.size).toBeGreaterThan(window.cycles);
    let lost = 0;
    for (const each of tries.values()) {
      const of = (direction: PortFrame['direction']) => each.filter((frame) => frame.direction === direction);
      const [commands, answers] = [of('command'), of('answer')];
      expect(commands.map(({ run }) => run)).toEqual([0, plan.runs - 1]);
      const isCommandLost = commands.every(({ fate }) => fate === 'spoilt');
      expect(answers.map(({ run }) => run)).toEqual(isCommandLost ? [] : [0, plan.runs - 1]);
      if (isCommandLost || answers.every(({ fate }) => fate === 'spoilt')) lost++;
    }
    expect(lost).toBeGreaterThan(10);
    expect(frames.filter(({ fate }) => fate === 'spoilt').length).toBeGreaterThan(2 * lost);
  });

  it('has an answer for every update that the counts have, and the same counts as without a listener', () => {
    const chunks = splitSimulation({ plan, cycles: 1000, seed: 5 });
    const all: PortFrame[] = [];
    const heard = mergeSimulation(chunks.map((chunk) => runSimulation(chunk, (frame) => all.push(frame))));
    expect(mergeSimulation(chunks.map((chunk) => runSimulation(chunk)))).toEqual(heard);
    for (const [station, { updates, lost }] of heard.stations.entries()) {
      const answered = all.filter(
        ({ stations, direction, fate }) => stations.includes(station) && direction === 'answer' && fate === 'whole',
      );
      expect(new Set(answered.map(({ cycle }) => cycle)).size).toBe(updates - lost);
    }
  });
});

describe.runIf(hasForeignProgram('tshark'))('tshark', () => {
  it.each([...disciplines, 'a ring both ways'] as const)(
    'reads a capture of %s: frames, stamps, lengths, addresses, check sequences, ports and comments',
    (discipline) => {
      const isRing = discipline === 'a ring both ways';
      const plan = isRing ? capturedRing().plan : caseOf(discipline, 'bit errors', 7).plan;
      const played = isRing ? capturedRing() : captured(plan);
      const folder = mkdtempSync(join(tmpdir(), 'layshaft-capture-'));
      try {
        const path = join(folder, 'window.pcapng');
        writeFileSync(path, played.file);
        const fields = [
          'frame.time_epoch',
          'frame.len',
          'eth.type',
          'eth.dst',
          'eth.src',
          'eth.fcs.status',
          'frame.interface_name',
          'frame.comment',
        ];
        const { status, stdout, stderr } = spawnSync(
          'tshark',
          ['-r', path, '-o', 'eth.check_fcs:TRUE', '-T', 'fields', ...fields.flatMap((field) => ['-e', field])],
          { encoding: 'utf8' },
        );
        expect(status, stderr).toBe(0);
        const rows = stdout
          .trimEnd()
          .split('\n')
          .map((row) => row.split('\t'));
        const seconds = (ns: bigint) => `${ns / 1_000_000_000n}.${String(ns % 1_000_000_000n).padStart(9, '0')}`;
        const expected = expectedOf(plan, played);
        const { network, ports } = played.telegrams;
        expect(new Set(expected.map(({ port }) => port)).size).toBe(isRing ? 2 : 1);
        expect(rows.map((row) => row.slice(0, 7))).toEqual(
          expected.map(({ stamp_ns, length, to, from, isBroken, port }) => [
            seconds(stamp_ns),
            `${length}`,
            '0x88b5',
            to,
            from,
            isBroken ? '0' : '1',
            isRing ? `${network}, ${ports[port]!.name}` : network,
          ]),
        );
        for (const [at, row] of rows.entries()) {
          expect(row[7]).toContain(expected[at]!.names.at(-1)!);
          if (isRing) expect(row[7]).toContain(`, by ${ports[expected[at]!.port]!.name}, `);
        }
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
  );
});
