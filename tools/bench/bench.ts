// `npm run bench`: how long reading and assessing take, each figure beside a baseline of the same run and its aim.
// `npm run bench -- --write 2026-11-25` keeps the table in docs/measured.md under that date. Nothing fails by being slow.
import { existsSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { table } from '../reference/markdown.ts';
import { type Figure, figures } from './figures.ts';
import { three } from './measure.ts';

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

const [option, date] = process.argv.slice(2);
if (option === '--write') {
  if (!/^\d{4}-\d\d-\d\d$/.test(date ?? '')) throw new Error('Say of which day: npm run bench -- --write 2026-11-25');
  writeFileSync('docs/measured.md', measuredPage(date ?? ''));
}

function rowOf({ what, measured, baseline, ratio, aim }: Figure): readonly string[] {
  return [
    what,
    measured,
    `${three(ratio)} × ${baseline}`,
    aim?.text ?? '',
    aim === undefined ? '' : aim.kept ? 'kept' : 'missed',
  ];
}

function measuredPage(date: string): string {
  return [
    '# Measured',
    `By \`npm run bench\` on ${date}: Node ${process.versions.node}, ${cpus().length} cores, ${process.platform}. Each time is a median, timed in turn with its baseline; compare ratios between machines, not times.`,
    table(['what', 'time', 'against', 'aim', ''], measured.map(rowOf)),
    '',
  ].join('\n\n');
}
