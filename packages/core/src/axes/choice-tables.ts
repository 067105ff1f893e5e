// A choice of parts as tables: what holds, and why the rest does not.
import { lackSentence } from '../checks/finding.ts';
import type { Cell, Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import type { Choice } from './choose.ts';

export const optionsHead = { name: 'choices', title: 'The cheapest parts that hold every reserve' } as const;
export const losersHead = { name: 'left_out', title: 'Parts that do not, and what the nearest try lacks' } as const;

export function optionsTable(choice: Value<Choice>): Table {
  if (choice instanceof Missing) return notYet(optionsHead, choice);
  const { open, options: shown, combinations } = choice;
  return {
    ...optionsHead,
    note: `of ${combinations} combinations`,
    columns: [...open, 'cost', 'tightest', 'margin'],
    rows: shown.map((option): readonly Cell[] => [
      ...open.map((kind) => option[kind] ?? any),
      printQuantity(option.cost, 'cost'),
      option.tightest,
      printQuantity(option.margin, '1', { as: '%', digits: 3 }),
    ]),
    takes: shown.map(({ planned }) => planned.map(({ path, part }) => ({ path: `planned.${path}`, value: part }))),
  };
}

/** A drive is named where no other part is open: with others it is the cheapest that does. */
export function losersTable(choice: Value<Choice>): Table {
  if (choice instanceof Missing) return notYet(losersHead, choice);
  const { open, losers } = choice;
  const named = open.filter((kind) => kind !== 'drive' || open.length === 1);
  return {
    ...losersHead,
    columns: [...named, 'why'],
    rows: losers.map((loser): readonly Cell[] => [...named.map((kind) => loser[kind] ?? any), loser.why]),
  };
}

const notYet = (head: typeof optionsHead | typeof losersHead, { lacks }: Missing): Table => ({
  ...head,
  note: `nothing can be chosen yet: ${lackSentence(lacks)}`,
  columns: [],
  rows: [],
});

/** Whichever it is. */
const any = 'any';
