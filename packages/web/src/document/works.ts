// Long work that the sheet has asked for: its parts come from the worker, run on threads, and go back to be made a table of;
// racks are chosen by a solver of the page. It is of the text that it was started with: an edit stops it.
import { type Choosing, choosingSays, doneOf, grouped } from '@layshaft/core';
import type { Requests, TableAt, WorkAt } from '../computing/protocol.ts';
import { runParts, solve } from '../computing/threads.ts';
import type { Sheet } from './sheet.ts';
import type { SheetState, WorkState } from './state.ts';

/** What is told of work while it runs; the share in per cent, where it is known. */
type Tell = (says: string, share?: number) => void;

interface Outcome {
  readonly state: WorkState;
  readonly table?: TableAt | undefined;
  /** Another text would come to something else. */
  readonly isOfText: boolean;
}

interface Running {
  readonly stop: AbortController;
  /** Ends the work with what there is by then, where it has something to show before its end. */
  readonly enough: AbortController | undefined;
}

interface Ends {
  readonly signal: AbortSignal;
  readonly enough: AbortSignal;
}

const refused = (says: string): Outcome => ({ state: { kind: 'refused', says }, isOfText: false });

export class Works {
  readonly #sheet: Pick<Sheet, 'ask'>;
  readonly #set: (change: (state: SheetState) => Partial<SheetState>) => void;
  readonly #run: typeof runParts;
  readonly #solve: typeof solve;
  readonly #running = new Map<string, Running>();
  readonly #done = new Set<string>();

  constructor(
    sheet: Pick<Sheet, 'ask'>,
    set: (change: (state: SheetState) => Partial<SheetState>) => void,
    hosts: { readonly run?: typeof runParts; readonly solve?: typeof solve } = {},
  ) {
    this.#sheet = sheet;
    this.#set = set;
    this.#run = hosts.run ?? runParts;
    this.#solve = hosts.solve ?? solve;
  }

  #tell(key: string, work: WorkState, table?: TableAt): void {
    this.#set(({ works, tables }) => ({
      works: { ...works, [key]: work },
      ...(table && { tables: { ...tables, [key]: table } }),
    }));
  }

  /** Runs so much of it, as typed. */
  start(address: string, work: Pick<WorkAt, 'name' | 'counts'>, count: string, seed: string): Promise<void> {
    const { name, counts } = work;
    return this.#runs(`${address} ${name}`, async ({ signal }, tell) => {
      const job = await this.#sheet.ask('work', { address, name, count, seed });
      if (job === undefined) throw new Error(`${name} cannot be done here`);
      if ('refused' in job) return refused(job.refused);
      const results = await this.#run(job, {
        signal,
        onProgress: (done, all) =>
          tell(doneOf({ counts, count: job.count }, done / all), Math.floor((100 * done) / all)),
      });
      const table = await this.#sheet.ask('merge', { id: job.id, results });
      if (table === undefined) throw new Error('its parts could not be put together');
      if ('refused' in table) return refused(table.refused);
      return { state: { kind: 'done', says: `${grouped(job.count)} ${counts} are done.` }, table, isOfText: true };
    });
  }

  /**
   * Chooses racks, or asks what one more point would take, with at most so much time for each model. One ends the other, and a
   * new choice what was asked beside it. Racks that are stopped by hand are the best so far.
   */
  choose(
    address: string,
    { name, oneMore }: Choosing,
    asked: Requests['choose']['ask'],
    most_s?: number | undefined,
  ): Promise<void> {
    const beside = `${address} ${asked.what === 'racks' ? oneMore.name : name}`;
    this.#stop(beside, 'another one was started');
    if (asked.what === 'racks') this.#drop(beside);
    const of = `${address} ${asked.what === 'racks' ? name : oneMore.name}`;
    const work = async ({ signal, enough }: Ends, tell: Tell): Promise<Outcome> => {
      let at = await this.#sheet.ask('choose', asked);
      while (at?.kind === 'model') {
        signal.throwIfAborted();
        const { id, model, task, prefer } = at;
        tell(choosingSays(task, prefer));
        const solution = await this.#solve(model, {
          signal,
          enough,
          most_s,
          onProgress: (best, bound) => tell(choosingSays(task, prefer, best, bound)),
        });
        at = await this.#sheet.ask('solved', { id, solution });
      }
      if (at === undefined) throw new Error('racks cannot be chosen here');
      const { became, says, table } = at;
      return { state: { kind: became, says }, table, isOfText: true };
    };
    return this.#runs(of, work, { keepsBest: asked.what === 'racks' });
  }

  /** One of the same name that runs already is stopped. */
  async #runs(
    key: string,
    work: (ends: Ends, tell: Tell) => Promise<Outcome>,
    { keepsBest = false } = {},
  ): Promise<void> {
    this.#stop(key, 'another one was started');
    const [stop, enough] = [new AbortController(), new AbortController()];
    const { signal } = stop;
    this.#running.set(key, { stop, enough: keepsBest ? enough : undefined });
    let told = 'begins';
    let seen: string | number | undefined = 0;
    this.#tell(key, { kind: 'runs', share: undefined, says: told });
    const ended = ({ state, table, isOfText }: Outcome): void => {
      if (this.#running.get(key)?.stop !== stop) return;
      this.#running.delete(key);
      if (isOfText) this.#done.add(key);
      this.#tell(key, state, table);
    };
    const tell: Tell = (says, share) => {
      told = says;
      if (seen === (share ?? says) || signal.aborted) return;
      seen = share ?? says;
      this.#tell(key, { kind: 'runs', share, says });
    };
    try {
      const outcome = await work({ signal, enough: enough.signal }, tell);
      signal.throwIfAborted();
      ended(outcome);
    } catch (error) {
      const state: WorkState = signal.aborted
        ? { kind: 'stopped', says: `Stopped (${signal.reason}): ${told}.` }
        : { kind: 'failed', says: `It failed: ${error instanceof Error ? error.message : String(error)}` };
      ended({ state, isOfText: false });
    }
  }

  stop(address: string, name: string): void {
    const key = `${address} ${name}`;
    const enough = this.#running.get(key)?.enough;
    if (enough === undefined) this.#stop(key, 'as you said');
    else enough.abort();
  }

  #stop(key: string, why: string): void {
    this.#running.get(key)?.stop.abort(why);
  }

  /** Nothing is to be seen of it any more. */
  #drop(key: string): void {
    this.#running.delete(key);
    this.#done.delete(key);
    this.#set((state) => {
      const { [key]: _, ...works } = state.works;
      const { [key]: __, ...tables } = state.tables;
      return { works, tables };
    });
  }

  /** Another file is opened: nothing is known of these any more. */
  forget(): void {
    for (const { stop } of this.#running.values()) stop.abort();
    this.#running.clear();
    this.#done.clear();
  }

  /** What runs is stopped, what is done is of the text before. */
  textChanged(): void {
    for (const key of this.#running.keys()) this.#stop(key, 'the file has changed');
    for (const key of this.#done)
      this.#tell(key, { kind: 'stopped', says: 'The file has changed since: this was of the text before.' });
    this.#done.clear();
  }
}
