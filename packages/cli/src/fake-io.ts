// The world of a test: files by name, and what the program wrote.
import type { Io } from './io.ts';
import { run } from './program.ts';

export interface World {
  /** By path; a folder is `folder: true`, anything else that cannot be read is its error code. */
  readonly files?: Readonly<Record<string, string | Uint8Array | { readonly code: string }>>;
  readonly stdin?: string;
  readonly env?: Io['env'];
  /** The columns of the terminal; a pipe when absent. */
  readonly terminal?: number;
}

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** What was written, by path. */
  readonly written: Readonly<Record<string, string>>;
}

/** Runs the program in that world; the arguments are separated by spaces. */
export async function layshaft(line: string, world: World = {}): Promise<Outcome> {
  let out = '';
  let err = '';
  const written: Record<string, string> = {};
  const { files = {}, terminal } = world;
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
    },
    env: world.env ?? {},
    readFile: async (path) => {
      const file = files[path] ?? { code: 'ENOENT' };
      if (typeof file === 'string') return new TextEncoder().encode(file);
      if (file instanceof Uint8Array) return file;
      throw Object.assign(new Error(`${file.code}: ${path}`), { code: file.code });
    },
    writeNew: async (path, text) => {
      if (files[path] !== undefined) throw Object.assign(new Error(`EEXIST: ${path}`), { code: 'EEXIST' });
      written[path] = text;
    },
    readStdin: async () => new TextEncoder().encode(world.stdin ?? ''),
  });
  return { status, out, err, written };
}

/** One axis on one network with every value given. A cycle needs 6.72 + 15.54 + 15.54 + 6.72 = 44.52 µs. */
export const bench = (cycle: string, drive = 'turnaround: 2 µs'): string => `layshaft: 1
machine: { name: Bench }
reserves: { networks.cycle: 25 % }
axes:
  one: { drive: { ${drive}, forwarding: 400 ns, command: 24 octets, answer: 24 octets } }
controller: { cycles: [40 µs, 100 µs], ports: 1 }
networks:
  line:
    port: 1
    profile: { discipline: polled, rate: 100 Mbit/s, preamble: 8 octets, gap: 12 octets, frame_at_least: 64 octets,
      overhead: 28 octets, start_frame: 64 octets, window_opens: 0 octets, window_closes: 0 octets }
    cycle: ${cycle}
    repeats: 1
    non_cyclic: 64 octets
    runs: [[controller, one, 10 m, { delay: 5 ns/m }]]
`;
