// The world of a test: files by name, and what the program wrote.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { solveHere } from '@layshaft/solver/here';
import type { Io } from './io.ts';
import { run } from './program.ts';

export interface World {
  /** By path; a folder is `folder: true`, anything else that cannot be read is its error code. */
  readonly files?: Readonly<Record<string, string | Uint8Array | { readonly code: string }>>;
  /** A folder of the disk to read from instead of `files`. */
  readonly folder?: string;
  /** The error code with which all writing fails. */
  readonly unwritable?: string;
  readonly stdin?: string;
  readonly env?: Io['env'];
  /** The columns of the terminal; a pipe when absent. */
  readonly terminal?: number;
  /** Runs the parts of long work. */
  readonly runParts?: Io['runParts'];
  readonly solve?: Io['solve'];
  /** When the user ends the program; at once when absent. */
  readonly interrupted?: Promise<void>;
}

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** What was written, by path. */
  readonly written: Readonly<Record<string, string>>;
  /** The same of what is no text; absent where there was none. */
  readonly octets?: Readonly<Record<string, Uint8Array>>;
}

/** Runs the program in that world; the arguments are separated by spaces. */
export async function layshaft(line: string, world: World = {}): Promise<Outcome> {
  let out = '';
  let err = '';
  const written: Record<string, string> = {};
  const octets: Record<string, Uint8Array> = {};
  const keep = (path: string, content: string | Uint8Array): void => {
    if (typeof content === 'string') written[path] = content;
    else octets[path] = content;
  };
  const { files = {}, terminal } = world;
  const write = async (path: string, content: string | Uint8Array): Promise<void> => {
    if (world.unwritable !== undefined) throw Object.assign(new Error(path), { code: world.unwritable });
    keep(path, content);
  };
  const status = await run(line === '' ? [] : line.split(' '), {
    stdout: {
      write: (text) => {
        out += text;
      },
      ...(terminal !== undefined && { isTTY: true, columns: terminal }),
    },
    stderr: {
      write: (text) => {
        err += text;
      },
      ...(terminal !== undefined && { isTTY: true, columns: terminal }),
    },
    env: world.env ?? {},
    readFile: async (path) => {
      if (world.folder !== undefined) return readFile(join(world.folder, path));
      const file = files[path] ?? { code: 'ENOENT' };
      if (typeof file === 'string') return new TextEncoder().encode(file);
      if (file instanceof Uint8Array) return file;
      throw Object.assign(new Error(`${file.code}: ${path}`), { code: file.code });
    },
    writeNew: async (path, content) => {
      const code = world.unwritable ?? (files[path] === undefined ? undefined : 'EEXIST');
      if (code !== undefined) throw Object.assign(new Error(`${code}: ${path}`), { code });
      keep(path, content);
    },
    writeFile: write,
    replaceFile: write,
    readStdin: async () => new TextEncoder().encode(world.stdin ?? ''),
    solve: world.solve ?? solveHere,
    runParts: async (...job) => {
      if (world.runParts === undefined) throw new Error('this world has no threads');
      return world.runParts(...job);
    },
    untilInterrupted: async () => world.interrupted,
  });
  return { status, out, err, written, ...(Object.keys(octets).length > 0 && { octets }) };
}

/** One axis on one network, every value given. A cycle needs 6.72 + 15.54 + 15.54 + 6.72 = 44.52 µs. */
export const bench = (cycle: string, drive = 'turnaround: 2 µs'): string => `layshaft: 1
machine: { name: Bench }
reserves: { networks.cycle: 25 %, networks.kernel: 20 % }
axes:
  one: { drive: { ${drive}, forwarding: 400 ns, waits: 0 octets, command: 24 octets, answer: 24 octets, plugs: 2 } }
controller: { cycles: [40 µs, 50 µs, 100 µs], ports: 1, kernel_base: 10 µs, kernel_per_axis: 5 µs,
  kernel_per_octet: 20 ns/octet, kernel_share: 80 % }
networks:
  line:
    port: 1
    profile: { discipline: polled, line: passed_on, rate: 100 Mbit/s, preamble: 8 octets, gap: 12 octets,
      frame_at_least: 64 octets, frame_at_most: 1518 octets, overhead: 28 octets, start_frame: 64 octets,
      window_opens: 0 octets, window_closes: 0 octets, topologies: [line], passes: [], stations_at_most: 10,
      spacing_at_most: 100 m, attenuation_at_most: 24 dB, hops_at_most: 10, cycle_at_least: 10 µs,
      addresses: { from: 1, to: 9, taken_by_the_network: [] } }
    cycle: ${cycle}
    repeats: 1
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, { delay: 5 ns/m, attenuation: 0.25 dB/m }]]
`;
