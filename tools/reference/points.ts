// The reference page of lists of points: which heads of columns are understood, and which words for kinds.
import { previewOf, printProblem, readPointsTable } from '@layshaft/core';
import { exampleTable } from '../../packages/cli/src/help.ts';
import { meanings } from '../../packages/core/src/points/columns.ts';
import { kindWords } from '../../packages/core/src/points/kind-words.ts';
import { page, table } from './markdown.ts';

export function pointsPage(): string {
  const read = readPointsTable('points.csv', exampleTable);
  const shown = previewOf(read);
  const cells = shown.rows.map((row) => row.map(String));
  return page(
    'Lists of points',
    'Points may stand in a CSV file that the machine file names, `points_from: [points.csv]`, or be written into it by `layshaft points points.csv --write machine.yaml`; `layshaft points points.csv` shows how a list is read. Commas, semicolons or tabs part its cells; what stands above the heads of the columns is left out. Between semicolons a comma is a decimal sign. A cell with nothing, a dash or n/a says nothing, a ? is unknown. Everything that is left out or changed is told.',
    `\`\`\`text\n${exampleTable}\`\`\``,
    'is read so:',
    table(shown.columns, cells),
    `\`\`\`text\n${read.remarks.map(printProblem).join('\n\n')}\n\`\`\``,
    '## Columns',
    'In any order. Capital letters, blanks and signs make no difference. A unit may stand in the head, in brackets or behind a comma, a stroke or the word in, or in each cell. Of two columns that say the same, the one whose word stands first here is read; a second column of names is the title where there is no other.',
    table(
      ['key', 'heads'],
      meanings.map(({ key, words }) => [
        `\`${key}\``,
        [...new Set<string>([...words, key.replaceAll('_', ' ')])].join(', '),
      ]),
    ),
    'A column under `type` with nothing but 1, 2 and 3 is the type of an input by IEC 61131-2. `range` is one column such as 4-20 mA or ±10 V, or two. `place` and `channel` together are a channel; a channel such as main.3.7 needs no place.',
    '## Kinds',
    'A kind may be followed by what it says beside: TC type K, Pt100, AI 4-20 mA.',
    table(
      ['kind', 'words'],
      Object.entries(kindWords).map(([kind, words]) => [
        `\`${kind}\``,
        [kind.replaceAll('_', ' '), ...words].join(', '),
      ]),
    ),
  );
}
