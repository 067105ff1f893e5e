// Lines of text: wrapped to a width, moved in, in columns, in paragraphs.

/** Breaks between words, but not between a number and its unit; a word longer than a line stands alone. */
export function wrap(text: string, columns: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(betweenWords)) {
    if (line !== '' && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

const betweenWords = /(?<!(?:^|[ (])-?\d[\d.e-]*) +/;

/** The same, with every line moved in. */
export const indent = (text: string, by: number, columns: number): readonly string[] =>
  wrap(text, columns - by).map((line) => ' '.repeat(by) + line);

/** Rows with one cell for each column; columns are as wide as their widest cell, two spaces apart. */
export function inColumns(rows: readonly (readonly string[])[], by: number, columns: number): readonly string[] {
  const count = Math.max(0, ...rows.map((row) => row.length - 1));
  const widths = Array.from({ length: count }, (_, at) => Math.max(...rows.map((row) => row[at]?.length ?? 0)));
  const lead = widths.reduce((sum, width) => sum + width + 2, by);
  return rows.flatMap((row) => {
    const head = ' '.repeat(by) + widths.map((width, at) => `${(row[at] ?? '').padEnd(width)}  `).join('');
    const lines = wrap(row[count] ?? '', Math.max(columns - lead, 20));
    return lines.map((line, at) => ((at === 0 ? head : ' '.repeat(lead)) + line).trimEnd());
  });
}

/** One text at each end of a line, painted; the right one goes to a line of its own where both do not fit. */
export function atBothEnds(
  left: string,
  right: string,
  columns: number,
  paint: { readonly left: (text: string) => string; readonly right: (text: string) => string },
): readonly string[] {
  const gap = columns - left.length - right.length;
  if (gap >= 2) return [paint.left(left) + ' '.repeat(gap) + paint.right(right)];
  return [paint.left(left), ' '.repeat(Math.max(columns - right.length, 0)) + paint.right(right)];
}

/** What has lines, with an empty line between. */
export const paragraphs = (blocks: readonly (readonly string[])[]): readonly string[] =>
  blocks.filter((block) => block.length > 0).flatMap((block, at) => (at === 0 ? block : ['', ...block]));
