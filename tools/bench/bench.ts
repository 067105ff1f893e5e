// `npm run bench`: how long reading and assessing take, each figure beside a baseline of the same run and its aim.
// `npm run bench -- --write 2026-11-25` keeps the table in docs/measured.md under that date. Nothing fails by being slow.
import { existsSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { table } from '../reference/markdown.ts';
import { type Dragged, dragLatencies } from './drag.ts';
import { type Figure, figures } from './figures.ts';
import { three } from './measure.ts';
import { rackFigure } from './rack-figures.ts';
import { threadFigures } from './thread-figures.ts';

/** Moves of the pointer in one drag. */
const moves = 200;
const date = dayToWrite(process.argv.slice(2));
const command = 'packages/cli/dist/layshaft.js';
const built = existsSync(command);
if (!built) console.log(`${command} is not there, so the command is not timed: run npm run build first.`);

const measured: Figure[] = [];
for (const figure of figures(built ? command : undefined)) {
  console.log(rowOf(figure).join('  '));
  measured.push(figure);
}
if (built)
  for await (const figure of threadFigures('packages/cli/dist/thread.js')) {
    console.log(rowOf(figure).join('  '));
    measured.push(figure);
  }
if (built) {
  const figure = await rackFigure('packages/cli/dist/solver.js');
  console.log(rowOf(figure).join('  '));
  measured.push(figure);
}
const dragged = built ? await dragLatencies(moves) : undefined;
if (dragged !== undefined) {
  const figure = draggedFigure(dragged);
  console.log(rowOf(figure).join('  '));
  measured.push(figure);
}
const missed = measured.filter(({ aim }) => aim?.kept === false);
console.log(missed.length === 0 ? 'Every aim is kept.' : `Missed: ${missed.map(({ what }) => what).join('; ')}.`);
if (date !== undefined) writeFileSync('docs/measured.md', measuredPage(date, dragged));

function dayToWrite([option, day = '']: readonly string[]): string | undefined {
  if (option === undefined) return undefined;
  if (option === '--write' && /^\d{4}-\d\d-\d\d$/.test(day)) return day;
  throw new Error('Say nothing, or of which day the table is: npm run bench -- --write 2026-11-25');
}

function rowOf({ what, measured, baseline, ratio, aim }: Figure): readonly string[] {
  const kept = aim === undefined ? '' : aim.kept ? 'kept' : 'missed';
  return [what, measured, `${three(ratio)} × ${baseline}`, aim?.text ?? '', kept];
}

function at(sorted_ms: readonly number[], share: number): number {
  return sorted_ms[Math.floor(share * sorted_ms.length)]!;
}

function draggedFigure({ example, latencies_ms, bare_ms }: Dragged): Figure {
  const most_ms = at(latencies_ms, 0.95);
  return {
    what: `a move of an input of ${example} in the browser, until all numbers are painted, 95 in 100 of ${moves}`,
    measured: `${three(most_ms)} ms`,
    baseline: 'painting the place of the pointer alone',
    ratio: most_ms / at(bare_ms, 0.95),
    aim: { text: 'under 50 ms', kept: most_ms < 50 },
  };
}

/** How many moves took so long, in steps of 5 ms. */
function histogram({ example, latencies_ms }: Dragged): string {
  const step_ms = 5;
  const last = Math.floor(latencies_ms.at(-1)! / step_ms);
  const bins = Array.from(
    { length: last + 1 },
    (_, bin) => latencies_ms.filter((each) => Math.floor(each / step_ms) === bin).length,
  );
  const first = bins.findIndex((count) => count > 0);
  const lines = bins
    .map(
      (count, bin) =>
        `${String(bin * step_ms).padStart(4)} to ${String((bin + 1) * step_ms).padStart(3)} ms  ${String(count).padStart(3)}  ${'█'.repeat(Math.ceil(count / 2))}`,
    )
    .slice(first);
  return [
    `## Dragging an input of ${example}`,
    `From the pointer’s event to the painted frame in which input, sentence, pictures and margins show the new value; ${moves} moves in headless Chromium.`,
    ['```', ...lines, '```'].join('\n'),
  ].join('\n\n');
}

function measuredPage(date: string, dragged: Dragged | undefined): string {
  return `${[
    '# Measured',
    `By \`npm run bench\` on ${date}: Node ${process.versions.node}, ${cpus().length} cores, ${process.platform}. Each time is a median, timed in turn with its baseline; compare ratios between machines, not times.`,
    table(['what', 'time', 'against', 'aim', ''], measured.map(rowOf)),
    ...(dragged === undefined ? [] : [histogram(dragged)]),
  ].join('\n\n')}\n`;
}
