// Pieces of Markdown that the reference pages share.

/** A table; a bar in a cell is kept from ending it. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** A page that says at its top that it is made, and by what. */
export const page = (title: string, opening: string, ...parts: readonly string[]): string =>
  `${[`# ${title}`, opening, ...parts].join('\n\n')}\n\nThis page is made from the code by \`npm run accept\`.\n`;
