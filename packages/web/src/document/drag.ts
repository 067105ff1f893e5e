// One drag of an input: many moves, of which the last one waits while one is under way; all are one step of undo.

/** To a place on the input's span, 0 to 1, or by so many steps. */
export type By = { readonly place: number } | { readonly steps: number };
/** Where an inherited value is written: here alone, or at its source; not said yet. */
export type At = 'here' | 'source' | undefined;

export class Drag {
  readonly path: string;
  readonly group: string;
  at: At;
  readonly #make: (by: By, drag: Drag) => Promise<boolean>;
  #next: By | undefined;
  #busy = false;

  /** `make` makes one move and says whether more may follow. */
  constructor(path: string, group: string, make: (by: By, drag: Drag) => Promise<boolean>) {
    this.path = path;
    this.group = group;
    this.#make = make;
  }

  move(by: By): void {
    const waiting = this.#next;
    this.#next = 'steps' in by && waiting && 'steps' in waiting ? { steps: by.steps + waiting.steps } : by;
    if (!this.#busy) void this.#run();
  }

  async #run(): Promise<void> {
    this.#busy = true;
    while (this.#next !== undefined) {
      const by = this.#next;
      this.#next = undefined;
      if (!(await this.#make(by, this))) break;
    }
    this.#busy = false;
  }
}
