// What `show` tells of a mark: how exact it is and what to improve first, how it is captured, corrected, and lost.
import type { Cell, LaterTable, LongWork, Table, View } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import type { BudgetOf, Capability, Known } from './budget-of.ts';
import { repeatsBetween } from './calc/caught.ts';
import type { TrialResult } from './calc/monte-carlo.ts';
import type { Captured } from './captured.ts';
import { caution } from './checks/run-on.ts';
import type { MarkDemand } from './demand.ts';
import { histogram } from './histogram-picture.ts';
import { inputsOfMark } from './inputs.ts';
import type { LoopOf } from './loop-of.ts';
import { runOnPicture } from './run-on-picture.ts';
import { seenTable } from './seen-table.ts';
import { settlingPicture } from './settling-picture.ts';
import { speedCurve, speedTable } from './speed-curve.ts';
import { timesTable } from './times-table.ts';
import { shapeWords, titleOf } from './titles.ts';
import { trainTable } from './train-part.ts';
import { type TrialsAsked, trialsJob, trialsOf } from './trials.ts';
import { byShare, varianceBars } from './variance-bars.ts';

export function markView(demand: MarkDemand): View {
  const { mark, captured, loop, speed } = demand;
  const told = speed instanceof Missing ? [] : [speedCurve(demand)];
  return {
    address: mark.path,
    title: `Mark ${mark.name}`,
    says: result(demand),
    inputs: inputsOfMark(demand),
    pictures: [
      varianceBars(demand),
      histogram(demand),
      ...told,
      ...(loop?.settling === undefined ? [] : [settlingPicture(demand, loop)]),
      ...(captured.lost === undefined ? [] : [runOnPicture(mark, captured.lost)]),
    ],
    tables: [
      budgetTable(demand),
      resultTable(demand),
      ...timesTable(mark),
      ...seenTable(demand),
      ...trainTable(mark),
      ...captureTable(captured),
      ...(loop === undefined ? [] : [loopTable(loop)]),
      ...lostTable(captured),
    ],
    later: laterOf(demand),
    works: worksOf(demand),
  };
}

/** The result of all marks in a few words. */
export function marksGist(demands: readonly MarkDemand[]): readonly Cell[] {
  const told = demands.flatMap(({ capability }) => (capability instanceof Missing ? [] : [capability]));
  const known = told.flatMap((each) => (each === 'untold' ? [] : [each.cpk]));
  const least = known.reduce((low, each) => (low === undefined || each.value < low.value ? each : low), known[0]);
  const open = demands.length - told.length;
  if (least === undefined)
    return [told.length === 0 ? 'how exact they are is not known yet' : 'how exact they are is told by their trials'];
  const untold = told.length - known.length;
  return [
    ...(open === 0 ? [] : [`${open} of ${demands.length} not known yet; `]),
    ...(untold === 0 ? [] : [`${untold} of ${demands.length} told by trials alone; `]),
    'Cpk ',
    least,
    ...(known.length > 1 ? [' at the least'] : []),
  ];
}

function result({ mark, known, capability }: BudgetOf): readonly Cell[] {
  if (known instanceof Missing) return ['How exact it is is not known yet.'];
  const largest = byShare(known.parts)[0]!;
  const of = mark.said.length === undefined ? 'The mark' : 'The length';
  const most: readonly Cell[] =
    known.parts.length < 2 ? ['.'] : [`; ${titleOf(largest)} alone makes `, largest.share, ' of the variance.'];
  if (capability instanceof Missing || mark.said.tolerance instanceof Missing)
    return [`${of} scatters by `, known.u, ' (one standard deviation)', ...most];
  if (capability === 'untold')
    return [`${of} needs `, known.needed, ' at its worst of ±', mark.said.tolerance, ...most];
  const [keeps, and] =
    known.needed.value <= mark.said.tolerance.value ? ['keeps', ' with a Cpk of '] : ['does not keep', ': its Cpk is '];
  return [`${of} ${keeps} to ±`, mark.said.tolerance, and, capability.cpk, ...most];
}

