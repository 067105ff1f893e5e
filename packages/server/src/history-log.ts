// The log of the history: a line of JSON for each save, appended and never changed, and which lines outlast the limit.
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import type { HistoryLimits } from './limits.ts';

/** One text that a file has had. */
export interface LogLine {
  readonly path: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  /** The SHA-256 of the text, hexadecimal. */
  readonly version: string;
  readonly bytes: number;
  /** `elsewhere`: found on disk, written by another program. */
  readonly by: 'sheet' | 'elsewhere';
}

/** When something has to go, some more goes, so that not every save has to write the log anew (our judgement). */
const keptShare = 0.9;

export const printLine = (line: LogLine): string => `${JSON.stringify(line)}\n`;

/** The lines of a log; what a killed run left torn is no line. */
export const linesOf = (log: string): LogLine[] => log.split('\n').flatMap(lineOf);

/** Appends a line and brings it to the disk, also behind a torn one. Gives the octets written. */
export async function appendLine(place: string, line: LogLine): Promise<number> {
  // A system without this flag has had the place looked at just before.
  const flags = constants.O_RDWR | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);
  const log = await open(place, flags, 0o666);
  try {
    const { size } = await log.stat();
    const last = Buffer.alloc(1);
    if (size > 0) await log.read(last, 0, 1, size - 1);
    const text = `${size > 0 && last.toString() !== '\n' ? '\n' : ''}${printLine(line)}`;
    await log.appendFile(text);
    await log.sync();
    return Buffer.byteLength(text);
  } finally {
    await log.close();
  }
}

/** What stays: everything within the limit; otherwise the newest lines of each file, and of the others what fits. */
export function linesWithin(all: readonly LogLine[], limits: HistoryLimits): LogLine[] {
  const newestFirst = all.toReversed();
  const everything = new Kept();
  for (const line of newestFirst) everything.add(line);
  if (everything.octets <= limits.octets) return [...all];

  const kept = new Kept();
  const seen = new Map<string, number>();
  const older = newestFirst.filter((line) => {
    const before = seen.get(line.path) ?? 0;
    seen.set(line.path, before + 1);
    if (before < limits.newest) kept.add(line);
    return before >= limits.newest;
  });
  for (const line of older) {
    if (kept.octets + kept.costOf(line) > limits.octets * keptShare) break;
    kept.add(line);
  }
  return all.filter((line) => kept.lines.has(line));
}

/** Lines with the octets that they and their texts need, each text counted once. */
class Kept {
  readonly lines = new Set<LogLine>();
  readonly #versions = new Set<string>();
  octets = 0;

  costOf(line: LogLine): number {
    return Buffer.byteLength(printLine(line)) + (this.#versions.has(line.version) ? 0 : line.bytes);
  }

  add(line: LogLine): void {
    this.octets += this.costOf(line);
    this.#versions.add(line.version);
    this.lines.add(line);
  }
}

function lineOf(text: string): LogLine[] {
  try {
    const line = JSON.parse(text) as Partial<LogLine> | null;
    const isWhole =
      typeof line?.path === 'string' &&
      Number.isFinite(Date.parse(String(line.at))) &&
      /^[0-9a-f]{64}$/.test(String(line.version)) &&
      Number.isSafeInteger(line.bytes) &&
      (line.by === 'sheet' || line.by === 'elsewhere');
    return isWhole ? [line as LogLine] : [];
  } catch (error) {
    if (error instanceof SyntaxError) return [];
    throw error;
  }
}
