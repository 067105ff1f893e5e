// What is told of a list of points: what is wrong with it, what was left out, what was changed.
import type { Problem } from '../problems/problem.ts';
import { plural } from '../problems/wording.ts';
import type { CsvCell } from '../reading/csv.ts';
import type { Wording } from '../reading/reading.ts';
import type { SourceText } from '../reading/source-text.ts';
import type { Span } from '../reading/tree.ts';
import { unitsOf } from './columns.ts';
import { shortened } from './shortened.ts';
import type { PointColumn } from './table.ts';

export type Teller = ReturnType<typeof tellerOf>;

/** Collects problems and remarks; of what comes a thousand times the first is told, and how often it comes. */
export function tellerOf(source: SourceText) {
  const problems: Problem[] = [];
  const found: Problem[] = [];
  const often = new Map<string, { count: number; readonly say: (count: number) => Problem }>();
  const place = ({ from, to }: Span) => source.place(from, to);
  const remark = (at: Span, message: string, remedy: string): Problem => ({
    code: 'table-told',
    message,
    remedy,
    place: place(at),
    notes: [],
  });
  const count = (what: string, say: (count: number) => Problem): void => {
    const known = often.get(what);
    if (known === undefined) often.set(what, { count: 1, say });
    else known.count++;
  };
  return {
    problems: problems as readonly Problem[],
    get remarks(): readonly Problem[] {
      return [...found, ...[...often.values()].map(({ count: times, say }) => say(times))];
    },
    problem: ({ code, message, remedy, notes = [] }: Wording, at: CsvCell): void => {
      problems.push({ code, message, remedy, notes, place: place(at) });
    },
    place,
    quote: (what: 'quote-open' | 'behind-quote', at: Span): void => {
      problems.push({
        code: 'table-form',
        message:
          what === 'quote-open' ? 'this quote is not closed' : 'this stands behind a closing quote and is not read',
        remedy: 'Close quotes before the next separator, and write a quote inside quotes twice.',
        place: place(at),
        notes: [],
      });
    },
    above: (record: readonly CsvCell[]): void => {
      const [first] = record.filter(({ text }) => text !== '');
      if (first === undefined) return;
      found.push(
        remark(
          first,
          `'${shortened(first.text)}' stands above the heads of the columns and is left out`,
          'Nothing need be done.',
        ),
      );
    },
    leftOut: ({ head, number, why, filled }: PointColumn): void => {
      const what = head.text === '' ? `column ${number}, which has no head,` : `the column '${shortened(head.text)}'`;
      found.push(
        remark(
          head,
          `${what} is left out, with ${plural(filled, 'filled cell')}: ${why}`,
          'Name it by one of our words if it shall be read, such as kind, at, wire or title.',
        ),
      );
    },
    noUnit: ({ head, key }: PointColumn): void => {
      problems.push({
        code: 'unit-missing',
        message: `the numbers under '${shortened(head.text)}' have no unit`,
        remedy: `Write the unit into the head, such as ${shortened(head.text)} [${unitExample[unitsOf(key!)[0]!] ?? 'A'}]; its values are unknown until then.`,
        place: place(head),
        notes: [],
      });
    },
    renamed: (head: string, cell: CsvCell, name: string): void => {
      count(`renamed ${head}`, (times) =>
        remark(
          cell,
          `${plural(times, 'name')} under '${shortened(head)}' ${times === 1 ? 'is' : 'are'} written in our form: '${shortened(cell.text)}' is ${name}`,
          'Nothing need be done; the machine file names them in our form.',
        ),
      );
    },
    decimal: (cell: CsvCell, value: string): void => {
      count('decimal', (times) =>
        remark(
          cell,
          `the comma in ${plural(times, 'cell')} is read as a decimal sign: '${cell.text}' is ${value}`,
          'Nothing need be done; semicolons part the cells of this table.',
        ),
      );
    },
  };
}

const unitExample: Readonly<Record<string, string>> = { A: 'A', Hz: 'kHz', s: 'ms', m: 'm' };