function budgetTable({ known, mark }: BudgetOf): Table {
  const parts = known instanceof Missing ? [] : byShare(known.parts);
  const few = parts.some(({ degrees }) => degrees !== undefined);
  return {
    name: 'budget',
    title: 'The budget, largest share first',
    note: 'what each contribution gives the result at the highest speed of the web; limits of normal ones are three standard deviations',
    columns: [
      'contribution',
      'distribution',
      'standard deviation',
      'limit',
      'share of the variance',
      ...(few ? ['degrees of freedom'] : []),
    ],
    rows:
      known instanceof Missing
        ? [[mark.name, '', known, '', '']]
        : parts.map((part) => [
            titleOf(part),
            shapeWords[part.shape],
            part.size,
            part.limit,
            part.share,
            ...(few ? [part.degrees ?? 'infinite'] : []),
          ]),
  };
}

/** What rests on a normal distribution where there is none. */
const untold = 'not told: the first order is meaningless, the trials tell the interval';

function resultTable({ mark, known, capability }: BudgetOf): Table {
  const rows: (readonly Cell[])[] = [];
  const { web } = mark.said;
  if (known instanceof Missing) rows.push(['combined', known]);
  else {
    rows.push(
      ...known.offsets.map(({ name, b }): readonly Cell[] => [`off on average by ${name.replaceAll('_', ' ')}`, b]),
      ['off on average, together', known.offset],
      ['combined standard uncertainty', known.u],
      ['effective degrees of freedom', known.degrees],
      ['share that is to be covered', known.coverage],
      ['coverage factor', known.factor ?? 'not known'],
      [
        'expanded uncertainty',
        known.expanded ?? (known.orders?.meaningless === true ? untold : 'not known, as its factor'),
      ],
      ['everything at its worst', known.worst],
      [`needed to either side${known.orders?.meaningless === true ? ', at its worst' : ''}`, known.needed],
    );
    if (known.orders !== undefined)
      rows.push(
        ['combined, by terms of first order', known.orders.first],
        ['combined, with terms of second order', known.orders.second],
        [
          `share that only the second order tells${known.orders.meaningless ? ': the first order is meaningless' : ''}`,
          known.orders.share,
        ],
      );
  }
  if (capability instanceof Missing) rows.push(['Cpk', capability]);
  else if (capability === 'untold') rows.push(['Cpk, and pieces that prove one', untold]);
  else
    rows.push(
      ['Cp', capability.cp],
      ['Cpk', capability.cpk],
      ['share outside, as it were normal', capability.outside],
      ['Cpk that is to be proven', capability.provenCpk],
      ['with a confidence of', capability.confidence],
      ['pieces that prove it', capability.pieces ?? 'no number of pieces: the Cpk is not above it'],
      ...measuredRows(capability),
    );
  if (web !== undefined)
    rows.push([
      'repeats between the eye and the tool',
      given({ L: web.between, s: mark.spacing }, (all) => repeatsBetween(all, mark.name)),
    ]);
  return { name: 'result', title: 'The result', columns: ['what', 'value'], rows };
}

/** What the pieces that are measured prove, if they show the Cpk of the budget. */
function measuredRows({ measured }: Capability): readonly (readonly Cell[])[] {
  if (measured === undefined) return [];
  return [
    ['pieces that are measured', measured.n],
    ['Cpk that they prove', measured.cpk],
    ['confidence with which they prove what is to be proven', measured.sure],
  ];
}

function captureTable({ mark, wanders, caught, window }: Captured): readonly Table[] {
  if (caught === undefined && window === undefined) return [];
  const rows: (readonly Cell[])[] = [['a mark may be from its place by', wanders]];
  if (caught !== undefined)
    rows.push(
      ['armed again after', caught.rearm],
      ['closest edges that are both seen', caught.closest],
      ['closest edges there are', caught.spacing],
      ['highest speed at which all are seen', caught.highestSpeed],
    );
  if (window !== undefined)
    rows.push(
      ['window', window.width],
      ['narrowest that loses no mark', window.needed],
      ...(window.allowed === undefined ? [] : [['widest that sees no other print', window.allowed] as const]),
    );
  return [{ name: 'capture', title: `How ${mark.name} is caught`, columns: ['what', 'value'], rows }];
}

