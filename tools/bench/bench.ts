// `npm run bench`: how long reading and assessing take, each figure beside a baseline of the same run and its aim.
// `npm run bench -- --write 2026-11-25` keeps the table in docs/measured.md under that date. Nothing fails by being slow.
import { existsSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { table } from '../reference/markdown.ts';
import { type Figure, figures } from './figures.ts';
import { three } from './measure.ts';

const date = dayToWrite(process.argv.slice(2));
const command = 'packages/cli/dist/layshaft.js';
const built = existsSync(command);
if (!built) console.log(`${command} is not there, so the command is not timed: run npm run build first.`);

const measured: Figure[] = [];
for (const figure of figures(built ? command : undefined)) {
  console.log(rowOf(figure).join('  '));
  measured.push(figure);
}
const missed = measured.filter(({ aim }) => aim?.kept === false);
console.log(missed.length === 0 ? 'Every aim is kept.' : `Missed: ${missed.map(({ what }) => what).join('; ')}.`);
if (date !== undefined) writeFileSync('docs/measured.md', measuredPage(date));

function dayToWrite([option, day = '']: readonly string[]): string | undefined {
  if (option === undefined) return undefined;
  if (option === '--write' && /^\d{4}-\d\d-\d\d$/.test(day)) return day;
  throw new Error('Say nothing, or of which day the table is: npm run bench -- --write 2026-11-25');
}

function rowOf({ what, measured, baseline, ratio, aim }: Figure): readonly string[] {
  const kept = aim === undefined ? '' : aim.kept ? 'kept' : 'missed';
  return [what, measured, `${three(ratio)} × ${baseline}`, aim?.text ?? '', kept];
}

function measuredPage(date: string): string {
  return `${[
    '# Measured',
    `By \`npm run bench\` on ${date}: Node ${process.versions.node}, ${cpus().length} cores, ${process.platform}. Each time is a median, timed in turn with its baseline; compare ratios between machines, not times.`,
    table(['what', 'time', 'against', 'aim', ''], measured.map(rowOf)),
  ].join('\n\n')}\n`;
}
