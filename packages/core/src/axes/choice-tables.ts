// A choice of parts as tables: what holds, and why the rest does not.
import type { Cell, Table } from '../checks/view.ts';
import { printQuantity } from '../units/print-quantity.ts';
import type { Choice } from './choose.ts';

export const optionsHead = { name: 'choices', title: 'Parts that hold every reserve, the cheapest first' } as const;
export const losersHead = { name: 'left_out', title: 'Parts that do not, and what the nearest try lacks' } as const;

export function optionsTable({ options, weighed, brakeNeeded, untold }: Choice): Table {
  const shown = options.slice(0, mostOptions);
  return {
    ...optionsHead,
    note: `${weighed} combinations weighed, ${options.length} hold${brakeNeeded ? ', all with a brake, since the load would turn the axis at standstill (whether people may rely on a brake is for the risk assessment and local codes)' : ''}${options.length > mostOptions ? `; the first ${mostOptions}` : ''}${untold.length > 0 ? `; not weighed, because the file does not tell it: ${untold.join(', ')}` : ''}`,
    columns: ['motor', 'gear', 'drive', 'cost', 'tightest', 'margin'],
    rows: shown.map(({ motor, gear, drive, cost, tightest, margin }): readonly Cell[] => [
      motor ?? asItIs,
      gear ?? asItIs,
      drive ?? asItIs,
      printQuantity(cost, 'cost'),
      tightest.replaceAll('_', ' '),
      printQuantity(margin, '1', { as: '%', digits: 3 }),
    ]),
    takes: shown.map(({ planned }) => planned.map(({ path, part }) => ({ path: `planned.${path}`, value: part }))),
  };
}

export function losersTable({ losers }: Choice): Table {
  const drives = losers.some(({ drive }) => drive !== undefined);
  return {
    ...losersHead,
    columns: ['motor', 'gear', ...(drives ? ['drive'] : []), 'why'],
    rows: losers.map(({ motor, gear, drive, why }): readonly Cell[] => [
      motor ?? asItIs,
      gear ?? asItIs,
      ...(drives ? [drive ?? asItIs] : []),
      why,
    ]),
  };
}

const asItIs = 'as it is';

/** More than this nobody compares (our judgement). */
const mostOptions = 12;