function loopTable({ gain, deadTime, filter, limit, noise, settling }: LoopOf): Table {
  return {
    name: 'control',
    title: 'Register control',
    columns: ['what', 'value'],
    rows: [
      ['share that is corrected in each repeat', gain],
      ['dead time in repeats', deadTime],
      ['repeats over which the mean is taken', filter],
      ['share from which on it swings without end', limit],
      ['variance it adds, for each of what scatters', noise],
      ...(settling === undefined
        ? []
        : [
            ['error of a splice', settling.splice],
            ['share of it that the tolerance leaves', settling.left],
            ['repeats until it is within', settling.repeats],
            ['web until then', settling.web],
          ]),
    ],
  };
}

function lostTable({ lost }: Captured): readonly Table[] {
  if (lost === undefined) return [];
  return [
    {
      name: 'lost',
      title: 'When marks are lost',
      note: `Caution: ${caution}`,
      columns: ['what', 'value'],
      rows: [
        ['noticed after, from the place of the first that is lost', lost.noticed],
        ['web until then', lost.noticedWeb],
        ['web from there until it stands', lost.stopWeb],
        ['web from the last good mark until it stands', lost.runOn],
      ],
    },
  ];
}

function laterOf(demand: BudgetOf): readonly LaterTable[] {
  const { mark, known, speed } = demand;
  return [
    ...(known instanceof Missing ? [] : [{ ...trialsHead, make: () => trialsTable(demand) }]),
    ...(speed instanceof Missing
      ? []
      : [{ name: 'speeds', title: `${mark.name} over the speed of the web`, make: () => speedTable(demand) }]),
  ];
}

const trialsHead = { name: 'trials', title: 'Trials beside the budget' };

/** 10 000 trials are the fewest of which an end of an interval can be told; a thousand millions take minutes. Our judgement. */
const amounts = { least: 10_000, usual: 10_000_000, most: 1_000_000_000 };

function worksOf(demand: BudgetOf): readonly LongWork[] {
  const { mark, known } = demand;
  if (known instanceof Missing) return [];
  return [
    {
      name: trialsHead.name,
      title: 'Many more trials',
      counts: 'trials',
      ...amounts,
      job: (asked) => {
        const job = trialsJob(known, mark.name, asked);
        if (job instanceof Missing) return job;
        return {
          ...job,
          merge: (results) => trialsTable(demand, { asked, results: results as readonly TrialResult[] }),
        };
      },
    },
  ];
}

const hasNone = "none: Student's t of so few degrees of freedom has no finite one";

/** Of what is drawn as Student's t; with 2 it has no finite deviation, with 1 no mean (JCGM 101:2008, 6.4.9.4). */
const fewestDegrees = ({ parts }: Known): number =>
  parts.reduce((least, { degrees, shape, sample }) => {
    const isStudent = shape === 'normal' || sample?.of === 'mean';
    return isStudent && degrees !== undefined ? Math.min(least, degrees.value) : least;
  }, Infinity);

function trialsTable({ mark, known }: BudgetOf, more?: TrialsAsked): Table {
  const columns = ['what', 'value', 'known to'];
  const tolerance = mark.said.tolerance instanceof Missing ? undefined : mark.said.tolerance;
  const trials = known instanceof Missing ? known : trialsOf(known, mark.name, { more, tolerance });
  if (trials instanceof Missing) return { ...trialsHead, columns, rows: [['trials', trials, '']] };
  const { count, seed, mean, deviation, shortest, symmetric, outside } = trials;
  const few = known instanceof Missing ? Infinity : fewestDegrees(known);
  const end = (title: string, told: { value: Cell; error: Cell }): readonly Cell[] => [title, told.value, told.error];
  return {
    ...trialsHead,
    note: 'known to: one standard uncertainty of the number itself, from what it scatters by among the parts of the trials, fifty at least; of the share outside, from how many are',
    columns,
    rows: [
      ['trials', count, ''],
      ['seed', seed, ''],
      few <= 1 ? ['mean', hasNone, ''] : end('mean', mean),
      few <= 2 ? ['standard deviation', hasNone, ''] : end('standard deviation', deviation),
      ...(shortest === undefined ? [] : [end('shortest interval from', shortest.least), end('to', shortest.most)]),
      ...(symmetric === undefined ? [] : [end('symmetric interval from', symmetric.least), end('to', symmetric.most)]),
      ...(outside === undefined ? [] : [end('share outside the tolerance', outside)]),
    ],
  };
}
