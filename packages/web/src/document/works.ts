// Long work that the sheet has asked for: its parts come from the worker, run on threads, and go back to be made a table of.
// It is of the text that it was started with: an edit stops it.
import { doneOf, grouped } from '@layshaft/core';
import type { TableAt, WorkAt } from '../computing/protocol.ts';
import { runParts } from '../computing/threads.ts';
import type { Sheet } from './sheet.ts';
import type { SheetState, WorkState } from './state.ts';

export class Works {
  readonly #sheet: Pick<Sheet, 'ask'>;
  readonly #set: (change: (state: SheetState) => Partial<SheetState>) => void;
  readonly #run: typeof runParts;
  readonly #running = new Map<string, AbortController>();
  readonly #done = new Set<string>();

  constructor(
    sheet: Pick<Sheet, 'ask'>,
    set: (change: (state: SheetState) => Partial<SheetState>) => void,
    run: typeof runParts = runParts,
  ) {
    this.#sheet = sheet;
    this.#set = set;
    this.#run = run;
  }

  #tell(key: string, work: WorkState, table?: TableAt): void {
    this.#set(({ works, tables }) => ({
      works: { ...works, [key]: work },
      ...(table && { tables: { ...tables, [key]: table } }),
    }));
  }

  /** Runs so much of it, as typed; one of the same name that runs already is stopped. */
  async start(address: string, work: Pick<WorkAt, 'name' | 'counts'>, count: string, seed: string): Promise<void> {
    const { name, counts } = work;
    const key = `${address} ${name}`;
    this.#stop(key, 'another one was started');
    const stop = new AbortController();
    this.#running.set(key, stop);
    let told = 'begins';
    let share = 0;
    this.#tell(key, { kind: 'runs', share, says: told });
    const ended = (state: WorkState, table?: TableAt): void => {
      if (this.#running.get(key) !== stop) return;
      this.#running.delete(key);
      if (table !== undefined) this.#done.add(key);
      this.#tell(key, state, table);
    };
    try {
      const job = await this.#sheet.ask('work', { address, name, count, seed });
      if (job === undefined) throw new Error(`${name} cannot be done here`);
      if ('refused' in job) return ended({ kind: 'refused', says: job.refused });
      const results = await this.#run(job, {
        signal: stop.signal,
        onProgress: (done, all) => {
          const percent = Math.floor((100 * done) / all);
          told = doneOf({ counts, count: job.count }, done / all);
          if (percent === share || stop.signal.aborted) return;
          share = percent;
          this.#tell(key, { kind: 'runs', share, says: told });
        },
      });
      const table = await this.#sheet.ask('merge', { id: job.id, results });
      if (table === undefined) throw new Error('its parts could not be put together');
      if ('refused' in table) ended({ kind: 'stopped', says: table.refused });
      else ended({ kind: 'done', says: `${grouped(job.count)} ${counts} are done.` }, table);
    } catch (error) {
      if (stop.signal.aborted) ended({ kind: 'stopped', says: `Stopped (${stop.signal.reason}): ${told}.` });
      else ended({ kind: 'failed', says: `It failed: ${error instanceof Error ? error.message : String(error)}` });
    }
  }

  stop(address: string, name: string): void {
    this.#stop(`${address} ${name}`, 'as you said');
  }

  #stop(key: string, why: string): void {
    this.#running.get(key)?.abort(why);
  }

  /** Another file is opened: nothing is known of these any more. */
  forget(): void {
    for (const stop of this.#running.values()) stop.abort();
    this.#running.clear();
    this.#done.clear();
  }

  /** What runs is stopped, what is done is of the text before. */
  textChanged(): void {
    for (const key of this.#running.keys()) this.#stop(key, 'the file has changed');
    for (const key of this.#done)
      this.#tell(key, {
        kind: 'stopped',
        says: 'The file has changed since: what was run was of the text before.',
      });
    this.#done.clear();
  }
}
