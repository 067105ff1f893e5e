// Racks chosen for the text on the desk: the models go to the page, which has the solver, and its solutions come back.
import {
  chooseRacks,
  chosenRacksTable,
  conflictsOf,
  type Design,
  leftOutSays,
  notFoundSays,
  oneMoreOfEach,
  oneMoreTable,
  type Preference,
  placedSays,
  provenSays,
  type RackChoices,
  type Table,
  type TaskOfAll,
  whyNoChoice,
} from '@layshaft/core';
import type { ChoosingAt, Requests } from './protocol.ts';
import { tableAt } from './snapshot.ts';
import { type Stopping, solvedElsewhere } from './solved-elsewhere.ts';

type Result = Extract<ChoosingAt, { kind: 'result' }>;

/** One choosing at a time: a new one takes the place of what is under way. */
export class RackChoosing {
  readonly #made: (table: Table) => void;
  #under: { readonly id: number; readonly prefer: Preference; readonly task: () => TaskOfAll } | undefined;
  #work: Stopping<Result> | undefined;
  #lastId = 0;
  #chosen: { readonly found: RackChoices; readonly prefer: Preference } | undefined;

  /** Tables that are made are handed out as well. */
  constructor(made: (table: Table) => void) {
    this.#made = made;
  }

  /** The text is another one. */
  forget(): void {
    this.#under = undefined;
    this.#work = undefined;
    this.#chosen = undefined;
  }

  async start(design: Design, asked: Requests['choose']['ask']): Promise<ChoosingAt> {
    const chosen = this.#chosen;
    if (asked.what === 'one more' && chosen === undefined)
      return refused('What one more point would take is told beside a choice. Choose racks first.');
    let task: TaskOfAll | undefined;
    const onTask = (next: TaskOfAll): void => {
      task = next;
    };
    const prefer = asked.what === 'racks' ? asked.prefer : chosen!.prefer;
    this.#under = { id: ++this.#lastId, prefer, task: () => task! };
    this.#work = solvedElsewhere(async (solve) => {
      if (asked.what === 'racks')
        return this.#told(design, await chooseRacks(design, solve, { prefer, onTask }), prefer);
      const more = await oneMoreOfEach(design, chosen!.found, solve, { prefer, onTask });
      return this.#done('Each kind was tried with one more point.', oneMoreTable(more, prefer));
    });
    return this.#upTo(this.#work.start());
  }

  async goOn({ id, solution }: Requests['solved']['ask']): Promise<ChoosingAt> {
    if (this.#work === undefined || id !== this.#under?.id)
      return { kind: 'result', became: 'stopped', says: 'The file has changed since: this was of the text before.' };
    return this.#upTo(this.#work.goOn(solution));
  }

  async #upTo(stop: ReturnType<Stopping<Result>['start']>): Promise<ChoosingAt> {
    const { id, prefer, task } = this.#under!;
    const at = await stop;
    return 'model' in at ? { kind: 'model', id, prefer, task: task(), model: at.model } : at.result;
  }

  #told(design: Design, found: RackChoices, prefer: Preference): Result {
    const why = whyNoChoice(design, found);
    if (why !== undefined) return refused(why);
    const table = chosenRacksTable(found.choices, prefer);
    const conflicts = conflictsOf(found.choices);
    const beside = leftOutSays(found.leftOut);
    const notFound = notFoundSays(found.choices);
    if (conflicts.length > 0 || found.planned.length === 0) {
      this.#chosen = undefined;
      const end = conflicts.length > 0 ? ['Nothing can be taken before this is settled.'] : [];
      const says = [...conflicts, ...notFound, ...beside, ...end].join(' ');
      return { kind: 'result', became: 'refused', says, ...(table.rows.length > 0 && { table: this.#show(table) }) };
    }
    this.#chosen = { found, prefer };
    const takesAll = found.planned.map(({ path, value }) => ({ path: `planned.${path}`, value }));
    const says = [placedSays(found.planned), ...provenSays(found.choices, prefer), ...notFound, ...beside];
    return this.#done(says.join(' '), {
      ...table,
      takesAll,
    });
  }

  #done(says: string, table: Table): Result {
    return { kind: 'result', became: 'done', says, table: this.#show(table) };
  }

  #show(table: Table) {
    this.#made(table);
    return tableAt(table);
  }
}

const refused = (says: string): Result => ({ kind: 'result', became: 'refused', says });
