// The working behind a number: one section for each step, the asked-for number first, then what it was computed from.
import type { Working } from '@layshaft/core';
import { atBothEnds, inColumns, indent, paragraphs } from './layout.ts';
import { printOrigin } from './print-origin.ts';
import type { Style } from './style.ts';

type Step = NonNullable<Working['step']>;
type Input = Step['inputs'][number];

/** A longer list is shown by its first two and its last value, as in the line of values, and by the one that is followed. */
const longestList = 4;

/**
 * Each number once, level by level, so that what is nearest to the question comes first. The values of a list mostly
 * come about alike: of a short list and of a long one, only the one that decides is followed, unless lists are shown whole.
 */
export function printWorking(working: Working, style: Style): readonly string[] {
  if (working.step === undefined) return printGiven(working, style);
  const queue = [working];
  const places = new Map([[working.address, 0]]);
  const sections: (readonly string[])[] = [];
  for (const [place, each] of queue.entries()) {
    for (const input of each.step!.inputs.flatMap((of) => followed(of, each, style))) {
      if (input.step === undefined || places.has(input.address)) continue;
      places.set(input.address, queue.length);
      queue.push(input);
    }
    const whither = ({ address }: Working): string => {
      const other = places.get(address);
      return other === undefined ? '' : other > place ? ', below' : ', above';
    };
    sections.push(printStep(each, each.step!, whither, style));
  }
  return paragraphs(sections);
}

function printGiven({ address, text, origin }: Working, { look, design }: Style): readonly string[] {
  const from = origin === undefined ? [] : indent(printOrigin(origin, design), 2, look.columns);
  return [`${address} = ${text}`, ...from];
}

type Whither = (value: Working) => string;

function printStep(working: Working, step: Step, whither: Whither, style: Style): readonly string[] {
  const { columns, quiet, strong } = style.look;
  const condition = step.when === undefined ? '' : `, since ${step.when}`;
  return [
    ...atBothEnds(step.title, working.address, columns, { left: strong, right: quiet }),
    ...[`${step.text}${condition}`, step.substituted, working.text]
      .filter((line) => line !== '')
      .flatMap((line) => equation(line, columns)),
    ...inColumns(
      step.inputs.flatMap((input) => rowsOf(input, working, whither, style)),
      4,
      columns,
    ),
    ...indent(`Formula: ${step.source}. Proven by: ${step.proof}.`, 4, columns),
  ];
}

/** What does not fit on one line goes on below, behind the sign of equality. */
const equation = (text: string, columns: number): readonly string[] =>
  indent(text, 4, columns).map((line, at) => (at === 0 ? line.replace('    ', '  = ') : line));

/** Symbol, value, meaning, and below the meaning where the value comes from; for a list a line for each value. */
function rowsOf(input: Input, of: Working, whither: Whither, style: Style): string[][] {
  const { symbol, means, values } = input;
  const from = (value: Working): string =>
    value.origin === undefined
      ? `${value.address}${whither(value)}`
      : `${value.address}, ${printOrigin(value.origin, style.design)}`;
  const [first] = values;
  if (first === undefined) return [[symbol, 'none', means]];
  if (values.length === 1) {
    return [
      [symbol, first.text, means],
      ['', '', from(first)],
    ];
  }
  const shown = shownOf(input, of, style);
  const [only, other] = followed(input, of, style);
  const mark = (value: Working): string =>
    value === only && other === undefined && value.step !== undefined ? `, ${rankOf(value, values)}` : '';
  const rows = shown.map((value) => ['', value.text, from(value) + mark(value)]);
  if (shown.length < values.length)
    rows.splice(-1, 0, ['', '…', `${values.length - shown.length} more, shown with --all`]);
  return [[symbol, '', `${means}, ${values.length} in all`], ...rows];
}

const followed = (input: Input, of: Working, { lists }: Style): readonly Working[] =>
  lists === 'whole' || input.values.length === 0 ? input.values : [decidingOf(input, of)];

const shownOf = (input: Input, of: Working, { lists }: Style): readonly Working[] => {
  const { values } = input;
  if (lists === 'whole' || values.length <= longestList) return values;
  const chosen = new Set([values[0], values[1], values.at(-1), decidingOf(input, of)]);
  const shown = values.filter((value) => chosen.has(value));
  // That one value is left out would take a line as well.
  return shown.length === values.length - 1 ? values : shown;
};

/** The value that the step takes, else the smallest where it asks for that, else the largest. */
const decidingOf = ({ symbol, values }: Input, { value, step }: Working): Working =>
  values.find((each) => each.value === value) ??
  (step?.text.includes(`min(${symbol})`) === true ? smallestOf(values) : largestOf(values));

const rankOf = (value: Working, values: readonly Working[]): string =>
  value.value === largestOf(values).value
    ? 'the largest'
    : value.value === smallestOf(values).value
      ? 'the smallest'
      : 'the one taken';

const largestOf = (values: readonly Working[]): Working =>
  values.reduce((largest, each) => (each.value > largest.value ? each : largest));

const smallestOf = (values: readonly Working[]): Working =>
  values.reduce((smallest, each) => (each.value < smallest.value ? each : smallest));
