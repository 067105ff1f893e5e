// One drag of an input: many moves, of which the last one waits while one is under way; all are one step of undo.

import type { At, By } from '../computing/protocol.ts';

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

  /** Whether a move is under way. */
  get busy(): boolean {
    return this.#busy;
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
